"""An edit to a script that leaves a check out where one of its findings stands."""

from collections.abc import Iterable, Iterator
from itertools import islice

from saywright.analysis import Analysis
from saywright.finding import Edit, Finding, Fix
from saywright.markup.lines import RuleSetting, read_rule
from saywright.markup.settings import RULE_KEYS, Settings
from saywright.markup.tree import Block, Part, Rule, Setting
from saywright.markup.written import written_settings

_KEY = "leave-out"


def leave_out(analysis: Analysis, finding: Finding) -> Fix | None:
    """Leaves the finding's check out in its part, or in the whole file where it is of no part.

    None where that would change nothing: what the project file does is told in every script.
    """
    if finding.check == "project-file":
        return None
    part = _part_at(analysis, finding.start)
    if part and part.has_rule:
        edit = _in_rule(analysis, part, finding.check)
        return Fix(f"Leave “{finding.check}” out in this part", (edit,)) if edit else None
    return Fix(f"Leave “{finding.check}” out in this file", (_in_opening(analysis, finding.check),))


def _part_at(analysis: Analysis, offset: int) -> Part | None:
    for part in reversed(analysis.parts):
        if part.start <= offset:
            return part
    return None


def _names(settings: Settings, check: str) -> str:
    return ", ".join(sorted({*settings.leave_out, check}))


def _in_rule(analysis: Analysis, part: Part, check: str) -> Edit | None:
    """Settings after a rule stand in the place of the file's, so those are repeated there."""
    rule = analysis.blocks[part.first_block].block
    assert isinstance(rule, Rule)
    value = _names(part.settings, check)
    for setting in reversed(list(written_settings([(part.start, rule)]))):
        if setting.key == _KEY:
            return Edit(*setting.range, value)
    body = rule.text.rstrip()
    end = part.start + len(body)
    edit = Edit(end, end, f"; {_KEY} {value}")
    after = read_rule(body + edit.text)
    return edit if after and _reads(after.settings, check) else None


def _reads(settings: Iterable[RuleSetting], check: str) -> bool:
    return any(each.key == _KEY and check in RULE_KEYS[_KEY].read(each.value) for each in settings)


def _in_opening(analysis: Analysis, check: str) -> Edit:
    lines = list(_opening_lines(analysis))
    for setting in reversed(list(written_settings(lines))):  # of two the last counts
        if setting.key == _KEY:
            return Edit(*setting.range, _names(analysis.settings, check))
    line = f"{_KEY}: {check}"
    line_end = "\r\n" if "\r\n" in analysis.text else "\n"
    for start, block in reversed(lines):
        if isinstance(block, Setting):
            end = start + len(block.text.rstrip("\r\n"))
            return Edit(end, end, f"{line_end}{line}")
    mark = int(analysis.text.startswith("\ufeff"))
    return Edit(mark, mark, f"{line}{line_end}{line_end}")


def _opening_lines(analysis: Analysis) -> Iterator[tuple[int, Block]]:
    start = 0
    for each in islice(analysis.blocks.items(), analysis.opening):
        yield start, each.block
        start += len(each.block.text)
