"""The two models that the tense engine's weights come from, fitted with numpy and scipy."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import minimize
from scipy.sparse import csr_matrix

from saywright.language.english.weights import CLAUSE_UNITS, UNITS, ZERO

Floats = NDArray[np.float64]
Features = Sequence[str]
GREATEST_UNITS = 62
LEAST_UNITS = 2


def index_of(rows: Iterable[Features], least_count: int) -> dict[str, int]:
    """A number for every feature that stands in at least so many rows."""
    counts = Counter(feature for row in rows for feature in row)
    kept = (feature for feature, count in counts.items() if count >= least_count)
    return {feature: number for number, feature in enumerate(kept)}


def matrix_of(rows: Sequence[Features], index: Mapping[str, int]) -> Any:
    columns: list[int] = []
    ends = [0]
    for row in rows:
        columns.extend([index[feature] for feature in row if feature in index])
        ends.append(len(columns))
    ones = np.ones(len(columns), dtype=np.float32)
    return csr_matrix((ones, columns, ends), shape=(len(rows), len(index)))


def fit_classes(
    matrix: Any,
    labels: NDArray[np.int64],
    count: int,
    *,
    penalty: float,
    rounds: int,
    weights: Floats,
    start: Floats | None = None,
) -> Floats:
    """Multinomial logistic regression, `count` columns of weights; `weights` are of the rows."""
    rows, width = matrix.shape
    each = np.arange(rows)
    turned = matrix.T.tocsr()
    single = weights.astype(np.float32)[:, None]  # half the time of double precision

    def loss(flat: Floats) -> tuple[float, Floats]:
        scores = matrix @ flat.reshape(width, count).astype(np.float32)
        scores -= scores.max(axis=1, keepdims=True)
        chances = np.exp(scores)
        sums = chances.sum(axis=1, keepdims=True)
        right = (scores - np.log(sums))[each, labels]
        chances /= sums
        chances[each, labels] -= 1
        slope = (turned @ (chances * single)).astype(np.float64).ravel() + penalty * flat
        cost = -(right * single[:, 0]).sum(dtype=np.float64) + penalty / 2 * (flat @ flat)
        return float(cost), slope

    begin = np.zeros(width * count) if start is None else start.ravel()
    return _least(loss, begin, rounds).reshape(width, count)


def fit_choice(
    matrix: Any,
    starts: NDArray[np.int64],
    right: NDArray[np.bool_],
    *,
    penalty: float,
    rounds: int,
    weights: Floats,
    start: Floats | None = None,
) -> Floats:
    """Weights by which the right one of a group of rows is chosen; groups begin at `starts`, and
    `weights` are the groups'."""
    rows, width = matrix.shape
    group = np.zeros(rows, dtype=np.int64)
    group[starts[1:]] = 1
    group = group.cumsum()
    turned = matrix.T.tocsr()

    def loss(guess: Floats) -> tuple[float, Floats]:
        scores = matrix @ guess
        powers = np.exp(scores - np.maximum.reduceat(scores, starts)[group])
        sums = np.add.reduceat(powers, starts)
        hits = np.where(right, powers, 0)
        right_sums = np.add.reduceat(hits, starts)
        pull = (powers / sums[group] - hits / right_sums[group]) * weights[group]
        cost = -(np.log(right_sums / sums) * weights).sum() + penalty / 2 * guess @ guess
        return float(cost), turned @ pull + penalty * guess

    return _least(loss, np.zeros(width) if start is None else start, rounds)


def _least(loss: Any, start: Floats, rounds: int) -> Floats:
    options = {"maxiter": rounds, "maxcor": 6}
    found = minimize(loss, start, jac=True, method="L-BFGS-B", options=options)
    return np.asarray(found.x, dtype=np.float64)


def heaviest(index: Mapping[str, int], weights: Floats, least: float) -> tuple[dict[str, int], Any]:
    """The features with a weight of at least `least`, numbered anew, and their rows of weights."""
    sizes = np.abs(weights.reshape(len(index), -1)).max(axis=1)
    kept = [feature for feature, number in index.items() if sizes[number] >= least]
    return (
        {feature: number for number, feature in enumerate(kept)},
        weights[[index[feature] for feature in kept]],
    )


def spelled(index: Mapping[str, int], weights: Floats) -> dict[str, str]:
    """Weights, as `saywright.language.english.weights.packed` reads them, to the features that
    have them, in lines."""
    units = np.clip(np.rint(weights * UNITS), -GREATEST_UNITS, GREATEST_UNITS).astype(int)
    units[np.abs(units) < LEAST_UNITS] = 0
    found: dict[str, list[str]] = {}
    for feature, number in index.items():
        if units[number].any():
            code = "".join(chr(ZERO + unit) for unit in units[number])
            found.setdefault(code, []).append(feature)
    return {code: "\n".join(sorted(features)) for code, features in sorted(found.items())}


def grouped(index: Mapping[str, int], weights: Floats) -> dict[str, str]:
    """Each weight, in units, to the features that have it, in lines."""
    units = np.rint(weights * CLAUSE_UNITS).astype(int)
    found: dict[str, list[str]] = {}
    for feature, number in index.items():
        if units[number]:
            found.setdefault(str(units[number]), []).append(feature)
    return {unit: "\n".join(sorted(features)) for unit, features in sorted(found.items())}
