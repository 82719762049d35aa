"""Edits of the core as the protocol's workspace edits, in the form that the client takes."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from lsprotocol import types

from saywright.finding import Edit
from saywright.protocol.documents import Document
from saywright.protocol.offers import Note

if TYPE_CHECKING:
    from saywright.protocol.server import SaywrightServer

_NOTE = "note"


def workspace_edit(
    server: "SaywrightServer", document: Document, edits: Sequence[Edit], note: Note | None = None
) -> types.WorkspaceEdit:
    """The edits for this version of the document, with the note for a client that shows such."""
    changes = [types.TextEdit(document.range(edit.start, edit.end), edit.text) for edit in edits]
    if not server.client.versioned_edits:
        return types.WorkspaceEdit(changes={document.uri: changes})
    identifier = types.OptionalVersionedTextDocumentIdentifier(document.uri, document.version)
    if note is None or not server.client.annotated_edits:
        plain = types.TextDocumentEdit(identifier, list(changes))
        return types.WorkspaceEdit(document_changes=[plain])
    annotated = [types.AnnotatedTextEdit(_NOTE, each.range, each.new_text) for each in changes]
    return types.WorkspaceEdit(
        document_changes=[types.TextDocumentEdit(identifier, list(annotated))],
        change_annotations={
            _NOTE: types.ChangeAnnotation(
                note.label,
                needs_confirmation=note.needs_confirmation,
                description=note.description or None,
            )
        },
    )
