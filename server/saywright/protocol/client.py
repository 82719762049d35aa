"""What the client can do, resolved once, when it introduces itself."""

from dataclasses import dataclass

from lsprotocol import types


@dataclass(frozen=True, slots=True)
class Client:
    """`pulls`: it asks for diagnostics itself. `versioned_edits`: it takes `documentChanges`."""

    pulls: bool = False
    related_information: bool = False
    unnecessary_tag: bool = False
    versioned_edits: bool = False
    literal_actions: bool = False
    disabled_actions: bool = False
    markdown_hovers: bool = False


def client_from(capabilities: types.ClientCapabilities) -> Client:
    documents = capabilities.text_document or types.TextDocumentClientCapabilities()
    published = documents.publish_diagnostics or types.PublishDiagnosticsClientCapabilities()
    actions = documents.code_action or types.CodeActionClientCapabilities()
    workspace = capabilities.workspace or types.WorkspaceClientCapabilities()
    edits = workspace.workspace_edit or types.WorkspaceEditClientCapabilities()
    hovers = documents.hover or types.HoverClientCapabilities()
    tags = published.tag_support
    return Client(
        pulls=documents.diagnostic is not None,
        related_information=bool(published.related_information),
        unnecessary_tag=bool(tags and types.DiagnosticTag.Unnecessary in tags.value_set),
        versioned_edits=bool(edits.document_changes),
        literal_actions=actions.code_action_literal_support is not None,
        disabled_actions=bool(actions.disabled_support),
        markdown_hovers=types.MarkupKind.Markdown in (hovers.content_format or ()),
    )
