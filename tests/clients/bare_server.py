"""A pygls server that knows nothing: the floor that the benchmarks compare with."""

from lsprotocol import types
from pygls.lsp.server import LanguageServer

server = LanguageServer("bare", "0")


@server.feature(types.TEXT_DOCUMENT_INLAY_HINT)
def _hints(_params: types.InlayHintParams) -> list[types.InlayHint]:
    return []


@server.feature(types.TEXT_DOCUMENT_DIAGNOSTIC)
def _diagnostics(_params: types.DocumentDiagnosticParams) -> types.DocumentDiagnosticReport:
    return types.RelatedFullDocumentDiagnosticReport([])


if __name__ == "__main__":
    server.start_io()
