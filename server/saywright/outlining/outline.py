"""A script's parts, units of action, turns and paragraphs, each with its time."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from itertools import islice

from saywright.analysis import Analysis, is_spoken
from saywright.checks.name_from_life import without_names
from saywright.explaining.explained import counted
from saywright.finding import Finding
from saywright.markup.lines import is_blank, lead_length
from saywright.markup.tree import Aside, Block, Kind, Part, Take
from saywright.outlining.drafts import told_draft
from saywright.outlining.entry import Entry
from saywright.outlining.spoken import SECONDS, WORDS, spoken_entries
from saywright.project import Project
from saywright.speech.slot import clock, slot_clock
from saywright.speech.timed_block import TimedBlock


def outline(analysis: Analysis) -> tuple[Entry, ...]:
    """The parts, in the file's order. No name in it is of the project's private list."""
    entries = tuple(
        _before_line_end(_part(analysis, part), analysis.text) for part in analysis.parts
    )
    return _veiled(entries, analysis.project) if analysis.project.private_names else entries


def _before_line_end(entry: Entry, text: str) -> Entry:
    """The entry and all in it up to the end of its last line: the next one is no place in it."""
    end = entry.end
    if end < len(text) and text[end - 1] == "\n":
        end -= 2 if text.endswith("\r\n", 0, end) else 1
    children = tuple(_before_line_end(child, text) for child in entry.children)
    return replace(entry, end=end, children=children)


def part_title(kind: Kind, label: str) -> str:
    """`piece “the short version”`, or without a label `piece`."""
    return f"{kind} “{label}”" if label else kind


def without_private_names(text: str, project: Project) -> str:
    return without_names(Finding("", 0, 0, text), project).message


def _veiled(entries: Iterable[Entry], project: Project) -> tuple[Entry, ...]:
    return tuple(
        replace(
            entry,
            name=without_private_names(entry.name, project),
            children=_veiled(entry.children, project),
        )
        for entry in entries
    )


def _part(analysis: Analysis, part: Part) -> Entry:
    items = list(islice(analysis.blocks.items(part.first_block), part.end_block - part.first_block))
    children: tuple[Entry, ...] = ()
    if is_spoken(part.kind):
        children = spoken_entries(items, part.start, WORDS if part.kind == "draft" else SECONDS)
    elif part.kind == "takes":
        children = tuple(_takes(items, part.start))
    first = items[0].block
    head = (
        _line(first, part.start)
        if part.has_rule
        else (children[0].head_start, children[0].head_end)
    )
    return Entry(
        part.kind,
        part_title(part.kind, part.label),
        _detail(analysis, part, items),
        part.start,
        part.end,
        *head,
        children=children,
    )


def _detail(analysis: Analysis, part: Part, items: list[TimedBlock]) -> str:
    if part.kind == "takes":
        return counted(sum(_is_take(item.block) for item in items), "take")
    if part.kind == "notes":
        return counted(sum(_is_written(item.block) for item in items), "line")
    view = next(view for view in analysis.views if view.timeline.part is part)
    if part.kind == "draft":
        return told_draft(view.timeline.words, part.settings.goal, items)
    of_slot = f" of {slot_clock(view.aim.slot)}" if view.aim else ""
    return f"{clock(view.timeline.seconds)}{of_slot}"


def _is_take(block: Block) -> bool:
    return isinstance(block, Take) and block.seconds is not None


def _is_written(block: Block) -> bool:
    return isinstance(block, Aside) and not is_blank(block.text)


def _takes(items: list[TimedBlock], start: int) -> Iterator[Entry]:
    for item in items:
        block = item.block
        if isinstance(block, Take) and block.seconds is not None:
            who = f" by {block.reader}" if block.reader else ""
            name, end = clock(block.seconds) + who, start + len(block.text)
            yield Entry("take", name, block.date or "", start, end, *_line(block, start))
        start += len(block.text)


def _line(block: Block, start: int) -> tuple[int, int]:
    """A line's file offsets without what is blank around it."""
    lead = lead_length(block.text)
    return start + lead, start + max(lead, len(block.text.rstrip()))
