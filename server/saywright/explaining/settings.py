"""What is told of a setting: what its key is for, and its value as it is read."""

from collections.abc import Iterable, Iterator
from typing import Any

from saywright.explaining.checks import about_check, is_check, told_check
from saywright.explaining.explained import Explained, counted, told_length
from saywright.markup.lines import read_rule, read_setting
from saywright.markup.settings import RULE_KEYS, Goal
from saywright.markup.tree import Range, Rule, Setting
from saywright.markup.values import Pace, Slot, Unreadable
from saywright.project import Project
from saywright.speech.slot import clock, slot_clock


def about_setting(block: Setting, project: Project, offset: int = 0) -> Explained | None:
    """Of a line of the settings that open a file, or of the check that it names at `offset`, its
    range the block's; None where it cannot be read, which a finding tells."""
    line = read_setting(block.text)
    if not line or block.key is None:
        return None
    if block.key == "leave-out" and (check := _check_at(line.value, line.value_range, offset)):
        return check
    end = max(line.key_range.end, line.value_range.end)
    return _about(block.key, line.value, line.key_range.start, end, project)


def setting_in_rule(block: Rule, offset: int, project: Project) -> Explained | None:
    """Of the setting that stands in a rule at `offset`, if one does."""
    rule = read_rule(block.text)
    for setting in rule.settings if rule else ():
        if setting.range.start <= offset < setting.range.end:
            value = Range(setting.range.end - len(setting.value), setting.range.end)
            if setting.key == "leave-out" and (check := _check_at(setting.value, value, offset)):
                return check
            return _about(setting.key, setting.value, *setting.range, project)
    return None


def _check_at(value: str, where: Range, offset: int) -> Explained | None:
    """Of the check that is named at `offset`, in a list that stands at `where`."""
    start = where.start
    for written in value.split(","):
        name = written.strip()
        first = start + len(written) - len(written.lstrip())
        if first <= offset < first + len(name) and is_check(name):
            return Explained(first, first + len(name), told_check(name), tuple(about_check(name)))
        start += len(written) + 1
    return None


def _about(key: str, value: str, start: int, end: int, project: Project) -> Explained:
    known = RULE_KEYS[key]
    try:
        lines = tuple(_read_as(key, known.read(value), project))
    except Unreadable:
        lines = ()
    return Explained(start, end, f"{key}: {known.what}", lines)


def _read_as(key: str, value: Any, project: Project) -> Iterator[str]:
    match value:
        case Slot():
            least = "" if value.low_seconds else "up to "
            yield f"Read as {least}{slot_clock(value)}."
        case Pace():
            yield from _about_pace(value, project)
        case float():
            yield f"Read as {told_length(value)}."
        case tuple() | frozenset():
            yield f"Read as {_listed(value)}."
        case Goal():
            yield from _about_goal(value)
        case _:
            yield f"Read as {value}." if key in ("language", "tense", "person", "form") else value


def _about_pace(pace: Pace, project: Project) -> Iterator[str]:
    if pace.words_per_minute:
        yield f"Read as {pace.words_per_minute:g} words a minute of ordinary text."
    elif pace.syllables_per_second:
        yield f"Read as {pace.syllables_per_second:g} syllables a second of ordinary text."
    else:
        yield f"Read as the pace of a reader, {pace.reader}."
        stated = project.readers.get(pace.reader or "")
        if stated:
            yield from _about_pace(stated, project)


def _listed(names: Iterable[str]) -> str:
    return ", ".join(sorted(names) if isinstance(names, frozenset) else names)


def _about_goal(goal: Goal) -> Iterator[str]:
    if goal.timer_seconds is not None:
        yield f"Read as {clock(goal.timer_seconds)}."
    if goal.count is not None:
        yield f"Read as {counted(goal.count, 'item')}."
