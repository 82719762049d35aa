"""Coordinates, and every way from one to another. They meet here and nowhere else.

- *Offset*: code points from the start of the file. The core knows only these, half-open; a
  block's and a paragraph's own count from its start.
- *Line*: from 0. Lines end with LF, CRLF or CR, as the protocol has it, and with nothing else:
  not with U+2028, U+2029, U+0085, VT or FF, which Python's own `splitlines` ends lines at.
  (The markup's lines end with LF or CRLF alone, so a block always ends where a line does.)
- *Character*: units from the line's start, in the encoding agreed with the client: bytes of
  UTF-8, code units of UTF-16 (a character beyond U+FFFF is two), or UTF-32 (code points).
"""

import re
from bisect import bisect_right
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property, lru_cache
from typing import NamedTuple

from saywright.speech.timed_block import Blocks

_LINE_END = re.compile(r"\r\n|\n|\r")


class Encoding(StrEnum):
    UTF_8 = "utf-8"
    UTF_16 = "utf-16"
    UTF_32 = "utf-32"


class Position(NamedTuple):
    """A line and a character, both from 0."""

    line: int
    character: int


@dataclass(frozen=True, slots=True)
class Places:
    """The places of one file in one encoding, at a cost that does not grow with the file."""

    blocks: Blocks
    encoding: Encoding = Encoding.UTF_32

    def offset_from_position(self, position: Position) -> int:
        """The offset of `position`, or the nearest before it where it lies past its line's end,
        past the file's, or inside a character."""
        found = self.blocks.find(lambda sum: sum.lines > position.line)
        if found:
            before, text = found.before, found.item.block.text
        else:
            total = self.blocks.sum
            if not len(self.blocks) or position.line > total.lines:
                return total.length
            text = self.blocks[len(self.blocks) - 1].block.text
            before = self.blocks.sum_between(0, len(self.blocks) - 1)
        local = Position(position.line - before.lines, position.character)
        return before.length + lines_of(text).offset_from_position(local, self.encoding)

    def position_from_offset(self, offset: int) -> Position:
        found = self.blocks.find(lambda sum: sum.length > offset)
        if found:
            before, text = found.before, found.item.block.text
        elif len(self.blocks):
            text = self.blocks[len(self.blocks) - 1].block.text
            before = self.blocks.sum_between(0, len(self.blocks) - 1)
        else:
            return Position(0, 0)
        local = lines_of(text).position_from_offset(offset - before.length, self.encoding)
        return Position(before.lines + local.line, local.character)


@lru_cache(maxsize=16)
def lines_of(text: str) -> "Lines":
    """The lines of a block: asked for again for each of its findings."""
    return Lines(text)


class Lines:
    """The lines of one text, a block's say."""

    def __init__(self, text: str) -> None:
        self.text = text
        self._is_ascii = text.isascii()

    @cached_property
    def _starts(self) -> list[int]:
        return [0, *(match.end() for match in _LINE_END.finditer(self.text))]

    def ends(self) -> list[tuple[int, int]]:
        """Where each line starts and where its text ends, without the line end."""
        last = len(self._starts) - (self._starts[-1] == len(self.text))
        return [self._line(line) for line in range(last)]

    def offset_from_position(self, position: Position, encoding: Encoding) -> int:
        if position.line < 0:
            return 0
        if position.line >= len(self._starts):
            return len(self.text)
        start, end = self._line(position.line)
        return start + _code_points(self.text[start:end], position.character, encoding)

    def position_from_offset(self, offset: int, encoding: Encoding) -> Position:
        offset = min(max(offset, 0), len(self.text))
        line = bisect_right(self._starts, offset) - 1
        start, end = self._line(line)
        end = min(offset, end)
        if encoding is Encoding.UTF_32 or self._is_ascii:
            return Position(line, end - start)
        return Position(line, _units(self.text[start:end], encoding))

    def _line(self, line: int) -> tuple[int, int]:
        start = self._starts[line]
        if line + 1 == len(self._starts):
            return start, len(self.text)
        end = self._starts[line + 1]
        return start, end - (2 if self.text[max(end - 2, start) : end] == "\r\n" else 1)


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
