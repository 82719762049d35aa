"""Edits that change spoken words, and leave every mark and every other word as it stands."""

from collections.abc import Iterable
from functools import lru_cache

from saywright.cuts.marking import Around, stays_speech
from saywright.finding import Edit, Fix, applied
from saywright.markup.lines import line_ranges
from saywright.markup.paragraphs import line_problems, read_paragraph
from saywright.markup.tree import Paragraph, Range

_Edits = tuple[Edit, ...]
_BESIDE = "x"  # stands for the words beside a sentence that is read by itself
_MOST_REMEMBERED = 2048  # sentences: of a paragraph that is typed in, all but one are as before


def reworded(
    title: str,
    paragraph: Paragraph,
    edits: Iterable[Edit],
    around: Around,
    within: Range | None = None,
) -> Fix | None:
    """A fix that makes `edits`, whose offsets are those of the paragraph's spoken text.

    The fix's own count from the start of its source. None where a mark stands in the middle
    of what would change, or where the result would not read as it is meant: another
    word lost, a mark set free, a line that would be no speech. `within` is a stretch of the source
    that holds all of them; where it can be read by itself, the rest is not read again.
    """
    meant = list(edits)
    made = [_in_source(paragraph, edit) for edit in meant]
    kept = tuple(edit for edit in made if edit)
    if not made or len(kept) < len(made):
        return None
    text = applied(paragraph.text, kept)
    if not (text.strip() and stays_speech(paragraph.text, text, around)):
        return None
    if within and not (within.start <= kept[0].start and kept[-1].end <= within.end):
        within = None
    by_itself = _by_itself(paragraph, within, around) if within else None
    if within and by_itself:
        edits_there = _moved(paragraph, within, kept, meant)
        is_meant = _reads_by_itself(by_itself, *edits_there, around.speakers)
        is_meant = is_meant and not _has_problems(text, within.start, kept, around)
    else:
        is_meant = _reads(paragraph, kept, tuple(meant), around.speakers)
    return Fix(title, kept) if is_meant else None


def _in_source(paragraph: Paragraph, edit: Edit) -> Edit | None:
    if edit.start == edit.end:
        at = paragraph.source_of(edit.start)
        return Edit(at, at, edit.text)
    start, end = paragraph.source_range(edit.start, edit.end)
    unbroken = paragraph.text[start:end].replace("\r\n", " ").replace("\n", " ")
    return (
        Edit(start, end, edit.text) if unbroken == paragraph.plain[edit.start : edit.end] else None
    )


def _reads(paragraph: Paragraph, edits: _Edits, meant: _Edits, speakers: tuple[str, ...]) -> bool:
    """Whether the words are as meant after `edits`, and all else as it was."""
    after = read_paragraph(applied(paragraph.text, edits), speakers)
    as_meant = after.plain.split() == applied(paragraph.plain, meant).split()
    return as_meant and _shape(after) == _shape(paragraph)


def _shape(paragraph: Paragraph) -> tuple[object, ...]:
    """The marks in their order, and what is wrong with them."""
    kinds = [span.kind for span in paragraph.spans]
    problems = [problem.check for problem in paragraph.problems]
    directions = [direction.silence for direction in paragraph.directions]
    return kinds, directions, len(paragraph.breaths), len(paragraph.notes), problems


def _by_itself(paragraph: Paragraph, within: Range, around: Around) -> str | None:
    """The stretch between other words; None unless it is read there as it is in the paragraph."""
    start, end = within
    text = paragraph.text
    if paragraph.problems or not (text[:start][-1:].strip() == text[end:][:1].strip() == ""):
        return None
    by_itself = f"{_BESIDE} {text[start:end]} {_BESIDE}"
    alone = _read(by_itself, around.speakers)
    first, last = paragraph.plain_of(start), paragraph.plain_of(end)
    is_same = alone.plain == f"{_BESIDE} {paragraph.plain[first:last]} {_BESIDE}"
    return by_itself if is_same and not alone.problems else None


@lru_cache(_MOST_REMEMBERED)
def _read(text: str, speakers: tuple[str, ...]) -> Paragraph:
    return read_paragraph(text, speakers)


@lru_cache(_MOST_REMEMBERED)
def _reads_by_itself(text: str, edits: _Edits, meant: _Edits, speakers: tuple[str, ...]) -> bool:
    return _reads(_read(text, speakers), edits, meant, speakers)


def _moved(
    paragraph: Paragraph, within: Range, edits: Iterable[Edit], meant: Iterable[Edit]
) -> tuple[_Edits, _Edits]:
    """Both as they count in the stretch by itself."""
    beside = len(_BESIDE) + 1
    of_source, of_plain = beside - within.start, beside - paragraph.plain_of(within.start)
    return (
        tuple(each.shifted(of_source) for each in edits),
        tuple(each.shifted(of_plain) for each in meant),
    )


def _has_problems(text: str, start: int, edits: _Edits, around: Around) -> bool:
    """Whether a line that was changed looks like another thing than speech."""
    grown = sum(len(each.text) - (each.end - each.start) for each in edits)
    first = text.rfind("\n", 0, start) + 1
    last = text.find("\n", max(each.end for each in edits) + grown)
    lines = text[first : last + 1 if last >= 0 else len(text)]
    return next(line_problems(lines, line_ranges(lines), around.speakers), None) is not None
