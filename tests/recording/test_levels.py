"""Loudness of known waves, however their samples are saved."""

import math
import struct
from collections.abc import Sequence

import pytest

from saywright.recording.levels import QUIETEST_DECIBELS, measure
from saywright.recording.sound import Encoding, Sound

KINDS: list[tuple[Encoding, int]] = [
    ("unsigned", 1),
    ("signed", 2),
    ("signed", 3),
    ("signed", 4),
    ("float", 4),
    ("float", 8),
]


def saved(values: Sequence[float], encoding: Encoding, width: int) -> bytes:
    """Samples of full scale 1 as a file holds them."""
    if encoding == "float":
        return struct.pack(f"<{len(values)}{'f' if width == 4 else 'd'}", *values)
    if encoding == "unsigned":
        return bytes(min(max(round(value * 128) + 128, 0), 255) for value in values)
    top = 2 ** (8 * width - 1)
    whole = (min(max(round(value * top), -top), top - 1) for value in values)
    return b"".join(number.to_bytes(width, "little", signed=True) for number in whole)


def sound(
    values: Sequence[float],
    encoding: Encoding = "signed",
    width: int = 2,
    rate: int = 8000,
    channels: int = 1,
) -> Sound:
    return Sound(memoryview(saved(values, encoding, width)), rate, channels, encoding, width)


def sine(amplitude: float, seconds: float, rate: int, offset: float = 0.0) -> list[float]:
    count = round(seconds * rate)
    return [offset + amplitude * math.sin(math.tau * 400 * index / rate) for index in range(count)]


@pytest.mark.parametrize(("encoding", "width"), KINDS)
@pytest.mark.parametrize("rate", [8000, 11025, 44100])
def test_a_sine_in_any_kind_of_samples(encoding: Encoding, width: int, rate: int) -> None:
    levels = measure(sound(sine(0.25, 1.5, rate), encoding, width, rate))
    assert len(levels.decibels) == 150
    for decibels in levels.decibels:
        assert decibels == pytest.approx(-12.04, abs=0.3)
    assert levels.clipped == 0


def test_loud_and_quiet_keep_their_place_to_the_frame() -> None:
    values = sine(0.5, 0.4, 44100) + [0.0] * 44100 + sine(0.05, 0.6, 44100)
    decibels = measure(sound(values, rate=44100)).decibels
    assert all(abs(level + 6.02) < 0.5 for level in decibels[:40])
    assert set(decibels[40:140]) == {QUIETEST_DECIBELS}
    assert all(abs(level + 26.02) < 0.5 for level in decibels[140:])


def test_a_constant_offset_counts_for_nothing() -> None:
    plain, shifted = (measure(sound(sine(0.1, 1, 8000, offset))).decibels for offset in (0.0, 0.3))
    assert shifted == pytest.approx(plain, abs=0.1)


def test_channels_that_cancel_out_are_still_heard() -> None:
    one = sine(0.5, 1, 8000)
    both = [value for each in one for value in (each, -each)]
    assert measure(sound(both, channels=2)).decibels[50] == pytest.approx(-6.02, abs=0.3)


def test_one_channel_of_two_is_three_decibels_less() -> None:
    both = [value for each in sine(0.5, 1, 8000) for value in (each, 0.0)]
    assert measure(sound(both, channels=2)).decibels[50] == pytest.approx(-9.03, abs=0.3)


@pytest.mark.parametrize(("encoding", "width"), KINDS)
def test_clipped_samples_are_counted(encoding: Encoding, width: int) -> None:
    values = [min(max(value, -1.0), 1.0) for value in sine(1.6, 1, 8000)]
    above = sum(abs(value) >= 1 for value in values) / len(values)
    clipped = measure(sound(values, encoding, width)).clipped
    assert 0.5 * above < clipped < 1.3 * above


@pytest.mark.parametrize("value", [128 / 32768, -129 / 32768, 384 / 32768])
def test_a_quiet_constant_is_not_clipped(value: float) -> None:
    assert measure(sound([value] * 8000)).clipped == 0


def test_what_is_no_number_counts_as_silence() -> None:
    levels = measure(sound([math.nan] * 8000, "float", 4))
    assert set(levels.decibels) == {QUIETEST_DECIBELS}


def test_progress_is_told() -> None:
    seconds: list[float] = []
    measure(sound([0.0] * 20000), seconds.append)
    assert seconds == [1.0, 2.0, 2.5]
