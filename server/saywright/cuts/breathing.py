"""Edits that mark where to breathe, and change nothing else."""

from collections.abc import Iterable

from saywright.cuts.marking import Around, stays_speech
from saywright.finding import Edit, Fix, applied
from saywright.markup.paragraphs import read_paragraph
from saywright.markup.tree import Breath, Paragraph


def breathe(title: str, paragraph: Paragraph, places: Iterable[int], around: Around) -> Fix | None:
    """A fix that puts a breath before each of `places`, in order, each a white space of the spoken
    text by its offset there.

    The fix's own offsets count from the start of the source. None where a mark would not be read
    as a breath, or where anything else would be read otherwise than before.
    """
    edits = tuple(Edit(at, at, " |") for at in map(paragraph.source_of, places))
    text = applied(paragraph.text, edits)
    after = read_paragraph(text, around.speakers)
    if (
        edits
        and after.plain.split() == paragraph.plain.split()
        and _breaths(after) == _with_new(paragraph.breaths, edits)
        and _other_marks(after) == _other_marks(paragraph)
        and stays_speech(paragraph.text, text, around)
    ):
        return Fix(title, edits)
    return None


def _breaths(paragraph: Paragraph) -> list[tuple[int, str | None]]:
    return [(breath.start, breath.silence.name) for breath in paragraph.breaths]


def _with_new(before: Iterable[Breath], edits: Iterable[Edit]) -> list[tuple[int, str | None]]:
    """Where every breath stands once `edits` are made."""
    marks = [(breath.start, breath.silence.name, False) for breath in before]
    marks += [(edit.start, "breath", True) for edit in edits]
    placed: list[tuple[int, str | None]] = []
    moved = 0
    for start, name, is_new in sorted(marks, key=lambda mark: mark[0]):
        placed.append((start + moved + is_new, name))
        moved += 2 * is_new
    return placed


def _other_marks(paragraph: Paragraph) -> tuple[object, ...]:
    problems = [problem.check for problem in paragraph.problems]
    directions = [direction.silence for direction in paragraph.directions]
    live = [_words(paragraph, kind) for kind in ("cuts", "keeps", "stresses")]
    return [span.kind for span in paragraph.spans], directions, live, problems


def _words(paragraph: Paragraph, kind: str) -> list[list[str]]:
    return [paragraph.plain[start:end].split() for start, end in getattr(paragraph, kind)]
