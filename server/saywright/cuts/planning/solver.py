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
_SHORT_STAGES = ((12, 700), (24, 0))
"""How many of the most promising courses to follow, and up to how many courses in all to look
for all plans near the bound then; in a short piece as many in a piece of `EXACT_LINES`, and more
in a shorter one."""

_FAR_OFF = 0.06  # where a plan that is not the first of a short piece is looked for once more
_FIRST_STEP, _STEPS = 0.3, 1.6  # the first in mean worths of a line, below the bound
_MANY_ROUNDS, _ROUNDS, _FEW_ROUNDS = 16, 8, 3  # in which good prices are looked for
_VERY_LONG = 200


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
        return _FEW_ROUNDS
    return _MANY_ROUNDS if lines <= _VERY_LONG else _ROUNDS


class _Solving:
    def __init__(self, relaxation: Relaxation, exact: bool | None) -> None:
        problem = relaxation.problem
        self._is_long = len(problem.lines) > EXACT_LINES
        is_best_wanted = not self._is_long and not problem.unlike
        self._exact = is_best_wanted if exact is None else exact
        self._bound = relaxation.bound
        self._step = _FIRST_STEP * sum(line.worth for line in problem.lines) / len(problem.lines)
        self._shorter = EXACT_LINES / len(problem.lines)
        self._relaxation = relaxation
        self._search = Search(relaxation)
        for course in relaxation.courses:
            self._search.offer(course.kept)

    def solution(self) -> Solution | None:
        if self._exact:
            self._go_down(float("inf"))
            return self._found()
        for width, most in _LONG_STAGES if self._is_long else _SHORT_STAGES:
            self._search.run(self._relaxation.lowest, width)
            if most and not self._is_near():
                self._go_down(most if self._is_long else most * self._shorter**2)
            found = self._found()
            if found and found.gap <= (CLOSE_ENOUGH if self._is_long else _FAR_OFF):
                break
        return self._found()

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
        while search.score < self._bound and self._bound > lowest:
            least = top - self._step
            if self._is_long and not self._exact and search.kept:
                # no more need be known
                near = search.score / (1 - _JUST_CLOSE)
                least = near if least < near + self._step / 4 else least
            if not search.run(least, most_courses=most):
                break
            self._bound = max(least, search.score)
            if not self._exact and self._is_near():
                break
            self._step *= _STEPS
