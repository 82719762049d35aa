"""Which bonds are open at each line, for a search that goes through the lines once."""

from collections import defaultdict
from collections.abc import Sequence
from typing import NamedTuple

from saywright.cuts.planning.passes import Prices
from saywright.cuts.planning.problem import Problem


class OpenBonds(NamedTuple):
    """The bonds of one line, each as the early line's bit, the cost and the price: `ending` with
    it, and `open_after` it. `still`: the bits of bonds from before that stay open. Its own bit,
    and the price of all that begin with it."""

    ending: tuple[tuple[int, int, int], ...]
    open_after: tuple[tuple[int, int, int], ...]
    still: int
    own: int
    price: int


def open_bonds(problem: Problem, prices: Prices) -> list[OpenBonds]:
    earlies = sorted({bond.early for bond in problem.bonds})
    bits = {early: 1 << number for number, early in enumerate(earlies)}
    priced = list(zip(problem.bonds, prices.bonds, strict=True))
    beginning: dict[int, list[int]] = defaultdict(list)
    ending: dict[int, list[int]] = defaultdict(list)
    for number, (bond, _) in enumerate(priced):
        beginning[bond.early].append(number)
        ending[bond.late].append(number)
    found: list[OpenBonds] = []
    after: dict[int, tuple[int, int, int]] = {}
    for index in range(len(problem.lines)):
        here = tuple(after.pop(number) for number in ending[index])
        still = 0
        for early, _, _ in after.values():
            still |= early
        for number in beginning[index]:
            bond, price = priced[number]
            after[number] = (bits[bond.early], bond.cost, price)
        own = sum(priced[number][1] for number in beginning[index])
        found.append(OpenBonds(here, tuple(after.values()), still, bits.get(index, 0), own))
    return found


def stakes_of(open_after: Sequence[tuple[int, int, int]], torn: int) -> tuple[int, int]:
    """Of the open bonds: the prices that were charged in advance, and what may yet be lost."""
    charged = at_worst = 0
    for early, cost, price in open_after:
        if torn & early:
            at_worst += cost
        else:
            charged += price
    return charged, at_worst
