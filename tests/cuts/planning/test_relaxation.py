"""The bound is found near its least in a few passes, and courses are told as they are."""

from dataclasses import replace
from random import Random
from statistics import mean

import pytest

from saywright.analysis import analyse
from saywright.cuts.planning.plans import problem_of as problem_of_piece
from saywright.cuts.planning.problem import Problem, Unlike, kept_of
from saywright.cuts.planning.relaxation import relaxed
from saywright.cuts.planning.solver import solve
from tests.cuts.planning.random_pieces import problem_of, script_of


def unlike(problem: Problem) -> Problem:
    """The problem of a plan that differs from its best."""
    found = solve(problem)
    assert found
    changed = sum(stays != 1 for stays in found.kept)
    return replace(problem, unlike=(*problem.unlike, Unlike(found.kept, -(-changed // 3))))


def test_few_passes_come_near_the_least_bound() -> None:
    """Each plan's prices are looked for from those of the one before."""
    above: list[float] = []
    for seed in range(10):
        analysis = analyse(script_of(60, Random(seed)))
        view = analysis.views[0]
        problem = problem_of_piece(analysis, view, view.timeline.seconds / 1.5)
        known = relaxed(problem)
        for _ in range(2):
            problem = unlike(problem)
            known, least = relaxed(problem, known, rounds=3), relaxed(problem, rounds=40)
            assert known
            assert least
            above.append(known.bound / least.bound - 1)
    assert min(above) > -0.001
    assert mean(above) < 0.003
    assert max(above) < 0.02


@pytest.mark.parametrize("seed", range(20))
def test_courses_differ_as_their_plans_do(seed: int) -> None:
    random = Random(seed)
    problem = unlike(unlike(problem_of(random.randrange(20, 40), random, trimmed=0.5)))
    found = relaxed(problem)
    assert found
    for course in found.courses:
        kept = kept_of(problem, course.kept)
        assert course.differs == tuple(each.count(kept) for each in problem.unlike)
        assert found.passes.again(course) == course
