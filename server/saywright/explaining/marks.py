"""What is told of a mark in speech: what it means, and how long it lasts."""

from collections.abc import Iterator
from typing import NamedTuple

from saywright.explaining.explained import Explained, told_length
from saywright.markup.silences import Silence
from saywright.markup.tree import Breath, Direction, Paragraph, Range, SpanKind
from saywright.speech.voice import Voice

_SPANS: dict[SpanKind, tuple[str, str]] = {
    "stress": ("Stressed", "The words between * and * are leaned on, and a little longer for it."),
    "keep": ("Kept", "A line to build on: no cut may touch the words between __ and __."),
    "cut": (
        "Cut",
        "The words between ~~ and ~~ stay in the file, are not spoken and take no time.",
    ),
}
_IN_A_CUT = "It stands in a cut, so it takes no time."
_LONGER_COUNTS = "Where the punctuation would pause too, the longer of the two counts."


class MarkedSilence(NamedTuple):
    """A silence that is performed, by the range of its mark."""

    start: int
    end: int
    seconds: float


def about_mark(paragraph: Paragraph, offset: int, voice: Voice) -> Explained | None:
    """Of the mark at a paragraph's `offset`, if one stands there; of a direction or a note at any
    of its characters. Ranges count from the paragraph's start."""
    if any(note.start <= offset < note.end for note in paragraph.notes):
        return about_note(paragraph.text, offset)
    marks: list[Direction | Breath] = [*paragraph.directions, *paragraph.breaths]
    for mark in marks:
        if mark.start <= offset < mark.end:
            what, lines = _about_silence(mark, voice)
            cut = mark.silence is not None and _is_cut(paragraph, mark)
            return Explained(mark.start, mark.end, what, (_IN_A_CUT,) if cut else lines)
    return _about_span(paragraph, offset)


def about_note(text: str, offset: int) -> Explained:
    """Of the note's line that `offset` of `text` stands in."""
    start = text.rfind("\n", 0, offset) + 1
    end = start + len(text[start:].split("\n", 1)[0].rstrip())
    return Explained(start, end, "A note to yourself", ("It is neither spoken nor timed.",))


def about_direction(direction: Direction, voice: Voice) -> Explained:
    """Of a direction that stands in no paragraph, as on a cue's line."""
    what, lines = _about_silence(direction, voice)
    return Explained(direction.start, direction.end, what, lines)


def marked_silences(paragraph: Paragraph, voice: Voice) -> Iterator[MarkedSilence]:
    """Those that no cut holds, in order."""
    marks: list[Direction | Breath] = [*paragraph.directions, *paragraph.breaths]
    cuts = iter([span for span in paragraph.spans if span.kind == "cut"])
    cut, cut_end = next(cuts, None), 0
    for mark in sorted(marks, key=lambda mark: mark.start):
        while cut and cut.start < mark.start:
            cut_end = max(cut_end, cut.end)
            cut = next(cuts, None)
        if mark.silence and mark.start >= cut_end:
            yield MarkedSilence(mark.start, mark.end, voice.seconds_of(mark.silence))


def _is_cut(paragraph: Paragraph, mark: Direction | Breath) -> bool:
    return any(
        span.kind == "cut" and span.start < mark.start < span.end for span in paragraph.spans
    )


def _about_silence(mark: Direction | Breath, voice: Voice) -> tuple[str, tuple[str, ...]]:
    silence = mark.silence
    if silence is None:
        lines = ("It takes no time. If it should, write how long: (she sits, 3s).",)
        return "A direction: not spoken", lines
    length = told_length(voice.seconds_of(silence))
    if isinstance(mark, Direction) and not mark.bare:
        return f"A direction: not spoken, {length}", (_LONGER_COUNTS,)
    return f"{_named(silence)}: {length}", (_LONGER_COUNTS,)


def _named(silence: Silence) -> str:
    size = f"{silence.size} " if silence.size else ""
    return f"A {size}{silence.name or 'silence'}"


def _about_span(paragraph: Paragraph, offset: int) -> Explained | None:
    """Of the pair of marks one of which stands at `offset`: all that it holds is its range."""
    for span in reversed(paragraph.spans):
        opening, closing = Range(span.start, span.inner.start), Range(span.inner.end, span.end)
        if any(mark.start <= offset < mark.end for mark in (opening, closing)):
            what, line = _SPANS[span.kind]
            return Explained(span.start, span.end, what, (line,))
    return None
