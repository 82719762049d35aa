"""Files that are not open: when a project file changes, what is shown of scripts changes too, and
when another script does, what is said of it.

A client that watches files says so at once. With any other, the project file is looked at
whenever something is asked of a document, so it is seen at the next keystroke.
"""

import logging
from concurrent.futures import Future
from typing import TYPE_CHECKING, Any
from urllib.parse import unquote

from lsprotocol import types

from saywright.files import SUFFIX
from saywright.project import FILE_NAME, PRIVATE_NAMES_FILE
from saywright.protocol import configuration
from saywright.protocol.refreshing import ask_anew, refresh

if TYPE_CHECKING:
    from saywright.protocol.server import SaywrightServer

logger = logging.getLogger(__name__)
_PROJECT_FILES = (FILE_NAME, PRIVATE_NAMES_FILE)
_WATCHED = (*_PROJECT_FILES, f"*{SUFFIX}")


def register(server: "SaywrightServer") -> None:
    @server.feature(types.INITIALIZED)
    def _initialized(_params: types.InitializedParams) -> None:
        configuration.tell_of_start(server)
        wanted = []
        if server.client.registers_watching:
            wanted.append(_watching())
        if server.client.registers_configuration:
            wanted.append(configuration.REGISTRATION)
        if wanted:
            asked = server.client_register_capability(types.RegistrationParams(wanted))
            asked.add_done_callback(_answered)

    @server.feature(types.WORKSPACE_DID_CHANGE_WATCHED_FILES)
    def _changed(params: types.DidChangeWatchedFilesParams) -> None:
        changed = [unquote(each.uri).rpartition("/") for each in params.changes]
        folders = [f"{folder}/" for folder, _, name in changed if name in _PROJECT_FILES]
        if folders:
            documents = server.documents.all()
            below = tuple(folders)
            refresh(server, [each for each in documents if unquote(each.uri).startswith(below)])
        elif any(server.documents.get(each.uri) is None for each in params.changes):
            ask_anew(server, "diagnostics")


def _watching() -> types.Registration:
    watchers = [types.FileSystemWatcher(f"**/{name}") for name in _WATCHED]
    return types.Registration(
        "saywright-files",
        types.WORKSPACE_DID_CHANGE_WATCHED_FILES,
        types.DidChangeWatchedFilesRegistrationOptions(watchers),
    )


def _answered(future: "Future[Any]") -> None:
    if not future.cancelled() and (error := future.exception()):
        logger.warning("The client did not take the registration: %s", error)
