"""How far a long piece of work has come, for a client that shows that, and its way to stop it.

Work that a client gave a token for is shown from its start; any other only once it has taken
longer than a writer waits without wondering.
"""

import asyncio
import time
import uuid
from collections.abc import AsyncIterator
from concurrent.futures import Future
from contextlib import asynccontextmanager
from typing import TYPE_CHECKING

from lsprotocol import types

from saywright.protocol.messages import work_done_token

if TYPE_CHECKING:
    from saywright.protocol.server import SaywrightServer

_SHOWN_AFTER_SECONDS = 1.0
_SHOWN_EVERY_SECONDS = 0.1
_OTHERS_SECONDS = 0.002


async def take_turns() -> None:
    """Let what else has come be read and answered. (It is read in a thread, in three steps: a
    turn of the loop alone would let one of them pass.)"""
    await asyncio.sleep(_OTHERS_SECONDS)


class Work:
    """What is being done, under a title that says so."""

    def __init__(self, server: "SaywrightServer", title: str) -> None:
        self._server = server
        self._title = title
        self._token: types.ProgressToken | None = None
        self._asked = self._ended = False
        self._show_next = time.monotonic() + _SHOWN_AFTER_SECONDS
        self._task = asyncio.current_task()

    async def step(self, done: int, of: int) -> None:
        """So many are done of so many. Others get their turn, and the client may stop the work
        here."""
        await take_turns()
        now = time.monotonic()
        if now < self._show_next:
            return
        self._show_next = now + _SHOWN_EVERY_SECONDS
        if self._token is None:
            self._ask_for_token()
        else:
            percentage = min(100 * done // max(of, 1), 100)
            report = types.WorkDoneProgressReport(message=f"{done}/{of}", percentage=percentage)
            self._server.protocol.progress.report(self._token, report)

    def begin(self, token: types.ProgressToken) -> None:
        self._token, self._show_next = token, 0.0
        shown = self._server.protocol.progress
        shown.begin(token, types.WorkDoneProgressBegin(self._title, cancellable=True, percentage=0))
        shown.tokens[token].add_done_callback(lambda _: self._stop())

    def end(self) -> None:
        self._ended = True
        if self._token is not None:
            shown = self._server.protocol.progress
            shown.tokens.pop(self._token, None)
            shown.end(self._token, types.WorkDoneProgressEnd())
            self._token = None

    def _ask_for_token(self) -> None:
        """The work goes on until the client answers, if it ever does."""
        if self._asked or not self._server.client.work_done_progress:
            return
        self._asked = True
        token = str(uuid.uuid4())

        def answered(future: "Future[None]") -> None:
            if not (self._ended or future.cancelled() or future.exception()):
                self.begin(token)

        asked = types.WorkDoneProgressCreateParams(token)
        self._server.window_work_done_progress_create(asked).add_done_callback(answered)

    def _stop(self) -> None:
        if self._token is not None and self._task is not None:
            self._task.cancel()


@asynccontextmanager
async def working(
    server: "SaywrightServer", title: str, token: types.ProgressToken | None = None
) -> AsyncIterator[Work]:
    """Work that is shown while it lasts; `token` is the client's own, if it gave one. (That of a
    command is known.)"""
    work = Work(server, title)
    token = work_done_token.get() if token is None else token
    if token is not None:
        work.begin(token)
    try:
        yield work
    finally:
        work.end()
