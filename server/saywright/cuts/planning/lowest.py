"""Where the highest of some planes is lowest: a small linear program, solved by the simplex method
on its dual (G. B. Dantzig, Linear Programming and Extensions, 1963)."""

from collections.abc import Sequence
from operator import mul
from typing import NamedTuple

_MOST_PIVOTS = 60
_TINY = 1e-9


class Plane(NamedTuple):
    """Its height where all is 0, and by how much it rises with each coordinate."""

    height: float
    slopes: tuple[float, ...]

    def at(self, point: Sequence[float]) -> float:
        risen: float = sum(map(mul, self.slopes, point))
        return self.height + risen


class Lowest(NamedTuple):
    point: tuple[float, ...]
    height: float


def lowest(planes: Sequence[Plane], low: Sequence[float], high: Sequence[float]) -> Lowest:
    """The point from `low` to `high` where the highest of the planes is lowest, and how high it is
    there.

    The dual asks for shares of the planes, 1 in all, whose mean is high while it falls in no
    direction. Its first row says that the shares are 1, one more for each coordinate that the mean
    does not fall; its columns are the planes, then for each coordinate the upper edge and what is
    over. Coordinates count in widths of the box.
    """
    widths = [most - least for least, most in zip(low, high, strict=True)]
    heights = [plane.at(low) for plane in planes]
    rows = [[1.0] * len(planes)]
    rows += [
        [-plane.slopes[number] * width for plane in planes] for number, width in enumerate(widths)
    ]
    found = _Tableau(rows, heights).solved()
    point = tuple(map(_from, low, high, found))
    return Lowest(point, max([plane.at(point) for plane in planes]))


def _from(low: float, high: float, share: float) -> float:
    """What is so far from `low` to `high`; exactly the one or the other where it is near."""
    if share < _TINY:
        return low
    return high if share > 1 - _TINY else low + share * (high - low)


class _Tableau:
    """Its columns are the planes, the edges, what is over, and the right side; its last row tells
    what a column gains."""

    def __init__(self, rows: list[list[float]], heights: Sequence[float]) -> None:
        self._planes = len(heights)
        count = len(rows) - 1
        for number, row in enumerate(rows):
            edge = [-1.0 if each + 1 == number else 0.0 for each in range(count)]
            row += [*edge, *(-each for each in edge), 0.0 if number else 1.0]
        self._rows = rows
        self._rows.append([*heights, *[-1.0] * count, *[0.0] * count, 0.0])
        highest = max(range(len(heights)), key=heights.__getitem__)
        self._pivot(0, highest)
        for number in range(1, count + 1):
            row = self._rows[number]
            if row[-1] < 0:
                self._pivot(number, self._planes + number - 1)

    def solved(self) -> list[float]:
        """Each coordinate, in widths."""
        for _ in range(_MOST_PIVOTS):
            gain = self._rows[-1]
            most = max(gain[:-1])
            if most <= _TINY * (1 + abs(gain[-1])):
                break
            column = gain.index(most)
            ratios = [
                (row[-1] / row[column], number)
                for number, row in enumerate(self._rows[:-1])
                if row[column] > _TINY
            ]
            if not ratios:
                break
            self._pivot(min(ratios)[1], column)
        count = len(self._rows) - 2
        first = self._planes + count
        return [-each for each in self._rows[-1][first : first + count]]

    def _pivot(self, number: int, column: int) -> None:
        row = self._rows[number]
        factor = 1 / row[column]
        row = self._rows[number] = [each * factor for each in row]
        for other, each in enumerate(self._rows):
            times = each[column]
            if other != number and times:
                self._rows[other] = [one - times * two for one, two in zip(each, row, strict=True)]
