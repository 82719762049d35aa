"""Where the highest of some planes is lowest: no other point is lower."""

from random import Random

import pytest

from saywright.cuts.planning.lowest import Plane, lowest


@pytest.mark.parametrize("seed", range(150))
def test_no_other_point_is_lower(seed: int) -> None:
    random = Random(seed)
    planes = _planes(random, random.randrange(1, 4))
    low, high = _box(random, len(planes[0].slopes))
    found = lowest(planes, low, high)
    assert all(low[at] <= each <= high[at] for at, each in enumerate(found.point))
    assert found.height == pytest.approx(_highest(planes, found.point))
    for reach in (1.0, 0.1, 0.01):
        for _ in range(60):
            other = [
                min(max(each + random.uniform(-reach, reach) * (most - least), least), most)
                for each, least, most in zip(found.point, low, high, strict=True)
            ]
            assert _highest(planes, other) >= found.height - 1e-6 * (1 + abs(found.height))


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(1000))
def test_it_is_that_of_another_solver(seed: int) -> None:
    optimize = pytest.importorskip("scipy.optimize")
    random = Random(seed)
    planes = _planes(random, random.randrange(1, 4))
    low, high = _box(random, len(planes[0].slopes))
    other = optimize.linprog(
        [1.0, *[0.0] * len(low)],
        A_ub=[[-1.0, *plane.slopes] for plane in planes],
        b_ub=[-plane.height for plane in planes],
        bounds=[(None, None), *zip(low, high, strict=True)],
    )
    assert lowest(planes, low, high).height == pytest.approx(other.fun, rel=1e-6, abs=1e-6)


def _planes(random: Random, coordinates: int) -> list[Plane]:
    """Some of them alike, level or steep, as those of courses are."""
    return [
        Plane(
            random.choice((random.uniform(0, 9000), 100.0 * random.randrange(4))),
            tuple(
                random.choice((0, 1, -1, random.uniform(-3000, 3000), random.uniform(-3, 3)))
                for _ in range(coordinates)
            ),
        )
        for _ in range(random.randrange(1, 16))
    ]


def _box(random: Random, coordinates: int) -> tuple[list[float], list[float]]:
    low = [random.choice((0.0, random.uniform(0, 2))) for _ in range(coordinates)]
    return low, [each + random.choice((1.0, 1e-3, random.uniform(0, 5))) for each in low]


def _highest(planes: list[Plane], point: list[float] | tuple[float, ...]) -> float:
    return max(plane.at(point) for plane in planes)
