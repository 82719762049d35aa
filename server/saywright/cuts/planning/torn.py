"""Which bonds are torn already where a line is reached, for a way through the lines one by one."""

from collections import defaultdict
from typing import NamedTuple

from saywright.cuts.planning.problem import Bond, Problem


class Torn(NamedTuple):
    """For each set of early lines that are gone and that a line from here on leans on: the points
    that this line loses by it if it stays; and the set, by its number among the next line's, if it
    stays and if it goes. `ways`: the same for each set, its number if the line stays, what it loses
    then, and the number if it goes."""

    tolls: list[int]
    stays: list[int]
    goes: list[int]
    ways: list[tuple[int, int, int]]


def torn_sets(problem: Problem) -> list[Torn]:
    """For each line; its first set is the empty one."""
    until: dict[int, int] = {}
    ending: dict[int, list[Bond]] = defaultdict(list)
    for bond in problem.bonds:
        until[bond.early] = max(until.get(bond.early, 0), bond.late)
        ending[bond.late].append(bond)
    found: list[Torn] = []
    sets = [0]
    same = _torn([0], [0], [0])
    still = 0
    for index, line in enumerate(problem.lines):
        own = 1 << index if index in until and not line.fixed else 0
        if not own and index not in ending:
            found.append(same)
            continue
        still |= own
        here = [(1 << bond.early, bond.cost) for bond in ending[index]]
        for bond in ending[index]:
            if until[bond.early] == index:
                still &= ~(1 << bond.early)
        following = {0: 0}
        tolls: list[int] = []
        stays: list[int] = []
        goes: list[int] = []
        for torn in sets:
            tolls.append(sum([cost for early, cost in here if torn & early]) if here else 0)
            stays.append(following.setdefault(torn & still, len(following)))
            goes.append(
                following.setdefault((torn | own) & still, len(following)) if own else stays[-1]
            )
        found.append(_torn(tolls, stays, goes))
        sets = list(following)
        numbers = list(range(len(sets)))
        same = _torn([0] * len(sets), numbers, numbers)
    return found


def _torn(tolls: list[int], stays: list[int], goes: list[int]) -> Torn:
    return Torn(tolls, stays, goes, list(zip(stays, tolls, goes, strict=True)))
