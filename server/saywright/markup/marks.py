"""The marks inside a paragraph: which characters are marks, and which mark closes which.

Directions are found first; nothing inside one is a mark. Then each kind of span is paired for
itself, a closing mark with the nearest open one of its kind before it, so that a mark left open
spoils nothing around it.
"""

import re
import unicodedata
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from saywright.markup.silences import Silence
from saywright.markup.tree import SPAN_MARKS, Breath, Range, Span, SpanKind

ESCAPABLE = "\\()|*_~#-:"
_TOKEN = re.compile(rf"\\[{re.escape(ESCAPABLE)}]|[()]|\|+|\*+|_+|~+")
_KINDS: dict[str, SpanKind] = {mark: kind for kind, mark in SPAN_MARKS.items()}
_BREATHS = {"|": Silence("breath"), "||": Silence("beat")}
_MARK_CHARACTERS = "*_~|"


class Open(NamedTuple):
    """A mark with no partner: an opening one, or a closing one that nothing opens."""

    start: int
    end: int
    opening: bool


@dataclass(slots=True)
class Marks:
    """Every mark of one paragraph, each list in the text's order."""

    escapes: list[int] = field(default_factory=list)
    directions: list[Range] = field(default_factory=list)
    spans: list[Span] = field(default_factory=list)
    breaths: list[Breath] = field(default_factory=list)
    open: list[Open] = field(default_factory=list)


def read_marks(text: str, lines: Iterable[Range]) -> Marks:
    """The marks in `lines`, the ranges of `text` that are speech."""
    marks = Marks()
    tokens = [
        Range(*token.span())
        for line in lines
        for token in _TOKEN.finditer(text, line.start, line.end)
    ]
    _read_directions(text, tokens, marks)
    _read_spans(text, _outside(tokens, marks.directions), marks)
    return marks


def _read_directions(text: str, tokens: Sequence[Range], marks: Marks) -> None:
    opened: list[int] = []
    pairs: list[Range] = []
    for start, end in tokens:
        token = text[start:end]
        if token == "(":
            opened.append(start)
        elif token == ")" and opened:
            pairs.append(Range(opened.pop(), end))
    for start, end in sorted(pairs):
        if not marks.directions or start >= marks.directions[-1].end:
            marks.directions.append(Range(start, end))
    marks.open += (Open(start, start + 1, True) for start in opened)


def _outside(tokens: Sequence[Range], directions: Sequence[Range]) -> Iterable[Range]:
    remaining = iter(directions)
    direction = next(remaining, None)
    for token in tokens:
        while direction and token.start >= direction.end:
            direction = next(remaining, None)
        if not direction or token.end <= direction.start:
            yield token


def _read_spans(text: str, tokens: Iterable[Range], marks: Marks) -> None:
    opened: dict[SpanKind, list[Range]] = {kind: [] for kind in SPAN_MARKS}
    for start, end in tokens:
        token = text[start:end]
        if token[0] == "\\":
            marks.escapes.append(start)
        elif token in _BREATHS:
            if _parts_words(text, start, end):
                marks.breaths.append(Breath(start, end, _BREATHS[token]))
        elif kind := _KINDS.get(token):
            _read_span_mark(text, Range(start, end), kind, opened[kind], marks)
    marks.spans.sort(key=lambda span: (span.start, -span.end))
    marks.open += (Open(*mark, True) for kind in opened for mark in opened[kind])
    marks.open.sort()


def _read_span_mark(
    text: str, mark: Range, kind: SpanKind, opened: list[Range], marks: Marks
) -> None:
    closes = can_close(text, mark.start, mark.end)
    if closes and opened and opened[-1].end < mark.start:
        marks.spans.append(Span(kind, opened.pop().start, mark.end))
    elif can_open(text, mark.start, mark.end):
        opened.append(mark)
    elif closes and kind != "stress":
        marks.open.append(Open(mark.start, mark.end, False))


def can_open(text: str, start: int, end: int) -> bool:
    """Whether a span's mark at `text[start:end]` stands where one may open."""
    touches = end < len(text) and not text[end].isspace()
    return touches and (start == 0 or _may_precede_opening(text[start - 1]))


def can_close(text: str, start: int, end: int) -> bool:
    """Whether a span's mark at `text[start:end]` stands where one may close."""
    edge = int(text.startswith("\ufeff"))
    touches = start > edge and not text[start - 1].isspace()
    return touches and (end == len(text) or not text[end].isalnum())


def _may_precede_opening(character: str) -> bool:
    if character.isspace() or character in _MARK_CHARACTERS or character in "\"'¿¡":
        return True
    category = unicodedata.category(character)
    # brackets, quotes, dashes, and the invisible marks of writing direction
    return category in {"Ps", "Pe", "Pi", "Pf", "Pd", "Cf"}


def _parts_words(text: str, start: int, end: int) -> bool:
    before = start == 0 or not text[start - 1].isalnum()
    after = end == len(text) or not text[end].isalnum()
    return before or after
