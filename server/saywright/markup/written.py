"""Where each setting of a script is written: in the lines that open it and on its rules."""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from saywright.markup.lines import read_rule, read_setting
from saywright.markup.tree import Block, Range, Rule, Setting


class Written(NamedTuple):
    """A setting as written; `range` holds its value and counts from the file's start."""

    key: str
    value: str
    range: Range


def written_settings(lines: Iterable[tuple[int, Block]]) -> Iterator[Written]:
    """Every setting that was read in `lines`, blocks with their file offsets."""
    for start, block in lines:
        if isinstance(block, Setting) and block.key:
            line = read_setting(block.text)
            if line:
                first, last = line.value_range
                yield Written(block.key, block.value, Range(start + first, start + last))
        elif isinstance(block, Rule) and block.settings and (rule := read_rule(block.text)):
            for setting in rule.settings:
                last = start + setting.range.end
                where = Range(last - len(setting.value), last)
                yield Written(setting.key, setting.value, where)
