"""A clean version of a piece: what is cut taken out, as a new part; the old one stays."""

from collections.abc import Iterator, Sequence

from saywright.analysis import Analysis
from saywright.checks.check import View
from saywright.cuts.new_parts import (
    after_part,
    blocks_of,
    follows_bare_rule,
    free_label,
    line_end_of,
    own_settings,
    rule_line,
)
from saywright.cuts.versions import has_trail, trail, whole_lines
from saywright.cuts.without_cuts import without_cuts
from saywright.finding import Fix
from saywright.markup.reader import read
from saywright.markup.tree import Blank, Block, Cue, Note, Paragraph, Part
from saywright.speech.piece_takes import same_name
from saywright.speech.voice import voice_of

TITLE = "Take the cuts out into a new part"
_CLEAN = "clean"


def take_out(analysis: Analysis, view: View) -> Fix | None:
    """Writes a piece without what is cut into a new part after it. None where nothing is cut."""
    part = view.timeline.part
    if part.kind != "piece" or not any(map(_has_cut, blocks_of(analysis, part))):
        return None
    line_end = line_end_of(analysis)
    label = free_label(analysis, f"{part.label}, {_CLEAN}" if part.label else _CLEAN)
    rule = rule_line("piece", label, own_settings(analysis, part), line_end)
    clean = "".join(_clean_blocks(analysis, view))
    some_stay = any(map(_has_cut, read(rule + clean).blocks))
    head = trail(analysis, part, line_end, f", without {'most of ' if some_stay else ''}its cuts")
    piece = rule + head + whole_lines(part, clean, line_end)
    takes = _takes_of(analysis, part, label, line_end)
    # a rule that names no kind takes that of the part before it
    parts = (*takes, piece) if follows_bare_rule(analysis, part) else (piece, *takes)
    return Fix(TITLE, (after_part(analysis, part, line_end.join(parts)),))


def _has_cut(block: Block) -> bool:
    return isinstance(block, Paragraph) and any(span.kind == "cut" for span in block.spans)


def _takes_of(analysis: Analysis, part: Part, label: str, line_end: str) -> list[str]:
    """The takes that count for this piece by its label, for the clean one too: it takes as long."""
    return [
        rule_line("takes", label, own_settings(analysis, each), line_end)
        + whole_lines(each, "".join(block.text for block in blocks_of(analysis, each)), line_end)
        for each in analysis.parts
        if each.kind == "takes" and part.label and same_name(each.label, part.label)
    ]


def _clean_blocks(analysis: Analysis, view: View) -> Iterator[str]:
    """The texts of a part's blocks without what is cut, and without what then stands alone."""
    part = view.timeline.part
    voice = voice_of(part.settings, analysis.project, view.timeline.calibration)
    blocks = list(blocks_of(analysis, part))
    texts = [
        without_cuts(block, part.settings, voice) if isinstance(block, Paragraph) else block.text
        for block in blocks
    ]
    if blocks and has_trail(analysis, part):
        texts[0] = ""
    gone = [isinstance(b, Paragraph) and not text for b, text in zip(blocks, texts, strict=True)]
    for index, block in enumerate(blocks):
        if (
            isinstance(block, Cue)
            and not block.direction
            and _leads_to_nothing(blocks, gone, index)
        ):
            gone[index] = True
    was_gone = False
    for block, text, is_gone in zip(blocks, texts, gone, strict=True):
        if not is_gone and not (was_gone and isinstance(block, Blank)):
            yield text
        was_gone = is_gone


def _leads_to_nothing(blocks: Sequence[Block], gone: Sequence[bool], index: int) -> bool:
    """Whether all that is spoken after a cue, up to the next one, was taken out."""
    was_spoken = False
    for block, is_gone in zip(blocks[index + 1 :], gone[index + 1 :], strict=True):
        if isinstance(block, Cue):
            break
        if isinstance(block, Paragraph | Note) and not is_gone:
            return False
        was_spoken = was_spoken or is_gone
    return was_spoken
