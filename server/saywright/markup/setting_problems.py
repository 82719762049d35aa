"""One line of the settings that open a file: what it sets, or why it cannot be read."""

from collections.abc import Collection

from saywright.finding import Edit, Finding, Fix
from saywright.markup.lines import SettingLine, lead_length, read_setting
from saywright.markup.nearest import nearest
from saywright.markup.settings import KEYS, Settings, with_value
from saywright.markup.tree import Range, Setting
from saywright.markup.values import Unreadable


def read_setting_line(
    line: str, settings: Settings, seen: Collection[str]
) -> tuple[Setting, Settings]:
    """The line as a block, and the settings with its value where it has one."""
    setting = read_setting(line)
    if not setting:
        return Setting(line, (_no_setting(line),)), settings
    key = setting.key.casefold()
    if key not in KEYS:
        return Setting(line, (_unknown(line, setting),)), settings
    try:
        settings = with_value(settings, KEYS[key], setting.value)
    except Unreadable as unreadable:
        return Setting(line, (unreadable_value(key, setting.value_range, unreadable),)), settings
    problems = (_repeated(line, setting),) if key in seen else ()
    return Setting(line, problems, key, setting.value), settings


def unreadable_value(key: str, where: Range, unreadable: Unreadable) -> Finding:
    meant = unreadable.meant
    fixes: tuple[Fix, ...] = ()
    if meant is not None:
        title = f"Write {meant}" if meant else "Take it out"
        fixes = (Fix(title, (Edit(*where, meant),)),)
    perhaps = f" Perhaps {meant}?" if meant else ""
    message = f"This {key} cannot be read, so it is left out. {unreadable.why}{perhaps}"
    return Finding("setting", *where, message, fixes)


def _no_setting(line: str) -> Finding:
    start = lead_length(line)
    line_end = "\r\n" if line.endswith("\r\n") else "\n"
    return Finding(
        "setting",
        start,
        max(start, len(line.rstrip())),
        "This line stands among the settings, so it is not spoken. "
        "If it is speech, leave a blank line before it.",
        (Fix("Put a blank line before it", (Edit(0, 0, line_end),)),),
    )


def _unknown(line: str, setting: SettingLine) -> Finding:
    where = setting.key_range
    known = nearest(setting.key, KEYS)
    line_end = "\r\n" if line.endswith("\r\n") else "\n"
    if known:
        message = (
            f"There is no setting called “{setting.key}”, so this line is left out. "
            f"Did you mean {known}?"
        )
        fixes = (Fix(f"Write {known}", (Edit(*where, known),)),)
    else:
        message = (
            f"There is no setting called “{setting.key}”, so this line is left out. "
            "If it is speech or a cue, leave a blank line before it."
        )
        fixes = (Fix("Put a blank line before it", (Edit(0, 0, line_end),)),)
    return Finding("setting", *where, message, fixes)


def _repeated(line: str, setting: SettingLine) -> Finding:
    where = setting.key_range
    return Finding(
        "setting",
        *where,
        f"{setting.key} stands here a second time. This one counts.",
        (Fix("Take this line out", (Edit(0, len(line), ""),)),),
    )
