"""How far a draft has come, told beside its goal."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from saywright.explaining.explained import counted
from saywright.markup.settings import Goal
from saywright.markup.tree import Paragraph
from saywright.speech.slot import clock
from saywright.speech.timed_block import TimedBlock


def told_draft(words: int, goal: Goal, items: Sequence[TimedBlock]) -> str:
    """`142 words, 12 of 40 items, 5:00 to write`."""
    told = [counted(words, "word")]
    if goal.count is not None:
        told.append(f"{_items(items)} of {counted(goal.count, 'item')}")
    if goal.timer_seconds is not None:
        told.append(f"{clock(goal.timer_seconds)} to write")
    return ", ".join(told)


def _items(items: Sequence[TimedBlock]) -> int:
    """Lines with words, cut or not: an item stands on a line."""
    return sum(
        any(map(str.isalnum, line))
        for item in items
        if isinstance(item.block, Paragraph)
        for line in _lines(item.block)
    )


def _lines(paragraph: Paragraph) -> Iterator[str]:
    for start, end in pairwise((0, *paragraph.breaks, len(paragraph.plain))):
        yield paragraph.plain[start:end]
