"""Values as a writer types them: durations, slots, paces, lists.

A reader returns the value or raises `Unreadable`, which says in plain words what is wrong and,
where it can tell, what was meant.
"""

import re
from typing import NamedTuple

NUMBER = r"[0-9]{1,9}(?:[.,][0-9]{1,9})?"
_SECONDS_UNIT = r"s(?:ec(?:ond)?s?)?"
_MINUTES_UNIT = r"m(?:in(?:ute)?s?)?"
_LONG_MINUTES_UNIT = r"min(?:ute)?s?"  # `100m` is more likely a distance
DURATION = (
    rf"(?:[0-9]{{1,4}}:[0-5][0-9](?:[.,][0-9]{{1,3}})?(?![0-9:])"
    rf"|{NUMBER}\s*{_MINUTES_UNIT}\s*{NUMBER}\s*{_SECONDS_UNIT}(?!\w)"
    rf"|{NUMBER}\s*(?:{_LONG_MINUTES_UNIT}|{_SECONDS_UNIT})(?!\w))"
)
"""A duration with its unit, as part of a larger pattern (ignore case)."""

_CLOCK = re.compile(r"([0-9]+):([0-9]+(?:[.,][0-9]+)?)")
_MEASURE = re.compile(
    rf"(?:({NUMBER})\s*{_MINUTES_UNIT})?\s*(?:({NUMBER})\s*{_SECONDS_UNIT})?", re.IGNORECASE
)
_WHOLE = re.compile(DURATION, re.IGNORECASE)
_BARE = re.compile(NUMBER)
_UNIT = re.compile(rf"(?:{_LONG_MINUTES_UNIT}|{_SECONDS_UNIT})\.?$", re.IGNORECASE)
_RANGE_DASH = re.compile(r"[-\u2010-\u2015\u2212]")
_PACE = re.compile(rf"({NUMBER})\s*(wpm|syl/s)", re.IGNORECASE)


class Unreadable(Exception):
    """A value that cannot be read: why, and the text that was most likely meant (or None)."""

    def __init__(self, why: str, meant: str | None = None) -> None:
        super().__init__(why)
        self.why = why
        self.meant = meant


class Slot(NamedTuple):
    """The time allowed, in seconds, both ends included."""

    low_seconds: float
    high_seconds: float


class Pace(NamedTuple):
    """How fast a reader speaks: exactly one of the three is set."""

    words_per_minute: float | None = None
    syllables_per_second: float | None = None
    reader: str | None = None


def read_number(text: str) -> float:
    return float(text.replace(",", "."))


def read_duration(text: str) -> float:
    """Seconds, as in `45s`, `1.5 s`, `1,5 s`, `90 sec`, `2 min`, `1:30`, `1m30s`."""
    text = text.strip()
    if not _WHOLE.fullmatch(text):
        if _BARE.fullmatch(text):
            raise Unreadable("A time needs its unit.", f"{text}s")
        raise Unreadable("This is not a time. Write it as 45s, 2 min or 1:30.")
    if clock := _CLOCK.fullmatch(text):
        return int(clock[1]) * 60 + read_number(clock[2])
    measure = _MEASURE.fullmatch(text)
    assert measure, text
    return read_number(measure[1] or "0") * 60 + read_number(measure[2] or "0")


def read_slot(text: str) -> Slot:
    """`60-90s` is a slot from 60 to 90 seconds; `60s` one from nothing to 60."""
    ends = _range_ends(text)
    if len(ends) == 1:
        return _checked(Slot(0.0, _slot_end(text)), text)
    if len(ends) != 2:
        raise Unreadable("This is not a slot. Write it as 60s or 60-90s.")
    low, high = ends
    if _BARE.fullmatch(low) and (unit := _UNIT.search(high)):
        low += unit[0]
    if _BARE.fullmatch(high):
        raise Unreadable("A slot needs its unit.", f"{text.strip()}s")
    if _BARE.fullmatch(low):
        raise Unreadable("A slot needs its unit.", f"{low}s-{high}")
    return _checked(Slot(_slot_end(low), _slot_end(high)), text)


def _range_ends(text: str) -> list[str]:
    return [end.strip() for end in _RANGE_DASH.split(text)]


def _slot_end(text: str) -> float:
    try:
        return read_duration(text)
    except Unreadable as problem:
        if problem.meant:
            raise Unreadable("A slot needs its unit.", problem.meant) from problem
        raise Unreadable("This is not a slot. Write it as 60s or 60-90s.") from problem


def _checked(slot: Slot, text: str) -> Slot:
    if slot.high_seconds <= 0:
        raise Unreadable("A slot of no time fits nothing. Write it as 60s or 60-90s.")
    if slot.low_seconds > slot.high_seconds:
        swapped = _swapped(text)
        raise Unreadable("The slot's shorter time comes first.", swapped)
    return slot


def _swapped(text: str) -> str:
    low, high = _range_ends(text)
    if _BARE.fullmatch(low) and (unit := _UNIT.search(high)):
        return f"{high[: unit.start()].rstrip()}-{low}{unit[0]}"
    return f"{high}-{low}"


def read_pace(text: str) -> Pace:
    """`150 wpm`, `4.2 syl/s`, or the name of a reader (whom the project file may know)."""
    text = text.strip()
    if _BARE.fullmatch(text):
        raise Unreadable("A pace needs its unit.", f"{text} wpm")
    pace = _PACE.fullmatch(text)
    if not pace:
        if not text or text[0].isdigit():
            raise Unreadable(
                "This is not a pace. Write it as 150 wpm, 4.2 syl/s, or a reader's name."
            )
        return Pace(reader=text)
    number = read_number(pace[1])
    if number <= 0:
        raise Unreadable("A pace of nothing never ends. Write it as 150 wpm.")
    if pace[2].casefold() == "wpm":
        return Pace(words_per_minute=number)
    return Pace(syllables_per_second=number)


def read_names(text: str) -> tuple[str, ...]:
    """Names separated by commas, blanks around them taken off, empty ones left out."""
    return tuple(name for part in text.split(",") if (name := " ".join(part.split())))
