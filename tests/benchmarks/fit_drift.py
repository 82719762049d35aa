"""Learn how much each sign speaks for a slip of tense, and write the weights.

    python tests/benchmarks/fit_drift.py DATA

writes server/saywright/checks/tense_weights.txt: a logistic regression for lines in the present
and one for lines in the past, between the short runs of untouched documents and those that a slip
makes (see `drift_data`). It prints how many slips are found at how many false alarms where each
half of the documents is judged by what was learned from the other, and writes what is learned
from both. DATA is the folder of `voice_data`, from SAYWRIGHT_DATA if it is not given.
"""

import sys
from collections import Counter
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

if __package__ in (None, ""):
    sys.path.insert(0, str(Path(__file__).parents[2]))

from saywright.checks import tense_slips
from saywright.checks.tense_runs import MOST_LINES, OTHER, Bearing, Run, Told, runs
from saywright.checks.tense_signs import signs
from tests.benchmarks.drift_data import half_of, read_documents, slips, spoken_like, told, words_in
from tests.benchmarks.voice_data import data_folder

TABLE = Path(tense_slips.__file__).with_name("tense_weights.txt")
LEAST_SEEN = 15  # runs that have a sign, for it to get a weight
RIDGE = 12.0  # of 6 to 25 it makes little difference, by the halves
BOTH: tuple[Bearing, ...] = ("present", "past")
RATES = (0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8)

Floats = NDArray[np.float64]


class Example(NamedTuple):
    half: str
    tense: Bearing
    is_slip: bool
    signs: frozenset[str]


def examples(documents: Mapping[str, Sequence[Told]]) -> list[Example]:
    return [
        Example(half_of(name), run.tense, False, frozenset(signs(lines, run)))
        for name, lines in documents.items()
        for run in runs(lines)
        if _is_short(run)
    ]


def _is_short(run: Run) -> bool:
    return len(run.lines) <= MOST_LINES and bool(run.before and run.after)


def fitted(known: Sequence[Example], names: Sequence[str]) -> Floats:
    """The weight of each name, and the constant, by Newton's method."""
    table = np.array([[*(name in each.signs for name in names), True] for each in known], float)
    slipped = np.array([each.is_slip for each in known], float)
    ridge = np.full(len(names) + 1, RIDGE)
    ridge[-1] = 0.01
    weights = np.zeros(len(names) + 1)
    for _ in range(30):
        likely = 1 / (1 + np.exp(-table @ weights))
        slope = table.T @ (likely - slipped) + ridge * weights
        curve = (table * (likely * (1 - likely))[:, None]).T @ table + np.diag(ridge)
        weights -= np.linalg.solve(curve, slope)
    return weights


def judged(of: Sequence[Example], names: Sequence[str], weights: Floats) -> Floats:
    table = np.array([[*(name in each.signs for name in names), True] for each in of], float)
    return np.asarray(table @ weights)


def report(of: Sequence[Example], names: Sequence[str], slip_count: int, words: int) -> None:
    alarms: list[float] = []
    found: list[float] = []
    for half in ("tune", "check"):
        weights = fitted([each for each in of if each.half != half], names)
        here = [each for each in of if each.half == half]
        for each, value in zip(here, judged(here, names, weights), strict=True):
            (found if each.is_slip else alarms).append(float(value))
    alarms.sort(reverse=True)
    for rate in RATES:
        least = alarms[int(rate * words / 1000)]
        share = sum(value > least for value in found) / slip_count
        print(f"  {rate:.2f} false alarms in 1,000 words: {share:.3f} found, above {least:.2f}")


def main() -> None:
    documents = spoken_like(read_documents(data_folder()))
    words = sum(map(words_in, documents.values()))
    known = examples({name: told(document) for name, document in documents.items()})
    counts: Counter[Bearing] = Counter()
    for name, at, piece, lines in slips(documents):
        counts[OTHER[piece]] += 1
        for run in runs(lines):
            if at in run.lines and run.tense != piece and _is_short(run):
                known.append(Example(half_of(name), run.tense, True, frozenset(signs(lines, run))))
    seen = Counter(sign for each in known for sign in each.signs)
    names = sorted(sign for sign in seen if seen[sign] >= LEAST_SEEN)
    columns = []
    for tense in BOTH:
        of = [each for each in known if each.tense == tense]
        print(f"lines in the {tense}, {counts[tense]} slips, each half by the other:")
        report(of, names, counts[tense], words)
        columns.append(fitted(of, names))
    TABLE.write_text(table_text(names, columns), encoding="utf-8")
    print(f"{TABLE.name}: {len(names)} signs")


def table_text(names: Sequence[str], columns: Sequence[Floats]) -> str:
    lines = [
        "# What each sign weighs, of lines in the present and of lines in the past; learned by",
        "# tests/benchmarks/fit_drift.py, do not edit. The signs: tense_signs.py.",
    ]
    for name, *weights in zip((*names, "every run"), *columns, strict=True):
        lines.append(" ".join((*(f"{weight:.2f}" for weight in weights), name)))
    return "\n".join((*lines, ""))


if __name__ == "__main__":
    main()
