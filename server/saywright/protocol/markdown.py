"""Plain text as Markdown that shows the same, whatever characters are in it."""

import re
from collections.abc import Sequence

from lsprotocol import types

_MARKDOWN = re.compile(r"[\\`*_~\[\]<>|&#]|^[-+=]|^\d+(?=[.)])")


def told(what: str, lines: Sequence[str], *, markdown: bool) -> types.MarkupContent:
    """`what` and more, a line each; as Markdown, `what` is in bold."""
    if markdown:
        return types.MarkupContent(types.MarkupKind.Markdown, _as_markdown(what, lines))
    return types.MarkupContent(types.MarkupKind.PlainText, "\n".join((what, *lines)))


def _as_markdown(what: str, lines: Sequence[str]) -> str:
    what, *lines = (_MARKDOWN.sub(_escaped, line) for line in (what, *lines))
    return "\n\n".join((f"**{what}**", "  \n".join(lines))) if lines else f"**{what}**"


def _escaped(match: re.Match[str]) -> str:
    found = match[0]
    return f"{found}\\" if found.isdigit() else f"\\{found}"
