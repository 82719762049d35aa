"""What Enter does in a list."""

from typing import TYPE_CHECKING

from lsprotocol import types

from saywright.completing.next_item import after_enter

if TYPE_CHECKING:
    from saywright.protocol.server import SaywrightServer


def register(server: "SaywrightServer") -> None:
    options = types.DocumentOnTypeFormattingOptions(first_trigger_character="\n")

    @server.feature(types.TEXT_DOCUMENT_ON_TYPE_FORMATTING, options)
    def _typed(params: types.DocumentOnTypeFormattingParams) -> list[types.TextEdit] | None:
        document = server.documents.get(params.text_document.uri)
        if document is None or params.ch != "\n":
            return None
        offset, _ = document.offsets(types.Range(params.position, params.position))
        return [
            types.TextEdit(document.range(edit.start, edit.end), edit.text)
            for edit in after_enter(document.analysis, offset)
        ] or None
