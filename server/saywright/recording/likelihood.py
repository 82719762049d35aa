"""How well what was heard agrees with what the script makes expect, as costs that add up.

A cost is the negative logarithm of a probability, or of a density over seconds.
"""

import math
from collections.abc import Sequence

from saywright.recording.habits import Habits, longer_by, place_of
from saywright.recording.phrases import Phrase
from saywright.recording.silences import Pause

# how far the end of a sound can be told wrong
_EDGE_SECONDS = 0.06
_UNPLANNED_PAUSE_SECONDS = 0.25
_UNPLANNED_SPREAD_LOGARITHM = 0.7
# beyond this many spreads the cost grows no faster than a line: one odd phrase decides nothing
_ODD = 2.5
_NORMAL = math.log(2 * math.pi) / 2


def sound_cost(heard_seconds: float, expected_seconds: float, habits: Habits) -> float:
    """Of speaking for the one where the other is expected, pauses apart."""
    variance = _EDGE_SECONDS**2 + habits.variance_per_second * expected_seconds
    return _bell(heard_seconds - expected_seconds, math.sqrt(variance))


def pause_costs(phrase: Phrase, pauses: Sequence[Pause], habits: Habits) -> list[float]:
    """Of making each of `pauses` after `phrase`."""
    kept, longer, spread = habits.at[place_of(phrase)]
    chance = -math.log(kept)
    return [
        chance + math.log(pause.seconds) + _bell(longer_by(phrase, pause) - longer, spread)
        for pause in pauses
    ]


def no_pause_cost(phrase: Phrase, habits: Habits) -> float:
    """Of making no pause after `phrase`."""
    return -math.log(1 - habits.at[place_of(phrase)].kept)


def unplanned_cost(pause: Pause, habits: Habits) -> float:
    """Of a pause where the script has none."""
    longer = math.log(pause.seconds / _UNPLANNED_PAUSE_SECONDS)
    length = math.log(pause.seconds) + _bell(longer, _UNPLANNED_SPREAD_LOGARITHM)
    return length - math.log(habits.unplanned_per_second)


def _bell(distance: float, spread: float) -> float:
    spreads = abs(distance) / spread
    beyond = max(spreads - _ODD, 0.0)
    return _NORMAL + math.log(spread) + spreads * spreads / 2 - beyond * beyond / 2
