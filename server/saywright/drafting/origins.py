"""Where the lines of a piece came from: each kept line of a draft that stands in one.

A line is known by its words, whatever marks it has by now. One that was reworded since it was
gathered is known by the note under it, and by sharing most of its words with a line of that draft.
"""

import re
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from saywright.analysis import Analysis
from saywright.cuts.trimming import veiled
from saywright.drafting.kept_lines import (
    KeptLine,
    kept_lines,
    paragraphs_of,
    places_of_words,
    words_of,
)
from saywright.markup.tree import Paragraph, Part, Range
from saywright.speech.piece_takes import same_name

_TRAIL = re.compile(
    r"\s*#\s+from (?:draft “(?P<label>.*)”|the draft|draft (?P<number>[0-9]{1,6}))", re.S
)
_MOSTLY = 0.5
_MOST_COMPARED = 200
_FEW_LINES = 60  # so many are looked for fastest one by one

WithWords = tuple[int, Paragraph, str]
"""A paragraph with its file offset and its words."""


class Origin(NamedTuple):
    """A line of a piece, by its file offsets, and the kept line of a draft that it was."""

    start: int
    end: int
    part: Part
    kept: KeptLine
    reworded: bool


def told_draft(analysis: Analysis, draft: Part) -> str:
    """A draft by its label, or by its number among the drafts where that does not tell, or holds a
    name that must not go any further."""
    drafts = _drafts(analysis)
    shown = draft.label == veiled(draft.label, analysis)
    if draft.label and shown and sum(same_name(draft.label, each.label) for each in drafts) == 1:
        return f"draft “{draft.label}”"
    return f"draft {drafts.index(draft) + 1}" if len(drafts) > 1 else "the draft"


def origins(analysis: Analysis) -> tuple[Origin, ...]:
    """Every line of the pieces that came from a draft, in the file's order."""
    lines = list(kept_lines(analysis))
    pieces = [part for part in analysis.parts if part.kind == "piece"]
    return tuple(sorted(each for part in pieces for each in _origins_in(analysis, part, lines)))


def words_there(analysis: Analysis, part: Part, lines: Sequence[KeptLine]) -> set[str]:
    """The words of those of `lines`, all kept lines of the script, that are in a piece."""
    if not lines:
        return set()
    paragraphs = _with_words(analysis, part)
    there = _exact(paragraphs, lines)
    reworded = _reworded(analysis, paragraphs, there, lines)
    return {line.words for line in (*there, *(line for _, line in reworded))}


def _origins_in(analysis: Analysis, part: Part, lines: Sequence[KeptLine]) -> Iterator[Origin]:
    paragraphs = _with_words(analysis, part)
    found: list[KeptLine] = []
    beginnings = _by_beginning(lines)
    for start, paragraph, words in paragraphs:
        places: tuple[Range, ...] = ()
        for first, line in _met(words, beginnings):
            found.append(line)
            places = places or places_of_words(paragraph.plain)
            last = first + line.words.count(" ") - 2
            where = paragraph.source_range(places[first].start, places[last].end)
            yield Origin(start + where.start, start + where.end, part, line, reworded=False)
    for where, line in _reworded(analysis, paragraphs, found, lines):
        yield Origin(*where, part, line, reworded=True)


Beginnings = Mapping[tuple[str, ...], Sequence[KeptLine]]
"""Lines by their first two words, or by the only one."""


def _by_beginning(lines: Iterable[KeptLine]) -> Beginnings:
    found: dict[tuple[str, ...], list[KeptLine]] = defaultdict(list)
    for line in lines:
        found[tuple(line.words.split(maxsplit=2)[:2])].append(line)
    return found


def _met(words: str, beginnings: Beginnings) -> Iterator[tuple[int, KeptLine]]:
    """The lines that stand in `words`, each with the number of its first word there."""
    if not beginnings:
        return
    split = words.split()
    at = 0
    for number, word in enumerate(split):
        for key in ((word,), tuple(split[number : number + 2])):
            for line in beginnings.get(key, ()):
                if words.startswith(line.words, at):
                    yield number, line
            if number + 1 == len(split):
                break
        at += len(word) + 1


def _with_words(analysis: Analysis, part: Part) -> list[WithWords]:
    return [(*each, words_of(each[1].plain)) for each in paragraphs_of(analysis, part)]


def _exact(paragraphs: Sequence[WithWords], lines: Sequence[KeptLine]) -> list[KeptLine]:
    """Those of `lines` whose words stand in one of the paragraphs."""
    if len(lines) <= _FEW_LINES:
        said = "\n".join(words for _, _, words in paragraphs)
        return [line for line in lines if line.words in said]
    beginnings = _by_beginning(lines)
    return [line for _, _, words in paragraphs for _, line in _met(words, beginnings)]


def _reworded(
    analysis: Analysis,
    paragraphs: Sequence[WithWords],
    there: Sequence[KeptLine],
    lines: Sequence[KeptLine],
) -> Iterator[tuple[Range, KeptLine]]:
    """What stands over a note that tells of a draft and is none of the lines that are `there`,
    and the line of that draft that it is most like; no line twice."""
    words_there = {line.words for line in there}
    rest = [line for line in lines if line.words not in words_there][:_MOST_COMPARED]
    beginnings = _by_beginning(there)
    for where, words, drafts in _trailed(analysis, paragraphs) if rest else ():
        if next(_met(words, beginnings), None) is None:
            alike = _most_alike(words, [line for line in rest if line.draft in drafts])
            if alike:
                rest.remove(alike)
                yield where, alike


def _trailed(
    analysis: Analysis, paragraphs: Iterable[WithWords]
) -> Iterator[tuple[Range, str, list[Part]]]:
    """What stands over each note that tells of a draft, its words, and the drafts it may mean."""
    for start, paragraph, _ in paragraphs:
        at = 0
        for note in paragraph.notes:
            plain = Range(paragraph.plain_of(at), paragraph.plain_of(note.start))
            at = note.end
            found = _TRAIL.match(paragraph.text[note.start : note.end])
            words = words_of(paragraph.plain[plain.start : plain.end])
            if found and words:
                first, last = paragraph.source_range(*_stripped(paragraph.plain, plain))
                drafts = [each for each in _drafts(analysis) if _is_meant(analysis, found, each)]
                yield Range(start + first, start + last), words, drafts


def _most_alike(words: str, lines: Iterable[KeptLine]) -> KeptLine | None:
    alike = max(lines, key=lambda line: _likeness(words, line.words), default=None)
    return alike if alike and _likeness(words, alike.words) >= _MOSTLY else None


def _stripped(plain: str, where: Range) -> Range:
    text = plain[where.start : where.end]
    return Range(where.end - len(text.lstrip()), where.start + len(text.rstrip()))


def _drafts(analysis: Analysis) -> list[Part]:
    return [part for part in analysis.parts if part.kind == "draft"]


def _is_meant(analysis: Analysis, found: re.Match[str], draft: Part) -> bool:
    if found["label"] is not None:
        return same_name(found["label"], draft.label)
    return _drafts(analysis).index(draft) == int(found["number"] or 1) - 1


def _likeness(one: str, other: str) -> float:
    """What two lines share of their words, from 0 to 1."""
    ones, others = Counter(one.split()), Counter(other.split())
    return 2 * (ones & others).total() / (ones.total() + others.total())
