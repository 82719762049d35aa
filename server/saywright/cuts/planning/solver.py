"""The best plan of a problem: found by going through its lines once with every course in hand
that could still be the best.

A course is dropped where another, at the same place with the same choices open, has lost no more
and takes no longer; and where even the bound (`relaxation`) on what it could still reach is no
better than a plan already known. Nothing else is dropped, so that what is left is the optimum.
Where a piece is too long for that, only the most promising courses are followed, and the bound
tells how far from the best the plan can be.
"""

from collections.abc import Sequence
from math import gcd
from typing import NamedTuple

from saywright.cuts.planning.open_bonds import open_bonds, stakes_of
from saywright.cuts.planning.passes import Prices
from saywright.cuts.planning.problem import (
    TICKS_PER_SECOND,
    Problem,
    bits_of,
    is_allowed,
    kept_of,
    score_of,
)
from saywright.cuts.planning.relaxation import Relaxation, relaxed

EXACT_LINES = 60
"""Up to so many lines the optimum is found, whatever it takes."""

CLOSE_ENOUGH = 0.01
"""In longer pieces a plan will do whose points are short of the bound by this share."""

EXACT: tuple[int | None, ...] = (8, 24, None)
QUICK: tuple[int | None, ...] = (8,)
WIDER: tuple[int | None, ...] = (24,)
_LONG: tuple[int | None, ...] = (24, 96, 400, 1600)
"""How many of the most promising courses to follow, one run after the other; None is all."""

_WIDE_ENOUGH = 96  # for a plan that is not the first

_ROUNDS, _FEW_ROUNDS = 12, 2  # in which good prices are looked for
_TINY = 1e-6
_NOTHING = (float("inf"), float("inf"), 0, 0)
_BUCKET_TICKS = TICKS_PER_SECOND // 4
_MOST_OF_A_TIME = 3

Course = tuple[int, int, int, int, int, int, float]
"""Choices up to a line: the ticks of punctuation's clock (see `problem`), the points lost, with
the worth of kept lines as negative loss, the ticks of the marks' clock, those that a paragraph's
end would add; a bit for each early line of an open bond that is gone, the bits of what stays
(`problem.bits_of`), and how many points more than are needed it could reach.
"""


class Solution(NamedTuple):
    """What stays of each line, the plan's points, and no plan's points are above `bound`. `prices`
    are those of its relaxation, a good start for a problem that differs a little."""

    kept: tuple[int, ...]
    score: float
    bound: float
    prices: Prices

    @property
    def gap(self) -> float:
        """By what share the best plan may be better than this: 0 where it is the best."""
        return max(self.bound - self.score, 0.0) / max(abs(self.bound), 1.0)


def solve(
    problem: Problem,
    start: Prices | None = None,
    widths: Sequence[int | None] | None = None,
) -> Solution | None:
    """The best plan, or None where none is found; `start`: prices to begin with.

    Past `EXACT_LINES` it is one that is `CLOSE_ENOUGH`, unless even the widest search finds none
    so near, or with `start`, as for plans after the first, a wide one; `gap` says how near.
    `EXACT` widths find the best however many lines there are.
    """
    is_quick = start is not None and len(problem.lines) <= EXACT_LINES
    rounds = _FEW_ROUNDS if is_quick else _ROUNDS
    relaxation = relaxed(problem, rounds, start) if problem.lines else None
    if relaxation is None:
        return None
    search = _Search(relaxation)
    for course in relaxation.courses:
        search.offer(course.kept)
    usual = EXACT if len(problem.lines) <= EXACT_LINES else _LONG
    for width in usual if widths is None else widths:
        if search.run(width):
            return search.solution(search.score)
        if (
            usual is _LONG
            and widths is None
            and (search.gap <= CLOSE_ENOUGH or (start is not None and width == _WIDE_ENOUGH))
        ):
            break
    return search.solution(max(relaxation.bound, search.score))


class _Search:
    """Courses through the lines, and the best plan known: `kept` is None while none is."""

    def __init__(self, relaxation: Relaxation) -> None:
        self.problem = problem = relaxation.problem
        self.kept: tuple[int, ...] | None = None
        self.score = float("-inf")
        self._unit = _unit(problem)
        self._relaxation = relaxation
        self._to_go = relaxation.to_go
        self._bonds = open_bonds(problem, relaxation.prices)
        self._fixed_after = _fixed_after(problem)
        self._bits = bits_of(problem)

    def offer(self, bits: int) -> None:
        """A plan, by its bits."""
        kept = kept_of(self.problem, bits)
        if is_allowed(self.problem, kept):
            score = score_of(self.problem, kept)
            if score > self.score:
                self.kept, self.score = kept, score

    @property
    def gap(self) -> float:
        solution = self.solution(self._relaxation.bound)
        return solution.gap if solution else 1.0

    def solution(self, bound: float) -> Solution | None:
        if self.kept is None:
            return None
        return Solution(self.kept, self.score, bound, self._relaxation.prices)

    def run(self, width: int | None) -> bool:
        """Follow the `width` most promising courses, or all where it is None. Whether that was
        all that could be the best, so that the best plan known is the best there is."""
        is_all = True
        start: Course = (0, 0, self.problem.before, 0, 0, 0, 0.0)
        after_stay: list[Course] = []
        after_go = [start]
        for index, line in enumerate(self.problem.lines):
            stay = self._kept(index, after_stay, after_go)
            go = [] if line.fixed else self._gone(index, after_stay, after_go)
            after_stay, after_go = self._undominated(stay, index), self._undominated(go, index)
            if width is not None and len(after_stay) + len(after_go) > width:
                after_stay, after_go = _most_promising(after_stay, after_go, width)
                is_all = False
        for course in sorted((*after_stay, *after_go), key=_lost):
            self.offer(course[5])
            if self.kept and not self.problem.shortfall:
                break  # the others lose more
        return is_all

    @property
    def _needed(self) -> float:
        """What a course must be able to reach to be of use."""
        return self.score + (_TINY if self.problem.shortfall else self._unit - _TINY)

    def _kept(
        self, index: int, after_stay: Sequence[Course], after_go: Sequence[Course]
    ) -> list[Course]:
        """The courses on which the line at `index` stays."""
        problem = self.problem
        line = problem.lines[index]
        ending, _, still, _, price = self._bonds[index]
        lead, marks = line.lead, line.tail + line.after
        edge, pending = (line.edge, 0) if line.ends else (0, line.edge)
        versions = [
            (each.sound, each.pause + edge, each.worth + price, bits)
            for each, bits in zip(line.versions, self._bits[index], strict=True)
        ]
        needed = self._needed
        (most, per_tick), *others = [
            (each.stay[index + 1] - needed + each.per_tick * problem.limit, each.per_tick)
            for each in self._to_go
        ]
        latest = problem.limit - self._fixed_after[index]
        found: list[Course] = []
        for courses, toll in ((after_stay, 0), (after_go, line.enter if index else 0)):
            for course in courses:
                natural, so_far, marked, _, torn, kept, _ = course
                start = marked + lead
                start = start if start > natural else natural
                so_far += toll
                for early, cost, charged in ending:
                    so_far += cost if torn & early else charged
                torn &= still
                for sound, pause, points, bits in versions:
                    end = start + sound
                    lost = so_far - points
                    marked, natural = end + marks, end + pause
                    later = natural if natural > marked else marked
                    hope = most - per_tick * later - lost
                    if hope < 0 or marked > latest:
                        continue
                    for each, rate in others:
                        other = each - rate * later - lost
                        hope = other if other < hope else hope
                    if hope >= 0:
                        found.append((natural, lost, marked, pending, torn, kept | bits, hope))
        return found

    def _gone(
        self, index: int, after_stay: Sequence[Course], after_go: Sequence[Course]
    ) -> list[Course]:
        """The courses on which the line at `index` goes."""
        problem = self.problem
        line = problem.lines[index]
        ending, _, still, own, _ = self._bonds[index]
        still |= own
        needed, unlimited = self._needed, float("inf")
        mosts = [
            (each.go[index + 1] - needed + each.per_tick * problem.limit, each.per_tick)
            for each in self._to_go
        ]
        mosts_apart = [
            (each.apart[index + 1] - needed + each.per_tick * problem.limit, each.per_tick)
            for each in self._to_go
        ]
        latest = problem.limit - self._fixed_after[index]
        found: list[Course] = []
        for courses, toll in (
            (after_stay, problem.lines[index - 1].leave if index else 0),
            (after_go, 0),
        ):
            for course in courses:
                natural, lost, marked, pending, torn, kept, _ = course
                lost += toll
                for early, _, charged in ending:
                    if not torn & early:
                        lost += charged
                marked += line.left + line.after
                if line.ends:
                    natural, pending = natural + pending, 0
                later = natural if natural > marked else marked
                ahead = mosts if pending and marked <= natural else mosts_apart
                hope = unlimited
                for each, rate in ahead:
                    other = each - rate * later - lost
                    if other < hope:
                        hope = other
                        if hope < 0:
                            break
                if hope >= 0 and marked <= latest:
                    torn = (torn | own) & still
                    found.append((natural, lost, marked, pending, torn, kept, hope))
        return found

    def _undominated(self, courses: list[Course], index: int) -> list[Course]:
        """Those that no other makes needless: of two, the other has lost no more, even if all its
        open bonds tear, and is later by no clock."""
        courses.sort()
        shortfall = self.problem.shortfall
        open_after = self._bonds[index].open_after
        stakes: dict[int, tuple[int, int]] = {}
        best: dict[int, tuple[float, float, int, int]] = {}
        safest = _NOTHING
        rest: list[Course] = []
        for course in courses:
            natural, lost, marked, pending, torn, _, _ = course
            early, late = shortfall * natural, shortfall * marked
            if torn not in stakes:
                stakes[torn] = stakes_of(open_after, torn)
            charged, at_worst = stakes[torn]
            real = lost + charged
            known = best.get(torn, _NOTHING)
            if real - early < known[0]:
                best[torn] = (real - early, real - late, marked, pending)
            elif marked >= known[2] and real - late >= known[1] and pending >= known[3]:
                continue
            if (
                real - early >= safest[0]
                and marked >= safest[2]
                and real - late >= safest[1]
                and pending >= safest[3]
            ):
                continue
            if real + at_worst - early < safest[0]:
                worst = real + at_worst
                safest = (worst - early, worst - late, marked, pending)
            rest.append(course)
        return rest


def _lost(course: Course) -> int:
    return course[1]


def _most_promising(
    after_stay: list[Course], after_go: list[Course], width: int
) -> tuple[list[Course], list[Course]]:
    """Those that could reach most, a few of any one time: what fits at the end is not known yet."""
    ranked = [(-each[6], number, True) for number, each in enumerate(after_stay)]
    ranked += [(-each[6], number, False) for number, each in enumerate(after_go)]
    ranked.sort()
    chosen: tuple[list[Course], list[Course]] = ([], [])
    taken: dict[int, int] = {}
    for _, number, stays in ranked:
        course = after_stay[number] if stays else after_go[number]
        at = max(course[0], course[2]) // _BUCKET_TICKS
        taken[at] = taken.get(at, 0) + 1
        if taken[at] <= _MOST_OF_A_TIME:
            chosen[not stays].append(course)
            width -= 1
            if not width:
                break
    return chosen


def _unit(problem: Problem) -> int:
    """What the points of any two plans differ by is a whole multiple of this."""
    points = [each for line in problem.lines for each in (line.worth, line.enter, line.leave)]
    points += [trim.worth for line in problem.lines for trim in line.trims]
    return gcd(*points, *(bond.cost for bond in problem.bonds))


def _fixed_after(problem: Problem) -> list[int]:
    """For each line, the ticks that the fixed lines after it sound."""
    after: list[int] = []
    total = 0
    for line in reversed(problem.lines):
        after.append(total)
        total += line.sound if line.fixed else 0
    return after[::-1]
