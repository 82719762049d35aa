"""What each code point of a text is: to the server, and by the TextMate grammar's scopes."""

import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from saywright.markup.lines import line_ranges, read_rule, read_setting
from saywright.markup.marks import read_marks
from saywright.markup.reader import read
from saywright.markup.settings import KEYS, RULE_KEYS
from saywright.markup.tree import (
    Aside,
    Block,
    Cue,
    Direction,
    Note,
    Paragraph,
    Rule,
    Setting,
    Take,
)
from saywright.markup.values import Unreadable

from .tokeniser import Token

_SCOPED = {
    "comment.line.number-sign.note.say": "note",
    "comment.block.aside.say": "aside",
    "comment.block.direction.say": "direction",
    "markup.heading.rule.say": "rule",
    "entity.name.section.say": "label",
    "meta.setting.say": "setting",
    "variable.other.setting.say": "key",
    "meta.cue.say": "cue",
    "meta.take.say": "take",
    "markup.italic.stress.say": "stress",
    "markup.underline.keep.say": "keep",
    "markup.strikethrough.cut.say": "cut",
    "keyword.operator.breath.say": "breath",
    "constant.character.escape.say": "escape",
}
SCOPED_KINDS = {*_SCOPED.values(), "timed", "number"}
_NUMBERED = {"slot", "margin", "pace", "timer", "count"}
_FIGURES = re.compile(r"[0-9]+")


class Marked(NamedTuple):
    """A stretch of the text that is of one kind."""

    kind: str
    start: int
    end: int


def by_server(text: str) -> Iterator[Marked]:
    script = read(text)
    for start, block in zip(script.starts, script.blocks, strict=True):
        for kind, first, last in _block(block):
            yield Marked(kind, start + first, start + last)


def _block(block: Block) -> Iterator[Marked]:
    whole = 0, len(block.text)
    match block:
        case Note():
            yield Marked("note", *whole)
        case Aside():
            yield Marked("aside", *whole)
        case Setting():
            yield Marked("setting", *whole)
            setting = read_setting(block.text)
            if setting and setting.key.casefold() in KEYS:
                yield Marked("key", *setting.key_range)
                yield from _numbers(
                    setting.key.casefold(), setting.value, setting.value_range.start
                )
        case Rule():
            yield Marked("rule", *whole)
            yield from _rule(block)
        case Cue():
            yield Marked("cue", *whole)
            yield from _directions([block.direction] if block.direction else [])
        case Take():
            yield Marked("take line", *whole)
            if block.seconds is not None:
                yield Marked("take", *whole)
        case Paragraph():
            yield from _paragraph(block)


def _rule(block: Rule) -> Iterator[Marked]:
    rule = read_rule(block.text)
    assert rule
    if rule.label:
        start = block.text.index(rule.label, block.text.index(":"))
        yield Marked("label", start, start + len(rule.label))
    for key, value, (start, end) in rule.settings:
        yield Marked("key", start, start + len(key))
        yield from _numbers(key, value, end - len(value))


def _paragraph(block: Paragraph) -> Iterator[Marked]:
    yield from (Marked("note", *note) for note in block.notes)
    yield from (Marked(*span) for span in block.spans)
    yield from (Marked("breath", breath.start, breath.end) for breath in block.breaths)
    yield from _directions(block.directions)
    speech = [line for line in line_ranges(block.text) if line not in block.notes]
    yield from (Marked("speech", *line) for line in speech)
    escapes = read_marks(block.text, speech).escapes
    yield from (Marked("escape", escape, escape + 2) for escape in escapes)


def _directions(directions: Sequence[Direction]) -> Iterator[Marked]:
    for direction in directions:
        yield Marked("direction", direction.start, direction.end)
        if direction.silence:
            yield Marked("timed", direction.start, direction.end)
            if direction.silence.name:
                yield Marked("silence", direction.start, direction.end)


def _numbers(key: str, value: str, start: int) -> Iterator[Marked]:
    """The figures of a value at `start` that the server reads as a number of something."""
    is_reader = key == "pace" and not value[:1].isdigit()
    if key not in _NUMBERED or is_reader or not _is_readable(key, value):
        return
    for figures in _FIGURES.finditer(value):
        yield Marked("number", start + figures.start(), start + figures.end())


def _is_readable(key: str, value: str) -> bool:
    try:
        RULE_KEYS[key].read(value)
    except Unreadable:
        return False
    return True


def by_colours(tokens: Sequence[Token], server: Sequence[Marked]) -> Iterator[Marked]:
    """What has no colour of its own (a number, a direction that takes time) is looked for where
    it is to `server`."""
    for start, end, scopes in tokens:
        yield from (
            Marked(kind, start, end) for scope, kind in _SCOPED.items() if scope in scopes.split()
        )
    constants = [token for token in tokens if " constant." in token.scopes]
    for kind, start, end in server:
        within = [token for token in constants if token.start < end and token.end > start]
        if kind == "direction" and within:
            yield Marked("timed", start, end)
        elif kind == "number":
            yield from (Marked(kind, max(start, a), min(end, b)) for a, b, _ in within)
