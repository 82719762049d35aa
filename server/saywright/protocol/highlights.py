"""Where else the name at the cursor stands."""

from typing import TYPE_CHECKING

from lsprotocol import types

from saywright.naming.at_place import name_at
from saywright.naming.places import places

if TYPE_CHECKING:
    from saywright.protocol.server import SaywrightServer


def register(server: "SaywrightServer") -> None:
    @server.feature(types.TEXT_DOCUMENT_DOCUMENT_HIGHLIGHT)
    def _highlights(params: types.DocumentHighlightParams) -> list[types.DocumentHighlight] | None:
        document = server.documents.get(params.text_document.uri)
        if document is None:
            return None
        offset, _ = document.offsets(types.Range(params.position, params.position))
        found = name_at(document.analysis, offset)
        if found is None:
            return []  # for None some editors mark the same word everywhere, cut or not
        return [
            types.DocumentHighlight(
                document.range(place.start, place.end), types.DocumentHighlightKind.Text
            )
            for place in places(document.analysis, found.name)
        ]
