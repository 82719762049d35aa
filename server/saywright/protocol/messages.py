"""The conversation with the client, where pygls would lose a message or raise an alarm.

A request is always answered: -32600 where it is none, -32602 where its parameters do not parse,
-32002 before `initialize`, -32600 after `shutdown`, -32803 where it is refused, -32800 where the
client takes it back, -32801 where the text has changed under it, -32603 where the server is at
fault (what went wrong is in the log, not in the answer). What goes wrong with a notification is
logged, and nothing pops up on the writer's screen. Documents are the project's own; pygls'
copies are not kept.
"""

import logging
import os
from collections.abc import Generator
from concurrent.futures import Future
from contextvars import ContextVar
from threading import Event
from typing import Any

from cattrs import Converter
from lsprotocol import types
from pygls.exceptions import JsonRpcException, JsonRpcInternalError, JsonRpcInvalidParams
from pygls.lsp.server import LanguageServer
from pygls.protocol import LanguageServerProtocol
from pygls.protocol.language_server import lsp_method

logger = logging.getLogger(__name__)

_NOT_INITIALIZED = -32002
_INVALID_REQUEST = -32600
_INVALID_PARAMS = -32602
_REQUEST_FAILED = -32803
_CONTENT_MODIFIED = -32801


work_done_token: ContextVar[types.ProgressToken | None] = ContextVar("token", default=None)
"""Under which the client shows how far the command has come that runs now, if it gave one."""

_Steps = Generator[Any, Any, None]


class Refusal(JsonRpcException):
    """A request that cannot be granted; the message is shown to the writer."""

    CODE = _REQUEST_FAILED


class Outdated(JsonRpcException):
    """An answer that would be about a text that has changed since: the client asks again."""

    CODE = _CONTENT_MODIFIED
    MESSAGE = "The script has changed since this was asked for."


class Conversation(LanguageServerProtocol):
    """pygls' protocol, with the gaps closed that the module's head names."""

    exit_code: int | None = None
    _greeted = False

    def __init__(self, server: LanguageServer, converter: Converter) -> None:
        super().__init__(server, converter)
        self.stop = Event()

    def structure_message(self, data: dict[str, Any]) -> dict[str, Any]:
        """Leaves a message as it is: pygls calls this for every object inside one, and would
        take any with a key `jsonrpc` for a message of its own."""
        return data

    def handle_message(self, message: Any) -> None:
        if not _is_message(message):
            logger.warning("Not a message of JSON-RPC 2.0; passed over")
            if isinstance(message, dict) and _is_id(message.get("id")) and "method" in message:
                self._refuse(message, _INVALID_REQUEST, "This is no request of JSON-RPC 2.0.")
            return
        if "method" in message and not self._is_due(message):
            return
        try:
            structured = super().structure_message(message)
        except JsonRpcException:
            self._refuse(message, _INVALID_PARAMS, "The parameters do not parse.")
            if "method" not in message:
                self._give_up(message["id"])
            return
        if "id" in message and not hasattr(structured, "id"):
            self._refuse(message, _INVALID_REQUEST, "This is a notification, to have no id.")
            return
        super().handle_message(structured)

    def _handle_cancel_notification(self, msg_id: Any) -> None:
        if _is_id(msg_id):
            super()._handle_cancel_notification(msg_id)

    def _give_up(self, msg_id: str | int) -> None:
        """The client's answer cannot be read: whoever waits for it is told, and waits no more."""
        waiting = self._request_futures.pop(msg_id, None)
        if waiting and not waiting.done():
            waiting.set_exception(JsonRpcInvalidParams("The answer does not parse."))

    def _is_due(self, message: dict[str, Any]) -> bool:
        """Whether the message's time is: after the greeting and before the farewell."""
        method = message["method"]
        if method == types.INITIALIZE and not self._greeted:
            self._greeted = True
            return True
        if method == types.EXIT:
            return True
        if method == types.INITIALIZE:
            self._refuse(message, _INVALID_REQUEST, "The server is initialized already.")
        elif not self._greeted:
            self._refuse(message, _NOT_INITIALIZED, "The server is not initialized yet.")
        elif self._shutdown:
            self._refuse(message, _INVALID_REQUEST, "The server has been shut down.")
        else:
            return True
        return False

    def _refuse(self, message: dict[str, Any], code: int, why: str) -> None:
        logger.warning("%s: %s", message.get("method", "a response"), why)
        if "id" in message and "method" in message:
            self._send_response(message["id"], error=types.ResponseError(code=code, message=why))

    def _send_handler_result(self, future: Future[Any], *, msg_id: str | int) -> None:
        """A refusal is an answer; pygls would log it as a fault of the server's. Of a fault the
        client is told that it is one; pygls would send the traceback too."""
        error = None if future.cancelled() else future.exception()
        if error is None:
            super()._send_handler_result(future, msg_id=msg_id)
            return
        self._request_futures.pop(msg_id, None)
        if not isinstance(error, JsonRpcException):
            logger.error("A request failed", exc_info=error)
            error = JsonRpcInternalError("Something went wrong in the server; its log says what.")
        self._send_response(msg_id, error=error.to_response_error())

    @lsp_method(types.EXIT)
    def lsp_exit(self, *_args: Any) -> _Steps:
        self.exit_code = 0 if self._shutdown else 1
        self.stop.set()
        yield from ()

    @lsp_method(types.TEXT_DOCUMENT_DID_OPEN)
    def lsp_text_document__did_open(self, params: types.DidOpenTextDocumentParams) -> _Steps:
        yield from self._to_feature(types.TEXT_DOCUMENT_DID_OPEN, params)

    @lsp_method(types.TEXT_DOCUMENT_DID_CHANGE)
    def lsp_text_document__did_change(self, params: types.DidChangeTextDocumentParams) -> _Steps:
        yield from self._to_feature(types.TEXT_DOCUMENT_DID_CHANGE, params)

    @lsp_method(types.TEXT_DOCUMENT_DID_CLOSE)
    def lsp_text_document__did_close(self, params: types.DidCloseTextDocumentParams) -> _Steps:
        yield from self._to_feature(types.TEXT_DOCUMENT_DID_CLOSE, params)

    @lsp_method(types.WORKSPACE_EXECUTE_COMMAND)
    async def lsp_workspace__execute_command(  # type: ignore[override]
        self, params: types.ExecuteCommandParams
    ) -> Any:
        """Cancelled, the command stops; pygls would let it run on behind the answer."""
        run = self.fm.commands.get(params.command)
        if run is None:
            raise JsonRpcInvalidParams(f"There is no command “{params.command}”.")
        work_done_token.set(params.work_done_token)
        return await run(*(params.arguments or ()))

    def _to_feature(self, method: str, params: Any) -> _Steps:
        handler = self.fm.features.get(method)
        if handler is not None:
            yield handler, (params,), None


def _is_message(message: Any) -> bool:
    """Whether it has the form of a request, a notification or a response."""
    if not isinstance(message, dict) or message.get("jsonrpc") != Conversation.VERSION:
        return False
    if "id" in message and not _is_id(message["id"]):
        return False
    return isinstance(message["method"], str) if "method" in message else "id" in message


def _is_id(value: Any) -> bool:
    return isinstance(value, str | int) and not isinstance(value, bool)


def is_running(process_id: int) -> bool:
    """Whether a process of that number exists. Only where signals are POSIX's."""
    try:
        os.kill(process_id, 0)
    except ProcessLookupError:
        return False
    except OSError:
        return True
    return True
