"""What Git remembers of a script: the only file that runs another program, and that is `git`.

Nothing is written and nothing is fetched: commands that read, without shell, pager or network.
"""

import os
import re
import subprocess
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path
from typing import NamedTuple

_SECONDS = 30
_FIELDS = "%x00%x00%H%x00%h%x00%cI"
_HERE = ("GIT_DIR", "GIT_WORK_TREE", "GIT_INDEX_FILE", "GIT_PREFIX", "GIT_NAMESPACE")


class NoHistoryError(Exception):
    """Why nothing can be told of a script's past, in plain words."""


class Revision(NamedTuple):
    """A revision in which a script was changed; `path` is its name then, from the top folder."""

    name: str
    short_name: str
    when: datetime
    path: str


def content_at(script: Path, revision: str) -> bytes:
    """The bytes of a script as they were at `revision`, under the name that it had then.

    Raises `NoHistoryError`.
    """
    folder, name = _folder_and_name(script)
    commit = _commit(folder, revision)
    now = _blob(folder, f"{commit}:./{name}")
    if now is not None:
        return now
    for path in _older_names(folder, name):
        then = _blob(folder, f"{commit}:{path}")
        if then is not None:
            return then
    raise NoHistoryError(f"It is not in revision “{revision}”: it may be newer than that.")


def content_of(script: Path, revision: Revision) -> bytes:
    """The same of a revision that `revisions` gave."""
    content = _blob(_folder_and_name(script)[0], f"{revision.name}:{revision.path}")
    if content is None:
        raise NoHistoryError(f"Revision {revision.short_name} cannot be read.")
    return content


def revisions(script: Path, most: int) -> list[Revision]:
    """The revisions in which a script was changed, newest first, `most` of them at most."""
    folder, name = _folder_and_name(script)
    _commit(folder, "HEAD")
    return [revision for revision in _logged(folder, name, most) if revision.path]


def _folder_and_name(script: Path) -> tuple[Path, str]:
    real = Path(os.path.realpath(script))  # of a link Git remembers only where it leads
    return real.parent, real.name


def _commit(folder: Path, revision: str) -> str:
    inside = _git(folder, "rev-parse", "--is-inside-work-tree")
    if inside.returncode:
        complaint = inside.stderr.decode("utf-8", "replace").strip().partition("\n")[0]
        if "not a git repository" in complaint:
            raise NoHistoryError("It is in no Git repository, so it has no history.")
        raise NoHistoryError(f"Git says: {complaint.removeprefix('fatal: ')}")
    found = _resolved(folder, revision)
    if found is None:
        if _resolved(folder, "HEAD") is None:
            raise NoHistoryError("Nothing has been committed yet in its Git repository.")
        raise NoHistoryError(f"There is no revision “{revision}” in its Git repository.")
    return found


def _resolved(folder: Path, revision: str) -> str | None:
    if revision.startswith("-"):
        return None  # Git would read it as an option
    found = _git(folder, "rev-parse", "--verify", "--quiet", f"{revision}^{{commit}}")
    return None if found.returncode else found.stdout.decode("ascii").strip()


def _blob(folder: Path, name: str) -> bytes | None:
    shown = _git(folder, "cat-file", "blob", name)
    return None if shown.returncode else shown.stdout


def _older_names(folder: Path, name: str) -> Iterator[str]:
    """The names that a script had, the last first, from the top folder."""
    seen: set[str] = set()
    for revision in _logged(folder, name):
        if revision.path not in seen:
            seen.add(revision.path)
            yield revision.path


def _logged(folder: Path, name: str, most: int | None = None) -> Iterator[Revision]:
    limit = (f"--max-count={most}",) if most is not None else ()
    log = _git(
        folder,
        *("-c", "log.showSignature=false", "log", "--follow", "--name-only", "-z", *limit),
        *(f"--format={_FIELDS}", "--", f"./{name}"),
    )
    text = log.stdout.decode("utf-8", "surrogateescape")
    for entry in re.split(r"\0\0\0?(?=[0-9a-f]{40,64}\0)", text):
        fields = [field.strip("\n") for field in entry.split("\0") if field.strip("\n")]
        if len(fields) >= 4:
            commit, short, when, path = fields[:4]
            yield Revision(commit, short, datetime.fromisoformat(when), path)


def _git(folder: Path, *arguments: str) -> "subprocess.CompletedProcess[bytes]":
    # --literal-pathspecs: a star in a file's name is a star
    command = ["git", "--no-pager", "--literal-pathspecs", *arguments]
    try:
        return subprocess.run(
            command,
            cwd=folder,
            env=_environment(),
            stdin=subprocess.DEVNULL,
            capture_output=True,
            timeout=_SECONDS,
            check=False,
        )
    except FileNotFoundError as error:
        raise NoHistoryError("The program git is not installed, or not on the PATH.") from error
    except subprocess.TimeoutExpired as error:
        raise NoHistoryError(f"Git did not answer in {_SECONDS} seconds.") from error
    except OSError as error:
        raise NoHistoryError(f"Git cannot be run: {error.strerror or error}.") from error


def _environment() -> dict[str, str]:
    """The folder tells the repository, messages are in English, and nothing is fetched."""
    kept = {name: value for name, value in os.environ.items() if name not in _HERE}
    return {
        **kept,
        "LC_ALL": "C",
        "GIT_OPTIONAL_LOCKS": "0",
        "GIT_TERMINAL_PROMPT": "0",
        "GIT_ALLOW_PROTOCOL": "none",
        "GIT_NO_LAZY_FETCH": "1",
    }
