"""What a line may be when a part of it goes, each timed as the script is with those marks in it."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import combinations, groupby, pairwise

from saywright.cuts.planning.marks import cut_marks
from saywright.cuts.planning.piece import Piece, SpokenLine, TrimmedLine
from saywright.cuts.planning.reading import spoken_lines
from saywright.cuts.trimming import TrimmedAway, possible_trims
from saywright.finding import applied
from saywright.markup.paragraphs import read_paragraph
from saywright.markup.tree import Breath, Direction, Paragraph
from saywright.speech.timing import time_paragraph

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
    paragraph = lines[0].paragraph
    marked = _marked(paragraph, [part for parts in chosen.values() for part in parts])
    if marked is None:
        if len(chosen) == 1:
            return {}
        one_by_one = (_timed(piece, lines, {index: parts}) for index, parts in chosen.items())
        return {index: line for found in one_by_one for index, line in found.items()}
    timed = time_paragraph(marked, piece.voice)
    after, _ = spoken_lines(lines[0].at, timed, piece.voice, cuttable=False)
    if len(after) != len(lines):
        return {}
    return dict(_as_versions(lines, after, chosen))


def _marked(paragraph: Paragraph, parts: Sequence[TrimmedAway]) -> Paragraph | None:
    edits = cut_marks(paragraph, [part.places for part in parts])
    return read_paragraph(applied(paragraph.text, edits)) if edits else None


def _as_versions(
    lines: Sequence[SpokenLine],
    after: Sequence[SpokenLine],
    chosen: dict[int, tuple[TrimmedAway, ...]],
) -> Iterator[tuple[int, TrimmedLine]]:
    for index, parts in chosen.items():
        line, left = lines[index], after[index]
        sentence = replace(
            line.sentence, text=left.text, speech_seconds=left.sentence.speech_seconds
        )
        version = replace(
            left,
            paragraph=line.paragraph,
            sentence=sentence,
            places=line.places,
            silences=line.silences,
            gone=tuple(each for part in parts for each in part.places.stretches),
        )
        if left.sound < line.sound:
            yield index, TrimmedLine(version, parts)
