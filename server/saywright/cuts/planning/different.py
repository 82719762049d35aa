"""Plans that differ: each the best of those that leave in enough of what earlier ones cut."""

from collections.abc import Iterator
from dataclasses import replace

from saywright.cuts.planning.material import Material, fixed
from saywright.cuts.planning.problem import Kept, Problem, Unlike, ticks
from saywright.cuts.planning.solver import Solution, solve

_CLOSE = 0.95
_DIFFERENT = 3  # of what another plan cuts, one line in so many stays
_TRIES = 6
_SHORTFALL = 3000.0  # mean worth of a second, for each second too short: so it is, if it must be


def different(material: Material, count: int) -> Iterator[Solution]:
    """Up to `count` plans, the best first."""
    problem = material.problem
    before: Solution | None = None
    for _ in range(count):
        found = _closest(material, problem, before)
        if found is None:
            return
        yield found
        before = found
        problem = replace(problem, unlike=(*problem.unlike, _unlike(found.kept)))


def _unlike(kept: Kept) -> Unlike:
    changed = sum(stays != 1 for stays in kept)
    return Unlike(kept, -(-changed // _DIFFERENT))


def _closest(material: Material, problem: Problem, like: Solution | None) -> Solution | None:
    """The best plan by the exact time, and close below it where that can be."""
    found = _fitting(material, problem, like)
    floor = _CLOSE * material.aim_seconds
    if found is None or material.piece.seconds_of(found.kept) >= floor:
        return found
    total = sum(line.worth for line in problem.lines)
    sound = sum(line.sound for line in problem.lines)
    fuller = replace(problem, floor=ticks(floor), shortfall=_SHORTFALL * total / sound)
    full = _fitting(material, fuller, found)
    seconds = material.piece.seconds_of(found.kept)
    return full if full and material.piece.seconds_of(full.kept) > seconds else found


def _fitting(material: Material, problem: Problem, like: Solution | None) -> Solution | None:
    """The best plan that fits and can be marked.

    Where a pause depends on what follows, the problem holds what it mostly is: if the plan turns
    out too long, it is tried again with so much less time. Where the marks of a cut would not be
    read, as those of a sentence without a blank after it, that line is tried as one that stays.
    """
    for _ in range(_TRIES):
        found = solve(problem, like)
        if found is None or not any(found.kept):
            return None
        unmarkable = material.unmarkable(found.kept)
        over = material.piece.seconds_of(found.kept) - material.aim_seconds
        if not unmarkable and over <= 0:
            return found
        like = found
        if over > 0:
            problem = replace(problem, limit=problem.limit - max(ticks(over), 1))
        if unmarkable:
            problem = fixed(problem, unmarkable)
    return None
