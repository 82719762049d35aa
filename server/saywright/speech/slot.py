"""The slot, what to leave free of it, and how time is written."""

import math
from dataclasses import dataclass

from saywright.markup.values import Slot


@dataclass(frozen=True, slots=True)
class Aim:
    """The slot's two ends and the margin, in seconds. A piece is over time past `seconds`."""

    slot: Slot
    margin_seconds: float = 0.0

    @property
    def seconds(self) -> float:
        return max(self.slot.high_seconds - self.margin_seconds, 0.0)


def clock(seconds: float) -> str:
    """Seconds as `0:58`, rounded to the nearest."""
    whole = math.floor(seconds + 0.5)
    return f"{whole // 60}:{whole % 60:02d}"


def clock_between(low: float, high: float) -> str:
    """From one time to a later one, in seconds, as `0:03`: what lies between them as they are
    told, so that what a reader sees adds up. Never 0:00."""
    return clock(max(math.floor(high + 0.5) - math.floor(low + 0.5), 1))


def told_between(low: float, high: float) -> str:
    """The same in words, where less than a second may lie between."""
    whole = math.floor(high + 0.5) > math.floor(low + 0.5)
    return clock_between(low, high) if whole else "less than a second"


def told_seconds(seconds: float) -> str:
    """A margin as `0:02`, with its tenths where it has any: `2.5 s`."""
    return clock(seconds) if seconds == int(seconds) else f"{seconds:g} s"


def slot_clock(slot: Slot) -> str:
    """A slot as `1:00`, or `1:00 to 1:30` where it has a lower end."""
    high = clock(slot.high_seconds)
    return f"{clock(slot.low_seconds)} to {high}" if slot.low_seconds else high
