"""A bound on what any plan can reach, from a price on time and one on being unlike other plans.

Take the limit of time out of the problem, and charge for time instead: so many points a tick; and
where a plan is to be unlike others, do not ask for so many differences, but pay for each. What is
left joins neighbours and the bonds that are open, and the best of it is found in one pass
(`passes`). It reaches at least what the best plan does, at any prices (a Lagrangian relaxation);
the prices that make it least are looked for here.

What one course comes to is a plane over the prices, and the bound is the highest of all courses'
planes. Those of the courses known tell where it may be lowest; the best course there is one more,
and so on (cutting planes). The courses of one plan serve for the next one too.
Source: J. E. Kelley, The cutting-plane method for solving convex programs, Journal of the Society
for Industrial and Applied Mathematics 8 (1960).
"""

from dataclasses import dataclass

from saywright.cuts.planning.lowest import Plane, lowest
from saywright.cuts.planning.passes import Course, Passes, Prices, ToGo
from saywright.cuts.planning.problem import Problem

_OTHER_PRICES = (0.8, 0.9, 0.93), (1.07, 1.1, 1.25)
_FIRST_STEP, _LAST_STEP = 1.1, 4.0
_LEAST_PRICE = 1e-7
_SLACK = 1e-6
_MOST_COURSES = 10

# measured: where the prices of being unlike mostly end, in mean worths of a line, and how far they
# and that of time are moved at once
_UNLIKE, _FARTHEST_UNLIKE, _FARTHEST_TIME = 0.12, 0.08, 0.1
_NEAR = 0.05  # mean worths of a line: a bound so near the least one will do


@dataclass(frozen=True)
class Relaxation:
    """A problem at certain prices. `bound`: no plan has more points. `courses`: some that were the
    best at some prices. `to_go` is for the best prices known, and for cheaper and for dearer time
    with them, since what lies ahead may be worth more or less a tick than the whole. `lowest`: no
    plan has fewer points."""

    problem: Problem
    bound: float
    courses: tuple[Course, ...]
    to_go: tuple[ToGo, ToGo, ToGo]
    passes: Passes

    @property
    def prices(self) -> Prices:
        """The best ones known."""
        return self.to_go[0].prices

    @property
    def lowest(self) -> float:
        return -self.passes.dearest - self.problem.shortfall * self.problem.floor

    def may_be_plan(self, course: Course) -> bool:
        """Whether it is unlike enough, and no pass reckons that it is too long."""
        unlike = zip(course.differs, self.problem.unlike, strict=True)
        is_unlike = all(number >= each.least for number, each in unlike)
        return is_unlike and course.ticks <= self.problem.limit - self.problem.before


def relaxed(problem: Problem, like: Relaxation | None = None, rounds: int = 8) -> Relaxation | None:
    """The problem at good prices, found in so many rounds at most from those of one that is `like`
    it; None where no time is enough."""
    passes = like.passes.of(problem) if like else Passes(problem)
    descent = _Descent(passes, like)
    if not descent.is_between() and not descent.gets_between():
        return None
    best = descent.best(rounds)
    cheap, dear = (descent.at_other_price(*each) for each in _OTHER_PRICES)
    courses = tuple(descent.courses[-_MOST_COURSES:])
    return Relaxation(problem, descent.bound, courses, (best, cheap, dear), passes)


class _Descent:
    """Lower and lower bounds at better and better prices."""

    def __init__(self, passes: Passes, like: Relaxation | None) -> None:
        problem = passes.problem
        self.courses: list[Course] = []
        if like and like.passes.ground is passes.ground:
            self.courses += map(passes.again, like.courses)
        self.bound = float("inf")
        self._passes = passes
        self._limit = problem.limit - problem.before
        self._usual = sum(line.worth for line in problem.lines) / len(problem.lines)
        self._planes = [self._plane(course) for course in self.courses]
        unlike = like.prices.unlike if like else ()
        unlike += (_UNLIKE * self._usual,) * (len(problem.unlike) - len(unlike))
        self._start = Prices(like.prices.per_tick if like else passes.likely(), unlike)
        self._dearest = self._cheapest = self._start.per_tick
        self._best: ToGo | None = None
        self._tried: list[ToGo] = []
        self._reach = 1.0  # grows where the best prices are farther than was looked

    def is_between(self) -> bool:
        """Whether courses are known on either side of the limit of time."""
        return len({course.ticks > self._limit for course in self.courses}) > 1

    def gets_between(self) -> bool:
        """Passes until such are known, or none is too long even where time is free; not where all
        are."""
        price, factor = self._start.per_tick, _FIRST_STEP
        is_long = self._try(self._start)
        while is_long or price:
            if is_long and price >= self._passes.dearest:
                return False
            before = price
            if is_long:
                price = min(max(price * factor, _LEAST_PRICE), self._passes.dearest)
            else:
                price = price / factor if factor < _LAST_STEP else 0.0
            factor **= 2
            if self._try(self._start._replace(per_tick=price)) != is_long:
                self._cheapest, self._dearest = sorted((before, price))
                break
        return True

    def best(self, rounds: int) -> ToGo:
        """The pass with the least bound, after so many more at most."""
        for _ in range(rounds):
            low, high = self._near()
            found = lowest(self._planes, low, high)
            if self._best and self.bound - found.height <= self._usual * _NEAR:
                break
            bound = self.bound
            self._try(Prices(found.point[0], found.point[1:]))
            is_at_edge = any(each and each in (*low, *high) for each in found.point)
            if self.bound < bound and is_at_edge:
                self._reach *= 2
        assert self._best
        return self._best

    def at_other_price(self, least: float, usual: float, most: float) -> ToGo:
        """A pass where time costs so many times what it costs at the best prices, which may be one
        that was tried."""
        assert self._best
        price, unlike = self._best.prices
        for each in self._tried:
            is_near = least * price <= each.prices.per_tick <= most * price
            if is_near and each.prices.unlike == unlike:
                return each
        return self._passes.to_go(Prices(usual * price, unlike))

    def _near(self) -> tuple[tuple[float, ...], tuple[float, ...]]:
        """From which prices to which better ones are looked for."""
        near = self._best.prices if self._best else self._start
        time, unlike = self._reach * _FARTHEST_TIME, self._reach * _FARTHEST_UNLIKE * self._usual
        low = min(near.per_tick * max(1 - time, 0.0), self._cheapest)
        high = max(near.per_tick * (1 + time), self._dearest, _LEAST_PRICE)
        return (
            (low, *(max(each - unlike, 0.0) for each in near.unlike)),
            (high, *(each + unlike for each in near.unlike)),
        )

    def _try(self, prices: Prices) -> bool:
        """One pass. Whether its course is too long."""
        to_go = self._passes.to_go(prices)
        course = self._passes.course(to_go)
        plane = self._plane(course)
        self._tried.append(to_go)
        self.courses.append(course)
        self._planes.append(plane)
        bound = plane.at((prices.per_tick, *prices.unlike)) + _SLACK
        if bound < self.bound:
            self.bound, self._best = bound, to_go
        return course.ticks > self._limit

    def _plane(self, course: Course) -> Plane:
        """What it comes to at any prices, less what is asked for."""
        differs = zip(course.differs, self._passes.problem.unlike, strict=True)
        more = (number - each.least for number, each in differs)
        return Plane(course.points, (self._limit - course.ticks, *more))
