"""Renaming: one name for another, everywhere in a script."""

from typing import TYPE_CHECKING

from lsprotocol import types

from saywright.naming.at_place import name_at
from saywright.naming.places import Place
from saywright.naming.renaming import Refused, renamed
from saywright.protocol.documents import Document
from saywright.protocol.edits import workspace_edit
from saywright.protocol.messages import Refusal

if TYPE_CHECKING:
    from saywright.protocol.server import SaywrightServer


def register(server: "SaywrightServer") -> None:
    @server.feature(types.TEXT_DOCUMENT_PREPARE_RENAME)
    def _prepare(params: types.PrepareRenameParams) -> types.PrepareRenamePlaceholder | None:
        document = server.documents.get(params.text_document.uri)
        if document is None:
            return None
        found = _name(document, params.position)
        return types.PrepareRenamePlaceholder(
            document.range(found.start, found.end), found.name.text
        )

    @server.feature(types.TEXT_DOCUMENT_RENAME)
    def _rename(params: types.RenameParams) -> types.WorkspaceEdit | None:
        document = server.documents.get(params.text_document.uri)
        if document is None:
            return None
        name = _name(document, params.position).name
        try:
            edits = renamed(document.analysis, name, params.new_name)
        except Refused as refused:
            raise Refusal(str(refused)) from refused
        return workspace_edit(server, document, edits)


def _name(document: Document, position: types.Position) -> Place:
    offset, _ = document.offsets(types.Range(position, position))
    found = name_at(document.analysis, offset)
    if found is None:
        raise Refusal("This is no name.")
    return found
