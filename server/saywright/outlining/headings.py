"""A script's title and the rules of its parts, read off an analysis or, quickly, off a text."""

from collections.abc import Iterable, Iterator
from itertools import islice
from typing import NamedTuple

from saywright.analysis import Analysis
from saywright.markup.lines import is_blank, is_note, lead_length, read_rule
from saywright.markup.reader import read_opening
from saywright.markup.tree import Block, Kind, Setting
from saywright.markup.written import written_settings
from saywright.outlining.entry import EntryKind
from saywright.outlining.outline import part_title


class Heading(NamedTuple):
    """A title or a part, and the file offsets of what says so."""

    kind: EntryKind
    name: str
    start: int
    end: int


def headings(analysis: Analysis) -> Iterator[Heading]:
    """The title, where the script has one, and the parts that a rule begins."""
    opening = (item.block for item in islice(analysis.blocks.items(), analysis.opening))
    yield from _title(opening)
    for _, start, rule in analysis.rules():
        yield _heading(rule.kind, rule.label, rule.text, start)


def headings_in(text: str) -> Iterator[Heading]:
    """The same of a text, whose speech is not read for it."""
    opening, _ = read_opening(_opening_lines(text))
    yield from _title(opening)
    kind: Kind = "piece"
    at = text.find("----")
    while at >= 0:
        start = text.rfind("\n", 0, at) + 1
        end = text.find("\n", at) + 1 or len(text)
        if rule := read_rule(text[start:end]):
            kind = rule.kind or kind
            yield _heading(kind, rule.label, text[start:end], start)
        at = text.find("----", end)


def _opening_lines(text: str) -> list[str]:
    """Lines up to the first blank one after something that is no note: no setting opens later."""
    lines: list[str] = []
    at, told = 0, False
    while at < len(text):
        end = text.find("\n", at) + 1 or len(text)
        line = text[at:end]
        if told and is_blank(line):
            break
        told = told or not (is_blank(line) or is_note(line))
        lines.append(line)
        at = end
    return lines


def _title(opening: Iterable[Block]) -> Iterator[Heading]:
    """The last line that says how the script is called counts."""
    title: Heading | None = None
    start = 0
    for block in opening:
        if isinstance(block, Setting) and block.key == "title":
            for each in written_settings([(start, block)]):
                title = Heading("title", each.value, *each.range)
        start += len(block.text)
    if title:
        yield title


def _heading(kind: Kind, label: str, line: str, start: int) -> Heading:
    lead = lead_length(line)
    return Heading(kind, part_title(kind, label), start + lead, start + len(line.rstrip()))
