"""The scripts in the folders that the client works in, which are not open, and their reports.

A client may ask for all of them every few seconds. So a folder is listed again only when it has
changed, and a script read again only when it has, or when the project it belongs to has.
"""

import os
import time
from collections.abc import Iterable, Iterator
from pathlib import Path
from stat import S_ISREG
from typing import TYPE_CHECKING, NamedTuple

from pygls.uris import to_fs_path

from saywright.analysis import analyse
from saywright.files import SUFFIX, NotTextError, UnreadableFileError, read_script
from saywright.project import Project
from saywright.protocol.documents import Document, project_of
from saywright.protocol.reports import Report, report_of

if TYPE_CHECKING:
    from saywright.protocol.server import SaywrightServer

MOST_SCRIPTS = 500
_MOST_FOLDERS = 5000
_MOST_BYTES = 100_000  # four times half an hour's talk
# a change within the clock's step after a look would leave no trace
_SETTLED_NS = 2_000_000_000


class _Folder(NamedTuple):
    changed_ns: int
    folders: tuple[str, ...]
    scripts: tuple[str, ...]


class _Read(NamedTuple):
    """A script as it was read, and what was said of it; None of one that cannot be read."""

    changed_ns: int
    size: int
    project: Project
    report: Report | None


class ClosedScripts:
    def __init__(self) -> None:
        self._folders: dict[str, _Folder] = {}
        self._read: dict[str, _Read] = {}

    def below(self, roots: Iterable[str]) -> Iterator[str | None]:
        """The paths of the scripts in folders and below, each once, the nearest to the top first;
        None after each folder, for whoever looks to let others have a turn.

        Hidden folders are passed over, and links to folders. It stops after so many folders, and
        so many scripts, as nobody's scripts need.
        """
        # not resolved: the client knows a linked folder by the name that it opened
        waiting = [os.path.abspath(root) for root in roots]  # noqa: PTH100
        visited: set[str] = set()
        scripts = 0
        for folder in waiting:  # grows as it goes
            if folder in visited or len(visited) >= _MOST_FOLDERS or scripts >= MOST_SCRIPTS:
                continue
            visited.add(folder)
            listed = self._listed(folder)
            waiting += (os.path.join(folder, name) for name in listed.folders)  # noqa: PTH118
            for name in listed.scripts[: MOST_SCRIPTS - scripts]:
                scripts += 1
                yield os.path.join(folder, name)  # noqa: PTH118
            yield None
        for gone in self._folders.keys() - visited:
            del self._folders[gone]

    def _listed(self, folder: str) -> _Folder:
        try:
            changed_ns = os.stat(folder).st_mtime_ns  # noqa: PTH116
        except OSError:
            return _Folder(0, (), ())
        known = self._folders.get(folder)
        if known and known.changed_ns == changed_ns:
            return known
        listed = _list(folder, changed_ns)
        self._folders[folder] = listed
        return listed

    def report_at(self, server: "SaywrightServer", uri: str) -> Report | None:
        path = to_fs_path(uri) if uri.startswith("file:") else None
        if path is None or Path(path).suffix != SUFFIX:
            return None
        return self.report(server, path, uri, project_of(uri))

    def report(
        self, server: "SaywrightServer", path: str, uri: str, project: Project
    ) -> Report | None:
        """What is said of the script at `path`; None of one that is gone, that cannot be read, or
        that is longer than any script."""
        try:
            found = os.stat(path)  # noqa: PTH116
        except OSError:
            self._read.pop(path, None)
            return None
        known = self._read.get(path)
        if (
            known
            and (known.changed_ns, known.size) == (found.st_mtime_ns, found.st_size)
            and known.project is project
        ):
            return known.report
        report = None
        if S_ISREG(found.st_mode) and found.st_size <= _MOST_BYTES:
            report = _report(server, path, uri, project)
        changed_ns = _settled(found.st_mtime_ns)
        self._read[path] = _Read(changed_ns, found.st_size, project, report)
        return report

    def keep_only(self, paths: set[str]) -> None:
        for gone in self._read.keys() - paths:
            del self._read[gone]


def _list(folder: str, changed_ns: int) -> _Folder:
    folders, scripts = [], []
    try:
        with os.scandir(folder) as entries:
            for entry in entries:
                if entry.name.startswith("."):
                    continue
                if entry.is_dir(follow_symlinks=False):
                    folders.append(entry.name)
                elif entry.name.endswith(SUFFIX):
                    scripts.append(entry.name)
    except OSError:
        pass
    return _Folder(_settled(changed_ns), tuple(sorted(folders)), tuple(sorted(scripts)))


def _settled(changed_ns: int) -> int:
    """`changed_ns`, or what no time is equal to where the next change might bear the same."""
    return changed_ns if time.time_ns() - changed_ns > _SETTLED_NS else -1


def _report(server: "SaywrightServer", path: str, uri: str, project: Project) -> Report | None:
    try:
        text = read_script(Path(path))
    except (UnreadableFileError, NotTextError):
        return None
    analysis = analyse(text, project)
    return report_of(server, Document(uri, 0, server.documents.encoding, analysis))


def roots(server: "SaywrightServer") -> list[str]:
    """The client's folders, the one that it was started in where it has no others."""
    workspace = server.workspace
    uris = list(workspace.folders) or [workspace.root_uri or ""]
    paths = (to_fs_path(uri) for uri in uris if uri.startswith("file:"))
    return [path for path in paths if path]
