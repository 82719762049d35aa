"""A bound on what any plan can reach, from a price on time and one on being unlike other plans.

Take the limit of time out of the problem, and charge for time instead: so many points a tick; and
where a plan is to be unlike others, do not ask for so many differences, but pay for each. What is
left joins neighbours and the bonds that are open, and the best of it is found in one pass
(`passes`). It reaches at least what the best plan does, at any prices (a Lagrangian relaxation);
the prices that make it least are looked for here.
"""

from dataclasses import dataclass
from typing import NamedTuple

from saywright.cuts.planning.passes import Course, Passes, Prices, ToGo
from saywright.cuts.planning.problem import Problem

_MOST_PASSES = 40
_PASSES_OF_A_ROUND = 2
_SLACK = 1e-6
_OTHER_PRICES = (0.8, 1.25)
_FIRST_STEP, _LAST_STEP = 1.1, 4.0
_LEAST_PRICE = 1e-7


@dataclass(frozen=True)
class Relaxation:
    """A problem at certain prices. `bound`: no plan has more points. `courses`: some that were the
    best at some prices, the last two on either side of the limit of time; `to_go` is for several
    prices, since what lies ahead may be worth more or less a tick, or must differ more or less,
    than the whole. `lowest`: no plan has fewer points."""

    problem: Problem
    bound: float
    courses: tuple[Course, ...]
    to_go: tuple[ToGo, ...]
    passes: Passes

    @property
    def prices(self) -> Prices:
        """The best ones known."""
        return self.to_go[0].prices

    @property
    def lowest(self) -> float:
        return -self.passes.dearest - self.problem.shortfall * self.problem.floor


class _Met(NamedTuple):
    """A bound at a price of time where two courses meet: one that is too long, and one that is
    not. `is_least`: no price of time gives a lower one."""

    bound: float
    to_go: ToGo
    long: Course
    short: Course
    is_least: bool = False

    @property
    def prices(self) -> Prices:
        return self.to_go.prices


def relaxed(problem: Problem, like: Relaxation | None = None, rounds: int = 4) -> Relaxation | None:
    """The problem at good prices, found in so many rounds from those of one that is `like` it; None
    where no time is enough."""
    passes = like.passes.of(problem) if like else Passes(problem)
    usual = sum(line.worth for line in problem.lines) / len(problem.lines)
    unlike = like.prices.unlike if like else ()
    unlike += (usual / 3,) * (len(problem.unlike) - len(unlike))
    pair = _known(passes, like) if like else None
    if pair is None:
        price = like.prices.per_tick if like else passes.likely()
        pair = _either_side(passes, Prices(price, unlike))
    if pair is None:
        return None
    best: _Met | None = None
    met: list[_Met] = []
    for count in range(rounds if unlike else 1):
        most = _PASSES_OF_A_ROUND if unlike else _MOST_PASSES
        one = _at_best_price_of_time(passes, unlike, *pair, most)
        met.append(one)
        if best is None or one.bound < best.bound:
            best = one
        following = _moved(problem, one, usual / (2 + 2 * count))
        if following == unlike and one.is_least:
            break
        unlike, pair = following, (one.long, one.short)
    assert best
    others = [
        passes.to_go(best.prices._replace(per_tick=factor * best.prices.per_tick))
        for factor in _OTHER_PRICES
    ]
    others += [each.to_go for each in met[:1] if each is not best]
    courses = tuple(course for each in met for course in (each.long, each.short))
    return Relaxation(problem, best.bound, courses, (best.to_go, *others), passes)


def _known(passes: Passes, like: Relaxation) -> tuple[Course, Course] | None:
    """The two courses that another problem with the same lines ended with, if they are on either
    side of this one's limit."""
    limit = passes.problem.limit - passes.problem.before
    long, short = like.courses[-2:]
    if like.passes.rows is not passes.rows or not short.ticks <= limit < long.ticks:
        return None
    return passes.again(long), passes.again(short)


def _either_side(passes: Passes, start: Prices) -> tuple[Course, Course] | None:
    """The best courses at two prices, of which one is too long and one is not, unless none is too
    long; None where all are."""
    limit = passes.problem.limit - passes.problem.before
    price, factor = start.per_tick, _FIRST_STEP
    found = passes.course(passes.to_go(start))
    is_long = found.ticks > limit
    while True:
        before = found
        if is_long and price >= passes.dearest:
            return None
        if not is_long and price == 0.0:
            return found, found
        if is_long:
            price = min(max(price * factor, _LEAST_PRICE), passes.dearest)
        else:
            price = price / factor if factor < _LAST_STEP else 0.0
        factor **= 2
        found = passes.course(passes.to_go(start._replace(per_tick=price)))
        if (found.ticks > limit) != is_long:
            return (before, found) if is_long else (found, before)


def _at_best_price_of_time(
    passes: Passes, unlike: tuple[float, ...], long: Course, short: Course, most: int
) -> _Met:
    """The least bound over all prices of time, or one near it after so many passes: where two
    courses have the same points, time charged, the best there is one of the two, or gives the
    next such place."""
    problem = passes.problem
    limit = problem.limit - problem.before

    def own(course: Course) -> float:
        return course.points + sum(
            price * (number - each.least)
            for price, number, each in zip(unlike, course.differs, problem.unlike, strict=True)
        )

    best: _Met | None = None
    is_least = False
    for _ in range(most):
        between = long.ticks - short.ticks
        price = max((own(long) - own(short)) / between, 0.0) if between else 0.0
        reached = own(short) - price * (short.ticks - limit)
        to_go = passes.to_go(Prices(price, unlike))
        found = passes.course(to_go)
        bound = own(found) - price * (found.ticks - limit)
        if best is None or bound < best.bound:
            best = _Met(bound + _SLACK, to_go, long, short)
        is_least = bound <= reached + _SLACK or (price == 0.0 and found.ticks <= limit)
        if found.ticks > limit:
            long = found
        else:
            short = found
        if is_least or long.ticks <= limit:
            break
    assert best
    return best._replace(long=long, short=short, is_least=is_least)


def _moved(problem: Problem, met: _Met, step: float) -> tuple[float, ...]:
    """Other prices of being unlike, towards those at which what the two courses share between them
    is so just as much as is wanted (a subgradient step)."""
    limit = problem.limit - problem.before
    between = met.long.ticks - met.short.ticks
    share = min(max((limit - met.short.ticks) / between, 0.0), 1.0) if between else 0.0
    return tuple(
        max(price + step * (each.least - share * long - (1 - share) * short) / each.least, 0.0)
        for price, each, long, short in zip(
            met.prices.unlike, problem.unlike, met.long.differs, met.short.differs, strict=True
        )
    )
