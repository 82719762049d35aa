"""More words than one breath holds, with no place to take another.

What counts is time, so the slow reader's breath ends sooner in the text than the quick one's.
"""

from collections.abc import Iterator, Sequence

from saywright.checks.breath_groups import Group, breath_groups
from saywright.checks.check import Check, Page
from saywright.checks.passage import Line, Passage
from saywright.cuts.breathing import breathe
from saywright.cuts.marking import Around
from saywright.finding import Finding, Fix
from saywright.language.english.phrase_boundaries import Boundary, boundary_before
from saywright.language.english.tag import is_english

# Readers breathe every 3.06 s (standard deviation 0.62), people who talk freely every 3.5 s
# (Rochet-Capellan and Fuchs 2013); a performer holds longer (common practice, no source). Prose
# that nobody wrote to be spoken has in 1,000 words nearly four groups of more than 7.5 s, and two
# of more than 9 s (measured by tests/benchmarks/hints.py).
LONGEST_SECONDS = 9.0
_FEWEST_WORDS = 8
# A breath near the middle serves best; one before a clause may stand so much farther from it.
_CLAUSE_WORTH_SECONDS = 1.5
_SHORTEST_SHARE = 0.2
_NAMED_PLACES = 3


def find(passage: Passage) -> Iterator[Finding]:
    long = [line for line in passage.own if line.sentence.speech_seconds > LONGEST_SECONDS]
    rests = _marked_rests(passage, long[0]) if long else ()
    for line in long:
        for group in breath_groups(line, rests):
            if group.seconds > LONGEST_SECONDS and len(group.words) >= _FEWEST_WORDS:
                yield _finding(passage, line, group)


def _marked_rests(passage: Passage, line: Line) -> Sequence[int]:
    """Where in the paragraph's spoken text a mark gives room to breathe, in order."""
    paragraph = line.paragraph
    marks = [direction.start for direction in paragraph.directions]
    marks += (breath.start for breath in paragraph.breaths)
    breaks = paragraph.breaks if passage.settings.form == "verse" else ()
    return sorted((*map(paragraph.plain_of, marks), *breaks))


def _finding(passage: Passage, line: Line, group: Group) -> Finding:
    start, end = line.where(group.words[0].start, group.words[-1].end)
    message = f"{group.seconds:.1f} seconds in one breath. Mark a place to breathe, or part it."
    fix = _fix(passage, line, group)
    return Finding("breath", start, end, message, (fix,) if fix else ())


def _fix(passage: Passage, line: Line, group: Group) -> Fix | None:
    if not is_english(line.language):
        return None
    breaths = sorted(_breaths(group))
    words = [group.words[index - 1] for index in breaths]
    places = [word.after for word in words if word.after is not None]
    if not places or len(places) < len(words):
        return None
    around = Around(passage.settings.speakers, passage.opens_file)
    fix = breathe(_title([word.text for word in words]), line.paragraph, places, around)
    return fix.shifted(line.at) if fix else None


def _breaths(group: Group) -> Iterator[int]:
    """The words, by index, before which to breathe so that no stretch is too long, as far as
    there are good places."""
    texts = [word.text for word in group.words]
    times = [group.start_seconds, *(word.seconds for word in group.words)]
    stretches = [(0, len(texts))]
    while stretches:
        first, end = stretches.pop()
        if times[end] - times[first] > LONGEST_SECONDS:
            best = _best_place(texts, times, first, end)
            if best is not None:
                yield best
                stretches += ((first, best), (best, end))


def _best_place(texts: Sequence[str], times: Sequence[float], first: int, end: int) -> int | None:
    """The best word of `texts[first:end]` to breathe before; `times[i]` is when word i begins."""
    start, seconds = times[first], times[end] - times[first]
    middle, shortest = start + seconds / 2, seconds * _SHORTEST_SHARE
    best, least = None, float("inf")
    for index in range(first + 1, end):
        if not start + shortest <= times[index] <= times[end] - shortest:
            continue
        boundary = boundary_before(texts, index)
        far = abs(times[index] - middle)
        cost = far if boundary is Boundary.CLAUSE else far + _CLAUSE_WORTH_SECONDS
        if boundary is not Boundary.NONE and cost < least:
            best, least = index, cost
    return best


def _title(words: Sequence[str]) -> str:
    named = [f"“{word}”" for word in words]
    if len(named) > _NAMED_PLACES:
        return f"Breathe after {named[0]} and in {len(named) - 1} more places"
    if len(named) == 1:
        return f"Breathe after {named[0]}"
    return f"Breathe after {', '.join(named[:-1])} and {named[-1]}"


CHECK = Check(
    "breath",
    "hint",
    "more words than one breath holds",
    find_nearby=find,
    looks_around=False,
    page=Page(
        "People breathe every three or four seconds when they speak, and a trained performer goes"
        " twice as far. Where a sentence leaves no room, the breath comes wherever it must, often"
        " in the middle of a thought. What counts is the time at the piece's pace.",
        "I carried the lamp along the whole length of the harbour wall in the dark because the"
        " keeper had told my brother that the ferry would never leave the slip without somebody"
        " there to show it the way.",
        "Put a `|` where a breath does no harm, best before a new thought, or make two sentences"
        " of it. The fix offers places between phrases; move the mark where you like it better.",
    ),
)
