"""After Enter in a list: the next item's sign, or the list's end."""

import re
from collections.abc import Iterator
from itertools import islice, pairwise

from saywright.analysis import Analysis
from saywright.finding import Edit
from saywright.markup.lines import line_ranges

_ITEM = re.compile(
    r"(?P<indent>[ \t]*)(?P<sign>[-*•]|(?P<number>[0-9]{1,4})(?P<stop>[.)]))(?P<gap>[ \t]+)"
)
_MOST_BLOCKS = 500
_WITH_LISTS = ("draft", "notes")


def after_enter(analysis: Analysis, offset: int) -> tuple[Edit, ...]:
    """The edits for a file in which a line has just been broken, the cursor at `offset`, in the
    new line with nothing but blanks before it.

    Only in drafts and notes: in a piece such signs would be spoken. After an item without words
    its sign goes, which ends the list. Items below whose numbers count on go on counting.
    """
    kinds = [each.kind for each in analysis.parts if each.start <= offset]
    if not kinds or kinds[-1] not in _WITH_LISTS:
        return ()
    start, text = _near(analysis, offset)
    lines = [text[first:end] for first, end in line_ranges(text)]
    if not text or text.endswith("\n"):
        lines.append("")
    at = text.count("\n", 0, offset - start)
    if at == 0:
        return ()
    line_start = start + sum(map(len, lines[:at]))
    edits = _edits(lines[at - 1], lines[at:], line_start, offset)
    return tuple(edits)


def _near(analysis: Analysis, offset: int) -> tuple[int, str]:
    """The text around, from a line's start, and its file offset."""
    found = analysis.blocks.find(lambda sum: sum.length > offset)
    first = max((found.index if found else len(analysis.blocks)) - 2, 0)
    near = islice(analysis.blocks.items(first), _MOST_BLOCKS)
    return analysis.blocks.sum_between(0, first).length, "".join(each.block.text for each in near)


def _edits(before: str, lines: list[str], start: int, offset: int) -> Iterator[Edit]:
    """`lines` begin with the new one, which starts at `start`; `before` is the one above it."""
    item, own = _ITEM.match(before), lines[0]
    if not item or own[: offset - start].strip() or _ITEM.match(own):
        return
    if not before[item.end() :].strip():
        if not own.strip():
            yield Edit(start - len(before), start, "")
        return
    sign = item["sign"]
    if item["number"]:
        sign = f"{int(item['number']) + 1}{item['stop']}"
    yield Edit(start, offset, f"{item['indent']}{sign}{item['gap']}")
    if item["number"]:
        yield from _counting_on(item, lines, start)


def _counting_on(item: re.Match[str], lines: list[str], start: int) -> Iterator[Edit]:
    number = int(item["number"]) + 1
    for above, line in pairwise(lines):
        start += len(above)
        below = _ITEM.match(line)
        if not below or below["number"] != str(number) or below["indent"] != item["indent"]:
            return
        number += 1
        yield Edit(start + below.start("number"), start + below.end("number"), str(number))
