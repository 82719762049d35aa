"""How often a course differs from the plans that it must be unlike, and what is paid for that."""

from collections.abc import Sequence
from typing import TypeVar

from saywright.cuts.planning.problem import Problem, Unlike

BITS = 16
"""For each of those plans, in one number that counts the differences from all."""

_NONE = float("-inf")
_Number = TypeVar("_Number", int, float)


class Differing:
    """From which plans a course differs in each line, for sums over those plans."""

    def __init__(self, problem: Problem) -> None:
        differs = _differing(problem)
        self._kinds = list(dict.fromkeys(differs))
        numbers = {kind: number for number, kind in enumerate(self._kinds)}
        self._lines = [numbers[each] for each in differs]

    def summed(self, numbers: Sequence[_Number]) -> list[tuple[_Number, ...]]:
        """For each line the numbers of the plans from which a course differs there, added up, if
        the line goes, stays or is trimmed. Of prices: what is paid for that; of `ones`: by what it
        differs more."""
        sums = [
            tuple([sum([n for at, n in enumerate(numbers) if bits >> at & 1]) for bits in kind])
            for kind in self._kinds
        ]
        return [sums[kind] for kind in self._lines]


def ones(problem: Problem) -> list[int]:
    return [1 << BITS * number for number in range(len(problem.unlike))]


def _differing(problem: Problem) -> list[tuple[int, ...]]:
    """For each line, from which of the plans that it must be unlike a course differs there, a bit
    for each, if the line goes, stays or is trimmed."""
    found = [(0,) * (len(line.trims) + 2) for line in problem.lines]
    for number, each in enumerate(problem.unlike):
        for index, stays in enumerate(each.kept):
            if stays != 1:
                found[index] = tuple(
                    bits | (what != stays) << number for what, bits in enumerate(found[index])
                )
    return found


class Enough(dict[int, int]):
    """Of so many differences those that count: from no plan more than are asked for."""

    def __init__(self, unlike: Sequence[Unlike]) -> None:
        super().__init__()
        self._least = [each.least for each in unlike]

    def __missing__(self, differs: int) -> int:
        rest, enough = differs, 0
        for number, least in enumerate(self._least):
            rest, own = divmod(rest, 1 << BITS)
            enough |= min(own, least) << BITS * number
        self[differs] = enough
        return enough


class Paid(dict[int, float]):
    """What is paid for differences less what is asked for; more than is asked for of one plan pays
    no more. Nothing is enough where `ahead` there are not so many left as are wanted still."""

    def __init__(
        self, unlike: Sequence[Unlike], prices: Sequence[float], ahead: Sequence[int]
    ) -> None:
        super().__init__()
        self._each = [
            (price, each.least, each.least - more)
            for price, each, more in zip(prices, unlike, ahead, strict=True)
        ]

    def __missing__(self, differs: int) -> float:
        paid = 0.0
        rest = differs
        for price, least, fewest in self._each:
            rest, number = divmod(rest, 1 << BITS)
            paid += price * (min(number, least) - least) if number >= fewest else _NONE
        self[differs] = paid
        return paid


def paid_after(problem: Problem, prices: Sequence[float]) -> list[Paid]:
    """For each line, what is paid for differences up to it."""
    ahead = [0] * len(problem.unlike)
    paid = Paid(problem.unlike, prices, ahead)
    found: list[Paid] = []
    for index in reversed(range(len(problem.lines))):
        found.append(paid)
        more = [each.kept[index] != 1 for each in problem.unlike]
        if any(more):
            ahead = [one + other for one, other in zip(ahead, more, strict=True)]
            paid = Paid(problem.unlike, prices, ahead)
    return found[::-1]
