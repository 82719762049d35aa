"""The settings of a file or a part, the table of their keys, and how a value is taken in."""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from typing import Any, NamedTuple

from saywright.markup.nearest import nearest
from saywright.markup.values import (
    Pace,
    Slot,
    Unreadable,
    read_duration,
    read_names,
    read_pace,
    read_slot,
)

TENSES = ("present", "past", "free")
PERSONS = ("first", "second", "third", "free")
FORMS = ("prose", "verse")
_LANGUAGE_TAG = re.compile(r"[A-Za-z]{2,8}(?:-[A-Za-z0-9]{1,8})*")


@dataclass(frozen=True, slots=True)
class Goal:
    """What a draft is written towards: a time, a count of items, or the alphabet."""

    timer_seconds: float | None = None
    count: int | None = None
    alphabet: bool = False


@dataclass(frozen=True, slots=True)
class Settings:
    """What a file or a part says of itself; None where it says nothing."""

    title: str | None = None
    by: str | None = None
    to: str | None = None
    rights: str | None = None
    content: str | None = None
    speakers: tuple[str, ...] = ()
    slot: Slot | None = None
    margin_seconds: float | None = None
    pace: Pace | None = None
    language: str | None = None
    tense: str | None = None
    person: str | None = None
    form: str | None = None
    leave_out: frozenset[str] = frozenset()
    goal: Goal = field(default_factory=Goal)


class Key(NamedTuple):
    """A setting's key: the field it fills, how its value is read, and what it is for."""

    field: str
    read: Callable[[str], Any]
    what: str


def _text(value: str) -> str:
    if not value:
        raise Unreadable("Nothing stands after the colon.")
    return value


def _one_of(words: tuple[str, ...]) -> Callable[[str], str]:
    def read(value: str) -> str:
        if value.casefold() in words:
            return value.casefold()
        raise Unreadable(f"Known here: {', '.join(words)}.", nearest(value, words))

    return read


def _language(value: str) -> str:
    if not _LANGUAGE_TAG.fullmatch(value):
        raise Unreadable("A language is a short tag, as en, en-GB or de.")
    return value


def _speakers(value: str) -> tuple[str, ...]:
    names = read_names(value)
    if not names:
        raise Unreadable("Nothing stands after the colon. Name who speaks, as in speaker: Ines.")
    return names


def _checks(value: str) -> frozenset[str]:
    names = read_names(value)
    if not names:
        raise Unreadable("Nothing stands after the colon. Name checks, as in leave-out: over-time.")
    return frozenset(names)


def _timer(value: str) -> Goal:
    try:
        return Goal(timer_seconds=read_duration(value))
    except Unreadable as unreadable:
        # nobody writes for five seconds
        raise Unreadable(unreadable.why, unreadable.meant and f"{value} min") from unreadable


def _count(value: str) -> Goal:
    if not re.fullmatch(r"[0-9]{1,6}", value) or int(value) == 0:
        raise Unreadable("A count is a whole number, as in count 40.")
    return Goal(count=int(value))


def _alphabet(value: str) -> Goal:
    if value:
        raise Unreadable("The word alphabet stands alone.", "")
    return Goal(alphabet=True)


KEYS: Mapping[str, Key] = {
    "title": Key("title", _text, "what the piece is called"),
    "by": Key("by", _text, "who wrote it"),
    "to": Key("to", _text, "who is spoken to"),
    "rights": Key("rights", _text, "who may perform it, and on what terms"),
    "content": Key("content", _text, "what an audience should know beforehand"),
    "speaker": Key("speakers", _speakers, "who speaks; several names with commas between"),
    "slot": Key("slot", read_slot, "the time allowed, as 60s or 60-90s"),
    "margin": Key("margin_seconds", read_duration, "how much of the slot to leave free, as 3s"),
    "pace": Key(
        "pace", read_pace, "how fast it is spoken, as 150 wpm, 4.2 syl/s or a reader's name"
    ),
    "language": Key("language", _language, "the language, as en or en-GB"),
    "tense": Key("tense", _one_of(TENSES), "the tense it keeps to"),
    "person": Key("person", _one_of(PERSONS), "the person it is told in"),
    "form": Key("form", _one_of(FORMS), "prose, or verse, where each line's end is a small pause"),
    "leave-out": Key("leave_out", _checks, "checks not to run"),
}
GOALS: Mapping[str, Key] = {
    "timer": Key("goal", _timer, "how long to write, as 5 min"),
    "count": Key("goal", _count, "how many items to write, one a line"),
    "alphabet": Key("goal", _alphabet, "each sentence starts with the alphabet's next letter"),
}
RULE_KEYS: Mapping[str, Key] = {**KEYS, **GOALS}


def with_value(settings: Settings, key: Key, value: str) -> Settings:
    """`settings` with `value` read into `key`'s field. Raises `Unreadable`."""
    read = key.read(value)
    if isinstance(read, Goal):
        read = _joined(settings.goal, read)
    return replace(settings, **{key.field: read})


def _joined(goal: Goal, more: Goal) -> Goal:
    return Goal(
        more.timer_seconds if more.timer_seconds is not None else goal.timer_seconds,
        more.count if more.count is not None else goal.count,
        goal.alphabet or more.alphabet,
    )
