"""The positions of many offsets of one document, and of many blocks, looked up in a table.

`Document.position` finds its way anew for each; where a whole outline is placed, the blocks are
gone through once instead.
"""

from bisect import bisect_right

from lsprotocol import types

from saywright.positions import lines_of
from saywright.protocol.documents import Document


class Placing:
    """What a document's blocks and their lines start at, summed up once."""

    def __init__(self, document: Document) -> None:
        self._encoding = document.encoding
        self._texts: list[str] = []
        self._starts: list[int] = []
        self._first_lines: list[int] = []
        start = line = 0
        for item in document.analysis.blocks.items():
            text = item.block.text
            self._texts.append(text)
            self._starts.append(start)
            self._first_lines.append(line)
            start += len(text)
            line += text.count("\n") + text.count("\r") - text.count("\r\n")

    def position(self, offset: int) -> types.Position:
        index = bisect_right(self._starts, offset) - 1
        if index < 0:
            return types.Position(0, 0)
        local = lines_of(self._texts[index]).position_from_offset(
            offset - self._starts[index], self._encoding
        )
        return types.Position(self._first_lines[index] + local.line, local.character)

    def range(self, start: int, end: int) -> types.Range:
        return types.Range(self.position(start), self.position(end))
