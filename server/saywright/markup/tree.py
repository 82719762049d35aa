"""The script tree: plain frozen data, blocks in the file's order.

A block holds its own text, and every offset in it counts code points from the block's start, so
that a block means the same wherever it stands. Joining the blocks' texts gives the file back.
"""

from bisect import bisect_right
from dataclasses import dataclass
from typing import Literal, NamedTuple

from saywright.finding import Finding
from saywright.markup.settings import Settings
from saywright.markup.silences import Silence

Kind = Literal["piece", "draft", "notes", "takes"]
KINDS: tuple[Kind, ...] = ("piece", "draft", "notes", "takes")

SpanKind = Literal["stress", "keep", "cut"]
SPAN_MARKS: dict[SpanKind, str] = {"stress": "*", "keep": "__", "cut": "~~"}


class Range(NamedTuple):
    start: int
    end: int


class Span(NamedTuple):
    """A pair of marks and what they hold, from before the opening to after the closing."""

    kind: SpanKind
    start: int
    end: int

    @property
    def inner(self) -> Range:
        width = len(SPAN_MARKS[self.kind])
        return Range(self.start + width, self.end - width)


class Direction(NamedTuple):
    """A bracketed direction, brackets included. `bare`: it is a silence and nothing else."""

    start: int
    end: int
    silence: Silence | None
    bare: bool


class Breath(NamedTuple):
    """A `|` (a breath) or `||` (a beat)."""

    start: int
    end: int
    silence: Silence


class Run(NamedTuple):
    """A stretch of the spoken text that stands unbroken in the source.

    A line break is a run of its own: one space in `plain`, one or two code points in the source.
    """

    plain: int
    source: int
    source_end: int


@dataclass(frozen=True, slots=True)
class Block:
    """A run of whole lines. `problems` count from the block's start."""

    text: str
    problems: tuple[Finding, ...] = ()


@dataclass(frozen=True, slots=True)
class Blank(Block):
    """Blank lines."""


@dataclass(frozen=True, slots=True)
class Note(Block):
    """Note lines that stand in no paragraph."""


@dataclass(frozen=True, slots=True)
class Setting(Block):
    """One line of the block that opens the file; `key` is None where it cannot be read."""

    key: str | None = None
    value: str = ""


@dataclass(frozen=True, slots=True)
class Rule(Block):
    """A rule line: it starts a part, whose own settings stand over the file's."""

    kind: Kind = "piece"
    label: str = ""
    settings: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Cue(Block):
    """A cue line, and what the direction after it, if any, says of time."""

    speaker: str = ""
    direction: Direction | None = None


@dataclass(frozen=True, slots=True)
class Aside(Block):
    """Lines of a `notes` part."""


@dataclass(frozen=True, slots=True)
class Take(Block):
    """One timed read-through, or None where its line cannot be read."""

    seconds: float | None = None
    estimated_seconds: float | None = None
    date: str | None = None
    reader: str | None = None


@dataclass(frozen=True, slots=True)
class Paragraph(Block):
    """Speech, with its marks read.

    `plain` is the text with its marks off and its line breaks read as spaces; cut words are in
    it. `runs` lead from it to the source. `cuts`, `keeps` and `stresses` are ranges of `plain`,
    in order, without overlap (a keep inside a cut is no part of the cut). `breaks` are the
    offsets in `plain` of its line breaks.
    """

    plain: str = ""
    runs: tuple[Run, ...] = ()
    spans: tuple[Span, ...] = ()
    directions: tuple[Direction, ...] = ()
    breaths: tuple[Breath, ...] = ()
    notes: tuple[Range, ...] = ()
    cuts: tuple[Range, ...] = ()
    keeps: tuple[Range, ...] = ()
    stresses: tuple[Range, ...] = ()
    breaks: tuple[int, ...] = ()

    def source_of(self, plain: int) -> int:
        """Where the code point at offset `plain` of the spoken text stands in the source."""
        if not self.runs:
            return 0
        run = self.runs[max(bisect_right(self.runs, plain, key=_run_plain) - 1, 0)]
        return min(run.source + plain - run.plain, run.source_end)

    def source_range(self, start: int, end: int) -> Range:
        """The source from the first code point of `plain[start:end]` to after its last."""
        index = max(bisect_right(self.runs, end - 1, key=_run_plain) - 1, 0)
        if index + 1 < len(self.runs) and self.runs[index + 1].plain == end:
            return Range(self.source_of(start), self.runs[index].source_end)  # CRLF is one space
        return Range(self.source_of(start), self.source_of(end - 1) + 1)

    def plain_of(self, source: int) -> int:
        """The offset in `plain` of the first spoken code point at or after `source`."""
        index = bisect_right(self.runs, source, key=_run_source) - 1
        if index < 0:
            return 0
        run = self.runs[index]
        following = self.runs[index + 1].plain if index + 1 < len(self.runs) else len(self.plain)
        return min(run.plain + source - run.source, following)


def _run_plain(run: Run) -> int:
    return run.plain


def _run_source(run: Run) -> int:
    return run.source


@dataclass(frozen=True, slots=True)
class Part:
    """A part: its rule (None for text before the first), and its blocks by index.

    `settings` are the file's with the rule's own over them.
    """

    kind: Kind
    label: str
    first_block: int
    end_block: int
    start: int
    end: int
    settings: Settings
    has_rule: bool


@dataclass(frozen=True, slots=True)
class Script:
    """A file: its blocks, where each starts, its parts, and the settings that open it."""

    blocks: tuple[Block, ...]
    starts: tuple[int, ...]
    parts: tuple[Part, ...]
    settings: Settings

    @property
    def text(self) -> str:
        return "".join(block.text for block in self.blocks)
