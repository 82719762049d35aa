"""Titles and parts of all scripts, open or in the client's folders, by a few of their letters."""

import asyncio
import os
import time
from collections.abc import AsyncIterator, Iterable, Iterator
from operator import itemgetter
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from lsprotocol import types
from pygls.uris import to_fs_path

from saywright.files import NotTextError, UnreadableFileError, read_script
from saywright.outlining.headings import Heading, headings, headings_in
from saywright.outlining.outline import without_private_names
from saywright.outlining.search import closeness
from saywright.positions import Encoding, Lines
from saywright.project import Project
from saywright.protocol.closed_scripts import roots
from saywright.protocol.document_symbols import symbol_kind
from saywright.protocol.documents import Document, project_of

if TYPE_CHECKING:
    from saywright.protocol.server import SaywrightServer

_MOST_SYMBOLS = 500
_MOST_BYTES = 2_000_000
_TURN_SECONDS = 0.005  # how long another question may have to wait
_LONGEST_SECONDS = 2.0  # then what has been found is the answer; the rest is found the next time
_NO_SCRIPTS_IN = frozenset(("node_modules", "venv", "env", "site-packages", "__pycache__"))


class _Found(NamedTuple):
    """A heading at its place, its name as it may be shown."""

    heading: Heading
    location: types.Location


class _Script(NamedTuple):
    """A script as it was read: its headings, the first of which is its title or its file's name."""

    changed_ns: int
    size: int
    project: Project
    found: tuple[_Found, ...]

    def is_of(self, file: os.stat_result, project: Project) -> bool:
        same = (self.changed_ns, self.size) == (file.st_mtime_ns, file.st_size)
        return same and self.project is project


_Read = dict[str, _Script]


def register(server: "SaywrightServer") -> None:
    read: _Read = {}

    @server.feature(types.WORKSPACE_SYMBOL)
    async def _symbols(params: types.WorkspaceSymbolParams) -> list[types.SymbolInformation]:
        near: list[tuple[int, int, types.SymbolInformation]] = []
        async for script in _scripts(server, read):
            for symbol in _symbols_of(server, script):
                far = closeness(params.query, symbol.name)
                if far is not None:
                    near.append((far, len(symbol.name), symbol))
        if params.query:
            near.sort(key=itemgetter(0, 1))
        return [symbol for _, _, symbol in near[:_MOST_SYMBOLS]]


def _symbols_of(
    server: "SaywrightServer", script: tuple[_Found, ...]
) -> Iterator[types.SymbolInformation]:
    known = server.client.structure.kinds_in_search
    title = script[0].heading
    for heading, location in script:
        yield types.SymbolInformation(
            location,
            heading.name,
            symbol_kind(heading.kind, known),
            container_name=None if heading is title else title.name,
        )


async def _scripts(server: "SaywrightServer", read: _Read) -> AsyncIterator[tuple[_Found, ...]]:
    """What is found in each script. Whatever else is asked meanwhile has its turn."""
    for document in server.documents.all():
        yield _in_open(document)
        await asyncio.sleep(0)
    stop = time.monotonic() + _LONGEST_SECONDS
    turn_ends = time.monotonic() + _TURN_SECONDS
    paths: set[str] = set()
    for path in server.closed_scripts.below(roots(server)):
        if path is not None and _NO_SCRIPTS_IN.isdisjoint(Path(path).parts):
            paths.add(path)
            uri = Path(path).as_uri()
            if server.documents.get(uri) is None and (
                script := _in_closed(server, path, uri, read)
            ):
                yield script
        if time.monotonic() > stop:
            return
        if time.monotonic() > turn_ends:
            await asyncio.sleep(0)
            turn_ends = time.monotonic() + _TURN_SECONDS
    for gone in read.keys() - paths:
        del read[gone]


def _in_open(document: Document) -> tuple[_Found, ...]:
    analysis = document.analysis
    return tuple(
        _Found(heading, types.Location(document.uri, document.range(heading.start, heading.end)))
        for heading in _named(headings(analysis), document.uri, analysis.project)
    )


def _in_closed(
    server: "SaywrightServer", path: str, uri: str, read: _Read
) -> tuple[_Found, ...] | None:
    """None where it cannot be read, or is longer than any script."""
    project = project_of(uri)
    try:
        found = os.stat(path)  # noqa: PTH116
        known = read.get(path)
        if known and known.is_of(found, project):
            return known.found
        if found.st_size > _MOST_BYTES:
            return None
        text = read_script(Path(path))
    except (OSError, UnreadableFileError, NotTextError):
        return None
    placed = tuple(_placed(text, uri, project, server.documents.encoding))
    read[path] = _Script(found.st_mtime_ns, found.st_size, project, placed)
    return placed


def _placed(text: str, uri: str, project: Project, encoding: Encoding) -> Iterator[_Found]:
    lines = Lines(text)
    for heading in _named(headings_in(text), uri, project):
        start, end = (
            types.Position(*lines.position_from_offset(edge, encoding))
            for edge in (heading.start, heading.end)
        )
        yield _Found(heading, types.Location(uri, types.Range(start, end)))


def _named(found: Iterable[Heading], uri: str, project: Project) -> Iterator[Heading]:
    """The title first, or instead of it the file's name; none quotes a private name."""
    first = True
    for heading in found:
        if first and heading.kind != "title":
            yield _file_name(uri)
        first = False
        yield heading._replace(name=without_private_names(heading.name, project))
    if first:
        yield _file_name(uri)


def _file_name(uri: str) -> Heading:
    path = to_fs_path(uri) if uri.startswith("file:") else None
    name = Path(path).stem if path else uri.rpartition("/")[2].rpartition(":")[2]
    return Heading("title", name or uri, 0, 0)
