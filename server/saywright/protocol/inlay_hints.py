"""The running time at the end of each spoken line, and past the slot by how much it is over."""

from bisect import bisect_right
from collections.abc import Iterator
from typing import TYPE_CHECKING

from lsprotocol import types

from saywright.checks.check import View
from saywright.protocol.documents import Document
from saywright.speech.slot import clock, clock_beyond, slot_clock

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
    for placed in view.timeline.paragraphs:
        start, end = placed.start, placed.start + len(placed.timed.paragraph.text)
        if end < first or start > last:
            continue
        ticks = sorted(start + tick.at for tick in (*placed.timed.leads, *placed.timed.ticks))
        lines = document.lines.line_ends_between(max(start, first), min(end, last))
        for line_start, line_end in lines:
            if bisect_right(ticks, line_end) > bisect_right(ticks, line_start):
                yield _hint(document, view, line_end)


def _hint(document: Document, view: View, line_end: int) -> types.InlayHint:
    seconds = view.timeline.seconds_at(line_end)
    label, tooltip = clock(seconds), f"{clock(seconds)} from the start"
    if view.aim:
        tooltip += f", in a slot of {slot_clock(view.aim.slot)}"
        if seconds > view.aim.seconds:
            label = f"+{clock_beyond(seconds - view.aim.seconds)}"
            tooltip += f": {label[1:]} over"
    return types.InlayHint(
        position=document.position(line_end),
        label=label,
        tooltip=tooltip,
        padding_left=True,
    )
