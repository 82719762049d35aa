"""Recordings whose truth is known: what a synthesiser says, or tones, between known silences."""

import io
import math
import os
import random
import shutil
import subprocess
import tempfile
import wave
from array import array
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

import pytest

SAMPLES_PER_SECOND = 22050
_TRIMMED_SHARE_OF_PEAK = 0.01


@dataclass(frozen=True)
class Recording:
    """16-bit samples, and the seconds where each joined part starts and ends in them."""

    samples: "array[int]"
    samples_per_second: int
    parts: tuple[tuple[float, float], ...]

    @property
    def seconds(self) -> float:
        """From the first part's start to the last one's end."""
        return self.parts[-1][1] - self.parts[0][0]

    def wav(self) -> bytes:
        return wav(self.samples.tobytes(), self.samples_per_second)


def wav(data: bytes, samples_per_second: int, channels: int = 1, width: int = 2) -> bytes:
    """Samples, little-endian as they are, as the standard library writes them."""
    content = io.BytesIO()
    with wave.open(content, "wb") as file:
        file.setnchannels(channels)
        file.setsampwidth(width)
        file.setframerate(samples_per_second)
        file.writeframes(data)
    return content.getvalue()


def need_espeak() -> None:
    """Skip where there is no synthesiser; where everything must be tested, fail."""
    if not shutil.which("espeak-ng"):
        reason = "espeak-ng is not installed: apt-get install espeak-ng"
        if os.environ.get("CI"):
            pytest.fail(reason)
        pytest.skip(reason)


@lru_cache(maxsize=4096)
def said(text: str, voice: str, words_per_minute: int, pitch: int = 50) -> "array[int]":
    """`text` as espeak-ng says it, without the silence before and after."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder, "said.wav")
        command = ["espeak-ng", "-v", voice, "-s", str(words_per_minute), "-p", str(pitch)]
        subprocess.run(
            [*command, "-w", str(path), "--stdin"], input=text.encode(), check=True, timeout=60
        )
        with wave.open(str(path)) as file:
            assert file.getframerate() == SAMPLES_PER_SECOND
            samples = array("h", file.readframes(file.getnframes()))
    quiet = max(map(abs, samples)) * _TRIMMED_SHARE_OF_PEAK
    loud = [index for index, sample in enumerate(samples) if abs(sample) > quiet]
    return samples[loud[0] : loud[-1] + 1]


def tone(seconds: float, samples_per_second: int, amplitude: float = 0.3) -> "array[int]":
    """Something like a voice: a few overtones of 140 Hz."""
    peak = amplitude * 32767 / 1.75
    return array(
        "h",
        (
            round(peak * sum(math.sin(math.tau * 140 * n * at) / n for n in (1, 2, 4)))
            for at in (
                index / samples_per_second for index in range(round(seconds * samples_per_second))
            )
        ),
    )


def joined(
    parts: Sequence["array[int]"],
    gaps: Sequence[float],
    *,
    samples_per_second: int = SAMPLES_PER_SECOND,
    lead_seconds: float = 0.7,
    tail_seconds: float = 0.9,
    noise_decibels: float = -60.0,
    seed: int = 1,
) -> Recording:
    """The parts with `gaps` seconds of silence between, and noise over all of it."""
    assert len(gaps) == len(parts) - 1
    samples = array("h", bytes(2 * round(lead_seconds * samples_per_second)))
    places = []
    for part, gap in zip(parts, (*gaps, tail_seconds), strict=True):
        start = len(samples)
        samples += part
        places.append((start / samples_per_second, len(samples) / samples_per_second))
        samples += array("h", bytes(2 * round(gap * samples_per_second)))
    _add_noise(samples, noise_decibels, random.Random(seed))
    return Recording(samples, samples_per_second, tuple(places))


def _add_noise(samples: "array[int]", decibels: float, chance: random.Random) -> None:
    spread = 32768 * 10 ** (decibels / 20) / math.sqrt(2)
    block = [round(chance.gauss(0, spread)) for _ in range(20_011)]
    for start in range(0, len(samples), len(block)):
        stretch = samples[start : start + len(block)]
        noisy = (
            max(min(sample + noise, 32767), -32768)
            for sample, noise in zip(stretch, block, strict=False)
        )
        samples[start : start + len(stretch)] = array("h", noisy)
