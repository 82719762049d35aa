"""What is said of every script in the client's folders, open or not.

Clients ask again every few seconds: what they know already is told as unchanged. Between two
scripts whatever else has been asked is answered, and the client may take its question back.
"""

import time
from collections.abc import AsyncIterator
from pathlib import Path
from typing import TYPE_CHECKING

from lsprotocol import types
from pygls.uris import from_fs_path

from saywright.project import Project
from saywright.protocol.closed_scripts import roots
from saywright.protocol.documents import address_key, project_of
from saywright.protocol.progress import Work, take_turns, working
from saywright.protocol.reports import Report

if TYPE_CHECKING:
    from saywright.protocol.server import SaywrightServer

_TURN_SECONDS = 0.005  # how long another question may have to wait
_SENT_EVERY_SECONDS = 0.2

Entry = (
    types.WorkspaceFullDocumentDiagnosticReport | types.WorkspaceUnchangedDocumentDiagnosticReport
)


def register(server: "SaywrightServer") -> None:
    @server.feature(types.WORKSPACE_DIAGNOSTIC)
    async def _pull(params: types.WorkspaceDiagnosticParams) -> types.WorkspaceDiagnosticReport:
        told = _Told(server, params.partial_result_token)
        known = {address_key(each.uri): each for each in params.previous_result_ids}
        async with working(server, "Reading the scripts", params.work_done_token) as work:
            async for uri, version, report in _reports(server, work):
                told.add(_entry(uri, version, report, known.pop(address_key(uri), None)))
        for each in known.values():  # gone, or not to be read any more
            told.add(types.WorkspaceFullDocumentDiagnosticReport(each.uri, []))
        return types.WorkspaceDiagnosticReport(told.rest())


class _Told:
    """What is told: all at the end, or bit by bit to a client that takes it so."""

    def __init__(self, server: "SaywrightServer", token: types.ProgressToken | None) -> None:
        self._server = server
        self._token = token
        self._entries: list[Entry] = []
        self._send_next = time.monotonic() + _SENT_EVERY_SECONDS

    def add(self, entry: Entry) -> None:
        self._entries.append(entry)
        if self._token is not None and time.monotonic() > self._send_next:
            self._send()

    def rest(self) -> list[Entry]:
        if self._token is not None and self._entries:
            self._send()
        return self._entries

    def _send(self) -> None:
        part = types.WorkspaceDiagnosticReport(self._entries)
        assert self._token is not None
        self._server.protocol.notify(types.PROGRESS, types.ProgressParams(self._token, part))
        self._entries = []
        self._send_next = time.monotonic() + _SENT_EVERY_SECONDS


async def _reports(
    server: "SaywrightServer", work: Work
) -> AsyncIterator[tuple[str, int | None, Report]]:
    """Address, version (None of a script that is not open) and report of each."""
    for document in server.documents.all():
        yield document.uri, document.version, server.reports.of(server, document)
        await take_turns()
    paths = [path async for path in _taking_turns(server)]
    projects: dict[str, Project] = {}
    turn_ends = time.monotonic() + _TURN_SECONDS
    for done, path in enumerate(paths):
        uri = from_fs_path(path) or ""
        if server.documents.get(uri) is None:
            folder = str(Path(path).parent)
            if folder not in projects:
                projects[folder] = project_of(uri)
            report = server.closed_scripts.report(server, path, uri, projects[folder])
            if report is not None:
                yield uri, None, report
        if time.monotonic() > turn_ends:
            await work.step(done + 1, len(paths))
            turn_ends = time.monotonic() + _TURN_SECONDS
    server.closed_scripts.keep_only(set(paths))


async def _taking_turns(server: "SaywrightServer") -> AsyncIterator[str]:
    turn_ends = time.monotonic() + _TURN_SECONDS
    for path in server.closed_scripts.below(roots(server)):
        if path is not None:
            yield path
        if time.monotonic() > turn_ends:
            await take_turns()
            turn_ends = time.monotonic() + _TURN_SECONDS


def _entry(
    uri: str, version: int | None, report: Report, known: types.PreviousResultId | None
) -> Entry:
    if known and report.result_id == known.value:
        return types.WorkspaceUnchangedDocumentDiagnosticReport(known.uri, known.value, version)
    return types.WorkspaceFullDocumentDiagnosticReport(
        known.uri if known else uri, report.items, version=version, result_id=report.result_id
    )
