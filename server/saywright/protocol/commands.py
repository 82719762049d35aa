"""Commands that an editor runs by name: a lens, a menu or a key of the editor's own sends them.

A feature adds its own with `add_command`. What a command cannot do it refuses, in words that the
editor shows to the writer.
"""

import inspect
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any

from lsprotocol import types
from pygls.exceptions import JsonRpcInvalidParams

from saywright.finding import Edit
from saywright.protocol.documents import Document
from saywright.protocol.edits import workspace_edit
from saywright.protocol.messages import Outdated, Refusal
from saywright.protocol.offers import Note

if TYPE_CHECKING:
    from saywright.protocol.server import SaywrightServer

Run = Callable[..., Any]
"""Gets the client's arguments, plain JSON; what it returns, or what that comes to if it is
awaited, is the client's answer."""


def add_command(server: "SaywrightServer", name: str, run: Run) -> None:
    """`name` begins with `saywright.`, for all servers of an editor share one list. Arguments of
    another number than `run` takes are answered as an error."""
    takes = inspect.signature(run)

    @server.command(name)
    async def _run(*arguments: Any) -> Any:
        try:
            takes.bind(*arguments)
        except TypeError as error:
            raise JsonRpcInvalidParams(f"{name}: {error}.") from error
        told = run(*arguments)
        return await told if inspect.isawaitable(told) else told


def document_named(server: "SaywrightServer", uri: Any, version: Any = None) -> Document:
    """The open document of that address; if a version is given, that one.

    Raises what is to be told of any other.
    """
    document = server.documents.get(uri) if isinstance(uri, str) else None
    if document is None:
        raise Refusal("This works on a script that is open.")
    if version is not None and version != document.version:
        raise Outdated
    return document


async def make_edits(
    server: "SaywrightServer",
    document: Document,
    title: str,
    edits: Sequence[Edit],
    note: Note | None = None,
) -> None:
    """Has the editor make the edits, which it can undo as `title`.

    Raises what is to be told where it does not.
    """
    if not server.client.applies_edits:
        raise Refusal("This editor changes a script only by its own menus.")
    if server.documents.get(document.uri) is not document:
        raise Outdated
    edit = workspace_edit(server, document, edits, note)
    asked = types.ApplyWorkspaceEditParams(edit, title)
    answer = await server.workspace_apply_edit_async(asked)
    if not answer.applied:
        raise Refusal(answer.failure_reason or "The editor has not made the change.")
