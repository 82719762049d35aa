"""The documents that the client has open, as it has them."""

from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path
from urllib.parse import unquote

from lsprotocol import types
from pygls.uris import to_fs_path

from saywright.analysis import Analysis, analyse
from saywright.files import nearest_project
from saywright.positions import Encoding, Lines, Position
from saywright.project import NO_PROJECT, Project


@dataclass
class Document:
    """One version of an open document. A change makes a new one, so an answer that was begun
    for an old version can be told from one for the new."""

    uri: str
    version: int
    text: str
    encoding: Encoding
    _analysis: Analysis | None = field(default=None, repr=False)

    @cached_property
    def lines(self) -> Lines:
        return Lines(self.text, self.encoding)

    def position(self, offset: int) -> types.Position:
        return types.Position(*self.lines.position_from_offset(offset))

    def range(self, start: int, end: int) -> types.Range:
        return types.Range(self.position(start), self.position(end))

    def offsets(self, where: types.Range) -> tuple[int, int]:
        """The offsets of a range's ends, in order even if the client's are not."""
        return _offsets(self.lines, where)

    @property
    def analysis(self) -> Analysis:
        """What is known of the text, under the project file as it is now."""
        project = self._project()
        known = self._analysis
        if known is None or known.text != self.text or known.project is not project:
            self._analysis = known = analyse(self.text, project, previous=known)
        return known

    def _project(self) -> Project:
        path = to_fs_path(self.uri) if self.uri.startswith("file:") else None
        return nearest_project(Path(path))[0] if path else NO_PROJECT

    def changed(
        self, version: int, changes: list[types.TextDocumentContentChangeEvent]
    ) -> "Document":
        """The document after `changes`, each made on what the one before left."""
        text, lines = self.text, self.lines
        for change in changes:
            if isinstance(change, types.TextDocumentContentChangePartial):
                start, end = _offsets(lines, change.range)
                text = text[:start] + change.text + text[end:]
            else:
                text = change.text
            lines = Lines(text, self.encoding)
        after = Document(self.uri, version, text, self.encoding, self._analysis)
        after.__dict__["lines"] = lines
        return after


def _offsets(lines: Lines, where: types.Range) -> tuple[int, int]:
    start, end = (
        lines.offset_from_position(Position(edge.line, edge.character))
        for edge in (where.start, where.end)
    )
    return min(start, end), max(start, end)


class Documents:
    """Open documents by their address, however the client spells it from call to call."""

    def __init__(self) -> None:
        self.encoding = Encoding.UTF_16
        self._open: dict[str, Document] = {}

    def open(self, item: types.TextDocumentItem) -> Document:
        document = Document(item.uri, item.version, item.text, self.encoding)
        self._open[_key(item.uri)] = document
        return document

    def change(self, params: types.DidChangeTextDocumentParams) -> Document | None:
        """The changed document, or None where it was never opened."""
        known = self.get(params.text_document.uri)
        if known is None:
            return None
        after = known.changed(params.text_document.version, list(params.content_changes))
        self._open[_key(params.text_document.uri)] = after
        return after

    def close(self, uri: str) -> Document | None:
        return self._open.pop(_key(uri), None)

    def get(self, uri: str) -> Document | None:
        return self._open.get(_key(uri))

    def all(self) -> list[Document]:
        return list(self._open.values())


def _key(uri: str) -> str:
    """One spelling for an address: clients differ in percent signs and a drive's letter case."""
    plain = unquote(uri)
    if plain[:8] == "file:///" and plain[9:10] == ":":
        return plain[:8] + plain[8].lower() + plain[9:]
    return plain
