"""An analysis and an edit → the next analysis, at a cost that does not grow with the file.

Only the blocks that the edit touches are read, timed and checked again, and those after them
for as long as their context is another than it was: the part's kind, who speaks, how fast.
Whatever the edits, the result is that of `analyse` on the final text.
"""

from itertools import islice

from saywright.analysis import Analysis, analyse, settings_block, spoken_blocks
from saywright.finding import Edit
from saywright.markup.lines import is_blank, is_note
from saywright.markup.reader import (
    BlockReader,
    Context,
    context_after,
    has_opening,
    read_opening,
    split_lines,
)
from saywright.markup.settings import Settings
from saywright.markup.tree import Blank, Note, Paragraph, Rule
from saywright.passages import Script, checked_again
from saywright.project import Project
from saywright.speech.piece_takes import calibrations
from saywright.speech.timed_block import Blocks
from saywright.speech.voice import voice_of


def edited(old: Analysis, edit: Edit) -> Analysis:
    """The analysis after `edit`, whose offsets are those of the text before it."""
    new = _edited(old, edit)
    if new is None or not _keeps_pace(old, new):
        return analyse(_changed(old.text, edit, 0), old.project)
    return new


def _keeps_pace(old: Analysis, new: Analysis) -> bool:
    """Whether all takes come to the same, and for the same parts."""
    if not old.calibrations and not new.calibrations:
        return True
    return old.calibrations == new.calibrations and old.blocks.sum.rules == new.blocks.sum.rules


def _changed(text: str, edit: Edit, start: int) -> str:
    """`text`, which stands at file offset `start`, with `edit` made."""
    return text[: edit.start - start] + edit.text + text[edit.end - start :]


def _edited(old: Analysis, edit: Edit) -> Analysis | None:
    """None where the settings that open the file may have changed for what comes after them."""
    first, end = _touched(old, edit)
    if first < old.opening:
        return _edited_opening(old, edit)
    if not old.opening and _decides_opening(old, edit, first, end):
        return None
    return _reread(old, edit, first, end)


def _touched(old: Analysis, edit: Edit) -> tuple[int, int]:
    """The indices from the first block to read again to after the last.

    What is typed at a block's start may belong to the block before it, so that is one of them.
    """
    at_start = old.blocks.find(lambda sum: sum.length > edit.start)
    at_end = old.blocks.find(lambda sum: sum.length > edit.end)
    first = at_start.index if at_start else len(old.blocks) - 1
    return max(first - 1, 0), at_end.index + 1 if at_end else len(old.blocks)


def _text_between(old: Analysis, start: int, end: int) -> str:
    return "".join(each.block.text for each in islice(old.blocks.items(start), end - start))


def _edited_opening(old: Analysis, edit: Edit) -> Analysis | None:
    if edit.end >= old.blocks.sum_between(0, old.opening).length:
        return None
    text = _changed(_text_between(old, 0, old.opening), edit, 0)
    lines = split_lines(text)
    opening, settings = read_opening(lines)
    if len(opening) != len(lines) or _speech_of(settings, old.project) != _speech_of(
        old.settings, old.project
    ):
        return None
    items = [settings_block(block) for block in opening]
    blocks = old.blocks.spliced(0, old.opening, items)
    return _analysis(old, settings, len(opening), blocks)


def _analysis(old: Analysis, settings: Settings, opening: int, blocks: Blocks) -> Analysis:
    found = calibrations(blocks, settings, old.project)
    return Analysis(old.project, settings, opening, blocks, found)


def _speech_of(settings: Settings, project: Project) -> tuple[object, ...]:
    """All that reading, timing and checking a block takes from its settings."""
    voice = voice_of(settings, project)
    return settings.speakers, voice, settings.to, settings.tense, settings.person


def _decides_opening(old: Analysis, edit: Edit, first: int, end: int) -> bool:
    """Whether, in a file that opens with no settings, it may do so after the edit."""
    before = islice(old.blocks.items(), first)
    if not all(isinstance(each.block, Blank | Note) for each in before):
        return False
    text = _changed(_text_between(old, 0, end), edit, 0)
    lines = split_lines(text)
    undecided = all(is_blank(line) or is_note(line) for line in lines)
    cut_short = end < len(old.blocks) and not text.endswith("\n")
    return undecided or cut_short or has_opening(lines)


def _reread(old: Analysis, edit: Edit, first: int, end: int) -> Analysis:
    start = old.blocks.sum_between(0, first).length
    text = _changed(_text_between(old, first, end), edit, start)
    reader = BlockReader(old.settings, _context_at(old, first))
    while True:
        text = _read_whole_lines(reader, text, is_last=end == len(old.blocks))
        if end == len(old.blocks) or (not text and _in_step(reader, old, end)):
            break
        text += old.blocks[end].block.text
        end += 1
    reader.end()
    rules = old.blocks.sum_between(0, first).rules
    items = list(spoken_blocks(reader.blocks, old.project, old.calibrations, rules))
    blocks = old.blocks.spliced(first, end, items)
    script = Script(old.settings, old.opening, old.project)
    blocks = checked_again(blocks, first, first + len(items), script)
    return _analysis(old, old.settings, old.opening, blocks)


def _read_whole_lines(reader: BlockReader, text: str, *, is_last: bool) -> str:
    """Reads `text`; returns its last line unread if that goes on in the next block."""
    lines = split_lines(text)
    rest = "" if is_last or text.endswith("\n") or not lines else lines.pop()
    for line in lines:
        reader.read(line)
    return rest


def _in_step(reader: BlockReader, old: Analysis, index: int) -> bool:
    """Whether the old blocks from `index` on would be read as they were."""
    if reader.is_gathering and isinstance(old.blocks[index].block, Paragraph | Note):
        return False
    new, before = reader.context, _context_at(old, index)
    return new.kind == before.kind and _speech_of(new.settings, old.project) == _speech_of(
        before.settings, old.project
    )


def _context_at(old: Analysis, index: int) -> Context:
    """The context in which the block at `index` was read, unless it is a rule itself."""
    rules = old.blocks.sum_between(0, index).rules
    found = old.blocks.find(lambda sum: sum.rules >= rules) if rules else None
    if not found:
        return Context("piece", old.settings)
    assert isinstance(found.item.block, Rule)
    return context_after(found.item.block, old.settings)
