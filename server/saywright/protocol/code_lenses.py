"""Above each piece its time, and whether a slow or a fast reading would miss the slot."""

from typing import TYPE_CHECKING

from lsprotocol import types

from saywright.explaining.parts import told_in_short
from saywright.protocol.documents import Document

if TYPE_CHECKING:
    from saywright.protocol.server import SaywrightServer


def register(server: "SaywrightServer") -> None:
    @server.feature(types.TEXT_DOCUMENT_CODE_LENS, types.CodeLensOptions())
    def _lenses(params: types.CodeLensParams) -> list[types.CodeLens] | None:
        document = server.documents.get(params.text_document.uri)
        return _of_pieces(document) if document else None


def _of_pieces(document: Document) -> list[types.CodeLens]:
    # a lens without a command is only read, and clients take an empty name for that
    return [
        types.CodeLens(document.range(*view.heading), types.Command(told_in_short(view), ""))
        for view in document.analysis.pieces
        if view.timeline.words
    ]
