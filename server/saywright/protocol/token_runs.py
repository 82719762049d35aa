"""A script's tokens as the protocol counts them, a run of numbers for each block.

A token is five numbers: lines from the token before it, characters from that token where it is on
the same line and from the line's start where not, its length, its type and its modifiers. Blocks
end where lines do, so a run means the same wherever its block stands, but for the lines before its
first token. Runs are summed up as blocks are, so that an edit costs no more in a long script.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import islice
from typing import NamedTuple

from saywright.colouring.token import TokenKind
from saywright.colouring.tokens import tokens
from saywright.markup.tree import Blank, Block
from saywright.measured import Measured
from saywright.positions import Encoding, lines_of
from saywright.speech.timed_block import Blocks

NUMBERS = 5  # of a token


class Look(NamedTuple):
    """A type and a set of modifiers, by their numbers in the legend."""

    type: int
    modifiers: int


@dataclass(frozen=True, slots=True)
class Count:
    """Sums over runs: numbers, and lines that end after the last token (or at all, if none is)."""

    numbers: int = 0
    lines: int = 0

    def __add__(self, other: "Count") -> "Count":
        lines = other.lines if other.numbers else self.lines + other.lines
        return Count(self.numbers + other.numbers, lines)


class Run(NamedTuple):
    """A block's tokens. The first number counts from the block's first line."""

    block: Block
    numbers: Sequence[int]
    sum: Count


Runs = Measured[Run, Count]


@dataclass(frozen=True, slots=True)
class Encoder:
    """`looks`: how each kind of token is shown; one that is not there is left out."""

    looks: Mapping[TokenKind, Look]
    encoding: Encoding

    def run(self, block: Block) -> Run:
        text = block.text
        lines = text.count("\n") + text.count("\r") - text.count("\r\n")
        if isinstance(block, Blank):
            return Run(block, (), Count(0, lines))
        numbers: list[int] = []
        index = lines_of(text)
        line = character = 0
        for kind, start, end in tokens(block):
            look = self.looks.get(kind)
            if look:
                at = index.position_from_offset(start, self.encoding)
                length = index.position_from_offset(end, self.encoding).character - at.character
                before = character if at.line == line else 0
                numbers += (at.line - line, at.character - before, length, *look)
                line, character = at
        return Run(block, numbers, Count(len(numbers), lines - line))

    def runs(self, blocks: Blocks, known: "Version | None" = None) -> Runs:
        """The runs of all blocks: of those that `known` has too they are not made again."""
        if known is None:
            made = [self.run(item.block) for item in blocks.items()]
            return Measured(_sum_of, Count(), made)
        start, end = blocks.shared_with(known.blocks)
        last = len(known.blocks) - end
        same = {id(run.block): run for run in islice(known.runs.items(start), last - start)}
        changed = islice(blocks.items(start), len(blocks) - end - start)
        made = [same.get(id(item.block)) or self.run(item.block) for item in changed]
        return known.runs.spliced(start, last, made)

    def between(self, blocks: Blocks, first: int, last: int) -> list[int]:
        """The numbers of the tokens on the lines from `first` to `last`."""
        found = blocks.find(lambda sum: sum.lines > first)
        index = found.index if found else max(len(blocks) - 1, 0)
        line = blocks.sum_between(0, index).lines
        numbers: list[int] = []
        told = 0
        for item in blocks.items(index):
            if line > last:
                break
            run = self.run(item.block)
            for at in range(0, len(run.numbers), NUMBERS):
                line += run.numbers[at]
                if first <= line <= last:
                    numbers += (line - told, *run.numbers[at + 1 : at + NUMBERS])
                    told = line
            line += run.sum.lines
        return numbers


def _sum_of(run: Run) -> Count:
    return run.sum


class Version(NamedTuple):
    """The blocks of one version of a script, and their runs."""

    blocks: Blocks
    runs: Runs


class Change(NamedTuple):
    """Numbers that are put in the place of `deleted` ones after the first `start`."""

    start: int
    deleted: int
    numbers: list[int]


def all_numbers(runs: Runs) -> list[int]:
    return _numbers(runs, 0, len(runs))


def changes(old: Version, new: Version) -> list[Change]:
    """What makes the numbers of the old version those of the new one, in order, each as small as
    can be: no token stands in it that is the same before and after."""
    found = (_change(old, new, each) for each in _stretches(old, new))
    return [change for change in found if change]


def _numbers(runs: Runs, first: int, end: int) -> list[int]:
    """Those of the runs from index `first` up to `end`; the first token counts from that before."""
    numbers: list[int] = []
    lines = runs.sum_between(0, first).lines
    for run in islice(runs.items(first), end - first):
        at = len(numbers)
        numbers += run.numbers
        if run.numbers:
            numbers[at] += lines
            lines = 0
        lines += run.sum.lines
    return numbers


class _Stretch(NamedTuple):
    """Blocks of the old version by their indices, and those of the new that are in their place."""

    first: int
    end: int
    new_first: int
    new_end: int


def _stretches(old: Version, new: Version) -> Iterator[_Stretch]:
    """What lies between the blocks with tokens that both versions have."""
    start, at_end = new.blocks.shared_with(old.blocks)
    end, new_end = len(old.runs) - at_end, len(new.runs) - at_end
    same = {
        id(run.block): index
        for index, run in enumerate(islice(old.runs.items(start), end - start), start)
        if run.numbers
    }
    first = new_first = start
    for new_index, run in enumerate(islice(new.runs.items(start), new_end - start), start):
        index = same.get(id(run.block), -1)
        if index >= first:
            yield _Stretch(first, index, new_first, new_index)
            first, new_first = index + 1, new_index + 1
    yield _Stretch(first, end, new_first, new_end)


def _change(old: Version, new: Version, stretch: _Stretch) -> Change | None:
    before = _numbers(old.runs, stretch.first, stretch.end) + _next(old.runs, stretch.end)
    after = _numbers(new.runs, stretch.new_first, stretch.new_end) + _next(
        new.runs, stretch.new_end
    )
    most = min(len(before), len(after))
    same = _same(before, after, range(0, most, NUMBERS))
    rest = most - same
    same_at_end = _same(before, after, range(-NUMBERS, -rest - 1, -NUMBERS))
    start = old.runs.sum_between(0, stretch.first).numbers + same
    deleted = len(before) - same - same_at_end
    numbers = after[same : len(after) - same_at_end]
    return Change(start, deleted, numbers) if deleted or numbers else None


def _same(before: list[int], after: list[int], tokens: Iterable[int]) -> int:
    """How many numbers are the same, from the first of the tokens on."""
    same = 0
    for at in tokens:
        end = at + NUMBERS or None
        if before[at:end] != after[at:end]:
            break
        same += NUMBERS
    return same


def _next(runs: Runs, index: int) -> list[int]:
    """The first token of the runs from `index` on."""
    found = runs.find(lambda sum: sum.numbers > 0, index)
    if not found:
        return []
    lines = runs.sum_between(0, found.index).lines
    numbers = list(found.item.numbers[:NUMBERS])
    numbers[0] += lines
    return numbers
