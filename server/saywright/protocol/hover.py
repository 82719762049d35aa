"""What is told of the place that is pointed at."""

import re
from typing import TYPE_CHECKING

from lsprotocol import types

from saywright.explaining.explained import Explained
from saywright.explaining.place import explained_at

if TYPE_CHECKING:
    from saywright.protocol.server import SaywrightServer

_MARKDOWN = re.compile(r"[\\`*_~\[\]<>|&#]|^[-+=]|^\d+(?=[.)])")


def register(server: "SaywrightServer") -> None:
    @server.feature(types.TEXT_DOCUMENT_HOVER)
    def _hover(params: types.HoverParams) -> types.Hover | None:
        document = server.documents.get(params.text_document.uri)
        if document is None:
            return None
        offset, _ = document.offsets(types.Range(params.position, params.position))
        told = explained_at(document.analysis, offset)
        if told is None:
            return None
        kind, text = types.MarkupKind.PlainText, "\n".join((told.what, *told.lines))
        if server.client.markdown_hovers:
            kind, text = types.MarkupKind.Markdown, _as_markdown(told)
        return types.Hover(types.MarkupContent(kind, text), document.range(told.start, told.end))


def _as_markdown(told: Explained) -> str:
    """The same text, whatever characters are in it, with what the place is in bold."""
    what, *lines = (_MARKDOWN.sub(_escaped, line) for line in (told.what, *told.lines))
    return "\n\n".join((f"**{what}**", "  \n".join(lines))) if lines else f"**{what}**"


def _escaped(match: re.Match[str]) -> str:
    found = match[0]
    return f"{found}\\" if found.isdigit() else f"\\{found}"
