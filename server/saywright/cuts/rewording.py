"""Edits that change spoken words, and leave every mark and every other word as it stands."""

from collections.abc import Iterable

from saywright.cuts.marking import Around, stays_speech
from saywright.finding import Edit, Fix, applied
from saywright.markup.paragraphs import read_paragraph
from saywright.markup.tree import Paragraph


def reworded(title: str, paragraph: Paragraph, edits: Iterable[Edit], around: Around) -> Fix | None:
    """A fix that makes `edits`, whose offsets are those of the paragraph's spoken text.

    The fix's own count from the start of its source. None where a mark stands in the middle
    of what would change, or where the result would not read as it is meant: another
    word lost, a mark set free, a line that would be no speech.
    """
    meant = list(edits)
    made = [_in_source(paragraph, edit) for edit in meant]
    if not made or not all(made):
        return None
    kept = tuple(edit for edit in made if edit)
    text = applied(paragraph.text, kept)
    after = read_paragraph(text, around.speakers)
    as_meant = _words(after.plain) == _words(applied(paragraph.plain, meant))
    if as_meant and _shape(after) == _shape(paragraph) and _is_whole(paragraph, text, around):
        return Fix(title, kept)
    return None


def _in_source(paragraph: Paragraph, edit: Edit) -> Edit | None:
    if edit.start == edit.end:
        at = paragraph.source_of(edit.start)
        return Edit(at, at, edit.text)
    start, end = paragraph.source_range(edit.start, edit.end)
    unbroken = paragraph.text[start:end].replace("\r\n", " ").replace("\n", " ")
    return (
        Edit(start, end, edit.text) if unbroken == paragraph.plain[edit.start : edit.end] else None
    )


def _words(text: str) -> list[str]:
    return text.split()


def _shape(paragraph: Paragraph) -> tuple[object, ...]:
    """The marks in their order, and what is wrong with them."""
    kinds = [span.kind for span in paragraph.spans]
    problems = [problem.check for problem in paragraph.problems]
    directions = [direction.silence for direction in paragraph.directions]
    return kinds, directions, len(paragraph.breaths), len(paragraph.notes), problems


def _is_whole(paragraph: Paragraph, text: str, around: Around) -> bool:
    return bool(text.strip()) and stays_speech(paragraph.text, text, around)
