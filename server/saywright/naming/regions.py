"""Where in a script names stand: everywhere but in keys, marks, figures and silences."""

from bisect import bisect_right
from collections.abc import Iterator
from itertools import pairwise
from typing import Literal, NamedTuple

from saywright.analysis import Analysis
from saywright.markup.lines import read_rule, read_setting
from saywright.markup.settings import KEYS
from saywright.markup.tree import Aside, Block, Cue, Note, Paragraph, Rule, Setting, Take
from saywright.markup.values import Unreadable, read_pace
from saywright.markup.written import written_settings
from saywright.project import Project
from saywright.speech.piece_takes import same_name

RegionKind = Literal["text", "title", "name", "speaker", "reader"]
"""`title`: capitals tell nothing there. `name`: nothing but a name or two. `speaker`: so too, in
a cue or a list of speakers."""

_KINDS_OF_VALUES: dict[str, RegionKind] = {
    "title": "title",
    "by": "name",
    "to": "name",
    "rights": "text",
    "content": "text",
    "speaker": "speaker",
    "pace": "reader",
}


class Region(NamedTuple):
    kind: RegionKind
    start: int
    end: int

    def shifted(self, by: int) -> "Region":
        return Region(self.kind, self.start + by, self.end + by)


class Regions:
    """The regions of a script by their file offsets. Asked in order, it reads each block once."""

    def __init__(self, analysis: Analysis) -> None:
        self._analysis = analysis
        self._begin()

    def holding(self, start: int, end: int) -> Region | None:
        """The region in which the whole range stands. A region's end belongs to it."""
        self._go_to(start)
        index = bisect_right(self._regions, start, key=_start) - 1
        if index >= 0 and end <= self._regions[index].end:
            return self._regions[index]
        return None

    def _begin(self) -> None:
        self._items = self._analysis.blocks.items()
        self._start = self._end = 0
        self._regions: list[Region] = []

    def _go_to(self, offset: int) -> None:
        """To the block that holds the offset, or the file's last."""
        if offset < self._start:
            self._begin()
        block = None
        while offset >= self._end and (item := next(self._items, None)):
            block = item.block
            self._start, self._end = self._end, self._end + len(block.text)
        if block:
            found = regions(block, self._analysis.project)
            self._regions = sorted((each.shifted(self._start) for each in found), key=_start)


def _start(region: Region) -> int:
    return region.start


def regions(block: Block, project: Project) -> Iterator[Region]:
    """The block's regions, counted from its start. A reader of the project's is not the file's to
    rename."""
    if isinstance(block, Paragraph):
        yield from _in_paragraph(block)
    elif isinstance(block, Note | Aside):
        yield Region("text", 0, len(block.text))
    elif isinstance(block, Cue):
        yield from _in_cue(block)
    elif isinstance(block, Take):
        yield from _in_take(block, project)
    elif isinstance(block, Setting | Rule):
        yield from _in_line(block, project)


def _in_paragraph(block: Paragraph) -> Iterator[Region]:
    edges = [0, len(block.text)]
    silent: set[int] = set()
    for start, end, _, is_bare in block.directions:
        edges += (start, end)
        if is_bare:
            silent.add(start)
    for note in block.notes:
        edges += note
    for start, end in pairwise(sorted(set(edges))):
        if start not in silent:
            yield Region("text", start, end)


def _in_cue(block: Cue) -> Iterator[Region]:
    colon = block.text.index(":")
    yield Region("speaker", 0, colon)
    if block.direction and not block.direction.bare:
        yield Region("text", block.direction.start, block.direction.end)


def _in_take(block: Take, project: Project) -> Iterator[Region]:
    if block.seconds is None:
        yield Region("text", 0, len(block.text))
    elif block.reader and not _is_known(block.reader, project):
        start = block.text.rindex(block.reader)
        yield Region("reader", start, start + len(block.reader))


def _is_known(reader: str, project: Project) -> bool:
    return any(same_name(reader, known) for known in project.readers)


def _in_line(block: Setting | Rule, project: Project) -> Iterator[Region]:
    if isinstance(block, Rule):
        yield from _in_label(block)
    elif block.key is None:
        line = read_setting(block.text)
        if not line or line.key.casefold() not in KEYS:
            yield Region("text", 0, len(block.text))
    for written in written_settings([(0, block)]):
        kind = _KINDS_OF_VALUES.get(written.key)
        if kind and (kind != "reader" or _is_reader(written.value, project)):
            yield Region(kind, *written.range)


def _in_label(block: Rule) -> Iterator[Region]:
    line = read_rule(block.text)
    if line and line.label:
        start = block.text.index(line.label, block.text.index(":") + 1)
        yield Region("text", start, start + len(line.label))


def _is_reader(pace: str, project: Project) -> bool:
    try:
        reader = read_pace(pace).reader
    except Unreadable:
        return False
    return reader is not None and not _is_known(reader, project)
