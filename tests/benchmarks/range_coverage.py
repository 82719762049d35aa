"""How many true times lie in the ranges that are shown for them."""

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import minimize  # type: ignore[import-untyped, unused-ignore]

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


class Spreads(NamedTuple):
    """Standard deviations, named as in coefficients.toml."""

    reader: float
    reading_of_a_minute: float
    drift: float


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
        found = spreads(spoken, estimated, folds != fold)
        told = ", ".join(f"{name} {value:.3f}" for name, value in found._asdict().items())
        print(f"  spread without fold {fold}: {told}")
        coefficients().spread.update(found._asdict())
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


def spreads(spoken: Spoken, estimated: Floats, kept: NDArray[np.bool_]) -> Spreads:
    """The standard deviations of logarithms that make what the `kept` readers took likeliest."""
    factors = np.log(spoken.seconds / estimated)
    minutes = np.maximum(estimated, 1.0) / 60
    lengths = minutes ** -coefficients().spread["length_power"]
    readers = [np.flatnonzero(spoken.readers == each) for each in np.unique(spoken.readers[kept])]

    def unlikeliness(logarithms: Floats) -> float:
        reader, reading, drift = np.exp(logarithms)
        total = 0.0
        for own in readers:
            mean, variance = 0.0, reader**2
            for index in own:
                noise = (reading * lengths[index]) ** 2
                off, sure = factors[index] - mean, variance / (variance + noise)
                total += np.log(variance + noise) + off**2 / (variance + noise)
                mean, variance = mean + sure * off, sure * noise + drift**2
        return float(total)

    start = np.log([0.13, 0.07, 0.02])
    found = minimize(unlikeliness, start, method="Nelder-Mead", options={"xatol": 0.01}).x
    return Spreads(*(float(each) for each in np.exp(found)))
