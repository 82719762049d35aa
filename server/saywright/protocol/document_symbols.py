"""A script's outline: its parts, units of action, turns and paragraphs, with their times."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from lsprotocol import types

from saywright.outlining.entry import Entry, EntryKind
from saywright.outlining.outline import outline
from saywright.protocol.client import Client
from saywright.protocol.documents import Document
from saywright.protocol.placing import Placing

if TYPE_CHECKING:
    from saywright.protocol.server import SaywrightServer

# each with what stands in where the client does not know it; all know the kinds up to Array
_KINDS: dict[EntryKind, tuple[types.SymbolKind, types.SymbolKind]] = {
    "title": (types.SymbolKind.File, types.SymbolKind.File),
    "piece": (types.SymbolKind.Namespace, types.SymbolKind.Namespace),
    "draft": (types.SymbolKind.Package, types.SymbolKind.Package),
    "notes": (types.SymbolKind.Module, types.SymbolKind.Module),
    "takes": (types.SymbolKind.Array, types.SymbolKind.Array),
    "unit": (types.SymbolKind.Event, types.SymbolKind.Method),
    "turn": (types.SymbolKind.Object, types.SymbolKind.Class),
    "paragraph": (types.SymbolKind.String, types.SymbolKind.String),
    "take": (types.SymbolKind.Number, types.SymbolKind.Number),
}


def register(server: "SaywrightServer") -> None:
    @server.feature(types.TEXT_DOCUMENT_DOCUMENT_SYMBOL)
    def _symbols(
        params: types.DocumentSymbolParams,
    ) -> list[types.DocumentSymbol] | list[types.SymbolInformation] | None:
        document = server.documents.get(params.text_document.uri)
        if document is None:
            return None
        entries, placing = outline(document.analysis), Placing(document)
        if server.client.structure.nested_symbols:
            return [_nested(entry, placing, server.client) for entry in entries]
        return [
            each for entry in entries for each in _flat(entry, document, placing, server.client)
        ]


def symbol_kind(kind: EntryKind, known: frozenset[types.SymbolKind]) -> types.SymbolKind:
    own, instead = _KINDS[kind]
    return own if own in known else instead


def _nested(entry: Entry, placing: Placing, client: Client) -> types.DocumentSymbol:
    return types.DocumentSymbol(
        entry.name,
        symbol_kind(entry.kind, client.structure.symbol_kinds),
        placing.range(entry.start, entry.end),
        placing.range(entry.head_start, entry.head_end),
        detail=entry.detail or None,
        tags=_tags(entry, client),
        children=[_nested(child, placing, client) for child in entry.children] or None,
    )


def _flat(
    entry: Entry, document: Document, placing: Placing, client: Client, within: str | None = None
) -> Iterator[types.SymbolInformation]:
    """The entry and what is in it. There is no place for the time but the name."""
    yield types.SymbolInformation(
        types.Location(document.uri, placing.range(entry.start, entry.end)),
        f"{entry.name}, {entry.detail}" if entry.detail else entry.name,
        symbol_kind(entry.kind, client.structure.symbol_kinds),
        tags=_tags(entry, client),
        container_name=within,
    )
    for child in entry.children:
        yield from _flat(child, document, placing, client, entry.name)


def _tags(entry: Entry, client: Client) -> list[types.SymbolTag] | None:
    return (
        [types.SymbolTag.Deprecated] if entry.is_cut and client.structure.struck_symbols else None
    )
