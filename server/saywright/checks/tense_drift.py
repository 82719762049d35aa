"""A line or two that slip into another tense than the lines around them."""

import re
from collections.abc import Iterator, Sequence

from saywright.checks.check import Check, Page
from saywright.checks.passage import Line, Passage
from saywright.checks.telling import Telling, telling
from saywright.checks.tense_clash import Clash
from saywright.checks.tense_runs import OTHER, Bearing, Run, Told
from saywright.checks.tense_slips import ClashAt, Slip, drifts, kept_tense
from saywright.cuts.marking import cut
from saywright.finding import Edit, Finding, Fix, Related
from saywright.language.english.retensing import retensed
from saywright.language.english.tag import is_english

_MOST_RELATED = 2  # on each side
_MOST_TOLD = 2  # words that a fix's title names
_PART_OF_WORD = re.compile(r"[\w'’]")


def find(passage: Passage) -> Iterator[Finding]:
    if passage.settings.tense == "free" or not is_english(passage.language):
        return
    near = telling(passage)
    for drift in drifts(near.told, near.first, near.end, _declared(passage)):
        if isinstance(drift, ClashAt):
            yield _clash(passage, near, *drift)
        elif isinstance(drift, Slip):
            yield _slip(passage, near, drift.run)
        else:
            yield _new_section(passage, near, drift.run)


def _declared(passage: Passage) -> Bearing | None:
    tense = passage.settings.tense
    return _bearing(tense) if tense else None


def _slip(passage: Passage, near: Telling, run: Run) -> Finding:
    main = OTHER[run.tense]
    lines = "this line is" if len(run.lines) == 1 else f"{len(run.lines)} lines are"
    message = f"{_who(passage)} in the {main} until here; {lines} in the {run.tense}."
    related = tuple(
        Related(*_verb(near, at), f"the {main}, here")
        for at in sorted((*run.before[:_MOST_RELATED], *run.after[:_MOST_RELATED]))
    )
    where = _verb(near, run.first)
    fixes = tuple(_fixes(passage, near, run.lines, main))
    return Finding(CHECK.name, *where, message, fixes, related)


def _new_section(passage: Passage, near: Telling, run: Run) -> Finding:
    main = OTHER[run.tense]
    message = (
        f"{_who(passage)} in the {main} until here, and in the {run.tense} for a while after. If "
        "that is meant, a new paragraph or a word of time would show it."
    )
    related = tuple(Related(*_verb(near, at), f"the {main}, here") for at in run.before[:1])
    return Finding(CHECK.name, *_verb(near, run.first), message, (), related)


def _clash(passage: Passage, near: Telling, at: int, found: Clash) -> Finding:
    """Which of the two verbs is meant is told by the lines around, and else by the first."""
    line, told = near.lines[at], near.told[at]
    assert told.facts
    earlier, later = told.facts.verbs[found.earlier], told.facts.verbs[found.later]
    main = kept_tense(near.told, at, _declared(passage)) or _bearing(earlier.tense)
    off, other = (earlier, later) if earlier.tense != main else (later, earlier)
    words = [line.text[each.start : each.end] for each in (off, other)]
    tenses = " and ".join(
        f"“{word}” is in the {verb.tense}" for word, verb in zip(words, (off, other), strict=True)
    )
    message = f"Two times in one sentence: {tenses}."
    related = (Related(*line.where(other.start, other.end), f"the {other.tense}, here"),)
    fixes = tuple(_fixes(passage, near, (at,), main))
    where = line.where(off.start, off.end)
    severity = "warning" if found.shared else None
    return Finding(CHECK.name, *where, message, fixes, related, severity)


def _bearing(tense: str) -> Bearing:
    return "past" if tense == "past" else "present"


def _who(passage: Passage) -> str:
    return f"{passage.speaker} was speaking" if passage.speaker else "The piece was"


def _verb(near: Telling, at: int) -> tuple[int, int]:
    """Where the main verb of the line at `at` stands."""
    verb = near.told[at].verb
    assert verb
    return near.lines[at].where(verb.start, verb.end)


def _fixes(passage: Passage, near: Telling, lines: Sequence[int], tense: Bearing) -> Iterator[Fix]:
    retold = [_retold(passage, near.lines[at], near.told[at], tense) for at in lines]
    if all(retold):
        fixes = [fix for fix in retold if fix]
        more = f", and {len(fixes) - 1} more" if len(fixes) > 1 else ""
        yield Fix(fixes[0].title + more, tuple(edit for fix in fixes for edit in fix.edits))
    if len(lines) == 1:
        line = near.lines[lines[0]]
        if fix := cut(line.paragraph, line.sentence):
            yield fix.shifted(line.at)


def _retold(passage: Passage, line: Line, told: Told, tense: Bearing) -> Fix | None:
    assert told.facts
    edits = retensed(line.text, told.facts, tense)
    return passage.fix(_title(line.text, edits), line, edits) if edits else None


def _title(text: str, edits: Sequence[Edit]) -> str:
    """ "“went” for “go”", of the first edits."""
    named = ", ".join(_named(text, edit) for edit in edits[:_MOST_TOLD])
    more = len(edits) - _MOST_TOLD
    return f"{named}, and {more} more" if more > 0 else named


def _named(text: str, edit: Edit) -> str:
    start, end = edit.start, edit.end
    while start and _PART_OF_WORD.match(text[start - 1]):
        start -= 1
    while end < len(text) and _PART_OF_WORD.match(text[end]):
        end += 1
    old = text[start:end]
    new = text[start : edit.start] + edit.text + text[edit.end : end]
    return f"“{new.strip()}” for “{old.strip()}”"


CHECK = Check(
    "tense-drift",
    "hint",
    "a line that slips into another tense than those around it",
    find_nearby=find,
    page=Page(
        why="A listener is either there as it happens, or is being told of it afterwards. A line "
        "that slips from one to the other for no reason makes them lose their place. It is looked "
        "for in English only.",
        example="I walked to the lamp-room and looked up. The lens was dark. I climb the stairs. "
        "At the top I lit the wick and waited. Nobody came.",
        to_do="Take the offered word, if the line is meant to be of the same time as its "
        "neighbours. Where the change is meant, begin a new paragraph, or say when it is. A "
        "piece that is to move freely says so at its top: tense: free.",
    ),
)
