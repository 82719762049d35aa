"""`saywright.toml`: what it may say, and what it comes to. Finding the file is `files`' work."""

import re
import tomllib
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from types import MappingProxyType
from typing import Any, NamedTuple

from saywright.finding import Finding
from saywright.markup.nearest import nearest
from saywright.markup.settings import KEYS
from saywright.markup.silences import NAMES
from saywright.markup.values import Pace, Unreadable, read_duration, read_pace

FILE_NAME = "saywright.toml"
PRIVATE_NAMES_FILE = "private-names.txt"
SEVERITIES = ("off", "hint", "information", "warning", "error")
_ONE_WORD = re.compile(r"[^\W_](?:[^\s_]*[^\W_])?")
_MOST_SYLLABLES = 30
HINT_PLACES = ("lines", "sentences", "paragraphs", "off")
TIMES_SHOWN = ("elapsed", "remaining")


@dataclass(frozen=True, slots=True)
class Project:
    """What a folder's scripts share. The default is what holds where there is no file.

    `words` are the folder's own, case folded, each with what it sounds like or its count of
    syllables. `problems` are what is wrong with the file itself, each with the line it stands on
    (from 1). `at_most`: how many findings of one check a part shows. `private_names` stand in a
    file of their own.
    """

    pace: Pace | None = None
    language: str | None = None
    margin_seconds: float | None = None
    silence_seconds: tuple[tuple[str, float], ...] = ()
    readers: Mapping[str, Pace] = field(default_factory=lambda: MappingProxyType({}))
    severities: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))
    words: tuple[tuple[str, str | int], ...] = ()
    running_time: str = "lines"
    time_shown: str = "elapsed"
    grey_beyond_slot: bool = False
    at_most: int = 8
    private_names: tuple[str, ...] = ()
    problems: tuple["ProjectProblem", ...] = ()


class ProjectProblem(NamedTuple):
    """What is wrong with a project file, on which line (from 1; 0 where it cannot be told)."""

    line: int
    message: str
    file: str = FILE_NAME


NO_PROJECT = Project()


class Key(NamedTuple):
    """A key of the project file: how its value changes the project, and what it is for."""

    apply: Callable[[Project, Any], Project]
    what: str


def _typed(value: Any, kind: type, example: str) -> Any:
    if not isinstance(value, kind) or (isinstance(value, bool) and kind is not bool):
        raise Unreadable(f"Write it as {example}.")
    return value


def _pace(project: Project, value: Any) -> Project:
    return replace(project, pace=read_pace(_typed(value, str, '"150 wpm"')))


def _language(project: Project, value: Any) -> Project:
    return replace(project, language=KEYS["language"].read(_typed(value, str, '"en-GB"')))


def _margin(project: Project, value: Any) -> Project:
    return replace(project, margin_seconds=read_duration(_typed(value, str, '"3s"')))


def _silences(project: Project, value: Any) -> Project:
    table = _typed(value, dict, '[silences] with lines such as beat = "1.2s"')
    lengths = dict(project.silence_seconds)
    for name, length in table.items():
        if name not in NAMES:
            raise Unreadable(_unknown(name, NAMES, "silence"))
        lengths[name] = read_duration(_typed(length, str, '"1.2s"'))
    return replace(project, silence_seconds=tuple(lengths.items()))


def _readers(project: Project, value: Any) -> Project:
    table = _typed(value, dict, '[readers] with lines such as Ana = "142 wpm"')
    readers: dict[str, Pace] = {}
    for name, written in table.items():
        pace = read_pace(_typed(written, str, '"142 wpm"'))
        if pace.reader:
            raise Unreadable(f"The pace of {name} is written as 142 wpm or 4.2 syl/s.")
        readers[name] = pace
    return replace(project, readers=MappingProxyType(readers))


def _words(project: Project, value: Any) -> Project:
    example = '[words] with lines such as Aoife = "ee-fa", or Aoife = 2'
    words = dict(project.words)
    for word, told in _typed(value, dict, example).items():
        if not _ONE_WORD.fullmatch(word):
            raise Unreadable(f"Each line is of one word, and “{word}” is not one.")
        words[word.casefold().replace("’", "'")] = _told(word, told)
    return replace(project, words=tuple(words.items()))


def _told(word: str, told: Any) -> str | int:
    if isinstance(told, int) and not isinstance(told, bool) and 0 < told <= _MOST_SYLLABLES:
        return told
    if isinstance(told, str) and any(map(str.isalpha, told)):
        return told
    raise Unreadable(
        f'Write for {word} what it sounds like, as {word} = "ee-fa", or its syllables, '
        f"as {word} = 2."
    )


def _checks(project: Project, value: Any) -> Project:
    table = _typed(value, dict, '[checks] with lines such as over-time = "error"')
    for name, severity in table.items():
        if severity not in SEVERITIES:
            raise Unreadable(f"How much {name} matters is one of {', '.join(SEVERITIES)}.")
    return replace(project, severities=MappingProxyType(dict(table)))


def _at_most(project: Project, value: Any) -> Project:
    most = _typed(value, int, "a whole number, as 8")
    if most < 1:
        raise Unreadable("It is a whole number from 1 on.")
    return replace(project, at_most=most)


def _editor(project: Project, value: Any) -> Project:
    for name, setting in _typed(value, dict, "[editor] with its lines below").items():
        if name not in EDITOR_KEYS:
            raise Unreadable(_unknown(name, EDITOR_KEYS, "editor setting"))
        project = EDITOR_KEYS[name].apply(project, setting)
    return project


def _running_time(project: Project, value: Any) -> Project:
    return replace(project, running_time=_one_of(HINT_PLACES, value))


def _time_shown(project: Project, value: Any) -> Project:
    return replace(project, time_shown=_one_of(TIMES_SHOWN, value))


def _one_of(words: tuple[str, ...], value: Any) -> str:
    if isinstance(value, str) and value in words:
        return value
    meant = nearest(value, words) if isinstance(value, str) else None
    raise Unreadable(f"Write one of {', '.join(words)}.", meant)


def _grey_beyond_slot(project: Project, value: Any) -> Project:
    return replace(project, grey_beyond_slot=_typed(value, bool, "true or false"))


def _or(words: tuple[str, ...]) -> str:
    return f"{', '.join(words[:-1])} or {words[-1]}"


EDITOR_KEYS: Mapping[str, Key] = {
    "running-time": Key(_running_time, f"after what the running time stands: {_or(HINT_PLACES)}"),
    "time-shown": Key(
        _time_shown, "elapsed, or remaining: what is left up to the slot's end, less the margin"
    ),
    "grey-beyond-slot": Key(_grey_beyond_slot, "whether what lies beyond the slot is greyed"),
}
KEYS_OF_PROJECT: Mapping[str, Key] = {
    "pace": Key(_pace, "the pace of scripts that set none"),
    "language": Key(_language, "the language of scripts that set none"),
    "margin": Key(_margin, "how much of a slot to leave free where a script does not say"),
    "silences": Key(_silences, "how long a breath, a beat, a pause and a silence last"),
    "readers": Key(_readers, "readers by name, each with a pace"),
    "words": Key(_words, "words, each with what it sounds like or how many syllables it has"),
    "checks": Key(_checks, f"checks by name, each one of {', '.join(SEVERITIES)}"),
    "at-most": Key(_at_most, "how many findings of one check are shown in a part"),
    "editor": Key(_editor, "what an editor shows"),
}


def read_project(text: str, check_names: tuple[str, ...] = ()) -> Project:
    """The project that a file's text describes. What cannot be read is left out and reported."""
    try:
        table = tomllib.loads(text.removeprefix("\ufeff"))
    except (ValueError, RecursionError) as error:
        return Project(problems=(ProjectProblem(_line_of(error), f"This is not TOML: {error}."),))
    project = Project()
    problems: list[ProjectProblem] = []
    for name, value in table.items():
        try:
            project = _applied(project, name, value)
        except Unreadable as unreadable:
            problems.append(ProjectProblem(_line_with(text, name), _message(name, unreadable)))
    if check_names:
        problems += _unknown_checks(text, project, check_names)
    return replace(project, problems=tuple(problems))


def _applied(project: Project, name: str, value: Any) -> Project:
    if name not in KEYS_OF_PROJECT:
        raise Unreadable(_unknown(name, KEYS_OF_PROJECT, "setting"))
    return KEYS_OF_PROJECT[name].apply(project, value)


def _message(name: str, unreadable: Unreadable) -> str:
    meant = f" Perhaps: {unreadable.meant}" if unreadable.meant else ""
    if name not in KEYS_OF_PROJECT:
        return unreadable.why
    return f"{name} cannot be read, so it is left out. {unreadable.why}{meant}"


def _unknown(name: str, known: Mapping[str, Any] | tuple[str, ...], what: str) -> str:
    close = nearest(name, known)
    hint = f"Did you mean {close}?" if close else f"Known here: {', '.join(known)}."
    return f"There is no {what} called “{name}”. {hint}"


def _unknown_checks(
    text: str, project: Project, check_names: tuple[str, ...]
) -> Iterator[ProjectProblem]:
    for name in project.severities:
        if name not in check_names:
            message = _unknown(name, check_names, "check")
            yield ProjectProblem(_line_with(text, name), message)


def read_private_names(text: str) -> tuple[str, ...]:
    """The names of a list that has one a line; a line that starts with # and a blank is a note."""
    lines = (line.strip() for line in text.removeprefix("\ufeff").splitlines())
    return tuple(line for line in lines if line and line != "#" and not line.startswith("# "))


def _line_of(error: Exception) -> int:
    words = str(error).split("line ")
    return int(words[1].split(",")[0]) if len(words) > 1 and words[1][:1].isdigit() else 0


def _line_with(text: str, name: str) -> int:
    for number, line in enumerate(text.splitlines(), 1):
        if line.lstrip(" [\"'").startswith(name):
            return number
    return 0


def project_findings(project: Project) -> Iterator[Finding]:
    """The project file's problems as a script shows them, at its start."""
    for problem in project.problems:
        where = f", line {problem.line}" if problem.line else ""
        yield Finding("project-file", 0, 0, f"{problem.file}{where}: {problem.message}")
