"""The one file of the core that touches the disk: it reads scripts and finds their project."""

import os
import stat
import tempfile
from collections.abc import Iterable, Iterator
from dataclasses import replace
from functools import lru_cache
from pathlib import Path
from typing import NamedTuple

from saywright.checks.catalogue import CHECK_NAMES
from saywright.project import (
    FILE_NAME,
    NO_PROJECT,
    PRIVATE_NAMES_FILE,
    Project,
    ProjectProblem,
    read_private_names,
    read_project,
)

SUFFIX = ".say"


class UnreadableFileError(Exception):
    """A file that cannot be opened or read; the message says why, in plain words."""


class NotTextError(Exception):
    """A file that is not UTF-8 text; `line` is where that shows, from 1."""

    def __init__(self, message: str, line: int = 1) -> None:
        super().__init__(message)
        self.line = line


def read_script(path: Path) -> str:
    """The text of a script, line ends and byte-order mark as they stand.

    Raises `UnreadableFileError` and `NotTextError`.
    """
    try:
        return decode(path.read_bytes())
    except OSError as error:
        raise UnreadableFileError(f"It cannot be read: {error.strerror or error}.") from error


def decode(content: bytes) -> str:
    """The text, or `NotTextError`, which says where it stops being UTF-8 and what to do."""
    try:
        return content.decode("utf-8")
    except UnicodeDecodeError as error:
        if content[:2] in (b"\xff\xfe", b"\xfe\xff"):
            raise NotTextError("It is saved as UTF-16. Save it as UTF-8 instead.") from error
        line = content.count(b"\n", 0, error.start) + 1
        raise NotTextError(
            f"Line {line} holds a character that is not UTF-8. Save the file as UTF-8 instead.",
            line,
        ) from error


def replace_script(path: Path, text: str) -> None:
    """Put `text` in the place of a script's content, whole or not at all, permissions kept.

    Raises `UnreadableFileError` where it cannot be written; the file is then as it was.
    """
    real = Path(os.path.realpath(path))  # a link stays a link
    if not os.access(real, os.W_OK):
        raise UnreadableFileError("It cannot be written: it is read-only.")
    try:
        _replace(real, text.encode("utf-8"))
    except OSError as error:
        raise UnreadableFileError(f"It cannot be written: {error.strerror or error}.") from error


def _replace(path: Path, content: bytes) -> None:
    mode = stat.S_IMODE(path.stat().st_mode)
    handle, name = tempfile.mkstemp(prefix=".", suffix=SUFFIX, dir=path.parent)
    beside = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
        beside.chmod(mode)
        beside.replace(path)
    except BaseException:
        beside.unlink(missing_ok=True)
        raise


def nearest_project(script: Path) -> tuple[Project, Path | None]:
    """The project of the nearest `saywright.toml`, the script's folder first, and its path."""
    project, names = _nearest(script, FILE_NAME), _nearest(script, PRIVATE_NAMES_FILE)
    return _project(project, names), project.path if project else None


class _Version(NamedTuple):
    """A file as it was when it was looked at: one that has changed is another."""

    path: Path
    changed_ns: int
    size: int


def _nearest(script: Path, name: str) -> _Version | None:
    # not resolve(): a linked script belongs to the folder where it is seen
    for folder in Path(os.path.abspath(script)).parents:  # noqa: PTH100
        path = folder / name
        try:
            found = path.stat()
        except OSError:
            continue
        return _Version(path, found.st_mtime_ns, found.st_size)
    return None


@lru_cache(maxsize=64)
def _project(file: _Version | None, names: _Version | None) -> Project:
    project = _read_project(file.path) if file else NO_PROJECT
    return _with_names(project, names.path) if names else project


def _read_project(path: Path) -> Project:
    try:
        return read_project(read_script(path), CHECK_NAMES)
    except (UnreadableFileError, NotTextError) as error:
        return Project(problems=(ProjectProblem(0, str(error)),))


def _with_names(project: Project, path: Path) -> Project:
    try:
        return replace(project, private_names=read_private_names(read_script(path)))
    except (UnreadableFileError, NotTextError) as error:
        problem = ProjectProblem(0, str(error), PRIVATE_NAMES_FILE)
        return replace(project, problems=(*project.problems, problem))


def scripts_in(paths: Iterable[Path]) -> Iterator[Path]:
    """Files as named, and every script in folders as named and below, each once, in order.

    Hidden folders are passed over, and so is a folder that a link leads back to. What cannot be
    looked into is given as it is: reading it says why. (`os.path` where `pathlib` would raise.)
    """
    seen: set[str] = set()
    for path in paths:
        for script in _below(path, set()) if os.path.isdir(path) else (path,):  # noqa: PTH112
            real = os.path.realpath(script)
            if real not in seen:
                seen.add(real)
                yield script


def _below(folder: Path, visited: set[str]) -> Iterator[Path]:
    real = os.path.realpath(folder)
    if real in visited:
        return
    visited.add(real)
    try:
        entries = sorted(os.listdir(folder))  # noqa: PTH208
    except OSError:
        yield folder  # reading it says why it cannot be
        return
    for name in entries:
        entry = folder / name
        if name.startswith("."):
            continue
        if os.path.isdir(entry):  # noqa: PTH112
            yield from _below(entry, visited)
        elif entry.suffix == SUFFIX:
            yield entry
