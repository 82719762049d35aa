"""The kept lines of drafts: where each stands, and how it is written out on its own."""

import re
from collections.abc import Iterator
from functools import lru_cache
from itertools import islice
from typing import NamedTuple

from saywright.analysis import Analysis
from saywright.markup.marks import ESCAPABLE
from saywright.markup.paragraphs import read_paragraph
from saywright.markup.tree import SPAN_MARKS, Paragraph, Part, Range, Span

_KEEP = SPAN_MARKS["keep"]
_WORD = re.compile(r"[^\W_]+(?:['’][^\W_]+)*")
_SPECIAL = re.compile(f"[{re.escape(ESCAPABLE)}]")
_BLANKS = re.compile(r"\s+")

Words = str
"""A line's words and nothing else, case aside, with a blank before, between and after them."""


class KeptLine(NamedTuple):
    """A kept line of a draft: its offsets in the file, marks and all, its words, its spoken text,
    and the text that it is written out as (lines of it, in verse)."""

    start: int
    end: int
    draft: Part
    words: Words
    plain: str
    text: str


def kept_lines(analysis: Analysis, draft: Part | None = None) -> Iterator[KeptLine]:
    """Those of all drafts, or of one, in the file's order."""
    for part in analysis.parts:
        if part.kind == "draft" and (draft is None or part == draft):
            verse = part.settings.form == "verse"
            for start, paragraph in paragraphs_of(analysis, part):
                for span in _outermost(paragraph) if paragraph.keeps else ():
                    if line := _line(paragraph, span, verse):
                        where = Range(start + span.start, start + span.end)
                        yield KeptLine(*where, part, words_of(line[0]), *line)


def paragraphs_of(analysis: Analysis, part: Part) -> Iterator[tuple[int, Paragraph]]:
    """A part's paragraphs with their file offsets."""
    start = part.start
    blocks = analysis.blocks.items(part.first_block)
    for each in islice(blocks, part.end_block - part.first_block):
        if isinstance(each.block, Paragraph):
            yield start, each.block
        start += len(each.block.text)


@lru_cache(maxsize=4096)
def words_of(plain: str) -> Words:
    found = _WORD.findall(plain.casefold().replace("’", "'"))
    return f" {' '.join(found)} " if found else ""


def places_of_words(plain: str) -> tuple[Range, ...]:
    """Where each of the words that `words_of` tells stands in `plain`."""
    return tuple(Range(*match.span()) for match in _WORD.finditer(plain))


def _outermost(paragraph: Paragraph) -> Iterator[Span]:
    end = 0
    for span in paragraph.spans:
        if span.kind == "keep" and span.start >= end:
            end = span.end
            yield span


def _line(paragraph: Paragraph, span: Span, verse: bool) -> tuple[str, str] | None:
    """The spoken text of a kept span and the text to write, or None where it has no words."""
    start, end = (paragraph.plain_of(edge) for edge in span.inner)
    plain = paragraph.plain[start:end].strip()
    if not words_of(plain):
        return None
    written = [_without(paragraph, span, gone) for gone in ((), _torn(paragraph, span))]
    if not verse:
        written = [_BLANKS.sub(" ", each) for each in written]
    text = _on_its_own(tuple(written), plain)
    return (plain, text) if text else None


@lru_cache(maxsize=4096)
def _on_its_own(written: tuple[str, ...], plain: str) -> str | None:
    """What is to be written for a kept line to be read as one: the first that is, or its words."""
    for text in (*written, _escaped(plain)):
        if _reads_as_kept(text, plain):
            return text
    return None


def _torn(paragraph: Paragraph, span: Span) -> tuple[Range, ...]:
    """The marks in a kept span that cannot stand in it alone: those of cuts, since what is kept is
    spoken whatever cut is around it, and those whose partner is elsewhere."""
    torn: list[Range] = []
    for each in paragraph.spans:
        marks = Range(each.start, each.inner.start), Range(each.inner.end, each.end)
        inside = [mark for mark in marks if span.inner.start <= mark.start < span.inner.end]
        if each.kind == "cut" or len(inside) == 1:
            torn += inside
    return tuple(torn)


def _without(paragraph: Paragraph, span: Span, gone: tuple[Range, ...]) -> str:
    """A span's text without what is `gone` of it, and without its notes."""
    text, at = [], span.start
    for start, end in sorted((*paragraph.notes, *gone)):
        if span.start < end and start < span.end:
            text.append(paragraph.text[at : max(start, at)])
            at = max(at, end)
    return "".join((*text, paragraph.text[at : span.end]))


def _escaped(plain: str) -> str:
    """The words with nothing that could be read as a mark."""
    text = _SPECIAL.sub(r"\\\g<0>", _BLANKS.sub(" ", plain))
    return f"{_KEEP}{text}{_KEEP}"


def _reads_as_kept(text: str, plain: str) -> bool:
    """Whether `text` on its own is one kept line that says `plain`."""
    read = read_paragraph(text)
    kept = [read.plain[start:end] for start, end in read.keeps]
    said = _BLANKS.sub(" ", plain)
    return not read.problems and len(kept) == 1 and _BLANKS.sub(" ", kept[0]).strip() == said
