"""The running time at the end of each spoken line, and past the slot by how much it is over."""

from bisect import bisect_right
from collections.abc import Iterator
from typing import TYPE_CHECKING

from lsprotocol import types

from saywright.checks.check import View
from saywright.positions import lines_of
from saywright.protocol.documents import Document
from saywright.speech.slot import clock, clock_between, slot_clock
from saywright.speech.told_range import told_range

if TYPE_CHECKING:
    from saywright.protocol.server import SaywrightServer


def register(server: "SaywrightServer") -> None:
    @server.feature(types.TEXT_DOCUMENT_INLAY_HINT, types.InlayHintOptions(resolve_provider=False))
    def _hints(params: types.InlayHintParams) -> list[types.InlayHint] | None:
        document = server.documents.get(params.text_document.uri)
        if document is None:
            return None
        if document.analysis.project.running_time == "off":
            return []
        first, last = document.offsets(params.range)
        return [
            hint
            for view in document.analysis.pieces
            for hint in _hints_of(document, view, first, last)
        ]


def _hints_of(document: Document, view: View, first: int, last: int) -> Iterator[types.InlayHint]:
    for placed in view.timeline.paragraphs(first, last):
        ticks = [tick.at for tick in (*placed.timed.leads, *placed.timed.ticks)]
        for start, end in lines_of(placed.timed.paragraph.text).ends():
            in_range = placed.start + end >= first and placed.start + start <= last
            if in_range and bisect_right(ticks, end) > bisect_right(ticks, start):
                yield _hint(document, view, placed.start + end)


def _hint(document: Document, view: View, line_end: int) -> types.InlayHint:
    seconds = view.timeline.seconds_at(line_end)
    label, tooltip = clock(seconds), f"{clock(seconds)} from the start"
    if view.aim:
        tooltip += f", in a slot of {slot_clock(view.aim.slot)}"
        if seconds > view.aim.seconds:
            label = f"+{clock_between(view.aim.seconds, seconds)}"
            tooltip += f": {label[1:]} over"
    return types.InlayHint(
        position=document.position(line_end),
        label=label,
        tooltip=f"{tooltip}. The whole: {clock(view.timeline.seconds)}{told_range(view.timeline)}.",
        padding_left=True,
    )
