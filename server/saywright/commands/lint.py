"""`saywright lint`: every finding of every script, a line each, and a line that sums up."""

import sys
from collections import Counter
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import NamedTuple

from saywright.analysis import analyse
from saywright.checks.catalogue import SEVERITY_OF
from saywright.files import (
    NotTextError,
    UnreadableFileError,
    nearest_project,
    read_script,
    scripts_in,
)
from saywright.positions import Places
from saywright.project import FILE_NAME, SEVERITIES, Project

_COULD_NOT_RUN = 2


class _Row(NamedTuple):
    """One printed finding: file, line and column from 1, severity, message, and the check that
    found it, None where the file could not be read far enough for any."""

    path: Path
    line: int
    column: int
    severity: str
    message: str
    check: str | None

    def __str__(self) -> str:
        where = f"{self.path}:{self.line}:{self.column}"
        check = f" [{self.check}]" if self.check else ""
        return f"{where}: {self.severity}: {self.message}{check}"


def run(paths: Sequence[Path], fail_on: str) -> int:
    """Print what is found in `paths`, scripts and folders; returns the exit code."""
    scripts = list(scripts_in(paths))
    if not scripts:
        print("There is no script here: a script's name ends in .say.", file=sys.stderr)
        return _COULD_NOT_RUN
    counts: Counter[str] = Counter()
    unread = 0
    seen: set[Path] = set()
    for script in scripts:
        try:
            rows = list(_rows(script, seen))
        except UnreadableFileError as error:
            print(f"{script}: {error}", file=sys.stderr)
            unread += 1
            continue
        for row in rows:
            print(row)
        counts.update(row.severity for row in rows)
    print(_summary(len(scripts) - unread, unread, counts))
    if unread:
        return _COULD_NOT_RUN
    return int(any(counts[severity] for severity in SEVERITIES[SEVERITIES.index(fail_on) :]))


def _rows(script: Path, seen: set[Path]) -> Iterator[_Row]:
    """The findings of one script, and of its project file if that is not among those `seen`."""
    try:
        text = read_script(script)
    except NotTextError as error:
        yield _Row(script, error.line, 1, "error", str(error), None)
        return
    project, project_path = nearest_project(script)
    if project_path and project_path not in seen:
        seen.add(project_path)
        yield from _project_rows(project, project_path)
    analysis = analyse(text, project)
    places = Places(analysis.blocks)
    for finding, severity in analysis.reported:
        if finding.check != "project-file" or not finding.message.startswith(FILE_NAME):
            line, column = places.position_from_offset(finding.start)
            yield _Row(script, line + 1, column + 1, severity, finding.message, finding.check)


def _project_rows(project: Project, path: Path) -> Iterator[_Row]:
    name = "project-file"
    severity = project.severities.get(name, SEVERITY_OF[name])
    if severity != "off":
        for problem in project.problems:
            if problem.file != FILE_NAME:
                continue  # said in each script: the list may stand anywhere above them
            yield _Row(path, problem.line or 1, 1, severity, problem.message, name)


def _summary(scripts: int, unread: int, counts: Counter[str]) -> str:
    found = [_counted(counts[severity], severity) for severity in reversed(SEVERITIES)]
    listed = ", ".join(words for words in found if words) or "nothing found"
    read = _counted(scripts, "script") or "No script"
    not_read = f" {unread} could not be read." if unread else ""
    return f"{read}: {listed}.{not_read}"


def _counted(count: int, word: str) -> str:
    if not count:
        return ""
    plural = "" if count == 1 or word == "information" else "s"
    return f"{count} {word}{plural}"
