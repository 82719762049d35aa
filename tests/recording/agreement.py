"""How well a reading is measured and laid beside its script, where the truth is known.

`python -m tests.recording.agreement` prints a line for each script and voice.
"""

import random
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import NamedTuple

from saywright.analysis import analyse
from saywright.project import NO_PROJECT
from saywright.recording.hearing import hear
from saywright.recording.phrases import expected
from saywright.recording.read_through import ReadThrough, read_through
from saywright.recording.wav import read_wav
from saywright.speech.timeline import PlacedSentence, Timeline
from tests.recording.read_aloud import Recording, joined, said

SAMPLES = Path(__file__).parents[2] / "sample_scripts"
CLEAR_GAP_SECONDS = 0.3
_NEAR_SECONDS = 0.12

Pattern = Callable[[PlacedSentence, random.Random], float]


def as_expected(sentence: PlacedSentence, chance: random.Random) -> float:
    return max(sentence.pause_seconds, 0.2) * chance.uniform(0.7, 1.5)


def even(_sentence: PlacedSentence, _chance: random.Random) -> float:
    return 0.45


def at_random(_sentence: PlacedSentence, chance: random.Random) -> float:
    return chance.uniform(0.2, 1.3)


def breathless(_sentence: PlacedSentence, chance: random.Random) -> float:
    """A third of the sentences run on into the next."""
    return chance.choice((0.03, 0.35, 0.5))


def hardly_pausing(_sentence: PlacedSentence, chance: random.Random) -> float:
    """Three of four sentences run on into the next."""
    return chance.uniform(0.0, 0.1) if chance.random() < 0.75 else chance.uniform(0.35, 1.2)


def dramatic(_sentence: PlacedSentence, chance: random.Random) -> float:
    return 3.0 if chance.random() < 0.15 else chance.uniform(0.3, 0.7)


PATTERNS: dict[str, Pattern] = {
    pattern.__name__: pattern
    for pattern in (as_expected, even, at_random, breathless, hardly_pausing, dramatic)
}


class Reader(NamedTuple):
    """A voice of espeak-ng, its speed, its pitch from 0 to 99, and the noise about it."""

    voice: str
    words_per_minute: int
    noise_decibels: float = -60.0
    pitch: int = 50


class Agreement(NamedTuple):
    """`right` of `gaps` clear gaps were given to the sentence that they come after."""

    length_error_seconds: float
    right: int
    gaps: int


def timeline_of(script: str, piece: int = 0) -> Timeline:
    text = (SAMPLES / script).read_text("utf-8")
    return [view.timeline for view in analyse(text).pieces][piece]


def read_aloud(timeline: Timeline, reader: Reader, pattern: Pattern, seed: int) -> Recording:
    """The piece's sentences as a synthesiser says them one by one, and gaps by `pattern`."""
    chance = random.Random(seed)
    sentences = expected(timeline).sentences
    voice = reader.voice, reader.words_per_minute, reader.pitch
    parts = [said(each.sentence.text, *voice) for each in sentences]
    gaps = [pattern(each, chance) for each in sentences[:-1]]
    return joined(parts, gaps, noise_decibels=reader.noise_decibels, seed=seed)


def agreement(recording: Recording, reading: ReadThrough) -> Agreement:
    right = gaps = 0
    following = recording.parts[1:]
    for sentence, (_, end), (start, _) in zip(
        reading.sentences, recording.parts, following, strict=False
    ):
        if start - end > CLEAR_GAP_SECONDS:
            gaps += 1
            right += (
                abs(sentence.end_seconds - end) < _NEAR_SECONDS
                and abs(sentence.end_seconds + sentence.pause_seconds - start) < _NEAR_SECONDS
            )
    return Agreement(reading.seconds - recording.seconds, right, gaps)


def tried(script: str, piece: int, reader: Reader, pattern: Pattern, seed: int = 1) -> Agreement:
    timeline = timeline_of(script, piece)
    recording = read_aloud(timeline, reader, pattern, seed)
    return agreement(recording, read_through(timeline, NO_PROJECT, hear(read_wav(recording.wav()))))


SCRIPTS = (
    ("ferry-mate.say", 0),
    ("first-night-nerves.say", 0),
    ("in-his-defence.say", 0),
    ("in-his-defence.say", 1),
    ("lamp-keeper.say", 0),
    ("salt-song.say", 0),
    ("two-at-the-slip.say", 0),
    ("weighing-room.say", 0),
)
READERS = (
    Reader("en", 140),
    Reader("en-us+f3", 160),
    Reader("en-gb+m3", 175, noise_decibels=-45.0),
    Reader("en-gb-scotland", 190),
)
# nothing was tuned on these
FRESH_READERS = (
    Reader("en-us", 125, pitch=60),
    Reader("en-gb-x-rp", 205, -50.0, 40),
    Reader("en-029", 150, -96.0),
    Reader("en-us+f2", 180, pitch=80),
    Reader("en-us-nyc+m7", 165, -45.0, 20),
    Reader("en-gb-scotland+f4", 135, pitch=65),
    Reader("en-us+Andrea", 195, -50.0),
    Reader("en-gb+croak", 155),
)


def _lines() -> Iterator[str]:
    for script, piece in SCRIPTS:
        for reader in (*READERS, *FRESH_READERS):
            results = [tried(script, piece, reader, pattern) for pattern in PATTERNS.values()]
            worst = max(abs(result.length_error_seconds) for result in results)
            shares = "  ".join(f"{result.right:>2}/{result.gaps:<2}" for result in results)
            yield (
                f"{script:<24}{piece}  {reader.voice:<18}{reader.words_per_minute}  "
                f"{worst:.3f} s  {shares}"
            )


if __name__ == "__main__":
    print(f"{'script, piece, voice, words a minute':<49}length   {'  '.join(PATTERNS)}")
    for line in _lines():
        print(line, flush=True)
