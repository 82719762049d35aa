"""How loud each moment is → where there is speech, and the pauses in it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise
from typing import NamedTuple

from saywright.recording.levels import FRAMES_PER_SECOND
from saywright.recording.sound import UnusableRecordingError

SHORTEST_PAUSE_SECONDS = 0.15
"""A shorter silence is part of a word: the closure before a p, t or k lasts about 0.1 s."""

SHORTEST_SOUND_SECONDS = 0.08
"""A shorter sound with a pause on both sides is a click."""

_FLOOR_PERCENTILE, _SPEECH_PERCENTILE = 2, 80
_QUIETEST_SPEECH_DECIBELS = -60.0
_LEAST_RANGE_DECIBELS, _MOST_RANGE_DECIBELS = 10.0, 45.0
# Speech is heard from where it rises above the upper threshold, and reaches on both sides to
# where it falls below the lower: a breath lies between the two, a word's end belongs to it.
_LOWER, _UPPER = 0.25, 0.6
# The first sound and the last reach further out, as far as what is quiet lets them be told from
# it: a voice in a room rings on.
_FAINT = 0.1
_QUIET_PERCENTILE = 70
_FADE_FRAMES = FRAMES_PER_SECOND * 15 // 100
_LEAST_SPEECH_FRAMES = FRAMES_PER_SECOND // 4


class Pause(NamedTuple):
    """A silence inside the speech, in seconds from the recording's start."""

    start_seconds: float
    seconds: float

    @property
    def end_seconds(self) -> float:
        return self.start_seconds + self.seconds


@dataclass(frozen=True, slots=True)
class Heard:
    """The first and the last sound of a recording's speech, and the pauses between."""

    start_seconds: float
    end_seconds: float
    pauses: tuple[Pause, ...]

    @property
    def seconds(self) -> float:
        return self.end_seconds - self.start_seconds


class _Thresholds(NamedTuple):
    """In decibels, see `_LOWER` and `_FAINT`."""

    faint: float
    lower: float
    upper: float


def find_speech(decibels: Sequence[float]) -> Heard:
    """Speech and pauses, from the loudness of each frame of 10 ms.

    Raises `UnusableRecordingError` where nothing stands out from the background.
    """
    heard = _thresholds(decibels)
    smooth = _smoothed(decibels)
    stretches = [
        (start, end)
        for start, end in _closed(_louder_stretches(smooth, heard.lower))
        if end - start >= SHORTEST_SOUND_SECONDS * FRAMES_PER_SECOND
        and max(smooth[start:end]) > heard.upper
    ]
    if not stretches:
        raise _silent()
    first, last = _faded(smooth, stretches[0][0], stretches[-1][1], heard)
    return Heard(
        first / FRAMES_PER_SECOND,
        last / FRAMES_PER_SECOND,
        tuple(
            Pause(end / FRAMES_PER_SECOND, (start - end) / FRAMES_PER_SECOND)
            for (_, end), (start, _) in pairwise(stretches)
        ),
    )


def _silent() -> UnusableRecordingError:
    return UnusableRecordingError(
        "No speech was found: nothing in the recording stands out from its background. "
        "Was the right microphone on?"
    )


def _thresholds(decibels: Sequence[float]) -> _Thresholds:
    floor = _percentile(decibels, _FLOOR_PERCENTILE)
    active = [level for level in decibels if level >= floor + _LEAST_RANGE_DECIBELS]
    if len(active) < _LEAST_SPEECH_FRAMES:
        raise _silent()
    speech = _percentile(active, _SPEECH_PERCENTILE)
    if speech < _QUIETEST_SPEECH_DECIBELS:
        raise _silent()
    floor = max(floor, speech - _MOST_RANGE_DECIBELS)
    return _Thresholds(*(floor + share * (speech - floor) for share in (_FAINT, _LOWER, _UPPER)))


def _faded(decibels: Sequence[float], first: int, last: int, heard: _Thresholds) -> tuple[int, int]:
    """Where the speech from frame `first` to `last` fades in, and where it has faded out."""
    quiet = [level for level in decibels if level < heard.lower]
    background = _percentile(quiet, _QUIET_PERCENTILE) if quiet else heard.lower
    faint = min(max(heard.faint, background), heard.lower)
    earliest, latest = max(first - _FADE_FRAMES, 0), min(last + _FADE_FRAMES, len(decibels))
    while first > earliest and decibels[first - 1] > faint:
        first -= 1
    while last < latest and decibels[last] > faint:
        last += 1
    return first, last


def _percentile(levels: Sequence[float], percent: int) -> float:
    return sorted(levels)[len(levels) * percent // 100]


def _smoothed(decibels: Sequence[float]) -> list[float]:
    padded = [decibels[0], *decibels, decibels[-1]]
    return [sum(padded[index : index + 3]) / 3 for index in range(len(decibels))]


def _louder_stretches(decibels: Sequence[float], threshold: float) -> Iterator[tuple[int, int]]:
    start = 0
    for loud, frames in groupby(decibels, threshold.__lt__):
        end = start + sum(1 for _ in frames)
        if loud:
            yield start, end
        start = end


def _closed(stretches: Iterator[tuple[int, int]]) -> list[tuple[int, int]]:
    """The stretches, joined where what is between them is too short for a pause."""
    closed: list[tuple[int, int]] = []
    for start, end in stretches:
        if closed and start - closed[-1][1] < SHORTEST_PAUSE_SECONDS * FRAMES_PER_SECOND:
            closed[-1] = closed[-1][0], end
        else:
            closed.append((start, end))
    return closed
