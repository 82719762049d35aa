"""What is known of a problem's lines and bonds whatever the time and the plans to differ from."""

from math import gcd
from typing import NamedTuple

from saywright.cuts.planning.problem import Bond, Line, Problem
from saywright.cuts.planning.rows import (
    Row,
    Stays,
    longest_pause,
    refund,
    rows_of,
    stays_of,
)
from saywright.cuts.planning.torn import Torn, torn_sets


class Ground(NamedTuple):
    """For each line its row, its bonds, what it is if it stays, and the ticks that the fixed lines
    after it sound. `refunds`: what a pass charges for a pause that is never made, if the last line
    stays or goes. The points of any two plans differ by a multiple of `unit`, and none has more
    than `points`."""

    lines: tuple[Line, ...]
    bonds: tuple[Bond, ...]
    rows: list[Row]
    torn: list[Torn]
    stays: list[list[Stays]]
    fixed_after: list[int]
    refunds: tuple[int, int]
    unit: int
    points: int


def ground_of(problem: Problem) -> Ground:
    lines, bonds = problem.lines, problem.bonds
    stays = stays_of(problem)
    points = sum(abs(line.worth) + line.enter + line.leave for line in lines)
    return Ground(
        lines,
        bonds,
        rows_of(problem, stays),
        torn_sets(problem),
        stays,
        _fixed_after(problem),
        (refund(lines[-1]), longest_pause(problem)),
        _unit(problem),
        points + sum(bond.cost for bond in bonds),
    )


def _unit(problem: Problem) -> int:
    points = [each for line in problem.lines for each in (line.worth, line.enter, line.leave)]
    points += [trim.worth for line in problem.lines for trim in line.trims]
    return gcd(*points, *(bond.cost for bond in problem.bonds)) or 1


def _fixed_after(problem: Problem) -> list[int]:
    after: list[int] = []
    total = 0
    for line in reversed(problem.lines):
        after.append(total)
        total += line.sound if line.fixed else 0
    return after[::-1]
