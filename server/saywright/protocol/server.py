"""The language server: it puts the features together and runs on standard input and output."""

import asyncio
import logging
import os
import signal
import sys
from concurrent.futures import ThreadPoolExecutor
from typing import TYPE_CHECKING

from cattrs import Converter
from lsprotocol import types
from pygls.io_ import StdinAsyncReader, StdoutWriter, run_async
from pygls.lsp.server import LanguageServer
from pygls.protocol import default_converter

from saywright.positions import Encoding
from saywright.protocol import (
    code_actions,
    code_lenses,
    completion,
    configuration,
    definitions,
    diagnostics,
    document_symbols,
    folding,
    formatting,
    highlights,
    hover,
    inlay_hints,
    lens_commands,
    on_type,
    renaming,
    selection,
    semantic_tokens,
    synchronising,
    watching,
    workspace_diagnostics,
    workspace_symbols,
)
from saywright.protocol.client import Client, client_from
from saywright.protocol.closed_scripts import ClosedScripts
from saywright.protocol.configuration import Configuration
from saywright.protocol.documents import Documents
from saywright.protocol.messages import Conversation, is_running
from saywright.protocol.reports import Reports
from saywright.protocol.semantic_tokens import Colours
from saywright.version import VERSION

if TYPE_CHECKING:
    from pygls.server import ServerErrors

logger = logging.getLogger(__name__)
_WATCH_SECONDS = 3.0


class SaywrightServer(LanguageServer):
    """The server's state: the client, and the documents it has open."""

    protocol: Conversation

    def __init__(self) -> None:
        super().__init__(
            "saywright", VERSION, protocol_cls=Conversation, converter_factory=_converter
        )
        self.client = Client()
        self.documents = Documents()
        self.closed_scripts = ClosedScripts()
        self.reports = Reports()
        self.configuration = Configuration()
        self.colours = Colours()

    def report_server_error(self, error: Exception, source: "ServerErrors") -> None:
        """Into the log; the writer has done nothing wrong and is not interrupted."""
        logger.error("%s: %s", source.__name__, error)


def _converter() -> Converter:
    """pygls' own, but quick to learn a class: where in a message a fault is, nobody is told."""
    converter: Converter = default_converter()  # type: ignore[no-untyped-call]
    converter.detailed_validation = False
    return converter


def make_server() -> SaywrightServer:
    server = SaywrightServer()

    @server.feature(types.INITIALIZE)
    def _initialize(params: types.InitializeParams) -> None:
        server.client = client_from(params.capabilities)
        server.documents.encoding = Encoding(server.workspace.position_encoding or "utf-16")
        configuration.begin(server, params)
        semantic_tokens.begin(server)

    for feature in (
        *(
            synchronising,
            diagnostics,
            workspace_diagnostics,
            inlay_hints,
            code_lenses,
            lens_commands,
            code_actions,
            formatting,
        ),
        *(
            renaming,
            highlights,
            hover,
            completion,
            configuration,
            watching,
            definitions,
            on_type,
            document_symbols,
            folding,
            selection,
            workspace_symbols,
        ),
    ):
        feature.register(server)
    return server


def serve(server: SaywrightServer | None = None) -> int:
    """Run until the client says `exit`, hangs up, or is gone. Returns the exit code."""
    server = server or make_server()
    # pygls warns of every request that is cancelled after its answer; editors show that as errors
    logging.getLogger("pygls").setLevel(logging.ERROR)
    if sys.stdin.isatty():
        print("Waiting for an editor on standard input. Ctrl-C stops it.", file=sys.stderr)
    # a thread waits for input and cannot be interrupted, only left behind
    signal.signal(signal.SIGINT, lambda *_: os._exit(130))
    try:
        asyncio.run(_run(server))
    except BrokenPipeError:
        return 1
    code = server.protocol.exit_code
    return 1 if code is None else code


async def _run(server: SaywrightServer) -> None:
    watch = asyncio.create_task(_watch_client(server))
    with ThreadPoolExecutor(max_workers=1, thread_name_prefix="stdin") as executor:
        server.protocol.set_writer(StdoutWriter(sys.stdout.buffer))
        await run_async(
            stop_event=server.protocol.stop,
            reader=StdinAsyncReader(sys.stdin.buffer, executor),
            protocol=server.protocol,
            logger=logger,
            error_handler=server.report_server_error,
        )
    watch.cancel()


async def _watch_client(server: SaywrightServer) -> None:
    """Ends the process when the client has gone without a word, so that none is left behind."""
    while os.name == "posix":
        await asyncio.sleep(_WATCH_SECONDS)
        if server.process_id is not None and not is_running(server.process_id):
            os._exit(1)  # a thread waits for input that will never come
