"""The best of a problem in one pass, where time is charged for instead of limited.

A line is entered from one of three states: the line before stays; it goes, and the last that
stayed is in its paragraph (so its pause may yet be a paragraph's); or it goes otherwise; and with
one of the sets of bonds that are torn already (`torn`). Times are exact from neighbour to
neighbour, and across a cut never longer than they will be.
"""

from collections.abc import Sequence
from copy import copy
from typing import NamedTuple

from saywright.cuts.planning.problem import Problem, kept_of
from saywright.cuts.planning.rows import Row, longest_pause, refund, rows_of
from saywright.cuts.planning.torn import torn_sets

_MORE = 1.12  # since lines that go tear others


class Prices(NamedTuple):
    """Points a tick, and points for each difference from the plans that it must be unlike."""

    per_tick: float
    unlike: tuple[float, ...]


class Course(NamedTuple):
    """What is kept by the best of one pass (see `bits_of`); its points, its ticks as a pass
    reckons them, and how often it differs from each plan that it must be unlike."""

    kept: int
    points: int
    ticks: int
    differs: tuple[int, ...]


class ToGo(NamedTuple):
    """The most that the lines from each on can add, and time that is left, time charged and
    difference paid for, by the state in which it is entered: the line before stays; goes, with one
    that stayed in its paragraph; goes. For each line one for each set of torn bonds."""

    prices: Prices
    stay: list[list[float]]
    go: list[list[float]]
    apart: list[list[float]]


class Passes:
    """The best course of a problem at given prices, in one pass from its last line to its first."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.torn = torn_sets(problem)
        self.rows = rows_of(problem)
        self._paid_at: tuple[tuple[float, ...], list[tuple[float, ...]]] | tuple[()] = ()
        self._refunds = refund(problem.lines[-1]), longest_pause(problem)
        points = sum(abs(line.worth) + line.enter + line.leave for line in problem.lines)
        self.dearest = 2.0 * (points + sum(bond.cost for bond in problem.bonds)) + 1.0

    def _paid(self, unlike: tuple[float, ...]) -> list[tuple[float, ...]]:
        """`paid_for` at these prices; those of the last ones are remembered."""
        if not self._paid_at or self._paid_at[0] != unlike:
            self._paid_at = unlike, paid_for(self.problem, unlike)
        return self._paid_at[1]

    def of(self, problem: Problem) -> "Passes":
        """The same for another problem, made anew unless it has the same lines and bonds."""
        if problem.lines is not self.problem.lines or problem.bonds is not self.problem.bonds:
            return Passes(problem)
        passes = copy(self)
        passes.problem = problem
        passes._paid_at = ()
        return passes

    def to_go(self, prices: Prices) -> ToGo:
        per_tick = prices.per_tick
        last, most = (per_tick * (each + self.problem.limit) for each in self._refunds)
        stay, go, apart = [last], [most], [most]
        stays_all, go_all, apart_all = [stay], [go], [apart]
        paid = self._paid(prices.unlike)
        for row, torn, more in zip(
            reversed(self.rows), reversed(self.torn), reversed(paid), strict=True
        ):
            _, kept = _best_version(row, more, per_tick)
            after_stay = kept - per_tick * row.next_to
            after_cut = kept - per_tick * row.apart - row.enter
            leave, alone, ends = row.leave_before, row.apart_after, row.ends
            gone = per_tick * row.gone - more[0]
            crossed = gone + per_tick * row.crossing
            from_stay: list[float] = []
            from_go: list[float] = []
            from_apart: list[float] = []
            if not torn.same:
                stay = [stay[to] - toll for to, toll in zip(torn.stays, torn.tolls, strict=True)]
            if row.fixed:
                from_stay = [value + after_stay for value in stay]
                from_go = from_apart = [value + after_cut for value in stay]
            else:
                if not torn.same:
                    apart = [apart[to] for to in torn.goes]
                    go = [go[to] for to in torn.goes]
                go, less = (apart, crossed) if ends else (go, gone)
                for value, near, far in zip(stay, go, apart, strict=True):
                    one, other = value + after_cut, value + after_stay
                    cut, cut_apart = near - less, far - gone
                    from_apart.append(one if one > cut_apart else cut_apart)
                    from_go.append(one if one > cut else cut)
                    cut = (cut_apart if alone else cut) - leave
                    from_stay.append(other if other > cut else cut)
            stay, go, apart = from_stay, from_go, from_apart
            stays_all.append(stay)
            go_all.append(go)
            apart_all.append(apart)
        return ToGo(prices, stays_all[::-1], go_all[::-1], apart_all[::-1])

    def again(self, course: Course) -> Course:
        """A course of a problem with the same lines, that may have been unlike other plans."""
        kept = kept_of(self.problem, course.kept)
        return course._replace(differs=tuple(each.count(kept) for each in self.problem.unlike))

    def likely(self) -> float:
        """A price of time that is near the best one mostly: that at which the lines fill the
        limit if each is taken for itself."""
        rows = sorted(
            (
                (points / max(time, 1), time, row.fixed)
                for row in self.rows
                for time, points, _ in row.versions[:1]
            ),
            key=lambda each: (not each[2], -each[0]),
        )
        left = self.problem.limit - self.problem.before
        for price, time, fixed in rows:
            left -= time
            if left < 0 and not fixed:
                return max(price * _MORE, 0.0)
        return 0.0

    def course(self, to_go: ToGo) -> Course:
        """The course that has the most points, with differences paid for, less its ticks' price."""
        prices = to_go.prices
        per_tick = prices.per_tick
        paid = self._paid(prices.unlike)
        unlike = self.problem.unlike
        differs = [0] * len(unlike)
        kept = points = ticks = number = 0
        state = 2
        for index, row in enumerate(self.rows):
            torn = self.torn[index]
            toll, stays, goes = torn.tolls[number], torn.stays[number], torn.goes[number]
            version, value = _best_version(row, paid[index], per_tick)
            near, toll = (row.next_to, toll) if state == 0 else (row.apart, toll + row.enter)
            value += to_go.stay[index + 1][stays] - per_tick * near - toll
            alone = state == 2 or (state == 0 and row.apart_after)
            following = to_go.apart if alone or row.ends else to_go.go
            time = row.gone + (0 if alone else row.crossing)
            leave = 0 if state else row.leave_before
            other = following[index + 1][goes] - per_tick * time + paid[index][0] - leave
            if row.fixed or value >= other:
                time, own, bits = row.versions[version]
                kept |= bits
                points += own - toll
                ticks += time + near
                state, number, what = 0, stays, version + 1
            else:
                points -= leave
                ticks += time
                state, number, what = 2 if alone or row.ends else 1, goes, 0
            for number_of, each in enumerate(unlike):
                differs[number_of] += each.differs(index, what)
        last, most = self._refunds
        ticks -= most if state else last
        return Course(kept, points, ticks, tuple(differs))


def paid_for(problem: Problem, unlike: Sequence[float]) -> list[tuple[float, ...]]:
    """For each line, what is paid for its being unlike other plans: if it goes, stays, or is
    trimmed."""
    found: list[tuple[float, ...]] = []
    for index, line in enumerate(problem.lines):
        paid = [0.0] * (len(line.trims) + 2)
        for price, each in zip(unlike, problem.unlike, strict=True):
            if each.kept[index] != 1:
                paid = [more + price * each.differs(index, what) for what, more in enumerate(paid)]
        found.append(tuple(paid))
    return found


def _best_version(row: Row, paid: Sequence[float], per_tick: float) -> tuple[int, float]:
    """Which version is best at a price of time, and what it then comes to."""
    if len(row.versions) == 1:
        ((time, points, _),) = row.versions
        return 0, points + paid[1] - per_tick * time
    values = [
        points + more - per_tick * time
        for (time, points, _), more in zip(row.versions, paid[1:], strict=True)
    ]
    best = max(values)
    return values.index(best), best
