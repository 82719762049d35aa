"""What an offset stands in, from its word out to the whole file, each inside the next."""

from bisect import bisect_right
from collections.abc import Iterable, Iterator, Sequence
from functools import cached_property

from saywright.analysis import Analysis
from saywright.markup.tree import Range
from saywright.outlining.entry import Entry
from saywright.outlining.outline import outline
from saywright.outlining.within_block import marked, trimmed, within_block
from saywright.speech.voice import language_of


class Nesting:
    """Questions about many offsets of one script share what is known of the whole."""

    def __init__(self, analysis: Analysis) -> None:
        self._analysis = analysis
        self._length = analysis.blocks.sum.length

    def at(self, offset: int) -> list[Range]:
        """File offsets, the innermost first, each larger than the one before it and around it;
        the last is the whole file. Each holds or touches `offset`."""
        offset = min(max(offset, 0), self._length)
        spine: list[Range] = []
        marks: list[Range] = []
        index, start = self._block_at(offset)
        if index is not None:
            item = self._analysis.blocks[index]
            spine += _shifted(within_block(item, offset - start, self._language(index)), start)
            marks += _shifted(marked(item.block, offset - start), start)
        spine += self._around(offset)
        return _nested(spine, marks, offset)

    def _block_at(self, offset: int) -> tuple[int | None, int]:
        """The index and the start of the block that the offset stands in, or ends on the last
        line of."""
        blocks = self._analysis.blocks
        if found := blocks.find(lambda sum: sum.length > offset):
            return found.index, found.before.length
        last = len(blocks) - 1
        if last < 0 or blocks[last].block.text.endswith("\n"):
            return None, 0
        return last, self._length - len(blocks[last].block.text)

    def _language(self, index: int) -> str:
        parts = self._analysis.parts
        part = bisect_right(parts, index, key=lambda part: part.first_block) - 1
        settings = parts[part].settings if part >= 0 else self._analysis.settings
        return language_of(settings, self._analysis.project)

    @cached_property
    def _outline(self) -> tuple[Entry, ...]:
        return outline(self._analysis)

    @cached_property
    def _text(self) -> str:
        return self._analysis.text

    def _around(self, offset: int) -> Iterator[Range]:
        """The settings, or the turn, the unit and the part; and the file."""
        opening = self._analysis.blocks.sum_between(0, self._analysis.opening).length
        entries: Sequence[Entry] = self._outline
        wholes = [Range(0, opening)]
        while entries:
            entry = entries[bisect_right(entries, offset, key=lambda entry: entry.start) - 1]
            wholes.append(Range(entry.start, entry.end))
            entries = entry.children if entry.start <= offset <= entry.end else ()
        for whole in wholes:
            inside = trimmed(self._text, whole)
            if inside.start <= offset <= inside.end:
                yield inside
            elif offset < whole.end:  # where it ends, the next line begins
                yield whole
        yield Range(0, self._length)


def _shifted(ranges: Iterable[Range], by: int) -> Iterator[Range]:
    return (Range(start + by, end + by) for start, end in ranges)


def _nested(spine: Iterable[Range], marks: Iterable[Range], offset: int) -> list[Range]:
    """What of `spine` is nested, and what of `marks` cuts through none of it."""
    chain: list[Range] = []
    for where in sorted(spine, key=_length):
        last = chain[-1] if chain else None
        if _holds(where, offset) and (last is None or _is_inside(last, where)):
            chain.append(where)
    for where in sorted(marks, key=_length):
        if _holds(where, offset) and all(
            _is_inside(where, each) or _is_inside(each, where) for each in chain
        ):
            chain.append(where)
    return sorted(chain, key=_length) or [Range(0, 0)]


def _length(where: Range) -> int:
    return where.end - where.start


def _holds(where: Range, offset: int) -> bool:
    return where.start <= offset <= where.end and where.start < where.end


def _is_inside(one: Range, other: Range) -> bool:
    return other.start <= one.start and one.end <= other.end and one != other
