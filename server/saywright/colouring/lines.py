"""The tokens of lines of `key: value`, of rules and of takes."""

import re
from collections.abc import Iterator

from saywright.colouring.token import Token, TokenKind
from saywright.markup.lines import LEAD, read_rule, read_setting
from saywright.markup.settings import KEYS
from saywright.markup.tree import Rule, Setting, Take
from saywright.markup.values import DURATION

_TEXTS = ("title", "by", "to", "rights", "content")
_NUMBERS = ("slot", "margin", "timer", "count")
_RULE_AND_KIND = re.compile(rf"{LEAD}(?P<mark>-{{4,}}(?:\s*[A-Za-z]+)?)")
_DURATION = re.compile(DURATION, re.IGNORECASE)
_LISTED = re.compile(r"[^,]*[^,\s]")


def setting_tokens(block: Setting) -> Iterator[Token]:
    """Of a line whose value cannot be read, its key."""
    line = read_setting(block.text)
    if line and line.key.casefold() in KEYS:
        yield Token("key", *line.key_range)
        if block.key:
            yield from _value(block.key, block.text, *line.value_range)


def rule_tokens(block: Rule) -> Iterator[Token]:
    rule, mark = read_rule(block.text), _RULE_AND_KIND.match(block.text)
    assert rule
    assert mark
    yield Token("rule", *mark.span("mark"))
    if rule.label:
        start = block.text.index(rule.label, block.text.index(":", mark.end()))
        yield Token("label", start, start + len(rule.label))
    for key, value, (start, end) in rule.settings:
        yield Token("key", start, start + len(key))
        yield from _value(key, block.text, end - len(value), end)


def take_tokens(block: Take) -> Iterator[Token]:
    if block.seconds is None:
        return
    at = 0
    for _ in range(1 if block.estimated_seconds is None else 2):
        if time := _DURATION.search(block.text, at):
            yield Token("number", *time.span())
            at = time.end()
    if block.date:
        start = block.text.index(block.date, at)
        at = start + len(block.date)
        yield Token("number", start, at)
    if block.reader:
        start = block.text.index(block.reader, at)
        yield Token("reader", start, start + len(block.reader))


def _value(key: str, text: str, start: int, end: int) -> Iterator[Token]:
    if key in ("speaker", "leave-out"):
        kind: TokenKind = "listed" if key == "speaker" else "choice"
        for name in _LISTED.finditer(text, start, end):
            yield Token(kind, *name.span())
        return
    if key in _TEXTS:
        kind = "text"
    elif key in _NUMBERS or (key == "pace" and text[start].isdigit()):
        kind = "number"
    else:
        kind = "reader" if key == "pace" else "choice"
    yield Token(kind, start, end)
