"""What a line may be when a part of it goes, each timed as the script is with those marks in it."""

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import combinations, groupby, pairwise

from saywright.cuts.planning.marks import cut_marks
from saywright.cuts.planning.piece import Piece, SpokenLine, TrimmedLine
from saywright.cuts.planning.reading import spoken_lines
from saywright.cuts.trimming import TrimmedAway, possible_trims
from saywright.markup.tree import Breath, Direction, Paragraph, Range, Run
from saywright.speech.timing import time_paragraph
from saywright.speech.voice import Voice

_MOST_PARTS = 3
_MOST_VERSIONS = 7


def with_trims(piece: Piece) -> Piece:
    """The piece with what its lines may be, besides whole and cut."""
    lines: list[SpokenLine] = []
    for _, group in groupby(piece.lines, key=lambda line: line.at):
        lines += _trimmed(piece, list(group))
    return replace(piece, lines=tuple(lines))


def _trimmed(piece: Piece, lines: list[SpokenLine]) -> list[SpokenLine]:
    """The lines of a paragraph. All their first versions are timed at once, then all their
    second ones: what one line takes does not depend on another."""
    wanted = [_versions(line, piece.voice.language) for line in lines]
    if not any(wanted):
        return lines
    found: list[list[TrimmedLine]] = [[] for _ in lines]
    for number in range(max(map(len, wanted))):
        chosen = {
            index: versions[number]
            for index, versions in enumerate(wanted)
            if number < len(versions)
        }
        for index, line in _timed(piece, lines, chosen).items():
            found[index].append(line)
    found = [[each for each in own if set(each.parts) <= _alone(own)] for own in found]
    return [
        replace(line, trims=tuple(own)) if own else line
        for line, own in zip(lines, found, strict=True)
    ]


def _alone(versions: Sequence[TrimmedLine]) -> set[TrimmedAway]:
    """The parts that can go without another."""
    return {each.parts[0] for each in versions if len(each.parts) == 1}


def _versions(line: SpokenLine, language: str) -> list[tuple[TrimmedAway, ...]]:
    """What may go of a line, alone and together; silences marked within it would move."""
    if line.places is None or _has_silence(line):
        return []
    parts = possible_trims(line.paragraph, line.sentence, language)[:_MOST_PARTS]
    found = [
        chosen
        for count in range(1, len(parts) + 1)
        for chosen in combinations(parts, count)
        if all(one.end < other.start for one, other in pairwise(chosen))
    ]
    return found[:_MOST_VERSIONS]


def _has_silence(line: SpokenLine) -> bool:
    marks: list[Direction | Breath] = [*line.paragraph.directions, *line.paragraph.breaths]
    start, end = line.sentence.start, line.sentence.end
    return any(mark.silence and start <= mark.start < end for mark in marks)


def _timed(
    piece: Piece, lines: Sequence[SpokenLine], chosen: dict[int, tuple[TrimmedAway, ...]]
) -> dict[int, TrimmedLine]:
    """The chosen versions; without those whose marks would not be read as meant."""
    places = [part.places for parts in chosen.values() for part in parts]
    if not cut_marks(lines[0].paragraph, places):
        if len(chosen) == 1:
            return {}
        one_by_one = (_timed(piece, lines, {index: parts}) for index, parts in chosen.items())
        return {index: line for found in one_by_one for index, line in found.items()}
    found: dict[int, TrimmedLine] = {}
    for index, parts in chosen.items():
        line, following = lines[index], lines[index + 1] if index + 1 < len(lines) else None
        left = _left(line, following, parts, piece.voice)
        if left and left.sound < line.sound:
            found[index] = TrimmedLine(left, parts)
    return found


def _left(
    line: SpokenLine,
    following: SpokenLine | None,
    parts: Sequence[TrimmedAway],
    voice: Voice,
) -> SpokenLine | None:
    """A line as it is without some parts of it, timed with the one after it, or with its whole
    paragraph where those two by themselves would not be read as the same sentences."""
    gone = tuple(each for part in parts for each in part.places.stretches)
    whole = Range(0, len(line.paragraph.plain))
    start, end = line.sentence.plain
    near = Range(start, following.sentence.plain.end if following else whole.end)
    for where in (near, whole):
        timed = time_paragraph(_part(line.paragraph, where, gone), voice)
        own = Range(start - where.start, end - where.start)
        for left in spoken_lines(line.at, timed, voice, cuttable=False)[0]:
            if left.sentence.plain == own:
                seconds = left.sentence.speech_seconds
                return replace(
                    left,
                    paragraph=line.paragraph,
                    sentence=replace(line.sentence, text=left.text, speech_seconds=seconds),
                    first=left.first + where.start,
                    last=left.last + where.start,
                    places=line.places,
                    silences=line.silences,
                    gone=gone,
                )
    return None


def _part(paragraph: Paragraph, where: Range, gone: Sequence[Range]) -> Paragraph:
    """A stretch of what is spoken, without the silences in it, and more of it cut."""
    plain = paragraph.plain[where.start : where.end]
    first, last = (bisect_left(paragraph.breaks, each) for each in where)
    return Paragraph(
        text=plain,
        plain=plain,
        runs=(Run(0, 0, len(plain)),),
        cuts=tuple(sorted((*_within(paragraph.cuts, where), *_within(gone, where)))),
        keeps=tuple(_within(paragraph.keeps, where)),
        stresses=tuple(_within(paragraph.stresses, where)),
        breaks=tuple(each - where.start for each in paragraph.breaks[first:last]),
    )


def _within(ranges: Sequence[Range], where: Range) -> Iterator[Range]:
    """What of the ranges, which are in order, lies in `where`, from its start."""
    for start, end in ranges[bisect_right(ranges, where.start, key=_end) :]:
        if start >= where.end:
            break
        yield Range(max(start, where.start) - where.start, min(end, where.end) - where.start)


def _end(where: Range) -> int:
    return where.end
