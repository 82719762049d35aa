"""Findings as diagnostics: pulled by clients that pull, pushed to the others."""

import asyncio
from typing import TYPE_CHECKING

from lsprotocol import types

from saywright.protocol.documents import Document
from saywright.protocol.reports import SOURCE, Report

if TYPE_CHECKING:
    from saywright.protocol.server import SaywrightServer

_PUSH_DELAY_SECONDS = 0.03
_NOTHING = Report([], "nothing")


def register(server: "SaywrightServer") -> None:
    options = types.DiagnosticOptions(
        identifier=SOURCE,
        inter_file_dependencies=False,
        workspace_diagnostics=True,
        work_done_progress=True,
    )

    @server.feature(types.TEXT_DOCUMENT_DIAGNOSTIC, options)
    def _pull(params: types.DocumentDiagnosticParams) -> types.DocumentDiagnosticReport:
        report = _report(server, params.text_document.uri)
        if report.result_id == params.previous_result_id:
            return types.RelatedUnchangedDocumentDiagnosticReport(report.result_id)
        return types.RelatedFullDocumentDiagnosticReport(report.items, result_id=report.result_id)


def _report(server: "SaywrightServer", uri: str) -> Report:
    """Of an open document, or else of the script on the disk."""
    document = server.documents.get(uri)
    if document is not None:
        return server.reports.of(server, document)
    return server.closed_scripts.report_at(server, uri) or _NOTHING


def push(server: "SaywrightServer", document: Document) -> None:
    """Publish a document's diagnostics now, to a client that does not pull them."""
    if not server.client.pulls:
        report = server.reports.of(server, document)
        _publish(server, document.uri, report.items, document.version)


def push_soon(server: "SaywrightServer", document: Document) -> None:
    """Publish after a moment in which no newer version came."""

    def if_still_newest() -> None:
        if server.documents.get(document.uri) is document:
            push(server, document)

    if not server.client.pulls:
        asyncio.get_running_loop().call_later(_PUSH_DELAY_SECONDS, if_still_newest)


def clear(server: "SaywrightServer", document: Document) -> None:
    """Take back what was pushed for a document that is closed."""
    server.reports.forget(document)
    if not server.client.pulls:
        _publish(server, document.uri, [])


def _publish(
    server: "SaywrightServer", uri: str, items: list[types.Diagnostic], version: int | None = None
) -> None:
    if not server.client.versioned_diagnostics:
        version = None
    server.text_document_publish_diagnostics(
        types.PublishDiagnosticsParams(uri, items, version=version)
    )
