"""Coordinates, and every way from one to another. They meet here and nowhere else.

- *Offset*: code points from the start of the text. The core knows only these, half-open.
- *Line*: from 0. Lines end with LF, CRLF or CR, as the protocol has it, and with nothing else:
  not with U+2028, U+2029, U+0085, VT or FF, which Python's own `splitlines` ends lines at.
- *Character*: units from the line's start, in the encoding agreed with the client: bytes of
  UTF-8, code units of UTF-16 (a non-BMP character is two), or UTF-32 (code points).
- *Line number* and *column*: from 1, the column in code points, as a terminal prints them.
"""

import re
from bisect import bisect_right
from enum import StrEnum
from typing import NamedTuple

_LINE_END = re.compile(r"\r\n|\n|\r")


class Encoding(StrEnum):
    UTF_8 = "utf-8"
    UTF_16 = "utf-16"
    UTF_32 = "utf-32"


class Position(NamedTuple):
    """A line from 0, and a character in units of the agreed encoding, from 0."""

    line: int
    character: int


class Lines:
    """The line index of one text."""

    def __init__(self, text: str, encoding: Encoding = Encoding.UTF_32) -> None:
        self.text = text
        self.encoding = encoding
        self._starts = [0, *(match.end() for match in _LINE_END.finditer(text))]

    def offset_from_position(self, position: Position) -> int:
        """The offset of `position`, or the nearest before it where it lies outside its line, or
        in the middle of a character."""
        if position.line < 0:
            return 0
        if position.line >= len(self._starts):
            return len(self.text)
        start, end = self._line(position.line)
        return start + _code_points(self.text[start:end], position.character, self.encoding)

    def position_from_offset(self, offset: int) -> Position:
        offset = min(max(offset, 0), len(self.text))
        line = bisect_right(self._starts, offset) - 1
        start, end = self._line(line)
        character = _units(self.text[start : min(offset, end)], self.encoding)
        return Position(line, character)

    def line_ends_between(self, first: int, last: int) -> list[tuple[int, int]]:
        """Start and end offsets, without the line's own end, of the lines that meet the range."""
        low = bisect_right(self._starts, first) - 1
        high = bisect_right(self._starts, last) - 1
        return [self._line(line) for line in range(max(low, 0), high + 1)]

    def _line(self, line: int) -> tuple[int, int]:
        start = self._starts[line]
        if line + 1 == len(self._starts):
            return start, len(self.text)
        end = self._starts[line + 1]
        return start, end - (2 if self.text[end - 2 : end] == "\r\n" else 1)


def _units(text: str, encoding: Encoding) -> int:
    if encoding is Encoding.UTF_32 or text.isascii():
        return len(text)
    if encoding is Encoding.UTF_16:
        return len(text) + sum(character > "\uffff" for character in text)
    return len(text.encode("utf-8", "surrogatepass"))


def _code_points(line: str, units: int, encoding: Encoding) -> int:
    if encoding is Encoding.UTF_32 or line.isascii():
        return min(max(units, 0), len(line))
    gone = 0
    for count, character in enumerate(line):
        gone += _units(character, encoding)
        if gone > units:
            return count
    return len(line)
