"""The editor's own settings, from the client: asked for where it can be asked, else as it sends
them. `preferences` says which of them holds."""

import logging
from collections.abc import Sequence
from concurrent.futures import Future
from typing import TYPE_CHECKING, Any

from lsprotocol import types

from saywright.preferences import (
    NO_PREFERENCES,
    SECTION,
    Preferences,
    read_preferences,
    shown,
)
from saywright.project import Project
from saywright.protocol.documents import Document
from saywright.protocol.refreshing import refresh

if TYPE_CHECKING:
    from saywright.protocol.server import SaywrightServer

logger = logging.getLogger(__name__)
REGISTRATION = types.Registration("saywright-settings", types.WORKSPACE_DID_CHANGE_CONFIGURATION)
"""For clients that tell of changed settings only to who has registered."""


class Configuration:
    """What the client has told of its settings: at the start, later unasked, and asked for each
    document."""

    def __init__(self) -> None:
        self.at_start = NO_PREFERENCES
        self.sent = NO_PREFERENCES
        self.of_document: dict[str, Preferences] = {}
        self._told: set[str] = set()

    def shown(self, document: Document) -> Project:
        """The document's project as the editor shows it."""
        own = self.of_document.get(document.uri, NO_PREFERENCES)
        return shown(document.analysis.project, self.at_start, self.sent, own)

    def new_problems(self, preferences: Preferences) -> Sequence[str]:
        """What the writer has not been told before."""
        found = [each for each in preferences.problems if each not in self._told]
        self._told.update(found)
        return found


def register(server: "SaywrightServer") -> None:
    @server.feature(types.WORKSPACE_DID_CHANGE_CONFIGURATION)
    def _changed(params: types.DidChangeConfigurationParams) -> None:
        documents = server.documents.all()
        if server.client.configures:
            ask(server, documents)
            return
        before = server.configuration.sent
        server.configuration.sent = read_preferences(params.settings)
        _tell(server, server.configuration.sent)
        if server.configuration.sent.settings != before.settings:
            refresh(server, documents)


def begin(server: "SaywrightServer", params: types.InitializeParams) -> None:
    """Take what the client says of its settings when it introduces itself."""
    server.configuration.at_start = read_preferences(params.initialization_options)


def tell_of_start(server: "SaywrightServer") -> None:
    """Of what could not be followed then: before the greeting is done nothing may be said."""
    _tell(server, server.configuration.at_start)


def ask(server: "SaywrightServer", documents: Sequence[Document]) -> None:
    """Ask for the settings that hold for the documents; what they show changes when told."""
    if not server.client.configures or not documents:
        return
    items = [types.ConfigurationItem(scope_uri=each.uri, section=SECTION) for each in documents]

    def answered(future: "Future[Sequence[Any]]") -> None:
        if future.cancelled() or future.exception():
            logger.warning("The client did not tell its settings: %s", future)
            return
        _take(server, documents, future.result() or ())

    server.workspace_configuration(types.ConfigurationParams(items)).add_done_callback(answered)


def forget(server: "SaywrightServer", document: Document) -> None:
    """Of a document that is closed."""
    server.configuration.of_document.pop(document.uri, None)


def _take(server: "SaywrightServer", documents: Sequence[Document], told: Sequence[Any]) -> None:
    configuration = server.configuration
    changed: list[Document] = []
    for asked, answer in zip(documents, told, strict=False):
        document = server.documents.get(asked.uri)
        if document is None:
            continue
        own = read_preferences(answer)
        before = configuration.of_document.get(document.uri, NO_PREFERENCES)
        configuration.of_document[document.uri] = own
        _tell(server, own)
        if own.settings != before.settings:
            changed.append(document)
    if changed:
        refresh(server, changed)


def _tell(server: "SaywrightServer", preferences: Preferences) -> None:
    """Once for each: in the log, and to the writer, who has just set it."""
    for problem in server.configuration.new_problems(preferences):
        logger.warning("%s", problem)
        warning = types.MessageType.Warning
        server.window_log_message(types.LogMessageParams(warning, problem))
        server.window_show_message(types.ShowMessageParams(warning, f"Saywright: {problem}"))
