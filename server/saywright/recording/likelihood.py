"""How well what was heard agrees with what the script makes expect, as costs that add up.

A cost is the negative logarithm of a probability, or of a density over seconds.
"""

import math
from collections.abc import Sequence

from saywright.recording.phrases import Phrase
from saywright.recording.silences import Pause

# Spreads of what a reader does about what is expected. Chosen by hand: the model's own error over
# a clip is near 10% at the median, and readers pause after a full stop 74% to 78% of the time, a
# comma 43% to 71%, nothing 5% to 10%. Of eight settings tried on synthesised readings of the sample
# scripts (tests/recording/agreement.py) these did best, none worse by more than two in a hundred.
_SOUND_SPREAD_RATIO = 0.2
_SOUND_SPREAD_SECONDS = 0.15
_PAUSE_SPREAD_LOGARITHM = 0.9
_LEAST_EXPECTED_PAUSE_SECONDS = 0.2
_KEPT_BY_A_READER = {"sentence": 0.93, "marked": 0.9, "inner": 0.55}
_UNPLANNED_SHARE = 0.03
_UNPLANNED_PAUSE_SECONDS = 0.25
# beyond this many spreads the cost grows no faster than a line: one odd phrase decides nothing
_ODD = 2.5


def sound_cost(heard_seconds: float, expected_seconds: float) -> float:
    """Of speaking for the one where the other is expected, pauses apart."""
    spread = math.hypot(_SOUND_SPREAD_SECONDS, _SOUND_SPREAD_RATIO * expected_seconds)
    return _bell(heard_seconds - expected_seconds, spread)


def pause_costs(phrase: Phrase, pauses: Sequence[Pause]) -> list[float]:
    """Of making each of `pauses` after `phrase`."""
    chance = -math.log(_kept(phrase))
    usual = max(phrase.pause_seconds, _LEAST_EXPECTED_PAUSE_SECONDS)
    return [chance + _length_cost(pause.seconds, usual) for pause in pauses]


def no_pause_cost(phrase: Phrase) -> float:
    """Of making no pause after `phrase`."""
    return -math.log(1 - _kept(phrase))


def unplanned_cost(pause: Pause) -> float:
    """Of a pause where the script has none."""
    return -math.log(_UNPLANNED_SHARE) + _length_cost(pause.seconds, _UNPLANNED_PAUSE_SECONDS)


def _kept(phrase: Phrase) -> float:
    if phrase.ends_sentence:
        return _KEPT_BY_A_READER["sentence"]
    return _KEPT_BY_A_READER["marked" if phrase.marked else "inner"]


def _length_cost(seconds: float, usual_seconds: float) -> float:
    return math.log(seconds) + _bell(math.log(seconds / usual_seconds), _PAUSE_SPREAD_LOGARITHM)


def _bell(distance: float, spread: float) -> float:
    spreads = abs(distance) / spread
    beyond = max(spreads - _ODD, 0.0)
    return math.log(spread) + spreads * spreads / 2 - beyond * beyond / 2
