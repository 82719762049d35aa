"""The best plan of a problem, and how near it comes to a bound that no plan is above.

First all plans are looked for that are hardly below the bound, then all that are some more below
it, and so on: the first that are found hold the best one, and as long as none is found, the bound
is known to be lower. Where that would take too long, only the most promising courses are followed.
"""

from typing import NamedTuple

from saywright.cuts.planning.problem import Problem
from saywright.cuts.planning.relaxation import Relaxation, relaxed
from saywright.cuts.planning.search import Search

EXACT_LINES = 60
"""Up to so many lines the optimum is found, whatever it takes."""

CLOSE_ENOUGH = 0.01
"""In longer pieces a plan will do whose points are short of the bound by this share."""

_JUST_CLOSE = 0.99 * CLOSE_ENOUGH
_LONG_STAGES = ((12, 0), (48, 0), (200, 60_000), (800, 400_000))
_SHORT_STAGES = ((10, 100), (40, 0), (100, 0))
_FULL_STAGES = ((24, 100), (100, 0))
"""How many of the most promising courses to follow, and up to how many courses to look for all
plans near the bound then. In a short piece so many for each line less than `EXACT_LINES`, and more
of the promising where a plan must not be too short; in a very long one as many as were followed."""

_FAR_OFF = 0.06  # where a plan that is not the first of a short piece is looked for once more
_FIRST_STEP, _STEPS = 0.3, 1.4  # the first in mean worths of a line, below the bound
_MANY_ROUNDS, _ROUNDS, _FEW_ROUNDS = 12, 8, 3  # in which good prices are looked for
_VERY_LONG = 200
_LINES_OF_A_ROUND = 6  # for so many lines less there is time for one more


class Solution(NamedTuple):
    """What stays of each line, the plan's points, and no plan's points are above `bound`."""

    kept: tuple[int, ...]
    score: float
    bound: float
    relaxation: Relaxation

    @property
    def gap(self) -> float:
        """By what share the best plan may be better than this: 0 where it is the best."""
        return max(self.bound - self.score, 0.0) / max(abs(self.bound), 1.0)


def solve(
    problem: Problem, like: Solution | None = None, *, exact: bool | None = None
) -> Solution | None:
    """The best plan, or None where none is found; `like`: that of a problem with the same lines.

    Up to `EXACT_LINES` it is the best, unless it has to be unlike others: then it is one that a
    short search finds. Past that it is one that is `CLOSE_ENOUGH`, unless even a long search finds
    none; `gap` says how near. If it is to be `exact`, it is the best however long it takes.
    """
    if not problem.lines:
        return None
    relaxation = relaxed(problem, like and like.relaxation, _rounds(len(problem.lines)))
    if relaxation is None:
        return None
    return _Solving(relaxation, exact).solution()


def _rounds(lines: int) -> int:
    if lines <= EXACT_LINES:
        return _FEW_ROUNDS + (EXACT_LINES - lines) // _LINES_OF_A_ROUND
    return _MANY_ROUNDS if lines <= _VERY_LONG else _ROUNDS


class _Solving:
    def __init__(self, relaxation: Relaxation, exact: bool | None) -> None:
        problem = relaxation.problem
        self._is_long = len(problem.lines) > EXACT_LINES
        is_best_wanted = not self._is_long and not problem.unlike
        self._exact = is_best_wanted if exact is None else exact
        self._step = _FIRST_STEP * sum(line.worth for line in problem.lines) / len(problem.lines)
        self._relaxation = relaxation
        self._search = Search(relaxation)
        self._bound = self._search.rounded(relaxation.bound)
        for course in relaxation.courses:
            if relaxation.may_be_plan(course):
                self._search.offer(course.kept)

    def solution(self) -> Solution | None:
        if self._exact:
            self._go_down(float("inf"))
            return self._found()
        for width, most in self._stages():
            self._search.run(self._relaxation.lowest, width)
            if most and not self._is_near():
                self._go_down(most)
            found = self._found()
            if found and self._is_enough(found, width):
                break
        return self._found()

    def _stages(self) -> list[tuple[int, int]]:
        problem = self._relaxation.problem
        lines = len(problem.lines)
        if self._is_long:
            return [(width, most and max(most, width * lines)) for width, most in _LONG_STAGES]
        stages = _FULL_STAGES if problem.shortfall else _SHORT_STAGES
        return [(width, most * (EXACT_LINES - lines)) for width, most in stages]

    def _is_enough(self, found: Solution, width: int) -> bool:
        if self._is_long:
            return found.gap <= CLOSE_ENOUGH
        is_last = width == _SHORT_STAGES[1][0] and not self._relaxation.problem.shortfall
        return is_last or found.gap <= _FAR_OFF

    def _found(self) -> Solution | None:
        search = self._search
        if search.kept is None:
            return None
        bound = max(self._bound, search.score)
        return Solution(search.kept, search.score, bound, self._relaxation)

    def _is_near(self) -> bool:
        found = self._found()
        return found is not None and found.gap <= (CLOSE_ENOUGH if self._is_long else 0.0)

    def _go_down(self, most: float) -> None:
        """Look for plans farther and farther below the bound, until the best is known, or one that
        is near enough, or more than `most` courses were followed."""
        search, top, lowest = self._search, self._relaxation.bound, self._relaxation.lowest
        most += search.courses
        while search.score < self._bound and self._bound > lowest:
            least = top - self._step
            if self._is_long and not self._exact and search.kept:
                # no more need be known
                near = search.score / (1 - _JUST_CLOSE)
                least = near if least < near + self._step / 4 else least
            least = search.rounded(least)
            self._step *= _STEPS
            if least >= self._bound:
                continue
            if not search.run(least, most_courses=most):
                break
            self._bound = max(least, search.score)
            if not self._exact and self._is_near():
                break
