"""A reader's own pace from timed takes, and how far a time can be trusted.

A factor says how many times as long as the model's usual reader someone takes. Readers' factors
spread log-normally about 1, or about a stated pace; so does one reading about its reader's
factor, the less the longer it is; and from take to take the factor drifts, so that later takes
count for more. Each take moves the factor by what it is worth beside the spread: a Kalman filter of
a random walk with known variances, on logarithms. The numbers, with their sources, are in
coefficients.toml under [spread].
"""

import math
from collections.abc import Iterable
from typing import NamedTuple

from saywright.speech.model import coefficients
from saywright.speech.vowel_nuclei import has_rules

_DEVIATIONS = 1.645  # of a normal distribution, either side, hold 90% of it
_FARTHEST = math.log(2.0)


class Calibration(NamedTuple):
    """A reader's factor: the mean and the variance of its logarithm, from `takes` takes."""

    mean: float = 0.0
    variance: float = 0.0
    takes: int = 0

    @property
    def scale(self) -> float:
        return math.exp(self.mean)

    def range_of(self, natural_seconds: float, marked_seconds: float) -> tuple[float, float]:
        """The two ends, in seconds, that hold 90% of readings.

        `natural_seconds` are estimated at this factor; `marked_seconds` are silences whose
        length is written, and so are certain.
        """
        if natural_seconds <= 0:
            return marked_seconds, marked_seconds
        usual = natural_seconds / self.scale
        width = math.exp(_DEVIATIONS * math.sqrt(self.variance + _noise(usual)))
        return marked_seconds + natural_seconds / width, marked_seconds + natural_seconds * width


USUAL_READER = Calibration()
"""The model's own, known for certain."""


class TimedTake(NamedTuple):
    """A take from first sound to last, the usual reader's estimate of the same, and the silences
    marked in between, in seconds."""

    seconds: float
    usual_seconds: float
    marked_seconds: float

    @property
    def log_factor(self) -> float | None:
        """None where the take cannot be of this text: half of its estimate or less, or twice it
        or more, marked silences left out of both."""
        natural = self.seconds - self.marked_seconds
        usual = self.usual_seconds - self.marked_seconds
        if natural <= 0 or usual <= 0:
            return None
        factor = math.log(natural) - math.log(usual)
        return factor if abs(factor) < _FARTHEST else None


def before_takes(scale: float, *, stated: bool, language: str) -> Calibration:
    """What is known of a reader's factor before a take: `scale` from a pace that is `stated`, or
    the usual reader's. A language whose rate is less sure widens it."""
    spread = coefficients().spread
    reader = spread["stated_pace" if stated else "reader"]
    return Calibration(math.log(scale), reader**2 + _language_spread(language) ** 2)


def after_takes(before: Calibration, takes: Iterable[TimedTake]) -> Calibration:
    """What is known after `takes`, the latest last; those that cannot be of the text are left
    out."""
    mean, variance = before.mean, before.variance
    used = 0
    for take in takes if before.variance else ():
        factor = take.log_factor
        if factor is not None:
            noise = _noise(take.usual_seconds - take.marked_seconds)
            gain = variance / (variance + noise)
            mean += gain * (factor - mean)
            drift = coefficients().spread["drift"] ** 2
            variance = min(gain * noise + drift, variance)  # a take never makes less sure
            used += 1
    if not used:
        return before
    other_day = coefficients().spread["other_day"] ** 2
    return Calibration(mean, min(variance + other_day, before.variance), used)


def _noise(seconds: float) -> float:
    """The variance of the logarithm of one reading of so many seconds about its reader's pace."""
    spread = coefficients().spread
    minutes = max(seconds, 1.0) / 60
    return float((spread["reading_of_a_minute"] * minutes ** -spread["length_power"]) ** 2)


def _language_spread(language: str) -> float:
    tag = language.partition("-")[0].lower()
    if tag == "en":
        return 0.0
    if not has_rules(tag):
        return coefficients().spread["language_without_rules"]
    has_rate = tag in coefficients().syllables_per_second
    return coefficients().spread["language_with_rate" if has_rate else "language_without_rate"]
