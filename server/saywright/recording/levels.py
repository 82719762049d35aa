"""A recording → how loud each hundredth of a second is, and how much of it is clipped."""

import math
import struct
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from operator import mul

from saywright.recording.sound import Sound

FRAMES_PER_SECOND = 100
QUIETEST_DECIBELS = -96.0
"""What digital silence counts as: the least that 16 bits can hold."""

# the energy of a frame is as well told by a part of its samples
_COUNTED_SAMPLES_PER_SECOND = 8000
_FULL_SCALE_BYTES = {"unsigned": (b"\xff", b"\x00"), "signed": (b"\x7f", b"\x80")}
_SHORTEST_CLIPPED_RUN = 3
_FULL_SCALE = 0.992


@dataclass(frozen=True, slots=True)
class Levels:
    """The loudness of each frame of 10 ms in decibels of full scale, all channels together.

    A constant offset of the samples counts for nothing. `clipped` is the share of samples that
    lie at full scale, from 0 to 1.
    """

    decibels: tuple[float, ...]
    clipped: float


def measure(sound: Sound, progress: Callable[[float], None] = lambda _seconds: None) -> Levels:
    """The levels of `sound`. `progress` is told after each second how many have been measured."""
    decibels: list[float] = []
    clipped = 0.0
    second_bytes = sound.samples_per_second * sound.channels * sound.bytes_per_sample
    for start in range(0, len(sound.data), second_bytes):
        second = bytes(sound.data[start : start + second_bytes])
        frames = round(FRAMES_PER_SECOND * len(second) / second_bytes)
        energies = [0.0] * frames
        for channel in range(sound.channels):
            samples, at_full_scale = _samples(sound, second, channel)
            clipped += at_full_scale
            for index, energy in enumerate(_energies(samples, frames)):
                energies[index] += energy / sound.channels
        decibels += map(_decibels, energies)
        progress(len(decibels) / FRAMES_PER_SECOND)
    samples_in_all = len(sound.data) // sound.bytes_per_sample
    return Levels(tuple(decibels), clipped / samples_in_all if samples_in_all else 0.0)


def _samples(sound: Sound, second: bytes, channel: int) -> tuple[Sequence[float], int]:
    """Samples of one channel, thinned out, full scale 1; and how many of all are clipped."""
    width = sound.bytes_per_sample
    first, stride = channel * width, sound.channels * width
    thinning = max(sound.samples_per_second // _COUNTED_SAMPLES_PER_SECOND, 1)
    if sound.encoding == "float":
        values = _gathered(second, first, stride, width, "f" if width == 4 else "d")
        clipped = sum(map(_FULL_SCALE.__le__, map(abs, values)))
        thin = values[::thinning]
        return thin if math.isfinite(sum(thin)) else [0.0] * len(thin), clipped
    top = second[first + width - 1 :: stride]
    runs = sum(
        top.count(byte * _SHORTEST_CLIPPED_RUN) for byte in _FULL_SCALE_BYTES[sound.encoding]
    )
    clipped = runs * _SHORTEST_CLIPPED_RUN
    if sound.encoding == "unsigned":
        return [value / 128 - 1 for value in top[::thinning]], clipped
    # the two highest bytes: more than any microphone gives
    values = _gathered(second, first + width - 2, stride * thinning, 2, "h")
    return [value / 32768 for value in values], clipped


def _gathered(content: bytes, first: int, stride: int, width: int, code: str) -> tuple[float, ...]:
    """The numbers of `width` bytes that start at `first` and at each `stride` from there."""
    count = len(content[first + width - 1 :: stride])
    gathered = bytearray(count * width)
    for index in range(width):
        gathered[index::width] = content[first + index :: stride][:count]
    return struct.unpack(f"<{count}{code}", gathered)


def _energies(samples: Sequence[float], frames: int) -> Iterator[float]:
    """The mean square of each of `frames` equal stretches about its own mean."""
    for index in range(frames):
        start, end = (at * len(samples) // frames for at in (index, index + 1))
        frame = samples[start:end]
        if not frame:
            yield 0.0
            continue
        mean = sum(frame) / len(frame)
        yield max(sum(map(mul, frame, frame)) / len(frame) - mean * mean, 0.0)


def _decibels(energy: float) -> float:
    # 10·log10 of twice the energy: a sine at full scale is at 0
    return max(10 * math.log10(2 * energy), QUIETEST_DECIBELS) if energy else QUIETEST_DECIBELS
