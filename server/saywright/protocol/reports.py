"""What is said of a script, as the protocol has it, with a mark that tells it from other reports.

A report is made once for an analysis: clients ask for it again and again.
"""

import hashlib
from collections import OrderedDict
from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

from lsprotocol import types

from saywright.analysis import Analysis
from saywright.finding import Finding
from saywright.protocol.check_pages import page_uri
from saywright.protocol.documents import Document
from saywright.reporting import Reported

if TYPE_CHECKING:
    from saywright.protocol.server import SaywrightServer

SOURCE = "saywright"
_REMEMBERED = 32
_SEVERITIES = {
    "error": types.DiagnosticSeverity.Error,
    "warning": types.DiagnosticSeverity.Warning,
    "information": types.DiagnosticSeverity.Information,
    "hint": types.DiagnosticSeverity.Hint,
}


class Report(NamedTuple):
    """`result_id` is the same for the same items, in whatever order versions come and go."""

    items: list[types.Diagnostic]
    result_id: str


class Reports:
    """The reports of the open documents, as far as they have been asked for."""

    def __init__(self) -> None:
        self._known: OrderedDict[str, tuple[Analysis, bool, Report]] = OrderedDict()

    def of(self, server: "SaywrightServer", document: Document) -> Report:
        analysis = document.analysis
        grey = server.configuration.shown(document).grey_beyond_slot
        known = self._known.get(document.uri)
        if known is not None and known[0] is analysis and known[1] is grey:
            return known[2]
        report = report_of(server, document, grey_beyond_slot=grey)
        self._known[document.uri] = analysis, grey, report
        self._known.move_to_end(document.uri)
        if len(self._known) > _REMEMBERED:
            self._known.popitem(last=False)
        return report

    def forget(self, document: Document) -> None:
        self._known.pop(document.uri, None)


def report_of(
    server: "SaywrightServer", document: Document, *, grey_beyond_slot: bool = False
) -> Report:
    items = [diagnostic(server, document, reported) for reported in document.analysis.reported]
    if grey_beyond_slot and server.client.unnecessary_tag:
        items += _beyond_slot(document)
    told = repr(items).encode("utf-8", "surrogatepass")
    return Report(items, hashlib.sha256(told).hexdigest()[:16])


def diagnostic(
    server: "SaywrightServer", document: Document, reported: Reported
) -> types.Diagnostic:
    finding, client = reported.finding, server.client
    page = page_uri(finding.check) if client.code_descriptions else None
    return types.Diagnostic(
        range=document.range(finding.start, finding.end),
        message=finding.message,
        severity=_SEVERITIES[reported.severity],
        code=finding.check,
        code_description=types.CodeDescription(page) if page else None,
        source=SOURCE,
        related_information=_related(document, finding) if client.related_information else None,
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
