"""What a direction's words say of time: a silence by its name, or a duration of its own."""

import re
from typing import NamedTuple

from saywright.markup.values import DURATION, NUMBER, read_duration

NAMES = ("breath", "beat", "pause", "silence")
_NAME = rf"(?P<name>{'|'.join(NAMES)})"
_NAMED = rf"(?:(?:an?|the)\s+)?(?:(?P<size>short|long)\s+)?{_NAME}"
_SILENCE = re.compile(
    rf"{_NAMED}(?:\s*[.,:])?(?:\s*(?P<time>{DURATION}|(?P<bare>{NUMBER})))?(?:\s*\.)?",
    re.IGNORECASE,
)
_TURNED = re.compile(
    rf"(?:an?\s+)?(?P<time>{DURATION})\s+(?P<named>(?:(?:short|long)\s+)?{_NAME})\s*\.?",
    re.IGNORECASE,
)
_LAST_TIME = re.compile(
    rf"(?P<before>.*\w.*?)(?<!\bthe)\s+(?P<time>{DURATION})\s*\.?",
    re.IGNORECASE | re.DOTALL,
)
_SPOKEN_SILENCE = re.compile(rf"{_NAMED}\s*[.…]*", re.IGNORECASE)
_AFTER_NAME = re.compile(rf"\b{_NAME}(?:\s*[.,:])?\s*(?P<time>{DURATION})", re.IGNORECASE)
# a comma between two digits is a decimal one
_AFTER_COMMA = re.compile(
    rf"(?:^|,(?=\s)|(?<![0-9]),)\s*(?P<time>{DURATION})(?:\s*\.)?\s*(?=,|$)", re.IGNORECASE
)


class Silence(NamedTuple):
    """A silence as written: `seconds` where it says so, else as long as its name and size."""

    name: str | None
    size: str | None = None
    seconds: float | None = None


class Said(NamedTuple):
    """What a direction says: its timed silence or None, whether it says nothing else, and where
    in its words a number stands that lacks its unit (half-open offsets) or None."""

    silence: Silence | None
    bare: bool
    unitless: tuple[int, int] | None = None


def read_direction(words: str) -> Said:
    """What the words between a direction's brackets say of time."""
    lead = len(words) - len(words.lstrip())
    stripped = words.strip()
    if named := _SILENCE.fullmatch(stripped):
        size = named["size"]
        name, size = named["name"].lower(), size.lower() if size else None
        if named["bare"]:
            start, end = named.span("bare")
            return Said(Silence(name, size), True, (lead + start, lead + end))
        return Said(Silence(name, size, _seconds(named["time"])), True)
    if after_name := _AFTER_NAME.search(stripped):
        return Said(Silence(None, None, _seconds(after_name["time"])), False)
    times = [match["time"] for match in _AFTER_COMMA.finditer(stripped)]
    if times:
        seconds = sum(read_duration(time) for time in times)
        alone = _AFTER_COMMA.fullmatch(stripped) is not None
        return Said(Silence(None, None, seconds), alone)
    return Said(None, False)


def _seconds(time: str | None) -> float | None:
    return read_duration(time) if time else None


def turned_silence(words: str) -> str | None:
    """A direction's words put right where the time stands before the silence, as `3s pause`."""
    turned = _TURNED.fullmatch(words.strip())
    return f"{turned['named']} {turned['time']}" if turned else None


def uncounted_time(words: str) -> str | None:
    """A direction's words put right where a time ends them and does not count, as `waits 5s`.

    Not where it may be no time at all: “music of the 80s”.
    """
    match = _LAST_TIME.fullmatch(words.strip())
    if not match or read_direction(words).silence:
        return None
    before = match["before"].removesuffix(" for").rstrip(" .;:,–—-")
    return f"{before}, {match['time']}"


def spoken_silence(line: str) -> str | None:
    """The name of the silence that a spoken line names and says no more (`Beat.`), or None."""
    named = _SPOKEN_SILENCE.fullmatch(line.strip())
    return named["name"].lower() if named else None
