"""What a selection grows to: word, clause, phrase, sentence, paragraph, turn, unit, part, file."""

from typing import TYPE_CHECKING

from lsprotocol import types

from saywright.outlining.nesting import Nesting
from saywright.protocol.documents import Document
from saywright.protocol.placing import Placing

if TYPE_CHECKING:
    from saywright.protocol.server import SaywrightServer


def register(server: "SaywrightServer") -> None:
    @server.feature(types.TEXT_DOCUMENT_SELECTION_RANGE)
    def _selections(params: types.SelectionRangeParams) -> list[types.SelectionRange] | None:
        document = server.documents.get(params.text_document.uri)
        if document is None:
            return None
        nesting, placing = Nesting(document.analysis), Placing(document)
        return [_selection(nesting, placing, document, position) for position in params.positions]


def _selection(
    nesting: Nesting, placing: Placing, document: Document, position: types.Position
) -> types.SelectionRange:
    offset, _ = document.offsets(types.Range(position, position))
    around: types.SelectionRange | None = None
    for where in reversed(nesting.at(offset)):
        around = types.SelectionRange(placing.range(*where), around)
    assert around
    return around
