"""A script tidied: blanks around marks, rule lines, the order of settings. No spoken word changes.

Lines stay lines, so the edits are the changed lines. A paragraph that would be read otherwise
than before is left as it is.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from itertools import chain

from saywright.finding import Edit
from saywright.markup.lines import is_note, line_ranges, read_rule, read_setting
from saywright.markup.paragraphs import read_paragraph
from saywright.markup.reader import read, split_lines
from saywright.markup.settings import KEYS
from saywright.markup.tree import (
    Aside,
    Blank,
    Block,
    Breath,
    Cue,
    Direction,
    Note,
    Paragraph,
    Range,
    Rule,
    Script,
    Setting,
)

_BLANKS = re.compile(r"[ \t]+")
_ORDER = {key: place for place, key in enumerate(KEYS)}


def tidied(text: str) -> str:
    """`text` tidied; tidying it again changes nothing."""
    return "".join(_tidy_lines(text))


def tidying_edits(text: str) -> list[Edit]:
    """The edits that tidy `text`: its changed lines, each whole."""
    edits: list[Edit] = []
    for (start, end), new in zip(line_ranges(text), _tidy_lines(text), strict=True):
        if new != text[start:end]:
            edits.append(Edit(start, end, new))
    return edits


def _tidy_lines(text: str) -> list[str]:
    """The lines of `text`, tidied, as many as they were; as they were if they would not be read
    as before."""
    script = read(text)
    blocks = script.blocks
    opening = max((i for i, each in enumerate(blocks) if isinstance(each, Setting)), default=-1) + 1
    lines = [
        *_opening(blocks[:opening]),
        *chain.from_iterable(_block(each) for each in blocks[opening:]),
    ]
    return lines if _told(read("".join(lines))) == _told(script) else split_lines(text)


def _told(script: Script) -> tuple[object, ...]:
    """All that a script says: what it sets, its parts, and what is spoken."""
    parts = [(part.kind, part.label, part.settings) for part in script.parts]
    kinds = [type(block) for block in script.blocks if not isinstance(block, Setting | Note)]
    words = [block.plain.split() for block in script.blocks if isinstance(block, Paragraph)]
    return script.settings, parts, kinds, words


def _opening(blocks: Sequence[Block]) -> Iterator[str]:
    """The settings in the order of the table, each with the notes that stand before it.

    What comes before the first setting stays there. Where a line cannot be read, or the file
    begins with a byte-order mark or ends without a line end, all lines stay where they are.
    """
    first = next((i for i, block in enumerate(blocks) if isinstance(block, Setting)), len(blocks))
    for block in blocks[:first]:
        yield from _block(block)
    groups: list[list[Block]] = [[]]
    for block in blocks[first:]:
        groups[-1].append(block)
        if isinstance(block, Setting):
            groups.append([])
    groups.pop()
    for block in chain(*(sorted(groups, key=_place) if _may_move(blocks) else groups)):
        yield from _block(block)


def _may_move(blocks: Sequence[Block]) -> bool:
    ends = not blocks or _line_end(blocks[-1].text) != ""
    readable = not any(block.problems or block.text.startswith("\ufeff") for block in blocks)
    return ends and readable


def _place(group: Sequence[Block]) -> int:
    setting = group[-1]
    assert isinstance(setting, Setting)
    return _ORDER.get(setting.key or "", len(_ORDER))


def _block(block: Block) -> list[str]:
    if isinstance(block, Paragraph):
        return _paragraph(block)
    if isinstance(block, Aside):
        return [block.text]
    if isinstance(block, Blank | Note):
        return [_note(line) for line in split_lines(block.text)]
    if isinstance(block, Setting):
        return [_setting(block)]
    if isinstance(block, Rule):
        return [_rule(block)]
    return [_cue(block) if isinstance(block, Cue) else _one_line(block.text)]


def _line_end(line: str) -> str:
    return "\r\n" if line.endswith("\r\n") else "\n" if line.endswith("\n") else ""


def _body(line: str) -> str:
    """The line without its line end (a carriage return alone is none)."""
    return line[: len(line) - len(_line_end(line))]


def _one_line(line: str) -> str:
    """The line without blanks around it, and with single ones inside."""
    return _BLANKS.sub(" ", _body(line).strip(" \t")) + _line_end(line)


def _note(line: str) -> str:
    return _body(line).strip(" \t") + _line_end(line)


def _setting(block: Setting) -> str:
    setting = read_setting(block.text)
    if not setting or not block.key:
        return _one_line(block.text)
    head = block.text[: setting.key_range.start].lstrip(" \t")
    value = f" {setting.value}" if setting.value else ""
    return f"{head}{block.key}:{value}{_line_end(block.text)}"


def _rule(block: Rule) -> str:
    rule = read_rule(block.text)
    if not rule or rule.problems or block.problems:
        return _one_line(block.text)
    head = block.text[: block.text.index("-")].lstrip(" \t")
    kind = f" {rule.kind}" if rule.kind else ""
    label = f": {rule.label}" if rule.label else ""
    settings = "".join(f"; {s.key} {s.value}".rstrip() for s in rule.settings)
    return f"{head}----{kind}{label}{settings}{_line_end(block.text)}"


def _cue(block: Cue) -> str:
    name, _, direction = block.text.partition(":")
    head = name[: len(name) - len(name.lstrip())].strip(" \t")
    inner = _BLANKS.sub(" ", direction.strip()[1:-1].strip(" \t"))
    after = f" ({inner})" if direction.strip() else ""
    return f"{head}{block.speaker}:{after}{_line_end(block.text)}"


def _paragraph(block: Paragraph) -> list[str]:
    lines = split_lines(_with_tidy_marks(block))
    tidy = [_note(line) if is_note(line) else _one_line(line) for line in lines]
    return tidy if _reads_as(block, "".join(tidy)) else split_lines(block.text)


def _with_tidy_marks(block: Paragraph) -> str:
    """The paragraph with a blank on both sides of a breath between words, and none just inside a
    direction's brackets."""
    text = block.text
    edits = [edit for breath in block.breaths for edit in _around(text, breath)]
    for start, end, *_ in block.directions:
        edits += _inside(text, Range(start, end))
    for edit in sorted(edits, reverse=True):
        text = text[: edit.start] + edit.text + text[edit.end :]
    return text


def _around(text: str, breath: Breath) -> Iterator[Edit]:
    before, after = text[breath.start - 1 : breath.start], text[breath.end : breath.end + 1]
    if before.isalnum() and after.isspace():
        yield Edit(breath.start, breath.start, " ")
    elif after.isalnum() and before.isspace():
        yield Edit(breath.end, breath.end, " ")


def _inside(text: str, direction: Range) -> Iterator[Edit]:
    words = text[direction.start + 1 : direction.end - 1]
    lead = len(words) - len(words.lstrip(" \t"))
    tail = len(words.rstrip(" \t"))
    if lead and tail:
        yield Edit(direction.start + 1, direction.start + 1 + lead, "")
    if 0 < tail < len(words):
        yield Edit(direction.start + 1 + tail, direction.end - 1, "")


def _reads_as(block: Paragraph, text: str) -> bool:
    new = read_paragraph(text)
    return (
        all(
            _words(new, getattr(new, ranges)) == _words(block, getattr(block, ranges))
            for ranges in ("cuts", "keeps", "stresses")
        )
        and _silences(new) == _silences(block)
        and new.plain.split() == block.plain.split()
    )


def _words(paragraph: Paragraph, ranges: Iterable[Range]) -> list[str]:
    return [word for start, end in ranges for word in paragraph.plain[start:end].split()]


def _silences(paragraph: Paragraph) -> list[object]:
    """Each silence, with how many words come before it."""
    marks: list[Direction | Breath] = [*paragraph.directions, *paragraph.breaths]
    marks.sort(key=lambda mark: mark.start)
    return [
        (len(paragraph.plain[: paragraph.plain_of(mark.start)].split()), mark.silence)
        for mark in marks
    ]
