"""What the client can do, resolved once, when it introduces itself."""

from dataclasses import dataclass, field

from lsprotocol import types

from saywright.protocol.structure import Structure, structure_from

REFRESHED = ("inlay_hint", "code_lens", "semantic_tokens", "diagnostics")
"""What a client may be told to ask for anew, as its workspace capabilities name it."""


@dataclass(frozen=True, slots=True)
class Client:
    """`pulls`: it asks for diagnostics itself. `versioned_edits`: it takes `documentChanges`.
    `asks`: it asks the writer to choose among answers. `resolved_actions`: it asks for an
    action's edit when the action is chosen. `resolved_hints`: it asks for a hint's tooltip
    when it is pointed at. `configures`: it can be asked for its settings. `registers_*`: it
    takes a registration after the greeting. `refreshes`: what it can be told to ask for anew,
    of `REFRESHED`."""

    pulls: bool = False
    related_information: bool = False
    unnecessary_tag: bool = False
    code_descriptions: bool = False
    versioned_diagnostics: bool = False
    versioned_edits: bool = False
    annotated_edits: bool = False
    applies_edits: bool = False
    asks: bool = False
    work_done_progress: bool = False
    literal_actions: bool = False
    disabled_actions: bool = False
    preferred_actions: bool = False
    resolved_actions: bool = False
    markdown_hovers: bool = False
    markdown_completions: bool = False
    snippets: bool = False
    insert_or_replace: bool = False
    linked_definitions: bool = False
    resolved_hints: bool = False
    configures: bool = False
    registers_configuration: bool = False
    registers_watching: bool = False
    refreshes: frozenset[str] = frozenset()
    structure: Structure = field(default_factory=Structure)


def client_from(capabilities: types.ClientCapabilities) -> Client:
    documents = capabilities.text_document or types.TextDocumentClientCapabilities()
    published = documents.publish_diagnostics or types.PublishDiagnosticsClientCapabilities()
    actions = documents.code_action or types.CodeActionClientCapabilities()
    workspace = capabilities.workspace or types.WorkspaceClientCapabilities()
    edits = workspace.workspace_edit or types.WorkspaceEditClientCapabilities()
    hovers = documents.hover or types.HoverClientCapabilities()
    completion = documents.completion or types.CompletionClientCapabilities()
    items = completion.completion_item or types.ClientCompletionItemOptions()
    window = capabilities.window or types.WindowClientCapabilities()
    # newer clients name for each way what they take; until then one entry held for both
    pulled = documents.diagnostic
    told = pulled if pulled and _is_detailed(pulled) else published
    tags = told.tag_support
    return Client(
        structure=structure_from(documents, workspace),
        pulls=documents.diagnostic is not None,
        related_information=bool(told.related_information),
        unnecessary_tag=bool(tags and types.DiagnosticTag.Unnecessary in tags.value_set),
        code_descriptions=bool(told.code_description_support),
        versioned_diagnostics=bool(published.version_support),
        versioned_edits=bool(edits.document_changes),
        annotated_edits=edits.change_annotation_support is not None,
        applies_edits=bool(workspace.apply_edit),
        asks=window.show_message is not None,
        work_done_progress=bool(window.work_done_progress),
        literal_actions=actions.code_action_literal_support is not None,
        disabled_actions=bool(actions.disabled_support),
        preferred_actions=bool(actions.is_preferred_support),
        resolved_actions=_resolves_edits(actions),
        markdown_hovers=types.MarkupKind.Markdown in (hovers.content_format or ()),
        markdown_completions=types.MarkupKind.Markdown in (items.documentation_format or ()),
        snippets=bool(items.snippet_support),
        insert_or_replace=bool(items.insert_replace_support),
        linked_definitions=bool(documents.definition and documents.definition.link_support),
        resolved_hints=_resolves_tooltips(documents),
        configures=bool(workspace.configuration),
        registers_configuration=_registers(workspace.did_change_configuration),
        registers_watching=_registers(workspace.did_change_watched_files),
        refreshes=frozenset(name for name in REFRESHED if _refreshes(workspace, name)),
    )


def _registers(
    capability: types.DidChangeConfigurationClientCapabilities
    | types.DidChangeWatchedFilesClientCapabilities
    | None,
) -> bool:
    return bool(capability and capability.dynamic_registration)


def _resolves_tooltips(documents: types.TextDocumentClientCapabilities) -> bool:
    resolved = documents.inlay_hint and documents.inlay_hint.resolve_support
    return bool(resolved and "tooltip" in resolved.properties)


def _refreshes(workspace: types.WorkspaceClientCapabilities, name: str) -> bool:
    return bool(getattr(getattr(workspace, name), "refresh_support", False))


def _resolves_edits(actions: types.CodeActionClientCapabilities) -> bool:
    resolved = actions.resolve_support
    return bool(actions.data_support and resolved and "edit" in resolved.properties)


def _is_detailed(pulled: types.DiagnosticClientCapabilities) -> bool:
    detailed = (pulled.related_information, pulled.tag_support, pulled.code_description_support)
    return any(each is not None for each in detailed)
