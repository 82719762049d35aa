"""A file's text → the script tree. Never fails; whatever is not a mark is spoken."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import NamedTuple

from saywright.markup.cues import read_cue
from saywright.markup.lines import (
    RuleLine,
    is_blank,
    is_note,
    line_ranges,
    read_rule,
    read_setting,
)
from saywright.markup.nearest import nearest
from saywright.markup.paragraphs import read_paragraph
from saywright.markup.rule_problems import rule_problems
from saywright.markup.setting_problems import read_setting_line
from saywright.markup.settings import KEYS, RULE_KEYS, Settings, with_value
from saywright.markup.takes import read_take
from saywright.markup.tree import (
    Aside,
    Blank,
    Block,
    Cue,
    Kind,
    Note,
    Paragraph,
    Part,
    Rule,
    Script,
)
from saywright.markup.values import Unreadable


class Context(NamedTuple):
    """What a line means depends on it beside the line: the part's kind and settings."""

    kind: Kind
    settings: Settings


class InContext(NamedTuple):
    """A block and the context that it was read in (a rule's is the one that it sets)."""

    block: Block
    context: Context


def read(text: str) -> Script:
    """The tree of a whole file."""
    opening, settings, in_context = read_blocks(text)
    blocks = (*opening, *(each.block for each in in_context))
    starts = _starts(blocks)
    return Script(blocks, starts, tuple(_parts(blocks, starts, settings)), settings)


def read_blocks(text: str) -> tuple[tuple[Block, ...], Settings, list[InContext]]:
    """The blocks of the settings that may open the file, what they set, and all other blocks."""
    lines = split_lines(text)
    opening, settings = read_opening(lines)
    reader = BlockReader(settings, Context("piece", settings))
    for line in lines[len(opening) :]:
        reader.read(line)
    reader.end()
    return opening, settings, reader.blocks


def split_lines(text: str) -> list[str]:
    """The lines of `text`, each with its line end (LF or CRLF)."""
    return [text[start:end] for start, end in line_ranges(text)]


def read_opening(lines: Sequence[str]) -> tuple[tuple[Block, ...], Settings]:
    """The block of settings that `lines` open with, a block a line, and what it sets.

    It ends before the first blank line or rule after a setting. Empty where there is none.
    """
    settings = Settings()
    if not has_opening(lines):
        return (), settings
    blocks: list[Block] = []
    seen: set[str] = set()
    for line in lines:
        if read_rule(line) or (is_blank(line) and seen):
            break
        if is_blank(line):
            blocks.append(Blank(line))
        elif is_note(line):
            blocks.append(Note(line))
        else:
            block, settings = read_setting_line(line, settings, seen)
            blocks.append(block)
            seen.add(block.key or "")
    return tuple(blocks), settings


def has_opening(lines: Iterable[str]) -> bool:
    """Whether the first line that is neither blank nor a note has a known key, or nearly one."""
    first = next((line for line in lines if not is_blank(line) and not is_note(line)), "")
    setting = read_setting(first)
    return setting is not None and nearest(setting.key, KEYS) is not None


@dataclass(slots=True)
class BlockReader:
    """Reads lines that come after the settings, one at a time, into `blocks`.

    `is_gathering`: lines of a paragraph, or notes that may turn out to open one, are waiting for
    the line that ends them.
    """

    file_settings: Settings
    context: Context
    blocks: list[InContext] = field(default_factory=list)
    _gathered: list[str] = field(default_factory=list)
    _has_speech: bool = False

    @property
    def is_gathering(self) -> bool:
        return bool(self._gathered)

    def read(self, line: str) -> None:
        if rule := read_rule(line):
            self.end()
            self._read_rule(line, rule)
        elif self.context.kind == "notes":
            self._add(Aside(line))
        elif is_blank(line):
            self.end()
            self._add(Blank(line))
        elif is_note(line):
            self._gathered.append(line)
        elif self.context.kind == "takes":
            self.end()
            self._add(read_take(line))
        elif cue := read_cue(line, self.context.settings.speakers):
            self.end()
            self._add(Cue(line, (), cue.speaker, cue.direction))
        else:
            self._gathered.append(line)
            self._has_speech = True

    def end(self) -> None:
        """No more lines belong to what has been gathered."""
        if not self._gathered:
            return
        text = "".join(self._gathered)
        if self._has_speech:
            self._add(read_paragraph(text, self.context.settings.speakers))
        else:
            self._add(Note(text))
        self._gathered.clear()
        self._has_speech = False

    def _add(self, block: Block) -> None:
        self.blocks.append(InContext(block, self.context))

    def _read_rule(self, line: str, rule: RuleLine) -> None:
        settings = tuple((setting.key, setting.value) for setting in rule.settings)
        problems = rule_problems(rule, self.file_settings)
        block = Rule(line, problems, rule.kind or self.context.kind, rule.label, settings)
        self.context = context_after(block, self.file_settings)
        self._add(block)


def context_after(rule: Rule, file_settings: Settings) -> Context:
    """The context of the part that `rule` starts: the file's settings with its own over them."""
    settings = file_settings
    for key, value in rule.settings:
        try:
            settings = with_value(settings, RULE_KEYS[key], value)
        except Unreadable:
            continue
    return Context(rule.kind, settings)


def _starts(blocks: Iterable[Block]) -> tuple[int, ...]:
    starts: list[int] = []
    at = 0
    for block in blocks:
        starts.append(at)
        at += len(block.text)
    return tuple(starts)


def _parts(blocks: Sequence[Block], starts: Sequence[int], settings: Settings) -> Iterator[Part]:
    rules = [index for index, block in enumerate(blocks) if isinstance(block, Rule)]
    end_of_text = starts[-1] + len(blocks[-1].text) if blocks else 0
    bounds = (*starts, end_of_text)
    first_rule = rules[0] if rules else len(blocks)
    spoken = next((i for i in range(first_rule) if isinstance(blocks[i], Paragraph | Cue)), None)
    if spoken is not None:
        yield Part(
            "piece", "", spoken, first_rule, starts[spoken], bounds[first_rule], settings, False
        )
    for index, following in pairwise((*rules, len(blocks))):
        rule = blocks[index]
        assert isinstance(rule, Rule)
        kind, own = context_after(rule, settings)
        yield Part(kind, rule.label, index, following, starts[index], bounds[following], own, True)
