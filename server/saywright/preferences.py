"""What an editor shows, wherever that is set: the one place that settles it.

Two kinds of settings are kept apart. What changes a time or a finding (pace, language, checks,
words) stands in a script or in `saywright.toml` and nowhere else, so that an editor and the
command line always say the same of a script. What is only shown is a matter of taste, and the
command line has no part in it. That is settled key by key, the last that says anything winning:

1. the usual;
2. `[editor]` in the nearest `saywright.toml`, what a company's folder suggests;
3. what the editor sent when it started the server (its initialization options);
4. the editor's own settings, those for the script's folder where the editor has such: the
   screen is the writer's.

A null says nothing, so an editor whose settings all have a default should have null for it.
"""

import re
from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple

from saywright.markup.nearest import nearest
from saywright.markup.values import Unreadable
from saywright.project import EDITOR_KEYS, FILE_NAME, KEYS_OF_PROJECT, NO_PROJECT, Project

SECTION = "saywright"
_HUMP = re.compile(r"(?<=[a-z])(?=[A-Z])")


class Preferences(NamedTuple):
    """What one source says, by key, and what it says that cannot be followed, a sentence each."""

    settings: tuple[tuple[str, Any], ...] = ()
    problems: tuple[str, ...] = ()


NO_PREFERENCES = Preferences()


def read_preferences(told: Any) -> Preferences:
    """What an editor sent: a table of keys, as `running-time` or `runningTime`, or one that holds
    such a table as its section. Keys that are the editor's own affair are passed over."""
    table = _section(told)
    settings: dict[str, Any] = {}
    problems: list[str] = []
    for written, value in table.items():
        key = _HUMP.sub("-", str(written)).lower()
        if value is None:
            continue
        if key not in EDITOR_KEYS:
            problems += _of_unknown(str(written), key)
            continue
        try:
            EDITOR_KEYS[key].apply(NO_PROJECT, value)
        except Unreadable as unreadable:
            meant = f" Perhaps: {unreadable.meant}" if unreadable.meant else ""
            problems.append(f"{written} cannot be followed. {unreadable.why}{meant}")
        else:
            settings[key] = value
    return Preferences(tuple(settings.items()), tuple(problems))


def _section(told: Any) -> Mapping[Any, Any]:
    inner = told.get(SECTION) if isinstance(told, dict) else None
    if isinstance(inner, dict):
        return inner
    return told if isinstance(told, dict) else {}


def _of_unknown(written: str, key: str) -> Iterator[str]:
    if key in KEYS_OF_PROJECT:
        yield (
            f"{written} is set in {FILE_NAME}, not in the editor, so that every editor and the "
            "command line say the same of a script."
        )
    elif meant := nearest(key, EDITOR_KEYS):
        yield f"There is no setting called “{written}”. Did you mean {meant}?"


def shown(project: Project, *layers: Preferences) -> Project:
    """The project as an editor shows it; of two layers the later one wins."""
    for layer in layers:
        for key, value in layer.settings:
            project = EDITOR_KEYS[key].apply(project, value)
    return project
