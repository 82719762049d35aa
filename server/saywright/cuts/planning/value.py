"""What each line is worth, in points, from what the text shows: about a hundred a line.

The numbers are judgement, not measured: what a coach would look at first, in that order.
"""

from collections.abc import Iterable, Mapping, Sequence
from collections.abc import Set as AbstractSet
from typing import NamedTuple

from saywright.cuts.planning.piece import SpokenLine, TrimmedLine
from saywright.cuts.planning.predicates import events, predicates
from saywright.cuts.planning.problem import TICKS_PER_SECOND
from saywright.cuts.planning.words import Word, words_of
from saywright.finding import Finding
from saywright.language.sentence_facts import sentence_facts

_LINE = 15
_SECOND = 8
_SILENT_SECOND = 25  # of silence marked around it: who leaves a silence means the line
_NEW, _AGAIN, _CALLED_BACK = 10, 2, 8
_NEAR_LINES = 4  # what was said no farther back is said again, else it is called back
_NAME, _NUMBER, _ABSTRACT = 16, 12, 6
_VERB = 5
_STRESS = 10
_EVENT, _EVENT_BY_KEPT, _MOST_EVENTS = 20, 30, 2
_NEWS = 10  # of a verb with a little word: "let go"
_NEAR_KEPT = 2
_TITLE = 15
_OPENING, _LAST = 60, 200
_OPENING_FACTOR, _LAST_FACTOR = 1.4, 1.6
_ENDING, _ENDING_SHARE = 40, 0.125  # what it was all for is told in the last eighth
_TOWARDS_END, _END_FACTOR = 0.6, 0.6  # from there on lines weigh more, so much at the end
POINTS = 10
"""Points are whole multiples of this: finer differences would mean nothing."""

# what a finding leaves of a line's worth; a finding on all of the line takes more of it
_FACTORS = {
    "filler": 0.85,
    "announcing": 0.8,
    "repetition": 0.7,
    "telling": 0.85,
    "tense-drift": 0.85,
    "tense-clash": 0.9,
    "person-drift": 0.85,
    "hard-to-say": 0.95,
}
_WHOLE_FACTOR = 0.3
_MUCH = 0.25
_EMPTY_VERBS = frozenset(
    "be have do say go get know think want seem feel mean let make come put 's 're 'm is are was "
    "were am had has did does said went got".split()
)


class Worth(NamedTuple):
    """A line's points, and what they come from: its words, how many of them were not said
    before, how many verbs were not told before, how many the line before said, and the checks
    that find much of it at fault. `trims`: the points of what is left of it by each of its
    trims."""

    points: int
    trims: tuple[int, ...]
    words: tuple[Word, ...]
    new: int
    new_told: int
    from_before: int
    checks: frozenset[str]
    announces: bool


def worths(
    lines: Sequence[SpokenLine], findings: Iterable[Finding], language: str, title: str = ""
) -> list[Worth]:
    """The worth of each line; `findings` in the file's order, with its offsets."""
    on_line = _by_line(lines, findings)
    said: dict[str, int] = {}  # where last
    told: set[str] = set()
    named = frozenset(word.base for word in words_of(title, language))
    found: list[Worth] = []
    for index, line in enumerate(lines):
        words = words_of(line.text, language)
        bases = {word.base for word in words}
        news = predicates(line.text, language) - told
        near = lines[max(index - _NEAR_KEPT, 0) : index + _NEAR_KEPT + 1]
        by_kept = any(each.sentence.kept for each in near)
        place = _Place(language, said, told, named, by_kept, index, len(lines))
        points = _points_of(line, words, on_line[index], place)
        announces = any(_is_whole(line, each, "announcing") for each in on_line[index])
        found.append(
            Worth(
                points,
                tuple(
                    min(_of_trim(line, trim, on_line[index], place), points - POINTS)
                    for trim in line.trims
                ),
                tuple(words),
                sum(base not in said for base in bases),
                len(news),
                sum(said.get(base) == index - 1 for base in bases),
                frozenset(each.check for each in on_line[index] if _tells(line, each)),
                announces,
            )
        )
        said.update(dict.fromkeys(bases, index))
        told |= news
    return found


class _Place(NamedTuple):
    """Where a line stands, what was said before it, with the line that said it last, what was
    told, the words of the title, and whether it is near a kept line."""

    language: str
    said: Mapping[str, int]
    told: AbstractSet[str]
    title: AbstractSet[str]
    by_kept: bool
    line: int
    of_lines: int


def _points_of(
    line: SpokenLine, words: Sequence[Word], findings: Iterable[Finding], place: _Place
) -> int:
    points = _points(line, words, place.language)
    points += _of_words(words, place.said, place.line)
    points += _of_what_is_told(line.text, place)
    points += _TITLE * len(place.title & {word.base for word in words})
    points *= _findings_factor(line, findings)
    points = _by_place(points, place.line, place.of_lines)
    return max(round(points / POINTS), 1) * POINTS


def _of_what_is_told(text: str, place: _Place) -> int:
    """The points of what happens in it, and of verbs that were not told before."""
    news = predicates(text, place.language) - place.told
    points = _NEWS * sum(" " in each for each in news)
    happens = min(events(text, place.language), _MOST_EVENTS)
    return points + happens * (_EVENT_BY_KEPT if place.by_kept else _EVENT)


def _of_trim(
    line: SpokenLine, trim: TrimmedLine, findings: Iterable[Finding], place: _Place
) -> int:
    """The points of a line that is trimmed; what is found in a part that goes is forgiven."""
    parts = [(line.at + start, line.at + end) for start, end in trim.places.extents]
    left = [
        each
        for each in findings
        if not any(start <= each.start and each.end <= end for start, end in parts)
    ]
    return _points_of(trim.line, words_of(trim.line.text, place.language), left, place)


def _points(line: SpokenLine, words: Sequence[Word], language: str) -> float:
    """The points of its length, its verbs, and what the writer stressed or set apart."""
    points = _LINE + _SECOND * line.sentence.speech_seconds
    points += _SILENT_SECOND * (line.silences.lead + line.silences.tail) / TICKS_PER_SECOND
    facts = sentence_facts(line.text, language) if words else None
    verbs = {verb.lemma for verb in facts.verbs} - _EMPTY_VERBS if facts else ()
    stresses = sum(
        line.sentence.plain.start <= start < line.sentence.plain.end
        and not any(gone.start <= start < gone.end for gone in line.gone)
        for start, _ in line.paragraph.stresses
    )
    return points + _VERB * len(verbs) + _STRESS * stresses


def _of_words(words: Iterable[Word], said: Mapping[str, int], index: int) -> int:
    points = 0
    met: set[str] = set()
    for word in words:
        if word.base in met or (word.base in said and said[word.base] >= index - _NEAR_LINES):
            points += _AGAIN
        else:
            points += _CALLED_BACK if word.base in said else _of_new(word)
        met.add(word.base)
    return points


def _of_new(word: Word) -> int:
    if word.name:
        return _NAME
    if word.number:
        return _NUMBER
    return _ABSTRACT if word.abstract else _NEW


def _by_place(points: float, index: int, count: int) -> float:
    if index == count - 1:
        return points * _LAST_FACTOR + _LAST
    if index == 0:
        return points * _OPENING_FACTOR + _OPENING
    if index >= count * (1 - _ENDING_SHARE):
        points += _ENDING
    beyond = max(index / count - _TOWARDS_END, 0.0) / (1 - _TOWARDS_END)
    return points * (1 + _END_FACTOR * beyond)


def _findings_factor(line: SpokenLine, findings: Iterable[Finding]) -> float:
    factor = 1.0
    for each in findings:
        factor *= _WHOLE_FACTOR if _is_whole(line, each, "announcing") else _FACTORS[each.check]
    return factor


def _tells(line: SpokenLine, finding: Finding) -> bool:
    """Whether a finding says much of the line: of fillers, one that is a good part of it."""
    length = finding.end - finding.start
    return finding.check != "filler" or length >= _MUCH * len(line.text)


def _is_whole(line: SpokenLine, finding: Finding, check: str) -> bool:
    """Whether a check finds the line as a whole at fault."""
    start, end = line.at + line.sentence.start, line.at + line.sentence.end
    return finding.check == check and finding.start <= start and finding.end >= end


def _by_line(lines: Sequence[SpokenLine], findings: Iterable[Finding]) -> list[list[Finding]]:
    """The findings that count, each with the line in which it begins."""
    found: list[list[Finding]] = [[] for _ in lines]
    index = 0
    for each in findings:
        while index < len(lines) and lines[index].at + lines[index].sentence.end <= each.start:
            index += 1
        if index == len(lines):
            break
        line = lines[index]
        if each.check in _FACTORS and each.start >= line.at + line.sentence.start:
            found[index].append(each)
    return found
