"""The documents that the client has open, as it has them."""

from collections.abc import Iterable
from pathlib import Path
from urllib.parse import unquote

from lsprotocol import types
from pygls.uris import to_fs_path

from saywright.analysis import Analysis, analyse
from saywright.files import nearest_project
from saywright.finding import Edit
from saywright.positions import Encoding, Places, Position
from saywright.project import NO_PROJECT, Project
from saywright.rereading import edited


class Document:
    """One version of an open document. A change makes a new one, so an answer that was begun
    for an old version can be told from one for the new."""

    def __init__(self, uri: str, version: int, encoding: Encoding, analysis: Analysis) -> None:
        self.uri = uri
        self.version = version
        self.encoding = encoding
        self._analysis = analysis

    @property
    def text(self) -> str:
        return self._analysis.text

    @property
    def analysis(self) -> Analysis:
        """What is known of the text, under the project file as it is now."""
        project = project_of(self.uri)
        if self._analysis.project is not project:
            self._analysis = analyse(self.text, project)
        return self._analysis

    def position(self, offset: int) -> types.Position:
        places = Places(self._analysis.blocks, self.encoding)
        return types.Position(*places.position_from_offset(offset))

    def range(self, start: int, end: int) -> types.Range:
        return types.Range(self.position(start), self.position(end))

    def offsets(self, where: types.Range) -> tuple[int, int]:
        """The offsets of a range's ends, in order even if the client's are not."""
        return _offsets(self._analysis, self.encoding, where)

    def changed(
        self, version: int, changes: Iterable[types.TextDocumentContentChangeEvent]
    ) -> "Document":
        """The document after `changes`, each made on what the one before left."""
        analysis = self._analysis
        for change in changes:
            if isinstance(change, types.TextDocumentContentChangePartial):
                start, end = _offsets(analysis, self.encoding, change.range)
                analysis = edited(analysis, Edit(start, end, change.text))
            else:
                analysis = analyse(change.text, analysis.project)
        return Document(self.uri, version, self.encoding, analysis)


def project_of(uri: str) -> Project:
    """The project of a document; of one that is not saved anywhere, the usual."""
    path = to_fs_path(uri) if uri.startswith("file:") else None
    return nearest_project(Path(path))[0] if path else NO_PROJECT


def _offsets(analysis: Analysis, encoding: Encoding, where: types.Range) -> tuple[int, int]:
    places = Places(analysis.blocks, encoding)
    start, end = (
        places.offset_from_position(Position(edge.line, edge.character))
        for edge in (where.start, where.end)
    )
    return min(start, end), max(start, end)


class Documents:
    """Open documents by their address, however the client spells it from call to call."""

    def __init__(self) -> None:
        self.encoding = Encoding.UTF_16
        self._open: dict[str, Document] = {}

    def open(self, item: types.TextDocumentItem) -> Document:
        analysis = analyse(item.text, project_of(item.uri))
        document = Document(item.uri, item.version, self.encoding, analysis)
        self._open[address_key(item.uri)] = document
        return document

    def change(self, params: types.DidChangeTextDocumentParams) -> Document | None:
        """The changed document, or None where it was never opened."""
        known = self.get(params.text_document.uri)
        if known is None:
            return None
        after = known.changed(params.text_document.version, params.content_changes)
        self._open[address_key(params.text_document.uri)] = after
        return after

    def close(self, uri: str) -> Document | None:
        return self._open.pop(address_key(uri), None)

    def all(self) -> list[Document]:
        return list(self._open.values())

    def get(self, uri: str) -> Document | None:
        return self._open.get(address_key(uri))


def address_key(uri: str) -> str:
    """One spelling for an address: clients differ in percent signs and a drive's letter case."""
    plain = unquote(uri)
    if plain[:8] == "file:///" and plain[9:10] == ":":
        return plain[:8] + plain[8].lower() + plain[9:]
    return plain
