"""What of a script can be folded away: parts, units, settings, notes, cuts, directions."""

import re
from collections.abc import Iterable, Iterator
from itertools import islice
from typing import Literal, NamedTuple

from saywright.analysis import Analysis
from saywright.markup.tree import Block, Note, Paragraph, Range
from saywright.outlining.spoken import units_in

FoldKind = Literal["part", "settings", "unit", "notes", "cut", "direction"]
"""In the order of how much they matter."""

_ORDER: tuple[FoldKind, ...] = ("part", "settings", "unit", "notes", "cut", "direction")
_BLANK = re.compile(r"\s*")
_REST_OF_LINE = re.compile(r"[^\r\n]*")
_NOTHING_MORE = re.compile(r"[^\S\r\n]*(?:[\r\n]|\Z)")
_LINE_END = re.compile(r"[\r\n]")


class Fold(NamedTuple):
    """The file offsets between which all is folded away, over two lines at least.

    `is_whole`: nothing follows on the last line that is to stay in sight.
    """

    kind: FoldKind
    start: int
    end: int
    is_whole: bool


def folds(analysis: Analysis, most: int | None = None) -> list[Fold]:
    """In the file's order. Where there are more than `most`, what matters least is left out, and
    of what matters as much, what is shortest."""
    text = analysis.text
    found = [each for each in _all(analysis, text) if _LINE_END.search(text, each.start, each.end)]
    if most is not None and len(found) > most:
        found.sort(key=lambda fold: (_ORDER.index(fold.kind), fold.start - fold.end))
        del found[max(most, 0) :]
    return sorted(found, key=lambda fold: (fold.start, -fold.end))


def _all(analysis: Analysis, text: str) -> Iterator[Fold]:
    yield from _settings(analysis, text)
    for part in analysis.parts:
        if part.has_rule:
            yield _below("part", Range(part.start, part.end), text)
        items = islice(analysis.blocks.items(part.first_block), part.end_block - part.first_block)
        for unit in units_in(items, part.start, part.end):
            yield _below("unit", unit, text)
    inside = list(_inside_blocks(analysis))
    notes = [where for kind, where in inside if kind == "notes"]
    for where in _joined(notes, text, across_blanks=False):
        yield _below("notes", where, text)
    cuts = [where for kind, where in inside if kind == "cut"]
    for where in _joined(cuts, text, across_blanks=True):
        yield _within("cut", where, text)
    for kind, where in inside:
        if kind == "direction":
            yield _within("direction", where, text)


def _settings(analysis: Analysis, text: str) -> Iterator[Fold]:
    end = analysis.blocks.sum_between(0, analysis.opening).length
    start = _BLANK.match(text, 0, end)
    if start and start.end() < end:
        yield _below("settings", Range(start.end(), end), text)


def _inside_blocks(analysis: Analysis) -> Iterator[tuple[FoldKind, Range]]:
    start = 0
    for item in analysis.blocks.items():
        for kind, (first, end) in _inside(item.block):
            yield kind, Range(start + first, start + end)
        start += len(item.block.text)


def _inside(block: Block) -> Iterator[tuple[FoldKind, Range]]:
    if isinstance(block, Note):
        yield "notes", Range(0, len(block.text))
    elif isinstance(block, Paragraph):
        for note in block.notes:
            yield "notes", note
        for span in block.spans:
            if span.kind == "cut":
                yield "cut", Range(span.start, span.end)
        for direction in block.directions:
            yield "direction", Range(direction.start, direction.end)


def _joined(ranges: Iterable[Range], text: str, *, across_blanks: bool) -> Iterator[Range]:
    """Ranges with nothing between them as one."""
    run: Range | None = None
    for where in sorted(ranges):
        gap = _BLANK.match(text, run.end) if run and across_blanks else None
        reach = gap.end() if gap else run.end if run else -1
        if run and where.start <= reach:
            run = Range(run.start, max(run.end, where.end))
        else:
            if run:
                yield run
            run = where
    if run:
        yield run


def _below(kind: FoldKind, where: Range, text: str) -> Fold:
    """What stands below the first line of a range."""
    first = _REST_OF_LINE.match(text, where.start, where.end)
    end = where.start + len(text[where.start : where.end].rstrip())
    return Fold(kind, first.end() if first else where.start, end, True)


def _within(kind: FoldKind, where: Range, text: str) -> Fold:
    """What stands in a range after its first character."""
    return Fold(kind, where.start + 1, where.end, _NOTHING_MORE.match(text, where.end) is not None)
