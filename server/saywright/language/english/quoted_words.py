"""Which words of a paragraph stand in quotes, sentence by sentence."""

from bisect import bisect_right
from typing import NamedTuple

_MARKS = frozenset('"“”„«»')
_OPEN = frozenset("“„«")


class Quotes(NamedTuple):
    """The offsets of a sentence's quote marks, and whether a quote was open before it."""

    open_before: bool
    marks: tuple[int, ...]
    opened: tuple[bool, ...]

    @property
    def open_after(self) -> bool:
        return self.opened[-1] if self.opened else self.open_before

    def hold(self, offset: int) -> bool:
        """Whether the code point at `offset` is quoted."""
        index = bisect_right(self.marks, offset)
        return self.opened[index - 1] if index else self.open_before


def quotes_in(text: str, open_before: bool = False) -> Quotes:
    """The quotes of one sentence; a straight mark ends what is open, or begins."""
    if _MARKS.isdisjoint(text):
        return Quotes(open_before, (), ())
    marks: list[int] = []
    opened: list[bool] = []
    is_open = open_before
    for offset, mark in enumerate(text):
        if mark in _MARKS:
            is_open = mark in _OPEN or (mark == '"' and not is_open)
            marks.append(offset)
            opened.append(is_open)
    return Quotes(open_before, tuple(marks), tuple(opened))
