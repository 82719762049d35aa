"""How one reader reads: how often a pause is made, how long it is, how even the pace.

Habits start as those of readers in general, and are learned from a recording once it has been
laid beside its script, as far as it shows them: so someone who runs from sentence to sentence is
told from someone who stops after each.
"""

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal, NamedTuple

from saywright.recording.phrases import Phrase
from saywright.recording.silences import Pause

Place = Literal["sentence", "marked", "inner"]
"""Where the script makes a pause expected: a sentence's end, a marked silence, or elsewhere."""

_LEAST_EXPECTED_PAUSE_SECONDS = 0.2
# What is learned is an average in which the usual reader has as much weight as so many phrases,
# or so many seconds of sound.
_USUAL_WEIGHT = 2.0
_USUAL_WEIGHT_SECONDS = 60.0
_LEAST_SHARE, _MOST_SHARE = 0.02, 0.98
# beyond it, one odd stretch tells nothing of the pace
_MOST_VARIANCE_PER_SECOND = 0.5


class PlaceHabit(NamedTuple):
    """`kept`: the share of such places where a pause is made. `longer` and `spread`: the mean and
    the standard deviation of the logarithm of how many times as long as expected it is."""

    kept: float
    longer: float
    spread: float


@dataclass(frozen=True, slots=True)
class Habits:
    """`unplanned_per_second`: other pauses, a second of sound. `variance_per_second`: that of how
    long a stretch of sound is, in square seconds, for each second that it is expected to last."""

    at: Mapping[Place, PlaceHabit]
    unplanned_per_second: float
    variance_per_second: float


# Readers pause after a full stop 74% to 78% of the time, after a comma 43% to 71%. The rest was
# chosen on synthesised readings (tests/recording/agreement.py), where half or twice of any of
# these numbers changes the share of pauses that are placed rightly by less than one in a hundred.
USUAL_HABITS = Habits(
    {
        "sentence": PlaceHabit(0.85, 0.0, 0.9),
        "marked": PlaceHabit(0.9, 0.0, 0.9),
        "inner": PlaceHabit(0.55, 0.0, 0.4),
    },
    unplanned_per_second=0.03,
    variance_per_second=0.02,
)


class Said(NamedTuple):
    """A stretch of sound between two places that are known."""

    expected_seconds: float
    heard_seconds: float


def place_of(phrase: Phrase) -> Place:
    if phrase.ends_sentence:
        return "sentence"
    return "marked" if phrase.marked else "inner"


def longer_by(phrase: Phrase, pause: Pause) -> float:
    """The logarithm of how many times as long as expected `pause` is after `phrase`."""
    return math.log(pause.seconds / max(phrase.pause_seconds, _LEAST_EXPECTED_PAUSE_SECONDS))


def learned(
    phrases: Sequence[Phrase],
    made: Sequence[tuple[Phrase, Pause]],
    unplanned: int,
    said: Sequence[Said],
) -> Habits:
    """The habits that show where `phrases` might have ended with a pause and `made` did.

    `unplanned` counts the pauses inside phrases.
    """
    sound_seconds = sum(each.expected_seconds for each in said)
    usual_unplanned = _USUAL_WEIGHT_SECONDS * USUAL_HABITS.unplanned_per_second
    return Habits(
        {
            place: _learned_at(place, usual, phrases, made)
            for place, usual in USUAL_HABITS.at.items()
        },
        (unplanned + usual_unplanned) / (sound_seconds + _USUAL_WEIGHT_SECONDS),
        _average(map(_variance_per_second, said), USUAL_HABITS.variance_per_second),
    )


def _learned_at(
    place: Place,
    usual: PlaceHabit,
    phrases: Sequence[Phrase],
    made: Sequence[tuple[Phrase, Pause]],
) -> PlaceHabit:
    longer = [longer_by(*each) for each in made if place_of(each[0]) == place]
    skipped = sum(place_of(phrase) == place for phrase in phrases) - len(longer)
    kept = _average([1.0] * len(longer) + [0.0] * skipped, usual.kept)
    mean = _average(longer, usual.longer)
    variance = _average([(each - mean) ** 2 for each in longer], usual.spread**2)
    return PlaceHabit(min(max(kept, _LEAST_SHARE), _MOST_SHARE), mean, math.sqrt(variance))


def _average(shown: Iterable[float], usual: float) -> float:
    values = list(shown)
    return (sum(values) + _USUAL_WEIGHT * usual) / (len(values) + _USUAL_WEIGHT)


def _variance_per_second(said: Said) -> float:
    off = said.heard_seconds - said.expected_seconds
    return min(off * off / said.expected_seconds, _MOST_VARIANCE_PER_SECOND)
