"""How often a course differs from the plans that it must be unlike, and what is paid for that."""

from collections.abc import Sequence

from saywright.cuts.planning.passes import Prices
from saywright.cuts.planning.problem import Problem, Unlike

BITS = 16
"""For each of those plans, in one number that counts the differences from all."""

_MANY = 1 << 30


class Paid(dict[int, float]):
    """What is paid at certain prices for differences, less what is asked for; more than is asked
    for of one plan pays no more."""

    def __init__(self, unlike: Sequence[Unlike], prices: Prices, ahead: Sequence[int] = ()) -> None:
        super().__init__()
        self._each = [
            (price, each.least, each.least - more)
            for price, each, more in zip(
                prices.unlike, unlike, ahead or [_MANY] * len(unlike), strict=True
            )
        ]

    def __missing__(self, differs: int) -> float:
        paid = 0.0
        rest = differs
        for price, least, fewest in self._each:
            rest, number = divmod(rest, 1 << BITS)
            paid += price * (min(number, least) - least) if number >= fewest else float("-inf")
        self[differs] = paid
        return paid


def differences(problem: Problem) -> list[list[int]]:
    """For each line, by what a course differs more from the plans that it must be unlike if the
    line goes, stays or is trimmed."""
    return [
        [
            sum(
                each.differs(index, what) << BITS * number
                for number, each in enumerate(problem.unlike)
            )
            for what in range(len(line.trims) + 2)
        ]
        for index, line in enumerate(problem.lines)
    ]


def paid_after(problem: Problem, prices: Prices) -> list[Paid]:
    """The same for each line, and that no differences are enough that the lines after it cannot
    bring to what is asked for."""
    ahead = [0] * len(problem.unlike)
    found: list[Paid] = []
    for index in reversed(range(len(problem.lines))):
        found.append(Paid(problem.unlike, prices, ahead))
        ahead = [
            more + (each.kept[index] != 1) for more, each in zip(ahead, problem.unlike, strict=True)
        ]
    return found[::-1]
