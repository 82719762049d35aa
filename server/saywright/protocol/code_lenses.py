"""Above each piece its time, and what is to be done there: a cut where it runs over, and above a
draft its kept lines gathered where some are in no piece yet.

Lenses move the text below them, so no more of them come and go than there is to do.
"""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from lsprotocol import types

from saywright.analysis import Analysis
from saywright.drafting.gathering import new_in_drafts, short_title
from saywright.explaining.parts import told_in_short
from saywright.protocol.cutting import QUICKLY_GATHERED, is_overlong, plan_title
from saywright.protocol.documents import Document
from saywright.protocol.lens_commands import GATHER, PLAN

if TYPE_CHECKING:
    from saywright.protocol.server import SaywrightServer


def register(server: "SaywrightServer") -> None:
    known = _Known()

    @server.feature(types.TEXT_DOCUMENT_CODE_LENS, types.CodeLensOptions())
    def _lenses(params: types.CodeLensParams) -> list[types.CodeLens] | None:
        document = server.documents.get(params.text_document.uri)
        return known.lenses(document) if document else None


class _Known:
    """The lenses that were asked for last: clients ask again without a change."""

    def __init__(self) -> None:
        self._analysis: Analysis | None = None
        self._document: Document | None = None
        self._lenses: list[types.CodeLens] = []

    def lenses(self, document: Document) -> list[types.CodeLens]:
        analysis = document.analysis
        if document is not self._document or analysis is not self._analysis:
            self._document, self._analysis = document, analysis
            self._lenses = list(_lenses_of(document, analysis))
        return self._lenses


def _lenses_of(document: Document, analysis: Analysis) -> Iterator[types.CodeLens]:
    to_gather = dict(_to_gather(analysis))
    for number, view in enumerate(analysis.views):
        where = document.range(*view.heading)
        part = view.timeline.part
        if part.kind == "piece" and view.timeline.words:
            # a lens without a command is only read, and clients take an empty name for that
            yield types.CodeLens(where, types.Command(told_in_short(view), ""))
            if is_overlong(view):
                yield _to_do(where, plan_title(view), PLAN, document, number)
        elif count := to_gather.get(part.start):
            yield _to_do(where, short_title(count), GATHER, document, number)


def _to_gather(analysis: Analysis) -> Iterator[tuple[int, int]]:
    """Where each draft begins that has kept lines which are in no piece, and how many."""
    if analysis.blocks.sum.length <= QUICKLY_GATHERED:
        pieces = [part for part in analysis.parts if part.kind == "piece"]
        for draft, count in new_in_drafts(analysis, pieces):
            yield draft.start, count


def _to_do(
    where: types.Range, title: str, command: str, document: Document, number: int
) -> types.CodeLens:
    arguments = [document.uri, number]
    return types.CodeLens(where, types.Command(title, command, arguments=arguments))
