"""Tidying as the editor's own formatting."""

from typing import TYPE_CHECKING

from lsprotocol import types

from saywright.markup.tidying import tidying_edits

if TYPE_CHECKING:
    from saywright.protocol.server import SaywrightServer


def register(server: "SaywrightServer") -> None:
    @server.feature(types.TEXT_DOCUMENT_FORMATTING)
    def _format(params: types.DocumentFormattingParams) -> list[types.TextEdit] | None:
        document = server.documents.get(params.text_document.uri)
        if document is None:
            return None
        return [
            types.TextEdit(document.range(edit.start, edit.end), edit.text)
            for edit in tidying_edits(document.text)
        ]
