"""The real server, which also tells a test what it takes the text of a document to be.

A script of its own, for an editor to start: `python telling_server.py [--break-cut HOW]`. With
`--break-cut` the edit that cuts a sentence is wrong in the way named, for a test to find out.
"""

import argparse
import os
import sys
from collections.abc import Callable
from typing import Any

from saywright.cuts import marking
from saywright.finding import Edit, Fix
from saywright.markup.tree import Paragraph
from saywright.protocol.server import SaywrightServer, make_server, serve
from saywright.speech.timing import Sentence

TEXT = "saywright-test/text"

Edits = tuple[Edit, ...]


def _shifted(edits: Edits) -> Edits:
    return tuple(edit.shifted(1) for edit in edits)


def _opening_only(edits: Edits) -> Edits:
    return edits[:1]


def _too_short(edits: Edits) -> Edits:
    return (*edits[:-1], edits[-1].shifted(-1))


def _losing_a_letter(edits: Edits) -> Edits:
    return (edits[0]._replace(end=edits[0].end + 1), *edits[1:])


BREAKAGES: dict[str, Callable[[Edits], Edits]] = {
    "shifted": _shifted,
    "opening-only": _opening_only,
    "too-short": _too_short,
    "losing-a-letter": _losing_a_letter,
}


def telling_server() -> SaywrightServer:
    """The server, with one request more: a document's text, and the server's process id."""
    server = make_server()

    @server.feature(TEXT)
    def _text(params: Any) -> dict[str, Any]:
        document = server.documents.get(params.uri)
        return {"text": document.text if document else None, "process": os.getpid()}

    return server


def break_cut(breakage: Callable[[Edits], Edits]) -> None:
    right = marking.cut

    def wrong(paragraph: Paragraph, sentence: Sentence) -> Fix | None:
        fix = right(paragraph, sentence)
        return fix and fix._replace(edits=breakage(fix.edits))

    marking.cut = wrong


if __name__ == "__main__":
    parser = argparse.ArgumentParser()
    parser.add_argument("--break-cut", choices=sorted(BREAKAGES))
    if how := parser.parse_args().break_cut:
        break_cut(BREAKAGES[how])
    sys.exit(serve(telling_server()))
