"""What the place at which a cursor stands leads to."""

from bisect import bisect_right

from saywright.analysis import Analysis
from saywright.cuts.versions import has_trail
from saywright.markup.lines import lead_length
from saywright.markup.tree import Block, Paragraph, Part, Range, Rule, Take
from saywright.navigating.lines import from_line
from saywright.navigating.linked import Linked
from saywright.navigating.parts import from_part
from saywright.navigating.people import from_name, from_reader, is_in_setting


def linked_at(analysis: Analysis, offset: int) -> Linked | None:
    """What the file's `offset` leads to, None where that is nowhere.

    A reader or somebody who speaks goes before the line or the part that names them, and that
    before any other name.
    """
    end = analysis.blocks.sum.length
    found = analysis.blocks.find(lambda sum: sum.length >= min(offset + 1, end))
    if not found or (offset >= end and found.item.block.text.endswith("\n")):
        return None
    block, start = found.item.block, found.before.length
    part = _part_at(analysis, found.index)
    if reader := from_reader(analysis, offset):
        return reader
    if part and (_stands_for_part(block, start, offset) or _is_trail(analysis, part, found.index)):
        return from_part(analysis, part, _line(block.text, start))
    name = from_name(analysis, offset)
    if name and name.targets:
        return name
    line = None
    if part and isinstance(block, Paragraph):
        line = from_line(analysis, part, start + _speech_over(block, offset - start))
    if name and line:
        return line._replace(everywhere=name.everywhere, home=name.home)
    return line or name


def _stands_for_part(block: Block, start: int, offset: int) -> bool:
    """Whether the block is one that is of its part as a whole, and the offset in none of the
    settings of it."""
    if isinstance(block, Rule):
        return not is_in_setting(start, block, offset)
    return isinstance(block, Take)


def _is_trail(analysis: Analysis, part: Part, index: int) -> bool:
    """Whether the block is the note at a version's head that tells what it was made from."""
    first = part.first_block + part.has_rule
    return part.kind == "piece" and index == first and has_trail(analysis, part)


def _speech_over(block: Paragraph, offset: int) -> int:
    """The offset, or of a note, which may tell where a line is from, the end of what is above."""
    for note in block.notes:
        if note.start <= offset < note.end:
            return len(block.text[: note.start].rstrip())
    return offset


def _line(text: str, start: int) -> Range:
    return Range(start + lead_length(text), start + len(text.rstrip()))


def _part_at(analysis: Analysis, index: int) -> Part | None:
    parts = analysis.parts
    at = bisect_right(parts, index, key=lambda part: part.first_block) - 1
    return parts[at] if at >= 0 else None
