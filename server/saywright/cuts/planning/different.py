"""Plans that differ: each the best of those that leave in enough of what earlier ones cut."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from saywright.cuts.planning.material import Material, fixed
from saywright.cuts.planning.passes import Prices
from saywright.cuts.planning.problem import Kept, Line, Problem, ticks
from saywright.cuts.planning.solver import EXACT_LINES, QUICK, WIDER, Solution, solve
from saywright.cuts.planning.value import POINTS

_CLOSE = 0.95
_DIFFERENT = 3  # of what another plan cuts, one line in so many stays
_TRIES = 6
_FEW_LINES = 30  # up to so many, the other plans too are the best of their kind
_SHORTFALL = 60.0  # mean worth of a second, for each second that a plan is too short

_Widths = Sequence[int | None] | None


def different(material: Material, count: int) -> Iterator[Solution]:
    """Up to `count` plans, the best first."""
    earlier: list[Kept] = []
    prices: Prices | None = None
    for _ in range(count):
        found = _unlike(material, earlier, prices)
        if found is None:
            return
        prices = found.prices
        earlier.append(found.kept)
        yield found


def _unlike(material: Material, earlier: Sequence[Kept], prices: Prices | None) -> Solution | None:
    """The best plan that differs enough from `earlier`: of the problem in which what those cut
    is worth more, by as little as it takes. One that ends close to the aim, if there is one."""
    problem = material.problem
    if not earlier:
        return _closest(material, problem, prices, None)
    mean = sum(line.worth for line in problem.lines) / len(problem.lines)
    widths = QUICK if _FEW_LINES < len(problem.lines) <= EXACT_LINES else None
    for search in (_closest, _fitting):
        more = mean / 3
        for _ in range(_TRIES):
            found = search(material, _dearer(problem, earlier, round(more)), prices, widths)
            if found is None:
                return None
            if all(_differs(found.kept, other) for other in earlier):
                return found
            more *= 2
    return None


def _differs(kept: Kept, other: Kept) -> bool:
    changed = [index for index, stays in enumerate(other) if stays != 1]
    return _DIFFERENT * sum(kept[index] != other[index] for index in changed) >= len(changed)


def _dearer(problem: Problem, earlier: Sequence[Kept], points: int) -> Problem:
    """The problem where not to do to a line what a plan does to it is worth `points` more, for
    each plan."""
    points = round(points / POINTS) * POINTS
    lines = tuple(
        _dearer_line(line, [kept[index] for kept in earlier if kept[index] != 1], points)
        for index, line in enumerate(problem.lines)
    )
    return replace(problem, lines=lines)


def _dearer_line(line: Line, done: Sequence[int], points: int) -> Line:
    if not done:
        return line
    trims = tuple(
        trim._replace(worth=trim.worth + points * sum(number != each for each in done))
        for number, trim in enumerate(line.trims, 2)
    )
    return line._replace(worth=line.worth + points * len(done), trims=trims)


def _closest(
    material: Material, problem: Problem, prices: Prices | None, widths: _Widths
) -> Solution | None:
    """The best plan by the exact time, and close below it where that can be."""
    found = _fitting(material, problem, prices, widths)
    if found is None or material.piece.seconds_of(found.kept) >= _CLOSE * material.aim_seconds:
        return found
    total = sum(line.worth for line in problem.lines)
    sound = sum(line.sound for line in problem.lines)
    floor = ticks(_CLOSE * material.aim_seconds)
    fuller = replace(problem, floor=floor, shortfall=_SHORTFALL * total / sound)
    return _fitting(material, fuller, found.prices, widths and WIDER) or found


def _fitting(
    material: Material, problem: Problem, prices: Prices | None, widths: _Widths
) -> Solution | None:
    """The best plan that fits and can be marked.

    Where a pause depends on what follows, the problem holds what it mostly is: if the plan turns
    out too long, it is tried again with so much less time. Where the marks of a cut would not be
    read, as those of a sentence without a blank after it, that line is tried as one that stays.
    """
    for _ in range(_TRIES):
        found = solve(problem, prices, widths)
        if found is None or not any(found.kept):
            return None
        unmarkable = material.unmarkable(found.kept)
        over = material.piece.seconds_of(found.kept) - material.aim_seconds
        if not unmarkable and over <= 0:
            return found
        if over > 0:
            problem = replace(problem, limit=problem.limit - max(ticks(over), 1))
        if unmarkable:
            problem = fixed(problem, unmarkable)
    return None
