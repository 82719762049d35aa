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

from saywright.cuts.planning.problem import Problem, is_allowed, score_of
from saywright.cuts.planning.relaxation import Prices, Relaxation, relaxed

EXACT_LINES = 60
"""Up to so many lines the optimum is found, whatever it takes."""

_FIRST_WIDTH = 8
_WIDTH = 48
_TINY = 1e-6

Course = tuple[int, int, int, int, int, int, float]
"""Choices up to a line: the ticks of punctuation's clock (see `problem`), the points lost, with
the worth of kept lines as negative loss, the ticks of the marks' clock, those that a paragraph's
end would add; a bit for each early line of an open bond that is gone, a bit for each line that
stays, and how many points more than are needed it could reach.
"""


class Solution(NamedTuple):
    """The lines that stay, the plan's points, and no plan's points are above `bound`. `prices`
    are those of its relaxation, a good start for a problem that differs a little."""

    kept: tuple[bool, ...]
    score: float
    bound: float
    prices: Prices

    @property
    def gap(self) -> float:
        """By what share the best plan may be better than this: 0 where it is the best."""
        return max(self.bound - self.score, 0.0) / max(abs(self.bound), 1.0)


def solve(problem: Problem, start: Prices | None = None, width: int = _WIDTH) -> Solution | None:
    """The best plan, or None where none is found. Past `EXACT_LINES` it is a good one: the best
    found with `width` courses in hand."""
    if not problem.lines:
        return None
    relaxation = relaxed(problem, start)
    if relaxation is None:
        return None
    search = _Search(relaxation)
    for course in relaxation.courses:
        search.offer(course.kept)
    exact = len(problem.lines) <= EXACT_LINES
    search.run(_FIRST_WIDTH if exact else width)
    if exact:
        search.run()
    if search.kept is None:
        return None
    bound = search.score if exact else max(relaxation.bound, search.score)
    return Solution(search.kept, search.score, bound, relaxation.prices)


class _Bonds(NamedTuple):
    """The bonds of one line: `ending` with it, as the early line's bit, the cost and the price;
    `still`: the bits that stay open after it; its own bit and price where any begin with it."""

    ending: tuple[tuple[int, int, int], ...]
    still: int
    own: int
    price: int


class _Search:
    """Courses through the lines, and the best plan known: `kept` is None while none is."""

    def __init__(self, relaxation: Relaxation) -> None:
        self.problem = problem = relaxation.problem
        self.kept: tuple[bool, ...] | None = None
        self.score = float("-inf")
        self.followed = 0
        self._unit = _unit(problem)
        self._to_go = relaxation.to_go
        self._per_tick = relaxation.prices.per_tick
        self._bonds = _bonds(problem, relaxation.prices)
        self._fixed_after = _fixed_after(problem)

    def offer(self, bits: int) -> None:
        """A plan: a bit for each line that stays."""
        kept = [bool(bits >> index & 1) for index in range(len(self.problem.lines))]
        if is_allowed(self.problem, kept):
            score = score_of(self.problem, kept)
            if score > self.score:
                self.kept, self.score = tuple(kept), score

    def run(self, width: int | None = None) -> None:
        """Follow the `width` most promising courses, or all that could be the best."""
        start: Course = (0, 0, self.problem.before, 0, 0, 0, 0.0)
        after_stay: list[Course] = []
        after_go = [start]
        for index, line in enumerate(self.problem.lines):
            stay = self._kept(index, after_stay, after_go)
            go = [] if line.fixed else self._gone(index, after_stay, after_go)
            after_stay, after_go = self._undominated(stay), self._undominated(go)
            self.followed += len(after_stay) + len(after_go)
            if width is not None and len(after_stay) + len(after_go) > width:
                after_stay, after_go = _most_promising(after_stay, after_go, width)
        for course in (*after_stay, *after_go):
            self.offer(course[5])

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
        ending, still, _, price = self._bonds[index]
        lead, sound, marks = line.lead, line.sound, line.tail + line.after
        pause, pending = (line.pause + line.edge, 0) if line.ends else (line.pause, line.edge)
        per_tick, bit = self._per_tick, 1 << index
        most = self._to_go.stay[index + 1] - self._needed + per_tick * problem.limit
        latest = problem.limit - self._fixed_after[index]
        found: list[Course] = []
        for courses, toll in ((after_stay, 0), (after_go, line.enter if index else 0)):
            loss = toll - line.worth - price
            for natural, lost, marked, _, torn, kept, _ in courses:
                start = marked + lead
                end = (start if start > natural else natural) + sound
                lost += loss
                for early, cost, charged in ending:
                    lost += cost if torn & early else charged
                marked, natural = end + marks, end + pause
                hope = most - lost - per_tick * (natural if natural > marked else marked)
                if hope >= 0 and marked <= latest:
                    found.append((natural, lost, marked, pending, torn & still, kept | bit, hope))
        return found

    def _gone(
        self, index: int, after_stay: Sequence[Course], after_go: Sequence[Course]
    ) -> list[Course]:
        """The courses on which the line at `index` goes."""
        problem = self.problem
        line = problem.lines[index]
        ending, still, own, _ = self._bonds[index]
        still |= own
        per_tick = self._per_tick
        base = per_tick * problem.limit - self._needed
        most_go = self._to_go.go[index + 1] + base
        most_apart = self._to_go.apart[index + 1] + base
        latest = problem.limit - self._fixed_after[index]
        found: list[Course] = []
        for courses, toll in (
            (after_stay, problem.lines[index - 1].leave if index else 0),
            (after_go, 0),
        ):
            for natural, lost, marked, pending, torn, kept, _ in courses:
                lost += toll
                for early, _, charged in ending:
                    if not torn & early:
                        lost += charged
                marked += line.left + line.after
                if line.ends:
                    natural, pending = natural + pending, 0
                hope = most_go if pending else most_apart
                hope -= lost + per_tick * (natural if natural > marked else marked)
                if hope >= 0 and marked <= latest:
                    torn = (torn | own) & still
                    found.append((natural, lost, marked, pending, torn, kept, hope))
        return found

    def _undominated(self, courses: list[Course]) -> list[Course]:
        """Those that no other makes needless: of two with the same open choices, the other loses
        no more by no clock later."""
        courses.sort()
        shortfall = self.problem.shortfall
        best: dict[tuple[int, int], tuple[float, float, int]] = {}
        rest: list[Course] = []
        for course in courses:
            natural, lost, marked, pending, torn, _, _ = course
            key = (pending, torn)
            by_natural, by_marked = lost - shortfall * natural, lost - shortfall * marked
            known = best.get(key)
            if known is None or by_natural < known[0]:
                best[key] = (by_natural, by_marked, marked)
            elif marked >= known[2] and by_marked >= known[1]:
                continue
            rest.append(course)
        return rest


def _most_promising(
    after_stay: list[Course], after_go: list[Course], width: int
) -> tuple[list[Course], list[Course]]:
    ranked = [(-each[6], number, True) for number, each in enumerate(after_stay)]
    ranked += [(-each[6], number, False) for number, each in enumerate(after_go)]
    ranked.sort()
    best = ranked[:width]
    return (
        [after_stay[number] for _, number, stays in best if stays],
        [after_go[number] for _, number, stays in best if not stays],
    )


def _unit(problem: Problem) -> int:
    """What the points of any two plans differ by is a whole multiple of this."""
    points = [each for line in problem.lines for each in (line.worth, line.enter, line.leave)]
    return gcd(*points, *(bond.cost for bond in problem.bonds))


def _fixed_after(problem: Problem) -> list[int]:
    """For each line, the ticks that the fixed lines after it sound."""
    after: list[int] = []
    total = 0
    for line in reversed(problem.lines):
        after.append(total)
        total += line.sound if line.fixed else 0
    return after[::-1]


def _bonds(problem: Problem, prices: Prices) -> list[_Bonds]:
    last = {bond.early: 0 for bond in problem.bonds}
    charged = dict.fromkeys(last, 0)
    for bond, price in zip(problem.bonds, prices.bonds, strict=True):
        last[bond.early] = max(last[bond.early], bond.late)
        charged[bond.early] += price
    bits = {early: 1 << number for number, early in enumerate(sorted(last))}
    ending: list[list[tuple[int, int, int]]] = [[] for _ in problem.lines]
    for bond, price in zip(problem.bonds, prices.bonds, strict=True):
        ending[bond.late].append((bits[bond.early], bond.cost, price))
    found: list[_Bonds] = []
    still = 0
    for index in range(len(problem.lines)):
        for early, late in last.items():
            if late == index:
                still &= ~bits[early]
        found.append(_Bonds(tuple(ending[index]), still, bits.get(index, 0), charged.get(index, 0)))
        still |= bits.get(index, 0)
    return found
