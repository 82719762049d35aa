"""The best of a problem in one pass, where time is charged for instead of limited.

A line is entered from one of three states: the line before stays; it goes, and the last that
stayed is in its paragraph (so its pause may yet be a paragraph's); or it goes otherwise; and with
one of the sets of bonds that are torn already (`torn`). Times are exact from neighbour to
neighbour, and across a cut never longer than they will be.
"""

from collections.abc import Iterator, Sequence
from functools import reduce
from operator import or_
from typing import NamedTuple

from saywright.cuts.planning.ground import Ground, ground_of
from saywright.cuts.planning.problem import Problem, Unlike
from saywright.cuts.planning.rows import Row
from saywright.cuts.planning.unlike import Differing

_MORE = 1.12  # since lines that go tear others

_Ways = Sequence[tuple[int, int, int]]


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
    that stayed in its paragraph; goes. For each line one for each set of torn bonds. `own`: what
    each line comes to by itself if it stays; `paid`: what is paid for its differences, if it goes,
    stays or is trimmed."""

    prices: Prices
    stay: list[list[float]]
    go: list[list[float]]
    apart: list[list[float]]
    own: list[float]
    paid: list[tuple[float, ...]]


class Passes:
    """The best course of a problem at given prices, in one pass from its last line to its first."""

    def __init__(self, problem: Problem, ground: Ground | None = None) -> None:
        self.problem = problem
        self.ground = ground or ground_of(problem)
        self.differing = Differing(problem)
        rows = self.ground.rows
        self._backwards = list(_backwards(self.ground))
        self._whole = [row.versions[0] for row in rows]
        self._trimmed = [
            (index, row.versions) for index, row in enumerate(rows) if len(row.versions) > 1
        ]
        self._others = [_other(each, rows) for each in problem.unlike]

    def of(self, problem: Problem) -> "Passes":
        """The same for another problem, made anew unless it has the same lines and bonds."""
        is_same = problem.lines is self.ground.lines and problem.bonds is self.ground.bonds
        return Passes(problem, self.ground if is_same else None)

    @property
    def dearest(self) -> float:
        """A price of a tick at which all goes that can."""
        return 2.0 * self.ground.points + 1.0

    def to_go(self, prices: Prices) -> ToGo:
        per_tick = prices.per_tick
        last, most = (per_tick * (each + self.problem.limit) for each in self.ground.refunds)
        stay, go, apart = [last], [most], [most]
        stays, goes, aparts = [stay], [go], [apart]
        paid = self.differing.summed(prices.unlike)
        own = self._own(per_tick, paid)
        backwards = zip(self._backwards, reversed(own), reversed(paid), strict=True)
        for (row, ways, crosses), kept, (more, *_) in backwards:
            _, next_to, far, gone, crossing, enter, leave, alone, ends, fixed = row
            after_stay = kept - per_tick * next_to
            after_cut = kept - per_tick * far - enter
            if fixed:
                go = apart = [stay[to] - toll + after_cut for to, toll, _ in ways]
                stay = [stay[to] - toll + after_stay for to, toll, _ in ways]
            elif crosses:
                costs = after_stay, after_cut, per_tick * gone - more, per_tick * crossing, leave
                after = stay, apart if ends else go, apart
                stay, go, apart = _across(ways, after, costs, alone=alone)
            else:
                costs = after_stay, after_cut, per_tick * gone - more, 0.0, leave
                stay, apart = _alike(ways, stay, apart, costs)
                go = apart
            stays.append(stay)
            goes.append(go)
            aparts.append(apart)
        return ToGo(prices, stays[::-1], goes[::-1], aparts[::-1], own, paid)

    def _own(self, per_tick: float, paid: Sequence[tuple[float, ...]]) -> list[float]:
        """What each line comes to by itself if it stays, as what is best then."""
        own = [
            points + more[1] - per_tick * time
            for (time, points, _), more in zip(self._whole, paid, strict=True)
        ]
        for index, versions in self._trimmed:
            own[index] = max(
                points + more - per_tick * time
                for (time, points, _), more in zip(versions, paid[index][1:], strict=True)
            )
        return own

    def again(self, course: Course) -> Course:
        """A course of a problem with the same lines, that may have been unlike other plans."""
        return course._replace(differs=self._differs(course.kept))

    def _differs(self, kept: int) -> tuple[int, ...]:
        """How often a course differs from each plan that it must be unlike, by its bits."""
        return tuple(
            (gone & kept).bit_count() + sum([kept & mask != bits for mask, bits in trimmed])
            for gone, trimmed in self._others
        )

    def likely(self) -> float:
        """A price of time that is near the best one mostly: that at which the lines fill the
        limit if each is taken for itself."""
        rows = sorted(
            (
                (points / max(time, 1), time, row.fixed)
                for row in self.ground.rows
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
        per_tick = to_go.prices.per_tick
        kept = points = ticks = number = 0
        state = 2
        for index, (row, (tolls, stay, go, _)) in enumerate(
            zip(self.ground.rows, self.ground.torn, strict=True)
        ):
            toll, stays, goes = tolls[number], stay[number], go[number]
            near, toll = (row.next_to, toll) if state == 0 else (row.apart, toll + row.enter)
            value = to_go.own[index] + to_go.stay[index + 1][stays] - per_tick * near - toll
            alone = state == 2 or (state == 0 and row.apart_after)
            following = to_go.apart if alone or row.ends else to_go.go
            time = row.gone + (0 if alone else row.crossing)
            leave = 0 if state else row.leave_before
            other = following[index + 1][goes] - per_tick * time + to_go.paid[index][0] - leave
            if row.fixed or value >= other:
                time, own, bits = _best_version(row, to_go.paid[index], per_tick)
                kept |= bits
                points += own - toll
                ticks += time + near
                state, number = 0, stays
            else:
                points -= leave
                ticks += time
                state, number = 2 if alone or row.ends else 1, goes
        last, most = self.ground.refunds
        return Course(kept, points, ticks - (most if state else last), self._differs(kept))


def _backwards(ground: Ground) -> Iterator[tuple[Row, _Ways, bool]]:
    """From the last line on each one's row and bonds, and whether it makes a difference, if the
    line before goes, that one stayed in its paragraph."""
    crosses = False
    rows = ground.rows
    for index in range(len(rows) - 1, -1, -1):
        row = rows[index]
        if row.ends:
            crosses = row.crossing > 0
        opens = index == 0 or rows[index - 1].ends
        yield row, ground.torn[index].ways, crosses and not opens


_Costs = tuple[float, float, float, float, int]
"""Of a line: what it comes to if it stays next to the one before, or after a cut; what it costs
that it goes, what more if its paragraph ends with it, and what to leave the line before."""


def _across(
    ways: _Ways,
    after: tuple[list[float], list[float], list[float]],
    costs: _Costs,
    *,
    alone: bool,
) -> tuple[list[float], list[float], list[float]]:
    """`ToGo`'s values before a line from those `after` it."""
    after_stay, after_cut, gone, crossing, leave = costs
    stays, goes, aparts = after
    stay: list[float] = []
    go: list[float] = []
    apart: list[float] = []
    for to, toll, out in ways:
        value = stays[to] - toll
        one, other = value + after_cut, value + after_stay
        cut, cut_apart = goes[out] - gone - crossing, aparts[out] - gone
        apart.append(one if one > cut_apart else cut_apart)
        go.append(one if one > cut else cut)
        cut = (cut_apart if alone else cut) - leave
        stay.append(other if other > cut else cut)
    return stay, go, apart


def _alike(
    ways: _Ways, stays: list[float], aparts: list[float], costs: _Costs
) -> tuple[list[float], list[float]]:
    """The same where all cuts before the line are alike."""
    after_stay, after_cut, gone, _, leave = costs
    stay: list[float] = []
    apart: list[float] = []
    for to, toll, out in ways:
        value = stays[to] - toll
        one, other = value + after_cut, value + after_stay
        cut = aparts[out] - gone
        apart.append(one if one > cut else cut)
        cut -= leave
        stay.append(other if other > cut else cut)
    return stay, apart


def _other(unlike: Unlike, rows: Sequence[Row]) -> tuple[int, list[tuple[int, int]]]:
    """The bits of the lines that a plan cuts, each of which is a difference if it stays; and for
    each line that it trims the bits that tell what it is, and which they are in that plan."""
    gone = sum([1 << index for index, stays in enumerate(unlike.kept) if not stays])
    trimmed = [
        (
            reduce(or_, [bits for *_, bits in rows[index].versions]),
            rows[index].versions[stays - 1][2],
        )
        for index, stays in enumerate(unlike.kept)
        if stays > 1
    ]
    return gone, trimmed


def _best_version(row: Row, paid: Sequence[float], per_tick: float) -> tuple[int, int, int]:
    """What a line is best, if it stays."""
    if len(row.versions) == 1:
        return row.versions[0]
    _, best = max(
        (points + more - per_tick * time, -number)
        for number, ((time, points, _), more) in enumerate(zip(row.versions, paid[1:], strict=True))
    )
    return row.versions[-best]
