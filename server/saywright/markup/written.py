"""Where each setting of a script is written: in its opening block and on its rules."""

from collections.abc import Iterator
from typing import NamedTuple

from saywright.markup.lines import read_rule, read_setting
from saywright.markup.tree import Range, Rule, Script, Setting


class Written(NamedTuple):
    """A setting as written; `range` holds its value and counts from the file's start."""

    key: str
    value: str
    range: Range


def written_settings(script: Script) -> Iterator[Written]:
    """Every setting that was read, in the file's order."""
    for start, block in zip(script.starts, script.blocks, strict=True):
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
