"""A bound on what any plan can reach, from a price on time and one on each bond.

Take the limit of time and the bonds out of the problem, and charge for them instead: so many
points a tick, so many for a late line that stays, paid to the early line of its bond. What is
left joins neighbours only, and the best of it is found in one pass. It reaches at least what the
best plan does, at any prices (a Lagrangian relaxation); the prices that make it least are looked
for here.

Within a pass a line is entered from one of three states: the line before stays; it goes, and its
paragraph has a line that stayed (its pause may yet be a paragraph's); or it goes otherwise. Times
are exact from neighbour to neighbour, and across a cut never longer than they will be.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from saywright.cuts.planning.problem import Line, Problem

STAYS, GOES, GOES_APART = range(3)
_ROUNDS = 14
_SLACK = 1e-9


class Step(NamedTuple):
    """What one line costs in ticks, at least: `stays` with the gap after it; `next_to` more if
    the line before stays, `apart` more if it goes; `gone` if it goes itself, and `crossing` more
    if its paragraph ends with it and has a line that stayed."""

    stays: int
    next_to: int
    apart: int
    gone: int
    crossing: int
    opens: bool


class Prices(NamedTuple):
    """Points a tick, and points for each bond."""

    per_tick: float
    bonds: tuple[int, ...]


class Course(NamedTuple):
    """The lines kept by the best of one pass, its points and its ticks, in its own reckoning."""

    kept: tuple[bool, ...]
    points: int
    ticks: int


@dataclass(frozen=True)
class Relaxation:
    """A problem at certain prices. `bound`: no plan has more points."""

    problem: Problem
    prices: Prices
    bound: float
    courses: tuple[Course, Course]

    @cached_property
    def to_go(self) -> list[list[float]]:
        """For each state and line, the most that the lines from there on can add, time charged."""
        steps = steps_of(self.problem)
        worth = _worth(self.problem, self.prices)
        return _to_go(self.problem, steps, worth, self.prices.per_tick)


def relaxed(problem: Problem, start: Prices | None = None) -> Relaxation | None:
    """The problem at good prices, found from those of `start`; None where no time is enough."""
    steps = steps_of(problem)
    prices = start or Prices(0.0, (0,) * len(problem.bonds))
    best: Relaxation | None = None
    usual = sum(line.worth for line in problem.lines) / len(problem.lines)
    for count in range(_ROUNDS):
        found = _at_best_price_of_time(problem, steps, prices)
        if found is None:
            return None
        if best is None or found.bound < best.bound - _SLACK:
            best = found
        following = _moved(found, usual / (1 + count / 2))
        if following.bonds == prices.bonds:
            break
        prices = following
    return best


def steps_of(problem: Problem) -> list[Step]:
    """The ticks of each line, see `Step`."""
    longest = max((line.pause + line.edge for line in problem.lines), default=0)
    steps: list[Step] = []
    before: Line | None = None
    first = 0
    for index, line in enumerate(problem.lines):
        opens = before is None or before.ends
        first = index if opens else first
        marked, pause = line.tail + line.after, _pause(line)
        steps.append(
            Step(
                stays=line.sound + max(marked, pause),
                next_to=_more(before, line),
                apart=max(line.lead - longest, 0) if before else line.lead,
                gone=max(line.left + line.after - longest, 0),
                crossing=_crossing(problem.lines[first : index + 1]) if line.ends else 0,
                opens=opens,
            )
        )
        before = line
    return steps


def _pause(line: Line) -> int:
    return line.pause + (line.edge if line.ends else 0)


def _more(before: Line | None, line: Line) -> int:
    """By how much `lead` makes the gap between two neighbours longer."""
    if before is None:
        return line.lead
    marked, pause = before.tail + before.after, _pause(before)
    return max(marked + line.lead, pause) - max(marked, pause)


def _crossing(paragraph: Sequence[Line]) -> int:
    """What a paragraph's end adds at least to a pause that began before its last line."""
    least: int | None = None
    marked = 0
    for index in range(len(paragraph) - 1, 0, -1):
        marked += paragraph[index].left + paragraph[index].after
        line = paragraph[index - 1]
        so_far = max(line.pause, line.tail + line.after + marked)
        more = max(line.pause + line.edge - so_far, 0)
        least = more if least is None else min(least, more)
    return least or 0


def _worth(problem: Problem, prices: Prices) -> list[int]:
    """What each line is worth at these prices."""
    worth = [line.worth for line in problem.lines]
    for bond, price in zip(problem.bonds, prices.bonds, strict=True):
        worth[bond.early] += price
        worth[bond.late] -= price
    return worth


def _at_best_price_of_time(
    problem: Problem, steps: Sequence[Step], prices: Prices
) -> Relaxation | None:
    """The least bound over all prices of time, where two courses meet: one too long, one not."""
    worth = _worth(problem, prices)
    limit = problem.limit - problem.before
    long = _course(problem, steps, worth, 0.0)
    if long.ticks <= limit:
        free = prices._replace(per_tick=0.0)
        return Relaxation(problem, free, long.points, (long, long))
    total = sum(abs(points) for points in worth) + sum(x.enter + x.leave for x in problem.lines)
    short = _course(problem, steps, worth, 2.0 * total + 1.0)
    if short.ticks > limit:
        return None
    slack = 1e-9 * total + 1e-6
    price = prices.per_tick or _meeting(long, short)
    while price > 0:
        found = _course(problem, steps, worth, price)
        meet = price == _meeting(long, short)
        reached = found.points - price * (found.ticks - limit)
        if meet and reached <= short.points - price * (short.ticks - limit) + slack:
            at_price = prices._replace(per_tick=price)
            return Relaxation(problem, at_price, reached + slack, (long, short))
        long, short = (found, short) if found.ticks > limit else (long, found)
        price = _meeting(long, short)
    free = prices._replace(per_tick=0.0)
    return Relaxation(problem, free, short.points, (long, short))


def _meeting(long: Course, short: Course) -> float:
    """The price of a tick at which both are worth the same."""
    return (long.points - short.points) / (long.ticks - short.ticks)


def _course(
    problem: Problem, steps: Sequence[Step], worth: Sequence[int], per_tick: float
) -> Course:
    to_go = _to_go(problem, steps, worth, per_tick)
    kept: list[bool] = []
    points = time = 0
    state = GOES_APART
    for index, (line, step) in enumerate(zip(problem.lines, steps, strict=True)):
        stays = line.fixed or _to_keep(index, state, problem, step, worth, per_tick, to_go)
        if stays:
            points += worth[index]
            time += step.stays + (step.next_to if state == STAYS else step.apart)
            points -= line.enter if index and state != STAYS else 0
            state = STAYS
        else:
            points -= problem.lines[index - 1].leave if state == STAYS else 0
            following, ticks = _when_gone(state, line, step)
            time += ticks
            state = following
        kept.append(stays)
    last = problem.lines[-1]
    time -= _refund(problem, last) if state == STAYS else _most_refunded(problem)
    return Course(tuple(kept), points, time)


def _to_keep(
    index: int,
    state: int,
    problem: Problem,
    step: Step,
    worth: Sequence[int],
    per_tick: float,
    to_go: Sequence[Sequence[float]],
) -> bool:
    line = problem.lines[index]
    more = step.next_to if state == STAYS else step.apart
    kept = worth[index] - per_tick * (step.stays + more) + to_go[STAYS][index + 1]
    kept -= line.enter if index and state != STAYS else 0
    following, ticks = _when_gone(state, line, step)
    gone = to_go[following][index + 1] - per_tick * ticks
    gone -= problem.lines[index - 1].leave if state == STAYS else 0
    return kept >= gone


def _when_gone(state: int, line: Line, step: Step) -> tuple[int, int]:
    """The next state, and the ticks, where this line goes."""
    if step.opens or state == GOES_APART:
        return GOES_APART, step.gone
    return (GOES_APART, step.gone + step.crossing) if line.ends else (GOES, step.gone)


def _refund(problem: Problem, last: Line) -> int:
    """What was charged for the pause after the last line if that one stays: none is made."""
    marked = last.tail + last.after
    return max(marked, _pause(last)) - marked


def _most_refunded(problem: Problem) -> int:
    """The same at most, where the last line goes."""
    return max(line.pause + line.edge for line in problem.lines)


def _to_go(
    problem: Problem, steps: Sequence[Step], worth: Sequence[int], per_tick: float
) -> list[list[float]]:
    lines = problem.lines
    count = len(lines)
    after_stay = per_tick * _refund(problem, lines[-1])
    after_go = after_apart = per_tick * _most_refunded(problem)
    stay, go, apart = [after_stay] * (count + 1), [after_go] * (count + 1), [after_go] * (count + 1)
    for index in range(count - 1, -1, -1):
        line, step = lines[index], steps[index]
        kept = worth[index] - per_tick * step.stays + after_stay
        from_stay = kept - per_tick * step.next_to
        from_go = kept - per_tick * step.apart - (line.enter if index else 0)
        from_apart = from_go
        if not line.fixed:
            charged = after_apart - per_tick * step.gone
            leave = lines[index - 1].leave if index else 0
            from_apart = max(from_apart, charged)
            if not step.opens:
                goes = after_go - per_tick * step.gone
                if line.ends:
                    goes = charged - per_tick * step.crossing
                from_go = max(from_go, goes)
                from_stay = max(from_stay, goes - leave)
            else:
                from_go = from_apart
                from_stay = max(from_stay, charged - leave)
        after_stay, after_go, after_apart = from_stay, from_go, from_apart
        stay[index], go[index], apart[index] = from_stay, from_go, from_apart
    return [stay, go, apart]


def _moved(found: Relaxation, step: float) -> Prices:
    """Other prices, towards those at which what the two courses share between them tears no bond
    (a subgradient step)."""
    problem, prices = found.problem, found.prices
    share = _share_of_first(found)
    first, second = found.courses
    mean = [share * a + (1 - share) * b for a, b in zip(first.kept, second.kept, strict=True)]
    bonds = [
        min(max(price + round(step * (mean[bond.late] - mean[bond.early])), 0), bond.cost)
        for bond, price in zip(problem.bonds, prices.bonds, strict=True)
    ]
    return Prices(prices.per_tick, tuple(bonds))


def _share_of_first(found: Relaxation) -> float:
    """How much of the first course, the rest being of the second, fills the time exactly."""
    first, second = found.courses
    if first.ticks == second.ticks:
        return 0.0
    limit = found.problem.limit - found.problem.before
    return min(max((limit - second.ticks) / (first.ticks - second.ticks), 0.0), 1.0)
