"""A copy of a piece for another slot, and the trail from a part to the one that it came from.

The trail is a note at the new part's head, `# from “the short one”`, which is never spoken and
names no unit of action, since a blank line parts it from the speech.
"""

import re

from saywright.analysis import Analysis
from saywright.cuts.new_parts import (
    after_part,
    blocks_of,
    free_label,
    line_end_of,
    own_settings,
    rule_line,
    written_rule,
)
from saywright.finding import Edit, Fix, applied
from saywright.markup.reader import split_lines
from saywright.markup.tree import Blank, Note, Part
from saywright.markup.values import Unreadable, read_duration, read_slot
from saywright.speech.piece_takes import same_name
from saywright.speech.slot import clock

USUAL_SLOTS = ("30s", "60s", "90s", "2min", "3min")
"""The lengths that calls for monologues mostly ask for (common practice, no source)."""

_TRAIL = re.compile(
    r"\s*#\s+from\s+(?:“(?P<label>.*)”|(?:the piece|piece (?P<number>[0-9]{1,6})))", re.S
)
_SLOT_AT_END = re.compile(r",\s*(?P<slot>[^,]*)\Z")
_BYTE_ORDER_MARK = "\ufeff"


def slots_to_offer(analysis: Analysis) -> tuple[str, ...]:
    """The usual slots that no piece of the script has."""
    there = {
        part.settings.slot.high_seconds
        for part in analysis.parts
        if part.kind == "piece" and part.settings.slot
    }
    return tuple(slot for slot in USUAL_SLOTS if read_duration(slot) not in there)


def slots_near(analysis: Analysis, seconds: float) -> tuple[str, ...]:
    """Of those the longest that is shorter than `seconds`, and the shortest that is longer."""
    offered = slots_to_offer(analysis)
    shorter = [slot for slot in offered if read_duration(slot) < seconds]
    longer = [slot for slot in offered if read_duration(slot) >= seconds]
    return (*shorter[-1:], *longer[:1])


def make_version(analysis: Analysis, part: Part, slot: str) -> Fix | None:
    """Copies a piece, its marks as they are, to a new part after it, with `slot` as its slot.

    None where that is no slot, or the part is no piece.
    """
    if part.kind != "piece" or not _is_slot(slot):
        return None
    line_end = line_end_of(analysis)
    label = free_label(analysis, _with_slot(part.label, slot))
    rule = rule_line("piece", label, _settings_with_slot(analysis, part, slot), line_end)
    text = rule + trail(analysis, part, line_end) + body_of(analysis, part, line_end)
    return Fix(version_title(slot), (after_part(analysis, part, text),))


def version_title(slot: str) -> str:
    return f"Make a version of {clock(read_slot(slot).high_seconds)}"


def body_of(analysis: Analysis, part: Part, line_end: str) -> str:
    """A part's text as that of a new part: without its rule, its own trail, and the blank lines
    around it."""
    texts = [block.text for block in blocks_of(analysis, part)]
    if has_trail(analysis, part):
        texts = texts[1:]
    return whole_lines(part, "".join(texts), line_end)


def whole_lines(part: Part, text: str, line_end: str) -> str:
    """`text`, which was `part`'s, without blank lines around it, its last line ended; "" where
    nothing is in it."""
    # a byte-order mark stands at a file's start alone
    lines = split_lines(text if part.start else text.removeprefix(_BYTE_ORDER_MARK))
    while lines and not lines[0].strip():
        lines.pop(0)
    while lines and not lines[-1].strip():
        lines.pop()
    text = "".join(lines)
    return text if not text or text.endswith("\n") else text + line_end


def trail(analysis: Analysis, part: Part, line_end: str, more: str = "") -> str:
    """The note that tells which part a new one is made from, and a blank line."""
    return f"# from {_told(analysis, part)}{more}{line_end}{line_end}"


def origin_of(analysis: Analysis, part: Part) -> Part | None:
    """The piece that `part` was made from, by the note at its head; None where none tells."""
    for block in blocks_of(analysis, part):
        if isinstance(block, Note) and (found := _TRAIL.match(block.text)):
            pieces = [each for each in analysis.parts if each.kind == "piece"]
            named = [each for each in pieces if _is_meant(found, pieces, each)]
            return next((each for each in named if each is not part), None)
        if not isinstance(block, Blank):
            return None
    return None


def versions_of(analysis: Analysis, part: Part) -> tuple[Part, ...]:
    """The parts that were made from `part`, in the file's order."""
    return tuple(
        each
        for each in analysis.parts
        if each.kind == "piece" and each is not part and origin_of(analysis, each) is part
    )


def _is_meant(found: re.Match[str], pieces: list[Part], piece: Part) -> bool:
    if found["label"] is not None:
        return same_name(found["label"], piece.label)
    return pieces.index(piece) == int(found["number"] or 1) - 1


def has_trail(analysis: Analysis, part: Part) -> bool:
    first = next(blocks_of(analysis, part), None)
    return isinstance(first, Note) and _TRAIL.match(first.text) is not None


def _told(analysis: Analysis, part: Part) -> str:
    pieces = [each for each in analysis.parts if each.kind == "piece"]
    if part.label and sum(same_name(part.label, each.label) for each in pieces) == 1:
        return f"“{part.label}”"
    return f"piece {pieces.index(part) + 1}" if len(pieces) > 1 else "the piece"


def _is_slot(text: str) -> bool:
    try:
        read_slot(text)
    except Unreadable:
        return False
    return True


def _with_slot(label: str, slot: str) -> str:
    """The label with the slot after it, in the place of one that is there already."""
    if _is_slot(label):
        return slot
    end = _SLOT_AT_END.search(label)
    head = label[: end.start()] if end and _is_slot(end["slot"]) else label
    return f"{head}, {slot}" if head else slot


def _settings_with_slot(analysis: Analysis, part: Part, slot: str) -> str:
    settings = own_settings(analysis, part)
    line, read = written_rule(analysis, part)
    start = len(line) - len(settings)
    edits = [
        Edit(
            setting.range.end - len(setting.value) - start,
            setting.range.end - start,
            slot if setting.value else f" {slot}",
        )
        for setting in (read.settings if read else ())
        if setting.key == "slot"
    ]
    if edits:
        return applied(settings, edits)
    return f"{settings}; slot {slot}" if settings else f"slot {slot}"
