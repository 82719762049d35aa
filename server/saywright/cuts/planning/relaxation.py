"""A bound on what any plan can reach, from a price on time and one on each bond.

Take the limit of time and the bonds out of the problem, and charge for them instead: so many
points a tick, so many for a late line that stays, paid to the early line of its bond. What is
left joins neighbours only, and the best of it is found in one pass (`passes`). It reaches at
least what the best plan does, at any prices (a Lagrangian relaxation); the prices that make it
least are looked for here.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from saywright.cuts.planning.passes import Course, Passes, Prices, ToGo
from saywright.cuts.planning.problem import Problem

_PATIENCE = 2
_MOST_PASSES = 40
_SLACK = 1e-6
_OTHER_PRICES = (0.8, 1.25)


@dataclass(frozen=True)
class Relaxation:
    """A problem at certain prices. `bound`: no plan has more points. `courses`: the best that are
    too long and not; `to_go` is for several prices of time, since what lies ahead may be worth more
    or less a tick than the whole."""

    problem: Problem
    prices: Prices
    bound: float
    courses: tuple[Course, Course]
    to_go: tuple[ToGo, ...]


def relaxed(problem: Problem, rounds: int = 6, start: Prices | None = None) -> Relaxation | None:
    """The problem at good prices, found in so many rounds from those of `start`; None where no
    time is enough."""
    passes = Passes(problem)
    limit = problem.limit - problem.before
    bonds = start.bonds if start else (0,) * len(problem.bonds)
    worth = passes.worth(bonds)
    long = passes.best(worth, 0.0, bonds)
    short = passes.best(worth, passes.dearest, bonds)
    if short.ticks > limit:
        return None
    if start and long.ticks > limit:
        near = passes.best(worth, start.per_tick, bonds)
        long, short = (near, short) if near.ticks > limit else (long, near)
    best: tuple[float, Prices, tuple[Course, Course]] | None = None
    usual = sum(line.worth for line in problem.lines) / len(problem.lines)
    waited = 0
    for count in range(rounds):
        bound, per_tick, long, short = _at_best_price_of_time(passes, bonds, long, short, limit)
        if best is None or bound < best[0] - _SLACK:
            waited = 0 if best is None or bound < best[0] - 1 else waited + 1
            best = bound, Prices(per_tick, bonds), (long, short)
        else:
            waited += 1
        following = _moved(problem, bonds, long, short, usual / (1.5 + count))
        if following == bonds or waited > _PATIENCE:
            break
        bonds = following
    assert best
    bound, prices, courses = best
    to_go = tuple(passes.to_go(prices, factor) for factor in (1.0, *_OTHER_PRICES))
    return Relaxation(problem, prices, bound, courses, to_go)


def _at_best_price_of_time(
    passes: Passes, bonds: Sequence[int], long: Course, short: Course, limit: int
) -> tuple[float, float, Course, Course]:
    """The least bound over all prices of time, that price, and the courses that meet there: one
    that is too long, and one that is not. Begins with two such courses."""
    worth = passes.worth(bonds)
    own = passes.own_points
    if long.ticks <= limit:
        long = passes.best(worth, 0.0, bonds)
        if long.ticks <= limit:
            return own(long, bonds), 0.0, long, long
    price = 0.0
    bound = float("inf")
    for _ in range(_MOST_PASSES):
        price = max((own(long, bonds) - own(short, bonds)) / (long.ticks - short.ticks), 0.0)
        reached = own(short, bonds) - price * (short.ticks - limit)
        found = passes.best(worth, price, bonds)
        bound = own(found, bonds) - price * (found.ticks - limit)
        if bound <= reached + _SLACK or price == 0.0:
            break
        long, short = (found, short) if found.ticks > limit else (long, found)
    return bound + _SLACK, price, long, short


def _moved(
    problem: Problem, bonds: Sequence[int], long: Course, short: Course, step: float
) -> tuple[int, ...]:
    """Other prices, towards those at which what the two courses share between them tears no bond
    (a subgradient step)."""
    limit = problem.limit - problem.before
    between = long.ticks - short.ticks
    share = min(max((limit - short.ticks) / between, 0.0), 1.0) if between else 0.0

    def mean(line: int) -> float:
        return share * (long.kept >> line & 1) + (1 - share) * (short.kept >> line & 1)

    return tuple(
        min(max(price + round(step * (mean(bond.late) - mean(bond.early))), 0), bond.cost)
        for bond, price in zip(problem.bonds, bonds, strict=True)
    )
