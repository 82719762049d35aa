"""A bound on what any plan can reach, from a price on time and one on each bond.

Take the limit of time and the bonds out of the problem, and charge for them instead: so many
points a tick, so many for a late line that stays, paid to the early line of its bond. What is
left joins neighbours only, and the best of it is found in one pass. It reaches at least what the
best plan does, at any prices (a Lagrangian relaxation); the prices that make it least are looked
for here.

Within a pass a line is entered from one of three states: the line before stays; it goes, and the
last that stayed is in its paragraph (so its pause may yet be a paragraph's); or it goes otherwise.
Times are exact from neighbour to neighbour, and across a cut never longer than they will be.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from saywright.cuts.planning.problem import Line, Problem

_ROUNDS = 6
_PATIENCE = 2
_MOST_PASSES = 40
_SLACK = 1e-6
_OTHER_PRICES = (0.8, 1.25, 0.6, 1.7)


class Prices(NamedTuple):
    """Points a tick, and points for each bond."""

    per_tick: float
    bonds: tuple[int, ...]


class Course(NamedTuple):
    """The lines kept by the best of one pass, a bit each; its points and ticks as a pass reckons
    them, the points without the prices of bonds."""

    kept: int
    points: int
    ticks: int


class ToGo(NamedTuple):
    """The most that the lines from each on can add, time and bonds charged, by the state in
    which it is entered: the line before stays; goes, with one that stayed in its paragraph; goes.
    """

    per_tick: float
    stay: list[float]
    go: list[float]
    apart: list[float]


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


def relaxed(problem: Problem, start: Prices | None = None) -> Relaxation | None:
    """The problem at good prices, found from those of `start`; None where no time is enough."""
    passes = _Passes(problem)
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
    for count in range(_ROUNDS):
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
    passes: "_Passes", bonds: Sequence[int], long: Course, short: Course, limit: int
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


class _Row(NamedTuple):
    """What one line costs in ticks, at least: `stays` with the gap after it; `next_to` more if
    the line before stays, `apart` more if it goes; `gone` if it goes itself, and `crossing` more
    if its paragraph ends with it and has a line that stayed. `enter` and `leave_before` in
    points; `opens`: it is the first of its paragraph; `apart_after`: so that a cut that begins
    with it gains nothing at its paragraph's end."""

    stays: int
    next_to: int
    apart: int
    gone: int
    crossing: int
    enter: int
    leave_before: int
    bit: int
    opens: bool
    apart_after: bool
    ends: bool
    fixed: bool


class _Passes:
    """The best course of a problem at given prices, in one pass from its last line to its first."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self._rows = _rows(problem)[::-1]
        self._refunds = _refund(problem.lines[-1]), _longest_pause(problem)
        points = sum(abs(line.worth) + line.enter + line.leave for line in problem.lines)
        self.dearest = 2.0 * (points + sum(bond.cost for bond in problem.bonds)) + 1.0

    def worth(self, bonds: Sequence[int]) -> list[int]:
        """What each line is worth at these prices of bonds."""
        worth = [line.worth for line in self.problem.lines]
        for bond, price in zip(self.problem.bonds, bonds, strict=True):
            worth[bond.early] += price
            worth[bond.late] -= price
        return worth

    def own_points(self, course: Course, bonds: Sequence[int]) -> int:
        """The points of a course with the prices of bonds."""
        return course.points + self._charged(course.kept, bonds)

    def _charged(self, kept: int, bonds: Sequence[int]) -> int:
        return sum(
            price * ((kept >> bond.early & 1) - (kept >> bond.late & 1))
            for bond, price in zip(self.problem.bonds, bonds, strict=True)
            if price
        )

    def best(self, worth: Sequence[int], per_tick: float, bonds: Sequence[int]) -> Course:
        """The course that has the most points less its ticks' price."""
        last, most = self._refunds
        stay = (per_tick * last, 0, -last, 0)
        go = apart = (per_tick * most, 0, -most, 0)
        for row, points in zip(self._rows, reversed(worth), strict=True):
            stays, next_to, near, gone, crossing, enter, leave, bit, opens, alone, ends, fixed = row
            value, total, time, kept = stay
            value += points - per_tick * stays
            total += points
            time += stays
            kept |= bit
            worse = value - per_tick * near - enter
            from_stay = (value - per_tick * next_to, total, time + next_to, kept)
            from_go = from_apart = (worse, total - enter, time + near, kept)
            if not fixed:
                value, total, time, kept = apart
                value -= per_tick * gone
                time += gone
                if value > worse:
                    from_apart = (value, total, time, kept)
                if alone and value - leave > from_stay[0]:
                    from_stay = (value - leave, total - leave, time, kept)
                if ends:
                    value -= per_tick * crossing
                    time += crossing
                else:
                    value, total, time, kept = go
                    value -= per_tick * gone
                    time += gone
                if value > worse and not opens:
                    from_go = (value, total, time, kept)
                if not alone and value - leave > from_stay[0]:
                    from_stay = (value - leave, total - leave, time, kept)
            stay, go, apart = from_stay, from_go, from_apart
        _, total, time, kept = apart
        return Course(kept, total - self._charged(kept, bonds), time)

    def to_go(self, prices: Prices, factor: float) -> ToGo:
        per_tick = factor * prices.per_tick
        last, most = (per_tick * each for each in self._refunds)
        stay, go, apart = [last], [most], [most]
        for row, points in zip(self._rows, reversed(self.worth(prices.bonds)), strict=True):
            kept = stay[-1] + points - per_tick * row.stays
            from_stay = kept - per_tick * row.next_to
            from_go = from_apart = kept - per_tick * row.apart - row.enter
            if not row.fixed:
                goes_apart = apart[-1] - per_tick * row.gone
                goes = (goes_apart if row.ends else go[-1] - per_tick * row.gone) - (
                    per_tick * row.crossing
                )
                from_apart = max(from_apart, goes_apart)
                from_go = max(from_go, goes)
                from_stay = max(
                    from_stay, (goes_apart if row.apart_after else goes) - row.leave_before
                )
            stay.append(from_stay)
            go.append(from_go)
            apart.append(from_apart)
        return ToGo(per_tick, stay[::-1], go[::-1], apart[::-1])


def _rows(problem: Problem) -> list[_Row]:
    longest = _longest_pause(problem)
    rows: list[_Row] = []
    before: Line | None = None
    first = 0
    for index, line in enumerate(problem.lines):
        opens = before is None or before.ends
        first = index if opens else first
        rows.append(
            _Row(
                stays=line.sound + max(line.tail + line.after, _pause(line)),
                next_to=_more(before, line),
                apart=max(line.lead - longest, 0) if before else line.lead,
                gone=max(line.left + line.after - longest, 0),
                crossing=_crossing(problem.lines[first : index + 1]) if line.ends else 0,
                enter=line.enter if before else 0,
                leave_before=before.leave if before else 0,
                bit=1 << index,
                opens=opens,
                apart_after=before is None or opens or not _is_within_pause(before),
                ends=line.ends,
                fixed=line.fixed,
            )
        )
        before = line
    return rows


def _longest_pause(problem: Problem) -> int:
    return max(line.pause + line.edge for line in problem.lines)


def _pause(line: Line) -> int:
    return line.pause + (line.edge if line.ends else 0)


def _refund(last: Line) -> int:
    """What is charged for the pause after the last line if it stays, and never made."""
    return max(_pause(last) - last.tail - last.after, 0)


def _is_within_pause(line: Line) -> bool:
    """Whether what is marked after it is no longer than its own pause."""
    return line.tail + line.after <= line.pause


def _more(before: Line | None, line: Line) -> int:
    """By how much `lead` makes the gap between two neighbours longer."""
    if before is None:
        return line.lead
    marked, pause = before.tail + before.after, _pause(before)
    return max(marked + line.lead, pause) - max(marked, pause)


def _crossing(paragraph: Sequence[Line]) -> int:
    """What a paragraph's end adds at least to a pause that began before its last line, and that
    was longer then than what was marked."""
    least: int | None = None
    marked = 0
    for before, line in zip(reversed(paragraph[:-1]), reversed(paragraph), strict=False):
        marked += line.left + line.after
        if not _is_within_pause(before):
            continue
        so_far = max(before.pause, before.tail + before.after + marked)
        more = max(before.pause + before.edge - so_far, 0)
        least = more if least is None else min(least, more)
    return least or 0
