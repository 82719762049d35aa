"""What a line is, told from its first characters and, for a rule, from its form."""

import re
from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

from saywright.finding import Edit, Finding, Fix
from saywright.markup.nearest import nearest
from saywright.markup.settings import RULE_KEYS
from saywright.markup.tree import KINDS, Kind, Range

_LINE = re.compile(r"[^\n]*\n|[^\n]+")
# Marks of writing direction may stand before anything; a byte-order mark before the first line.
LEAD = r"[\s\ufeff\u200e\u200f\u061c\u202a-\u202e\u2066-\u2069]*"
_LEAD = re.compile(LEAD)
_BLANK = re.compile(rf"{LEAD}\Z")
_NOTE = re.compile(rf"{LEAD}#(?:\s|\Z)")
_SETTING = re.compile(
    rf"{LEAD}(?P<key>[A-Za-z][A-Za-z0-9_-]*(?: [A-Za-z]+)?)[ \t]*:(?P<value>.*)", re.S
)
_RULE = re.compile(rf"{LEAD}-{{4,}}(?P<rest>.*)", re.S)
_KIND_AND_MORE = rf"(?:{'|'.join(KINDS)})[ \t]*(?:[:;].*)?"
_NEARLY_RULE = re.compile(
    rf"{LEAD}(?:[-‒–—―]{{2,}}[ \t]*(?:{_KIND_AND_MORE})?|[–—][ \t]*{_KIND_AND_MORE})\s*\Z",
    re.IGNORECASE | re.DOTALL,
)
_RULE_REST = re.compile(r"\s*(?P<kind>[A-Za-z]+)\s*(?P<more>[:;].*)?\s*\Z", re.S)
_RULE_SETTING = re.compile(
    rf";\s*(?P<key>{'|'.join(sorted(RULE_KEYS, key=len, reverse=True))})(?=[\s:;]|\Z)\s*:?",
    re.IGNORECASE,
)
_SEMICOLON_WORD = re.compile(r";\s*(?P<word>[A-Za-z-]+)")


class SettingLine(NamedTuple):
    """A line of the form `key: value`; ranges count from the line's start."""

    key: str
    value: str
    key_range: Range
    value_range: Range


class RuleSetting(NamedTuple):
    key: str
    value: str
    range: Range


class RuleLine(NamedTuple):
    """A rule: its kind (None for the same as before), as written or put right, and the rest."""

    kind: Kind | None
    label: str
    settings: tuple[RuleSetting, ...]
    problems: tuple[Finding, ...]


def line_ranges(text: str) -> list[Range]:
    """The lines of `text`, each with its line end (LF or CRLF)."""
    return [Range(*line.span()) for line in _LINE.finditer(text)]


def lead_length(line: str) -> int:
    """How many spaces and marks of writing direction `line` starts with."""
    lead = _LEAD.match(line)
    return lead.end() if lead else 0


def is_blank(line: str) -> bool:
    return _BLANK.match(line) is not None


def is_note(line: str) -> bool:
    return _NOTE.match(line) is not None


def read_setting(line: str) -> SettingLine | None:
    match = _SETTING.match(line)
    if not match:
        return None
    value_range = _stripped(line, Range(*match.span("value")))
    value = line[value_range.start : value_range.end]
    return SettingLine(match["key"], value, Range(*match.span("key")), value_range)


def _stripped(line: str, where: Range) -> Range:
    text = line[where.start : where.end]
    end = where.start + len(text.rstrip())
    return Range(min(where.start + len(text) - len(text.lstrip()), end), end)


def is_rule_like(line: str) -> bool:
    """Whether `line` starts as a rule does, whatever follows its dashes."""
    return _RULE.match(line) is not None


def is_nearly_rule(line: str) -> bool:
    """Whether `line` is too few dashes, or longer ones, and then nothing or a part's kind."""
    return _NEARLY_RULE.match(line) is not None


def read_rule(line: str) -> RuleLine | None:
    """The rule that `line` is, or None where it is none."""
    match = _RULE.match(line)
    if not match:
        return None
    if not match["rest"].strip():
        return RuleLine(None, "", (), ())
    rest = _RULE_REST.match(match["rest"])
    if not rest:
        return None
    kind = _kind(rest["kind"])
    if not kind:
        return None
    problems: list[Finding] = []
    offset = match.start("rest")
    if kind != rest["kind"].casefold():
        problems.append(_misspelt_kind(rest["kind"], kind, offset + rest.start("kind")))
    if not rest["more"]:
        return RuleLine(kind, "", (), tuple(problems))
    more_start = offset + rest.start("more")
    label, settings = _label_and_settings(line, more_start)
    problems += _unknown_settings(line, label)
    if line[more_start] == ";":
        label = Range(more_start, more_start)
    return RuleLine(kind, line[label.start : label.end], tuple(settings), tuple(problems))


def _kind(word: str) -> Kind | None:
    known = word if word in KINDS else nearest(word, KINDS)
    return next((kind for kind in KINDS if kind == known), None)


def _misspelt_kind(written: str, kind: Kind, start: int) -> Finding:
    end = start + len(written)
    return Finding(
        "part-kind",
        start,
        end,
        f"There is no part called “{written}”. It is read as {kind}.",
        (Fix(f"Write {kind}", (Edit(start, end, kind),)),),
    )


def _label_and_settings(line: str, start: int) -> tuple[Range, list[RuleSetting]]:
    matches = list(_RULE_SETTING.finditer(line, start))
    label_start = start + (line[start] == ":")
    label = _stripped(line, Range(label_start, matches[0].start() if matches else len(line)))
    starts = [match.start() for match in matches]
    settings = []
    for match, (_, end) in zip(matches, pairwise((*starts, len(line))), strict=True):
        value = _stripped(line, Range(match.end(), end))
        last = value.end if value.start < value.end else match.end("key")
        where = Range(match.start("key"), last)
        settings.append(RuleSetting(match["key"].casefold(), line[value.start : value.end], where))
    return label, settings


def _unknown_settings(line: str, label: Range) -> Iterator[Finding]:
    """Words after a `;` that are a slip or two from a setting's key, or stand where one must."""
    for match in _SEMICOLON_WORD.finditer(line, label.start, label.end):
        word, where = match["word"], match.span("word")
        if key := nearest(word, RULE_KEYS):
            message = f"There is no setting called “{word}”. Did you mean {key}?"
            yield Finding("setting", *where, message, (Fix(f"Write {key}", (Edit(*where, key),)),))
        elif match.start() == label.start:
            message = f"There is no setting called “{word}”, so it is left out."
            yield Finding("setting", *where, message)
