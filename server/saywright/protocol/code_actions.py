"""What can be done where the cursor is: the findings' own fixes, and cut, keep, restore."""

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from lsprotocol import types

from saywright.cuts.at_place import fixes_at
from saywright.finding import Edit, Finding, Fix
from saywright.leaving_out import leave_out
from saywright.markup.tree import Range
from saywright.protocol.diagnostics import diagnostic
from saywright.protocol.documents import Document
from saywright.reporting import Reported

if TYPE_CHECKING:
    from saywright.protocol.server import SaywrightServer

_REWRITE = types.CodeActionKind.RefactorRewrite
_QUICK_FIX = types.CodeActionKind.QuickFix


def register(server: "SaywrightServer") -> None:
    options = types.CodeActionOptions(code_action_kinds=[_QUICK_FIX, _REWRITE])

    @server.feature(types.TEXT_DOCUMENT_CODE_ACTION, options)
    def _actions(params: types.CodeActionParams) -> list[types.CodeAction] | None:
        document = server.documents.get(params.text_document.uri)
        if document is None or not server.client.literal_actions:
            return None
        where = Range(*document.offsets(params.range))
        only = params.context.only
        actions: list[types.CodeAction] = []
        if _wanted(_QUICK_FIX, only):
            actions += _quick_fixes(server, document, where)
        if _wanted(_REWRITE, only):
            offered = {action.title for action in actions}
            actions += (
                _action(server, document, fix, _REWRITE)
                for fix in fixes_at(document.analysis, where)
                if fix.title not in offered
            )
        if _wanted(_QUICK_FIX, only):
            actions += _leaving_out(server, document, where)
        return actions


def _wanted(kind: types.CodeActionKind, only: Sequence[types.CodeActionKind | str] | None) -> bool:
    names = [str(getattr(asked, "value", asked)) for asked in only or ("",)]
    return any(not name or kind == name or kind.startswith(name + ".") for name in names)


def _quick_fixes(
    server: "SaywrightServer", document: Document, where: Range
) -> Iterator[types.CodeAction]:
    for reported in document.analysis.reported:
        finding = reported.finding
        if _concerns(document, finding, where):
            for fix in finding.fixes:
                yield _action(server, document, fix, _QUICK_FIX, reported)


def _leaving_out(
    server: "SaywrightServer", document: Document, where: Range
) -> Iterator[types.CodeAction]:
    """Once for each check that has something to say here."""
    seen: set[str] = set()
    for reported in document.analysis.reported:
        finding = reported.finding
        if finding.check not in seen and _concerns(document, finding, where):
            seen.add(finding.check)
            if fix := leave_out(document.analysis, finding):
                yield _action(server, document, fix, _QUICK_FIX, reported)


def _concerns(document: Document, finding: Finding, where: Range) -> bool:
    """Whether a finding's fixes are asked for: those that the range meets, and for a bare cursor
    also those of its line, whose sign stands at the line's start. (What is over time is fixed
    sentence by sentence.)"""
    if finding.start <= where.end and where.start <= finding.end:
        return True
    if where.start != where.end or finding.check == "over-time" or not finding.fixes:
        return False
    return document.position(finding.start).line == document.position(where.start).line


def _action(
    server: "SaywrightServer",
    document: Document,
    fix: Fix,
    kind: types.CodeActionKind,
    reported: Reported | None = None,
) -> types.CodeAction:
    return types.CodeAction(
        title=fix.title,
        kind=kind,
        diagnostics=[diagnostic(server, document, reported)] if reported else None,
        edit=workspace_edit(server, document, fix.edits),
    )


def workspace_edit(
    server: "SaywrightServer", document: Document, edits: Sequence[Edit]
) -> types.WorkspaceEdit:
    """The edits for this version of the document, in the form that the client takes."""
    changes = [types.TextEdit(document.range(edit.start, edit.end), edit.text) for edit in edits]
    if not server.client.versioned_edits:
        return types.WorkspaceEdit(changes={document.uri: changes})
    identifier = types.OptionalVersionedTextDocumentIdentifier(document.uri, document.version)
    return types.WorkspaceEdit(document_changes=[types.TextDocumentEdit(identifier, list(changes))])
