"""A new part of a script: its rule, its label, and the edit that puts it where it goes."""

from collections.abc import Iterator
from itertools import islice

from saywright.analysis import Analysis
from saywright.finding import Edit
from saywright.markup.lines import RuleLine, read_rule
from saywright.markup.tree import Block, Part, Rule
from saywright.speech.piece_takes import same_name


def line_end_of(analysis: Analysis) -> str:
    """The line end of the script's first line that has one."""
    for each in analysis.blocks.items():
        line, end, _ = each.block.text.partition("\n")
        if end:
            return "\r\n" if line.endswith("\r") else "\n"
    return "\n"


def free_label(analysis: Analysis, wanted: str) -> str:
    """`wanted`, with a number after it where another piece or its takes are called so."""
    taken = [part.label for part in analysis.parts if part.kind in ("piece", "takes")]
    label, number = wanted, 1
    while any(same_name(label, each) for each in taken):
        number += 1
        label = f"{wanted} {number}"
    return label


def blocks_of(analysis: Analysis, part: Part) -> Iterator[Block]:
    """A part's blocks, without its rule."""
    first = part.first_block + part.has_rule
    for each in islice(analysis.blocks.items(first), part.end_block - first):
        yield each.block


def rule_of(analysis: Analysis, part: Part) -> Rule | None:
    rule = analysis.blocks[part.first_block].block if part.has_rule else None
    return rule if isinstance(rule, Rule) else None


def rule_line(kind: str, label: str, settings: str, line_end: str) -> str:
    """A rule; `settings` are written as they stand after its first `;`."""
    return (
        f"---- {kind}{f': {label}' if label else ''}{f'; {settings}' if settings else ''}{line_end}"
    )


def written_rule(analysis: Analysis, part: Part) -> tuple[str, RuleLine | None]:
    """The part's rule as its line, without the line end, and as it is read."""
    rule = rule_of(analysis, part)
    line = rule.text.rstrip() if rule else ""
    return line, read_rule(line) if line else None


def own_settings(analysis: Analysis, part: Part) -> str:
    """What the part's rule sets, as it is written there."""
    line, read = written_rule(analysis, part)
    return line[read.settings[0].range.start :] if read and read.settings else ""


def after_part(analysis: Analysis, part: Part, text: str) -> Edit:
    """Puts `text`, the whole lines of new parts, after a part, with a blank line on both sides."""
    line_end = line_end_of(analysis)
    before = _gap_before(analysis, part, line_end)
    follows = part.end < analysis.blocks.sum.length
    return Edit(part.end, part.end, f"{before}{text}{line_end if follows else ''}")


def after_all(analysis: Analysis, text: str) -> Edit:
    """Puts `text`, the whole lines of new parts, at the script's end."""
    line_end = line_end_of(analysis)
    end = analysis.blocks.sum.length
    last = analysis.parts[-1] if analysis.parts else None
    before = _gap_before(analysis, last, line_end) if last else _after_settings(analysis, line_end)
    return Edit(end, end, before + text)


def _gap_before(analysis: Analysis, part: Part, line_end: str) -> str:
    """What is missing between a part's last line and a rule after it, to leave a line blank."""
    last = analysis.blocks[part.end_block - 1].block.text
    if not last.endswith("\n"):
        return line_end * 2 if last.strip() else line_end
    return "" if not last.strip() else line_end


def _after_settings(analysis: Analysis, line_end: str) -> str:
    """The same for a script that has only settings, or nothing."""
    if not analysis.blocks:
        return ""
    last = analysis.blocks[len(analysis.blocks) - 1].block.text
    return "" if last in ("", "\ufeff") else line_end if last.endswith("\n") else line_end * 2


def follows_bare_rule(analysis: Analysis, part: Part) -> bool:
    """Whether the part after this one takes its kind from what stands before its rule."""
    if part.end_block >= len(analysis.blocks):
        return False
    read = read_rule(analysis.blocks[part.end_block].block.text)
    return read is not None and read.kind is None
