"""The plan that is found is the best: held against every plan, and against an integer program."""

from dataclasses import replace
from random import Random

import pytest

from saywright.analysis import analyse
from saywright.cuts.planning.plans import plan
from saywright.cuts.planning.plans import problem_of as problem_of_piece
from saywright.cuts.planning.problem import (
    TICKS_PER_SECOND,
    Bond,
    Kept,
    Line,
    Problem,
    Unlike,
    is_allowed,
    score_of,
)
from saywright.cuts.planning.relaxation import relaxed
from saywright.cuts.planning.solver import CLOSE_ENOUGH, solve
from tests.cuts.planning import every_plan
from tests.cuts.planning.random_pieces import problem_of, script_of

SECOND = TICKS_PER_SECOND


def unlike(kept: Kept) -> Unlike:
    changed = sum(stays != 1 for stays in kept)
    return Unlike(kept, -(-changed // 3))


def assert_is_best(problem: Problem, best: float | None) -> None:
    found = solve(problem, exact=True)
    if best is None:
        assert found is None
        return
    assert found is not None
    assert is_allowed(problem, found.kept)
    assert score_of(problem, found.kept) == found.score == pytest.approx(best, abs=1e-4)
    assert found.gap == 0


@pytest.mark.parametrize("seed", range(60))
def test_the_plan_is_the_best_of_all(seed: int) -> None:
    random = Random(seed)
    problem = problem_of(random.randrange(1, 11), random)
    assert_is_best(problem, every_plan.best_score(problem))


@pytest.mark.parametrize("seed", range(60))
def test_the_plan_is_the_best_of_all_with_trims(seed: int) -> None:
    random = Random(seed)
    problem = problem_of(random.randrange(1, 8), random, trimmed=0.6)
    assert_is_best(problem, every_plan.best_score(problem))


@pytest.mark.parametrize("seed", range(40))
def test_a_plan_that_differs_is_the_best_of_all_that_do(seed: int) -> None:
    random = Random(seed)
    problem = problem_of(random.randrange(4, 11), random, trimmed=0.2 if seed % 2 else 0.0)
    for _ in range(3):
        assert_is_best(problem, every_plan.best_score(problem))
        found = solve(problem)
        if found is None:
            break
        problem = replace(problem, unlike=(*problem.unlike, unlike(found.kept)))


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(60, 560))
def test_the_plan_is_the_best_of_all_up_to_16_lines(seed: int) -> None:
    """A third of the pieces also have trims in some lines."""
    random = Random(seed)
    trimmed = 0.0 if seed % 3 else 0.25
    problem = problem_of(random.randrange(1, 17), random, trimmed=trimmed)
    assert_is_best(problem, every_plan.best_score(problem))


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(50))
def test_the_plan_is_that_of_an_integer_program(seed: int) -> None:
    """Against HiGHS, a solver of integer programs in SciPy (see `integer_program`): half of the
    problems are made up, half are those of scripts."""
    pytest.importorskip("scipy")
    from tests.cuts.planning import integer_program  # noqa: PLC0415

    random = Random(seed)
    lines = random.randrange(40, 121)
    if seed % 2:
        problem = problem_of(lines, random)
    else:
        analysis = analyse(script_of(lines, random))
        view = analysis.views[0]
        aim = view.timeline.seconds / random.uniform(1.2, 2.0)
        problem = problem_of_piece(analysis, view, aim)
    assert_is_best(problem, integer_program.best_score(problem))


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(20))
def test_a_plan_that_differs_is_that_of_an_integer_program(seed: int) -> None:
    pytest.importorskip("scipy")
    from tests.cuts.planning import integer_program  # noqa: PLC0415

    random = Random(seed)
    analysis = analyse(script_of(random.randrange(20, 41), random))
    view = analysis.views[0]
    problem = problem_of_piece(analysis, view, view.timeline.seconds / random.uniform(1.2, 2.0))
    for _ in range(2):
        found = solve(problem)
        assert found
        problem = replace(problem, unlike=(*problem.unlike, unlike(found.kept)))
    assert_is_best(problem, integer_program.best_score(problem))


@pytest.mark.parametrize("seed", range(6))
def test_a_long_piece_comes_near_a_bound_that_holds(seed: int) -> None:
    random = Random(seed)
    problem = replace(problem_of(random.randrange(61, 140), random), shortfall=0.0)
    found = solve(problem)
    best = solve(problem, exact=True)
    assert found
    assert best
    assert found.gap <= CLOSE_ENOUGH
    assert found.score <= best.score <= found.bound + 1e-6


@pytest.mark.parametrize("seed", range(40))
def test_no_plan_is_above_the_bound(seed: int) -> None:
    random = Random(seed)
    problem = problem_of(random.randrange(1, 9), random, trimmed=0.3 if seed % 2 else 0.0)
    best, relaxation = every_plan.best_score(problem), relaxed(problem)
    if best is not None:
        assert relaxation
        assert relaxation.bound >= best - 1e-6


@pytest.mark.parametrize("seed", range(8))
def test_every_plan_of_a_long_piece_comes_near_its_bound(seed: int) -> None:
    assert_long_piece(seed)


@pytest.mark.parametrize(
    ("text", "shorter"),
    [("I.\n\n" * 300, 3), ("No.\n\n" * 150, 2), ("I go. She stays.\n\n" * 300, 3)],
    ids=("I", "No", "I go"),
)
def test_every_plan_of_lines_that_are_alike_comes_near_its_bound(text: str, shorter: int) -> None:
    """The bound knows of no difference between them, so that courses by the thousand come near."""
    analysis = analyse(text)
    view = analysis.views[0]
    found = plan(analysis, view, view.timeline.seconds / shorter)
    assert len(found.plans) == 3
    assert max(each.gap for each in found.plans) <= CLOSE_ENOUGH


def test_a_plan_that_cannot_be_full_is_told_by_its_worth() -> None:
    """Of a piece whose third plan ends far below its aim: a fuller one is looked for, too."""
    analysis = analyse(script_of(45, Random(58)))
    view = analysis.views[0]
    found = plan(analysis, view, view.timeline.seconds / 1.5)
    assert len(found.plans) == 3
    assert max(each.gap for each in found.plans) < 0.2


@pytest.mark.parametrize("seed", range(12))
def test_no_plan_that_differs_is_above_its_bound(seed: int) -> None:
    random = Random(seed)
    problem = problem_of(random.randrange(30, 46), random, trimmed=0.1)
    for _ in range(3):
        found, best = solve(problem), solve(problem, exact=True)
        assert found
        assert best
        assert found.score <= best.score <= found.bound + 1e-6
        problem = replace(problem, unlike=(*problem.unlike, unlike(found.kept)))


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(8, 248))
def test_every_plan_of_many_long_pieces_comes_near_its_bound(seed: int) -> None:
    assert_long_piece(seed)


def assert_long_piece(seed: int) -> None:
    """A piece of 61 to 400 sentences, most of them of the fewer, where it is harder."""
    random = Random(seed)
    analysis = analyse(script_of(random.randrange(61, random.choice((90, 140, 401))), random))
    view = analysis.views[0]
    found = plan(analysis, view, view.timeline.seconds / random.uniform(1.2, 2.0))
    assert len(found.plans) == 3
    assert max(each.gap for each in found.plans) <= CLOSE_ENOUGH


def test_the_bound_of_a_plan_that_differs_holds() -> None:
    random = Random(5)
    problem = problem_of(70, random)
    first = solve(problem)
    assert first
    problem = replace(problem, unlike=(unlike(first.kept),))
    found, best = solve(problem, first), solve(problem, exact=True)
    assert found
    assert best
    assert found.score <= best.score <= found.bound + 1e-6
    assert found.bound <= first.bound


def test_a_line_that_another_leans_on_stays() -> None:
    lines = tuple(Line(SECOND, worth=points) for points in (10, 15, 20, 40))
    assert solved(Problem(lines, 3 * SECOND)) == (False, True, True, True)
    bond = Bond(0, 3, 30)
    assert solved(Problem(lines, 3 * SECOND, bonds=(bond,))) == (True, False, True, True)


def test_neighbours_go_together() -> None:
    lines = tuple(
        Line(SECOND, worth=points, enter=10, leave=10) for points in (90, 30, 90, 30, 35, 90)
    )
    assert solved(Problem(lines, 4 * SECOND)) == (True, True, True, False, False, True)


def test_a_fixed_line_stays_and_may_leave_no_room() -> None:
    lines = (Line(2 * SECOND, worth=5, fixed=True), Line(SECOND, worth=90))
    assert solved(Problem(lines, 2 * SECOND)) == (True, False)
    assert solve(Problem(lines, SECOND)) is None
    assert solve(Problem((), SECOND)) is None


def solved(problem: Problem) -> tuple[int, ...]:
    found = solve(problem)
    assert found
    return found.kept
