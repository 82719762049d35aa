"""The running time at the end of each spoken line, sentence or paragraph, and past the slot by
how much it is over."""

from bisect import bisect_right
from collections import deque
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, NamedTuple

from lsprotocol import types

from saywright.checks.check import View
from saywright.markup.tree import Range
from saywright.positions import lines_of
from saywright.project import Project
from saywright.protocol.documents import Document
from saywright.speech.slot import clock, clock_between, slot_clock
from saywright.speech.timeline import Placed
from saywright.speech.told_range import told_range

if TYPE_CHECKING:
    from saywright.protocol.server import SaywrightServer

_END_OF_LINE = 2**31 - 1


def register(server: "SaywrightServer") -> None:
    @server.feature(types.TEXT_DOCUMENT_INLAY_HINT, types.InlayHintOptions(resolve_provider=True))
    def _hints(params: types.InlayHintParams) -> list[types.InlayHint] | None:
        document = server.documents.get(params.text_document.uri)
        if document is None:
            return None
        asked = Range(*document.offsets(_whole_lines(params.range)))
        hints = _Hints(document, asked, server.configuration.shown(document))
        return list(hints.all(with_tooltips=not server.client.resolved_hints))

    @server.feature(types.INLAY_HINT_RESOLVE)
    def _resolve(hint: types.InlayHint) -> types.InlayHint:
        """Of a document that has changed since, the hint stays as it is: a newer one is on its
        way."""
        asked = _asked(hint.data)
        document = server.documents.get(asked.uri) if asked else None
        if asked and document and document.version == asked.version:
            view = _view_at(document, asked.offset)
            if view:
                hint.tooltip = _tooltip(view, view.timeline.seconds_at(asked.offset))
        return hint


def _whole_lines(where: types.Range) -> types.Range:
    """A hint stands at a line's end, which the lines on the screen may be cut short of."""
    return types.Range(
        types.Position(where.start.line, 0), types.Position(where.end.line, _END_OF_LINE)
    )


class _Asked(NamedTuple):
    """The place of a hint whose tooltip comes when it is asked for."""

    uri: str
    version: int
    offset: int


def _asked(data: Any) -> _Asked | None:
    if isinstance(data, list) and [type(each) for each in data] == [str, int, int]:
        return _Asked(*data)
    return None


def _view_at(document: Document, offset: int) -> View | None:
    return next(
        (
            view
            for view in document.analysis.pieces
            if view.timeline.part.start <= offset <= view.timeline.part.end
        ),
        None,
    )


@dataclass(frozen=True, slots=True)
class _Hints:
    """Those that are asked for, a range of the document's offsets, as the editor shows them."""

    document: Document
    asked: Range
    shown: Project

    def all(self, *, with_tooltips: bool) -> Iterator[types.InlayHint]:
        if self.shown.running_time == "off":
            return
        for view in self.document.analysis.pieces:
            for placed in view.timeline.paragraphs(*self.asked):
                yield from self._in_paragraph(view, placed, with_tooltips)

    def _in_paragraph(
        self, view: View, placed: Placed, with_tooltips: bool
    ) -> Iterator[types.InlayHint]:
        document = self.document
        lines, top = lines_of(placed.timed.paragraph.text), document.position(placed.start).line
        for end in _ends(placed, self.shown.running_time):
            offset = placed.start + end
            if not self.asked.start <= offset <= self.asked.end:
                continue
            line, character = lines.position_from_offset(end, document.encoding)
            seconds = view.timeline.seconds_in(placed, end)
            hint = types.InlayHint(
                position=types.Position(top + line, character),
                label=_label(view, seconds, self.shown.time_shown),
                padding_left=True,
            )
            if with_tooltips:
                hint.tooltip = _tooltip(view, seconds)
            else:
                hint.data = _Asked(document.uri, document.version, offset)
            yield hint


def _ends(placed: Placed, after: str) -> Iterator[int]:
    """Where, in a paragraph, what is spoken ends: each sentence, each line, or all of it."""
    timed = placed.timed
    if after == "sentences":
        yield from (each.end for each in timed.sentences if each.words and not each.cut)
        return
    ticks = (*timed.leads.at, *timed.ticks.at)
    lines = lines_of(timed.paragraph.text).ends()
    spoken = (end for start, end in lines if bisect_right(ticks, end) > bisect_right(ticks, start))
    if after == "paragraphs":
        yield from deque(spoken, maxlen=1)
    else:
        yield from spoken


def _label(view: View, seconds: float, shows: str) -> str:
    """`0:12` since the piece began, or `-0:48` that is left, and past the slot `+0:03`."""
    if view.aim and seconds > view.aim.seconds:
        return f"+{clock_between(view.aim.seconds, seconds)}"
    if view.aim and shows == "remaining":
        left = int(view.aim.seconds + 0.5) - int(seconds + 0.5)
        return f"-{clock(left)}"
    return clock(seconds)


def _tooltip(view: View, seconds: float) -> str:
    told = f"{clock(seconds)} from the start"
    if view.aim:
        told += f", in a slot of {slot_clock(view.aim.slot)}"
        if seconds > view.aim.seconds:
            told += f": {clock_between(view.aim.seconds, seconds)} over"
    return f"{told}. The whole: {clock(view.timeline.seconds)}{told_range(view.timeline)}."
