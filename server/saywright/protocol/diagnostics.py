"""Findings as diagnostics: pulled by clients that pull, pushed to the others."""

import asyncio
import hashlib
from collections.abc import Iterator
from typing import TYPE_CHECKING

from lsprotocol import types

from saywright.finding import Finding
from saywright.protocol.documents import Document
from saywright.reporting import Reported

if TYPE_CHECKING:
    from saywright.protocol.server import SaywrightServer

SOURCE = "saywright"
_PUSH_DELAY_SECONDS = 0.03
_SEVERITIES = {
    "error": types.DiagnosticSeverity.Error,
    "warning": types.DiagnosticSeverity.Warning,
    "information": types.DiagnosticSeverity.Information,
    "hint": types.DiagnosticSeverity.Hint,
}


def register(server: "SaywrightServer") -> None:
    options = types.DiagnosticOptions(
        identifier=SOURCE, inter_file_dependencies=False, workspace_diagnostics=False
    )

    @server.feature(types.TEXT_DOCUMENT_DIAGNOSTIC, options)
    def _pull(params: types.DocumentDiagnosticParams) -> types.DocumentDiagnosticReport:
        document = server.documents.get(params.text_document.uri)
        items = _diagnostics(server, document) if document else []
        result_id = _result_id(items)
        if result_id == params.previous_result_id:
            return types.RelatedUnchangedDocumentDiagnosticReport(result_id)
        return types.RelatedFullDocumentDiagnosticReport(items, result_id=result_id)


def push(server: "SaywrightServer", document: Document) -> None:
    """Publish a document's diagnostics now, to a client that does not pull them."""
    if not server.client.pulls:
        items = _diagnostics(server, document)
        _publish(server, document.uri, items, document.version)


def push_soon(server: "SaywrightServer", document: Document) -> None:
    """Publish after a moment in which no newer version came."""

    def if_still_newest() -> None:
        if server.documents.get(document.uri) is document:
            push(server, document)

    if not server.client.pulls:
        asyncio.get_running_loop().call_later(_PUSH_DELAY_SECONDS, if_still_newest)


def clear(server: "SaywrightServer", document: Document) -> None:
    """Take back what was pushed for a document that is closed."""
    if not server.client.pulls:
        _publish(server, document.uri, [])


def _publish(
    server: "SaywrightServer", uri: str, items: list[types.Diagnostic], version: int | None = None
) -> None:
    server.text_document_publish_diagnostics(
        types.PublishDiagnosticsParams(uri, items, version=version)
    )


def _diagnostics(server: "SaywrightServer", document: Document) -> list[types.Diagnostic]:
    items = [diagnostic(server, document, reported) for reported in document.analysis.reported]
    if document.analysis.project.grey_beyond_slot and server.client.unnecessary_tag:
        items += _beyond_slot(document)
    return items


def diagnostic(
    server: "SaywrightServer", document: Document, reported: Reported
) -> types.Diagnostic:
    finding = reported.finding
    return types.Diagnostic(
        range=document.range(finding.start, finding.end),
        message=finding.message,
        severity=_SEVERITIES[reported.severity],
        code=finding.check,
        source=SOURCE,
        related_information=_related(document, finding)
        if server.client.related_information
        else None,
    )


def _related(
    document: Document, finding: Finding
) -> list[types.DiagnosticRelatedInformation] | None:
    return [
        types.DiagnosticRelatedInformation(
            types.Location(document.uri, document.range(each.start, each.end)), each.message
        )
        for each in finding.related
    ] or None


def _beyond_slot(document: Document) -> Iterator[types.Diagnostic]:
    """What lies past the slot, for the client to grey."""
    for view in document.analysis.pieces:
        crossing = view.timeline.crossing(view.aim.seconds) if view.aim else None
        if crossing:
            placed, index = crossing
            start = placed.start + placed.timed.sentences[index].start
            yield types.Diagnostic(
                range=document.range(start, view.timeline.part.end),
                message="Beyond the slot.",
                severity=types.DiagnosticSeverity.Hint,
                code="over-time",
                source=SOURCE,
                tags=[types.DiagnosticTag.Unnecessary],
            )


def _result_id(items: list[types.Diagnostic]) -> str:
    return hashlib.sha256(repr(items).encode("utf-8", "surrogatepass")).hexdigest()[:16]
