"""Having the client ask anew, where what it was told holds no longer though no text has changed."""

import logging
from concurrent.futures import Future
from typing import TYPE_CHECKING, Any

from saywright.protocol import diagnostics
from saywright.protocol.documents import Document

if TYPE_CHECKING:
    from collections.abc import Iterable

    from saywright.protocol.server import SaywrightServer

logger = logging.getLogger(__name__)


def refresh(server: "SaywrightServer", documents: "Iterable[Document]") -> None:
    """For all that can be told of a script. What a client does not take is not sent."""
    for document in documents:
        diagnostics.push(server, document)
    ask_anew(server, "inlay_hint", "code_lens", "semantic_tokens", "diagnostics")


def ask_anew(server: "SaywrightServer", *what: str) -> None:
    """Have the client ask anew for what it can be told to."""
    send = {
        "inlay_hint": server.workspace_inlay_hint_refresh,
        "code_lens": server.workspace_code_lens_refresh,
        "semantic_tokens": server.workspace_semantic_tokens_refresh,
        "diagnostics": server.workspace_diagnostic_refresh,
    }
    for name in what:
        if name in server.client.refreshes:
            send[name](None).add_done_callback(_answered)


def _answered(future: "Future[Any]") -> None:
    """A client may say that it will and then refuse; that is no fault of the writer's."""
    if not future.cancelled() and (error := future.exception()):
        logger.warning("The client did not refresh: %s", error)
