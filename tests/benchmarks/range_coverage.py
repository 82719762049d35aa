"""How many true times lie in the ranges that are shown for them."""

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

import saywright
from saywright.speech.calibration import Calibration, TimedTake, after_takes, before_takes
from saywright.speech.model import coefficients
from tests.benchmarks.fit_speech import LEAST_SECONDS_A_READER, Floats
from tests.benchmarks.speech_data import as_script


class Spoken(NamedTuple):
    """Stretches of speech, in the order in which their speakers said them."""

    texts: list[str]
    seconds: Floats
    readers: NDArray[np.int64]

    def halves(self) -> Iterator[tuple[NDArray[np.intp], NDArray[np.intp]]]:
        """The first and the second half of each speaker of whom there is enough."""
        for reader in np.unique(self.readers):
            own = np.flatnonzero(self.readers == reader)
            if self.seconds[own].sum() >= LEAST_SECONDS_A_READER:
                yield own[: len(own) // 2], own[len(own) // 2 :]


class Coverage:
    """Counts of ranges, and the errors of the estimates in their middle."""

    def __init__(self) -> None:
        self.held: list[bool] = []
        self.errors: list[float] = []
        self.widths: list[float] = []

    def add(self, true: float, low: float, estimated: float, high: float) -> None:
        self.held.append(low <= true <= high)
        self.errors.append(abs(estimated / true - 1) * 100)
        self.widths.append((high - low) / estimated * 50)

    def __str__(self) -> str:
        share = float(np.mean(self.held))
        error = (share * (1 - share) / len(self.held)) ** 0.5
        return (
            f"{100 * share:.1f}±{100 * error:.1f}% of {len(self.held)}, "
            f"±{np.median(self.widths):.0f}% wide, error {np.median(self.errors):.2f}"
            f"/{np.percentile(self.errors, 90):.1f}"
        )


def shipped(spoken: Spoken) -> str:
    """As `saywright.inspect` tells ranges, takes being written into the script."""
    before, after = Coverage(), Coverage()
    estimates = [_add(before, spoken, index, "") for index in range(len(spoken.texts))]
    for first, second in spoken.halves():
        lines = "".join(f"{spoken.seconds[i]:.2f}s of {estimates[i]:.2f}s\n" for i in first)
        for index in second:
            _add(after, spoken, index, f"---- takes\n{lines}")
    return f"{before} / {after}"


def _add(coverage: Coverage, spoken: Spoken, index: int, takes: str) -> float:
    part = saywright.inspect(as_script(spoken.texts[index]) + takes)["parts"][0]
    seconds = float(part["seconds"])
    coverage.add(spoken.seconds[index], part["seconds_low"], seconds, part["seconds_high"])
    return seconds


def held_out(spoken: Spoken, estimated: Floats, folds: NDArray[np.int64]) -> str:
    """With estimates, and the spread of readers and readings, of the other folds' speakers."""
    before, after = Coverage(), Coverage()
    kept = dict(coefficients().spread)
    for fold in np.unique(folds):
        reader, reading = spreads(spoken, estimated, folds != fold)
        print(f"  spread without fold {fold}: reader {reader:.3f}, a minute {reading:.3f}")
        coefficients().spread.update(reader=reader, reading_of_a_minute=reading)
        unknown = before_takes(1.0, stated=False, language="en")
        for index in np.flatnonzero(folds == fold):
            _add_range(before, unknown, estimated[index], spoken.seconds[index])
        for first, second in spoken.halves():
            if folds[second[0]] == fold:
                takes = [TimedTake(spoken.seconds[i], estimated[i], 0.0) for i in first]
                for index in second:
                    known = after_takes(unknown, takes)
                    _add_range(after, known, estimated[index], spoken.seconds[index])
    coefficients().spread.update(kept)
    return f"{before} / {after}"


def _add_range(coverage: Coverage, known: Calibration, usual: float, true: float) -> None:
    seconds = usual * known.scale
    low, high = known.range_of(seconds, 0.0)
    coverage.add(true, low, seconds, high)


def spreads(spoken: Spoken, estimated: Floats, kept: NDArray[np.bool_]) -> tuple[float, float]:
    """Standard deviations of logarithms: of readers' factors, and of readings about them."""
    factors = np.log(spoken.seconds[kept] / estimated[kept])
    readers = np.unique(spoken.readers[kept], return_inverse=True)[1]
    counts = np.bincount(readers)
    about = factors - (np.bincount(readers, factors) / counts)[readers]
    within = float((about**2).sum() / (counts - 1).sum())
    return float(np.sqrt(max(factors.var() - within, 0.0))), within**0.5
