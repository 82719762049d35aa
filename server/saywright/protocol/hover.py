"""What is told of the place that is pointed at."""

from typing import TYPE_CHECKING

from lsprotocol import types

from saywright.explaining.place import explained_at
from saywright.protocol.markdown import told

if TYPE_CHECKING:
    from saywright.protocol.server import SaywrightServer


def register(server: "SaywrightServer") -> None:
    @server.feature(types.TEXT_DOCUMENT_HOVER)
    def _hover(params: types.HoverParams) -> types.Hover | None:
        document = server.documents.get(params.text_document.uri)
        if document is None:
            return None
        offset, _ = document.offsets(types.Range(params.position, params.position))
        found = explained_at(document.analysis, offset)
        if found is None:
            return None
        content = told(found.what, found.lines, markdown=server.client.markdown_hovers)
        return types.Hover(content, document.range(found.start, found.end))
