"""The same problem as an integer program, for HiGHS to solve (in SciPy, `scipy.optimize.milp`).

A plan is a way from a start through the lines that stay to an end. A variable of 0 or 1 for each
step from one line that stays, whole or trimmed, to the next holds the time from the one to the
other, silences and pauses and all, and the points of the second less what the seam loses. For each
bond there is a variable that is 1 at least where it tears, and one for the ticks of the shortfall;
for each plan that is to be differed from, a row that counts in how many lines it is.
Source: Q. Huangfu and J. A. J. Hall, Parallelizing the dual revised simplex method, Mathematical
Programming Computation 10 (2018), for HiGHS.
"""

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_array

from saywright.cuts.planning.problem import TICKS_PER_SECOND, Problem


class _Step(NamedTuple):
    """From line `one` (-1: the start) to line `other` (the number of lines: the end); `as_one`
    and `as_other`: what those are, 0 the whole line, else a trim."""

    one: int
    as_one: int
    other: int
    as_other: int
    ticks: int
    points: int


def best_score(problem: Problem) -> float | None:
    """The score of the best plan; None where there is none."""
    steps = list(_steps(problem))
    count, bonds = len(problem.lines), problem.bonds
    first_bond, short = len(steps), len(steps) + len(bonds)
    nodes = [(line, each) for line in range(count) for each in range(_versions(problem, line))]
    row_of = {node: row for row, node in enumerate(nodes)}
    start = len(nodes)
    rows: list[dict[int, float]] = [{} for _ in range(start + 1)]
    stays: list[list[int]] = [[] for _ in range(count)]
    for number, step in enumerate(steps):
        if step.one == -1:
            rows[start][number] = 1.0
        else:
            rows[row_of[step.one, step.as_one]][number] = -1.0
        if step.other < count:
            rows[row_of[step.other, step.as_other]][number] = 1.0
            stays[step.other].append(number)
    low = high = [0.0] * start + [1.0]
    low, high = list(low), list(high)
    for number, bond in enumerate(bonds, first_bond):
        torn = dict.fromkeys(stays[bond.late], -1.0)
        for each in stays[bond.early]:
            torn[each] = torn.get(each, 0.0) + 1.0
        rows.append({**torn, number: 1.0})
        low.append(0.0)
        high.append(np.inf)
    time = {number: step.ticks / TICKS_PER_SECOND for number, step in enumerate(steps)}
    rows += [time, {**time, short: 1.0}]
    low += [-np.inf, problem.floor / TICKS_PER_SECOND]
    high += [problem.limit / TICKS_PER_SECOND, np.inf]
    for other, least in problem.unlike:
        gone = [line for line, what in enumerate(other) if not what]
        trimmed = {(line, what - 1) for line, what in enumerate(other) if what > 1}
        row = {number: 1.0 for line in gone for number in stays[line]}
        row.update(
            (number, -1.0)
            for number, step in enumerate(steps)
            if (step.other, step.as_other) in trimmed
        )
        rows.append(row)
        low.append(float(least - len(trimmed)))
        high.append(np.inf)
    lost = [-float(step.points) for step in steps] + [float(bond.cost) for bond in bonds]
    lost.append(problem.shortfall * TICKS_PER_SECOND)
    found = milp(
        np.array(lost),
        constraints=LinearConstraint(_matrix(rows, short + 1), np.array(low), np.array(high)),
        integrality=np.array([1] * first_bond + [0] * (len(bonds) + 1)),
        bounds=Bounds(0, np.array([1.0] * short + [np.inf])),
        options={"mip_rel_gap": 0.0},
    )
    return -float(found.fun) if found.success else None


def _matrix(rows: list[dict[int, float]], columns: int) -> csr_array:
    places = [(row, column, each) for row, of in enumerate(rows) for column, each in of.items()]
    row, column, value = zip(*places, strict=True)
    return csr_array((value, (row, column)), shape=(len(rows), columns))


def _versions(problem: Problem, line: int) -> int:
    return len(problem.lines[line].trims) + 1 if line >= 0 else 1


def _steps(problem: Problem) -> Iterator[_Step]:
    for one in range(-1, len(problem.lines)):
        for as_one in range(_versions(problem, one)):
            yield from _steps_from(problem, one, as_one)


def _steps_from(problem: Problem, one: int, as_one: int) -> Iterator[_Step]:
    lines = problem.lines
    end = len(lines)
    marked, natural = problem.before, 0
    if one >= 0:
        line = lines[one]
        marked = line.tail + line.after
        natural = line.versions[as_one].pause + (line.edge if line.ends else 0)
    has_crossed = one < 0 or lines[one].ends
    for other in range(one + 1, end):
        line = lines[other]
        gap = max(marked + line.lead, natural)
        seam = line.enter + (lines[one].leave if one >= 0 else 0) if other > one + 1 else 0
        for as_other, each in enumerate(line.versions):
            yield _Step(one, as_one, other, as_other, gap + each.sound, each.worth - seam)
        if line.fixed:
            break
        marked += line.left + line.after
        if line.ends and not has_crossed:
            natural, has_crossed = natural + lines[one].edge, True
    else:
        left = lines[one].leave if 0 <= one < end - 1 else 0
        yield _Step(one, as_one, end, 0, marked, -left)
