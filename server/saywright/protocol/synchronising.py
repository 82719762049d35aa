"""Keeping the open documents as the client has them."""

import logging
from typing import TYPE_CHECKING

from lsprotocol import types

from saywright.protocol import configuration, diagnostics

if TYPE_CHECKING:
    from saywright.protocol.server import SaywrightServer

logger = logging.getLogger(__name__)


def register(server: "SaywrightServer") -> None:
    @server.feature(types.TEXT_DOCUMENT_DID_OPEN)
    def _did_open(params: types.DidOpenTextDocumentParams) -> None:
        document = server.documents.open(params.text_document)
        diagnostics.push(server, document)
        configuration.ask(server, [document])

    @server.feature(types.TEXT_DOCUMENT_DID_CHANGE)
    def _did_change(params: types.DidChangeTextDocumentParams) -> None:
        document = server.documents.change(params)
        if document is None:
            logger.warning("A change to %s, which is not open", params.text_document.uri)
            return
        diagnostics.push_soon(server, document)

    @server.feature(types.TEXT_DOCUMENT_DID_CLOSE)
    def _did_close(params: types.DidCloseTextDocumentParams) -> None:
        document = server.documents.close(params.text_document.uri)
        if document is not None:
            diagnostics.clear(server, document)
            configuration.forget(server, document)
            server.colours.forget(document)
