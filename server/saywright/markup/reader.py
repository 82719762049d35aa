"""A file's text → the script tree. Never fails; whatever is not a mark is spoken."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

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

ParagraphReader = Callable[[str, tuple[str, ...]], Paragraph]


def read(text: str, paragraph_reader: ParagraphReader = read_paragraph) -> Script:
    """The tree of a whole file. `paragraph_reader` may remember what it has read before."""
    lines = [text[start:end] for start, end in line_ranges(text)]
    opening = _Opening()
    opening.read(lines)
    body = _Body(opening.settings, paragraph_reader)
    body.read(lines[opening.line_count :])
    blocks = (*opening.blocks, *body.blocks)
    starts = _starts(blocks)
    return Script(
        blocks=blocks,
        starts=starts,
        parts=tuple(_parts(blocks, starts, opening.settings)),
        settings=opening.settings,
    )


def _starts(blocks: Iterable[Block]) -> tuple[int, ...]:
    starts: list[int] = []
    at = 0
    for block in blocks:
        starts.append(at)
        at += len(block.text)
    return tuple(starts)


@dataclass(slots=True)
class _Opening:
    """The block of settings that may open a file."""

    settings: Settings = field(default_factory=Settings)
    blocks: list[Block] = field(default_factory=list)
    line_count: int = 0

    def read(self, lines: Sequence[str]) -> None:
        if not _has_settings(lines):
            return
        seen: set[str] = set()
        for line in lines:
            if read_rule(line) or (is_blank(line) and seen):
                break
            self.line_count += 1
            if is_blank(line):
                self.blocks.append(Blank(line))
            elif is_note(line):
                self.blocks.append(Note(line))
            else:
                block, self.settings = read_setting_line(line, self.settings, seen)
                self.blocks.append(block)
                seen.add(block.key or "")


def _has_settings(lines: Iterable[str]) -> bool:
    first = next((line for line in lines if not is_blank(line) and not is_note(line)), "")
    setting = read_setting(first)
    return setting is not None and nearest(setting.key, KEYS) is not None


@dataclass(slots=True)
class _Body:
    """Everything after the settings, line by line."""

    file_settings: Settings
    paragraph_reader: ParagraphReader
    blocks: list[Block] = field(default_factory=list)
    kind: Kind = "piece"
    speakers: tuple[str, ...] = ()
    gathered: list[str] = field(default_factory=list)
    has_speech: bool = False

    def read(self, lines: Iterable[str]) -> None:
        self.speakers = self.file_settings.speakers
        for line in lines:
            if rule := read_rule(line):
                self._end_paragraph()
                self._add_rule(line, rule)
            elif self.kind == "notes":
                self.blocks.append(Aside(line))
            elif is_blank(line):
                self._end_paragraph()
                self.blocks.append(Blank(line))
            elif is_note(line):
                self.gathered.append(line)
            elif self.kind == "takes":
                self._end_paragraph()
                self.blocks.append(read_take(line))
            elif cue := read_cue(line, self.speakers):
                self._end_paragraph()
                self.blocks.append(Cue(line, (), cue.speaker, cue.direction))
            else:
                self.gathered.append(line)
                self.has_speech = True
        self._end_paragraph()

    def _add_rule(self, line: str, rule: RuleLine) -> None:
        self.kind = rule.kind or self.kind
        settings = tuple((setting.key, setting.value) for setting in rule.settings)
        problems = rule_problems(rule, self.file_settings)
        self.blocks.append(Rule(line, problems, self.kind, rule.label, settings))
        self.speakers = rule_settings(self.blocks[-1], self.file_settings).speakers

    def _end_paragraph(self) -> None:
        if not self.gathered:
            return
        if self.has_speech:
            text = "".join(self.gathered)
            self.blocks.append(self.paragraph_reader(text, self.speakers))
        else:
            self.blocks += (Note(line) for line in self.gathered)
        self.gathered = []
        self.has_speech = False


def rule_settings(rule: Block, file_settings: Settings) -> Settings:
    """The file's settings with those that `rule` can read over them."""
    settings = file_settings
    for key, value in rule.settings if isinstance(rule, Rule) else ():
        try:
            settings = with_value(settings, RULE_KEYS[key], value)
        except Unreadable:
            continue
    return settings


def _parts(blocks: Sequence[Block], starts: Sequence[int], settings: Settings) -> Iterable[Part]:
    rules = [index for index, block in enumerate(blocks) if isinstance(block, Rule)]
    end_of_text = starts[-1] + len(blocks[-1].text) if blocks else 0
    first_rule = rules[0] if rules else len(blocks)
    spoken = next((i for i in range(first_rule) if isinstance(blocks[i], Paragraph | Cue)), None)
    if spoken is not None:
        end = starts[first_rule] if rules else end_of_text
        yield Part("piece", "", spoken, first_rule, starts[spoken], end, settings, False)
    for rule, following in pairwise((*rules, len(blocks))):
        block = blocks[rule]
        assert isinstance(block, Rule)
        end = starts[following] if following < len(blocks) else end_of_text
        own = rule_settings(block, settings)
        yield Part(block.kind, block.label, rule, following, starts[rule], end, own, True)
