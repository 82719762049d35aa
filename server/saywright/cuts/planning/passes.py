"""The best of a problem in one pass, where time and bonds are charged for instead of limited.

A line is entered from one of three states: the line before stays; it goes, and the last that
stayed is in its paragraph (so its pause may yet be a paragraph's); or it goes otherwise. Times are
exact from neighbour to neighbour, and across a cut never longer than they will be.
"""

from collections.abc import Sequence
from typing import NamedTuple

from saywright.cuts.planning.problem import Line, Problem, bits_of


class Prices(NamedTuple):
    """Points a tick, and points for each bond."""

    per_tick: float
    bonds: tuple[int, ...]


class Course(NamedTuple):
    """The lines kept by the best of one pass (see `bits_of`); its points and ticks as a pass
    reckons them, the points without the prices of bonds."""

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


class _Row(NamedTuple):
    """What one line costs in ticks, at least: `stays` with the gap after it, whole, and `trims`
    for each trim so many ticks and points more, and its bits; `next_to` more if
    the line before stays, `apart` more if it goes; `gone` if it goes itself, and `crossing` more
    if its paragraph ends with it and has a line that stayed. `enter` and `leave_before` in
    points; `opens`: it is the first of its paragraph; `apart_after`: so that a cut that begins
    with it gains nothing at its paragraph's end."""

    stays: int
    trims: tuple[tuple[int, int, int], ...]
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


class Passes:
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
        for row, whole in zip(self._rows, reversed(worth), strict=True):
            points = whole
            (
                stays,
                trims,
                next_to,
                near,
                gone,
                crossing,
                enter,
                leave,
                bit,
                opens,
                alone,
                ends,
                fixed,
            ) = row
            if trims:
                stays, points, bit = _best_version(stays, points, bit, trims, per_tick)
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
        for row, whole in zip(self._rows, reversed(self.worth(prices.bonds)), strict=True):
            stays, points = row.stays, whole
            if row.trims:
                stays, points, _ = _best_version(stays, points, 0, row.trims, per_tick)
            kept = stay[-1] + points - per_tick * stays
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


def _best_version(
    stays: int, points: int, bits: int, trims: Sequence[tuple[int, int, int]], per_tick: float
) -> tuple[int, int, int]:
    """The ticks, points and bits of what is best of a line at a price of time."""
    best = 0.0
    chosen = (stays, points, bits)
    for ticks, worth, more in trims:
        value = worth - per_tick * ticks
        if value > best:
            best, chosen = value, (stays + ticks, points + worth, bits | more)
    return chosen


def _rows(problem: Problem) -> list[_Row]:
    longest = _longest_pause(problem)
    bits = bits_of(problem)
    rows: list[_Row] = []
    before: Line | None = None
    first = 0
    for index, line in enumerate(problem.lines):
        opens = before is None or before.ends
        first = index if opens else first
        rows.append(
            _Row(
                stays=(stays := _stays(line, line.sound, line.pause)),
                trims=tuple(
                    (
                        _stays(line, trim.sound, trim.pause) - stays,
                        trim.worth - line.worth,
                        own,
                    )
                    for trim, own in zip(line.trims, bits[index][1:], strict=True)
                ),
                next_to=_more(before, line),
                apart=max(line.lead - longest, 0) if before else line.lead,
                gone=max(line.left + line.after - longest, 0),
                crossing=_crossing(problem.lines[first : index + 1]) if line.ends else 0,
                enter=line.enter if before else 0,
                leave_before=before.leave if before else 0,
                bit=bits[index][0],
                opens=opens,
                apart_after=before is None or opens or not _is_within_pause(before),
                ends=line.ends,
                fixed=line.fixed,
            )
        )
        before = line
    return rows


def _stays(line: Line, sound: int, pause: int) -> int:
    """The ticks of a line with the gap after it."""
    return sound + max(line.tail + line.after, pause + (line.edge if line.ends else 0))


def _refund(last: Line) -> int:
    """What is charged, at most, for the pause after the last line if it stays, and never made."""
    edge = last.edge if last.ends else 0
    return max(max(_pauses(last)) + edge - last.tail - last.after, 0)


def _longest_pause(problem: Problem) -> int:
    return max(max(_pauses(line)) + line.edge for line in problem.lines)


def _pauses(line: Line) -> list[int]:
    """What its punctuation may make after it, by what it may be."""
    return [line.pause, *(trim.pause for trim in line.trims)] if line.trims else [line.pause]


def _is_within_pause(line: Line) -> bool:
    """Whether what is marked after it is no longer than its own pause, whatever it is."""
    return line.tail + line.after <= min(_pauses(line))


def _more(before: Line | None, line: Line) -> int:
    """By how much `lead` makes the gap between two neighbours longer."""
    if before is None:
        return line.lead
    if not line.lead:
        return 0
    marked, edge = before.tail + before.after, before.edge if before.ends else 0
    return min(
        max(marked + line.lead, pause + edge) - max(marked, pause + edge)
        for pause in _pauses(before)
    )


def _crossing(paragraph: Sequence[Line]) -> int:
    """What a paragraph's end adds at least to a pause that began before its last line, and that
    was longer then than what was marked."""
    least: int | None = None
    marked = 0
    for before, line in zip(reversed(paragraph[:-1]), reversed(paragraph), strict=False):
        marked += line.left + line.after
        after = before.tail + before.after
        for pause in _pauses(before):
            if after <= pause:
                more = max(pause + before.edge - max(pause, after + marked), 0)
                least = more if least is None else min(least, more)
    return least or 0
