"""The tokens of speech. Where several marks hold a word, the one that matters most is told."""

import re
from collections.abc import Iterable, Iterator
from itertools import groupby

from saywright.colouring.token import Token, TokenKind
from saywright.markup.tree import Direction, Paragraph
from saywright.markup.values import DURATION, read_duration

_DURATION = re.compile(DURATION, re.IGNORECASE)
# the first that holds: a line is kept even within a cut
_ORDER: tuple[TokenKind, ...] = ("note", "cut", "number", "direction", "silence", "stress", "kept")
_KINDS_OF_SPANS: dict[str, TokenKind] = {"stress": "stress", "keep": "kept", "cut": "cut"}


def speech_tokens(paragraph: Paragraph) -> Iterator[Token]:
    """They may go over several lines."""
    held = dict.fromkeys(_ORDER, 0)
    start, kind = 0, _told(held)
    edges = sorted(_edges(paragraph))
    for at, together in groupby(edges, key=_at):
        for _, its_kind, step in together:
            held[its_kind] += step
        following = _told(held)
        if following != kind:
            if kind:
                yield Token(kind, start, at)
            start, kind = at, following


def direction_tokens(text: str, direction: Direction) -> Iterator[Token]:
    """The direction's words and its time, in order."""
    kind: TokenKind = "silence" if direction.bare else "direction"
    time = _time_in(text, direction)
    if time is None:
        yield Token(kind, direction.start, direction.end)
        return
    yield Token(kind, direction.start, time.start)
    yield time
    yield Token(kind, time.end, direction.end)


def _time_in(text: str, direction: Direction) -> Token | None:
    """Where the direction's words say how long it lasts."""
    seconds = direction.silence.seconds if direction.silence else None
    if seconds is None:
        return None
    for time in _DURATION.finditer(text, direction.start, direction.end):
        if read_duration(time[0]) == seconds:
            return Token("number", *time.span())
    return None


def _edges(paragraph: Paragraph) -> Iterator[tuple[int, TokenKind, int]]:
    """Where what is held by marks begins (1) and ends (-1)."""
    for kind, start, end in _held(paragraph):
        yield start, kind, 1
        yield end, kind, -1


def _held(paragraph: Paragraph) -> Iterable[Token]:
    for note in paragraph.notes:
        yield Token("note", *note)
    for span in paragraph.spans:
        yield Token(_KINDS_OF_SPANS[span.kind], span.start, span.end)
    for breath in paragraph.breaths:
        yield Token("silence", breath.start, breath.end)
    for direction in paragraph.directions:
        yield from direction_tokens(paragraph.text, direction)


def _at(edge: tuple[int, TokenKind, int]) -> int:
    return edge[0]


def _told(held: dict[TokenKind, int]) -> TokenKind | None:
    kinds = [kind for kind in _ORDER if held[kind]]
    if kinds and kinds[0] == "cut" and held["kept"]:
        kinds = kinds[1:]
    return kinds[0] if kinds else None
