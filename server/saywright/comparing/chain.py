"""The matches between two stretches, in order, that have most in common: dynamic programming.

A match pairs a sentence with one, or with two that it was split into. Its worth is the letters of
the words that both have, the more the better it is alike; what matches nothing is worth nothing.
"""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from saywright.comparing.likeness import Words, letters, share, shared_letters, shared_of_all

_ALIKE, _ALIKE_SPLIT = 0.5, 0.75
_OF_A_HALF = 0.65  # as much of each half must stand in the whole
_HALVES = 1.7  # of the letters of the whole: with more, no two halves can be so alike
_FINE = 1000

Numbers = tuple[int, ...]


class _Step(NamedTuple):
    """Into a cell: how many sentences of either side, and what the match is worth."""

    length: int
    other_length: int
    worth: int


def best_chain(
    ones: Sequence[Words], twos: Sequence[Words], first: int = 0, other_first: int = 0
) -> list[tuple[Numbers, Numbers]]:
    """The numbers that match, counted from `first` and from `other_first`; what matches nothing
    is left out."""
    may_match = _Steps(ones, twos)
    best = [[0] * (len(twos) + 1) for _ in range(len(ones) + 1)]
    taken: dict[tuple[int, int], _Step] = {}
    for row in range(1, len(ones) + 1):
        above, own = best[row - 1], best[row]
        steps = may_match.ending_in(row)
        most = 0
        for column in range(1, len(twos) + 1):
            most = max(above[column], most)
            for step in steps.get(column, ()):
                worth = best[row - step.length][column - step.other_length] + step.worth
                if worth > most:
                    most = worth
                    taken[row, column] = step
            own[column] = most
    return [
        (
            tuple(range(first + row - step.length, first + row)),
            tuple(range(other_first + column - step.other_length, other_first + column)),
        )
        for row, column, step in reversed(list(_way_back(best, taken)))
    ]


def _way_back(
    best: list[list[int]], taken: dict[tuple[int, int], _Step]
) -> Iterator[tuple[int, int, _Step]]:
    row, column = len(best) - 1, len(best[0]) - 1
    while row and column:
        if step := taken.get((row, column)):
            yield row, column, step
            row, column = row - step.length, column - step.other_length
        elif best[row - 1][column] == best[row][column]:
            row -= 1
        else:
            column -= 1


class _Steps:
    """What may match."""

    def __init__(self, ones: Sequence[Words], twos: Sequence[Words]) -> None:
        self._ones, self._twos = ones, twos
        self._sizes = [letters(words) for words in ones]
        self._other_sizes = [letters(words) for words in twos]
        self._shared = shared_of_all(ones, twos)

    def ending_in(self, row: int) -> dict[int, list[_Step]]:
        """Those that end before `row`, by the column that they end before."""
        found: defaultdict[int, list[_Step]] = defaultdict(list)
        one = row - 1
        size, own = self._sizes[one], self._shared[one]
        for two, (both, other_size) in enumerate(zip(own, self._other_sizes, strict=True)):
            if not both:
                continue
            alike = share(both, size, other_size)
            if alike >= _ALIKE:
                found[two + 1].append(_Step(1, 1, _worth(both, alike)))
            if two and other_size + self._other_sizes[two - 1] <= _HALVES * size:
                found[two + 1] += self._split(one, two)
            if one and size + self._sizes[one - 1] <= _HALVES * other_size:
                found[two + 1] += self._joined(one, two)
        return found

    def _split(self, one: int, last: int) -> Iterator[_Step]:
        sizes = (self._other_sizes[last - 1], self._other_sizes[last])
        shared = (self._shared[one][last - 1], self._shared[one][last])
        if _may_be_halves(self._sizes[one], sizes, shared):
            halves = self._twos[last - 1] + self._twos[last]
            yield from _step_of_halves(1, 2, self._ones[one], halves)

    def _joined(self, last: int, two: int) -> Iterator[_Step]:
        sizes = (self._sizes[last - 1], self._sizes[last])
        shared = (self._shared[last - 1][two], self._shared[last][two])
        if _may_be_halves(self._other_sizes[two], sizes, shared):
            halves = self._ones[last - 1] + self._ones[last]
            yield from _step_of_halves(2, 1, self._twos[two], halves)


def _may_be_halves(size: int, sizes: tuple[int, int], shared: tuple[int, int]) -> bool:
    """Whether the sentences of `sizes`, which share so much with one of `size`, could be it."""
    if shared[0] < _OF_A_HALF * sizes[0] or shared[1] < _OF_A_HALF * sizes[1]:
        return False
    return share(min(sum(shared), size), size, sum(sizes)) >= _ALIKE_SPLIT


def _step_of_halves(length: int, other_length: int, whole: Words, halves: Words) -> Iterator[_Step]:
    both = shared_letters(whole, halves)
    alike = share(both, letters(whole), letters(halves))
    if alike >= _ALIKE_SPLIT:
        # one less: of two ways that are worth as much, sentence with sentence
        yield _Step(length, other_length, _worth(both, alike) - 1)


def _worth(shared: int, alike: float) -> int:
    return round(_FINE * shared * alike)
