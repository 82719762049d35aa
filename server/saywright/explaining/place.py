"""What is told of a place in a script."""

from saywright.analysis import Analysis
from saywright.explaining.explained import Explained
from saywright.explaining.marks import about_direction, about_mark, about_note
from saywright.explaining.parts import about_part, about_time, part_name
from saywright.explaining.settings import about_setting, setting_in_rule
from saywright.explaining.speech import about_speech
from saywright.explaining.takes import about_take
from saywright.markup.tree import Block, Cue, Note, Paragraph, Part, Rule, Setting, Take
from saywright.speech.voice import voice_of


def explained_at(analysis: Analysis, offset: int) -> Explained | None:
    """What stands at the file's `offset`, or None where there is nothing to tell."""
    found = analysis.blocks.find(lambda sum: sum.length > offset)
    if not found:
        return None
    start = found.before.length
    about = _about(analysis, found.index, found.item.block, offset - start)
    return about.shifted(start) if about else None


def _about(analysis: Analysis, index: int, block: Block, local: int) -> Explained | None:
    """What stands at offset `local` of a block; its range counts from the block's start."""
    about = None
    match block:
        case Setting():
            about = _about_setting(analysis, block, local)
        case Rule():
            about = _about_rule(analysis, index, block, local)
        case Take():
            about = about_take(block)
        case Note():
            about = about_note(block.text, local)
        case Cue():
            about = _about_cue(analysis, index, block, local)
        case Paragraph():
            about = _about_paragraph(analysis, index, block, local)
    return about


def _about_setting(analysis: Analysis, block: Setting, local: int) -> Explained | None:
    about = about_setting(block, analysis.project, local)
    if about and block.key == "slot":
        times = [
            f"{part_name(view.timeline.part)}: {line}"
            for view in analysis.pieces
            for line in list(about_time(view))[:1]
        ]
        about = about._replace(lines=(*about.lines, *times))
    return about


def _about_rule(analysis: Analysis, index: int, block: Rule, local: int) -> Explained | None:
    if setting := setting_in_rule(block, local, analysis.project):
        return setting
    part = next((part for part in analysis.parts if part.first_block == index), None)
    if part is None:
        return None
    end = len(block.text.rstrip())
    start = end - len(block.text.strip())
    return Explained(start, end, part_name(part), tuple(about_part(analysis, part)))


def _about_cue(analysis: Analysis, index: int, block: Cue, local: int) -> Explained | None:
    direction = block.direction
    part = next((part for part in analysis.parts if _holds(part, index)), None)
    if direction and part and direction.start <= local < direction.end:
        return about_direction(direction, voice_of(part.settings, analysis.project))
    end = len(block.text.rstrip())
    start = end - len(block.text.strip())
    return Explained(start, end, f"{block.speaker} speaks from here on")


def _about_paragraph(
    analysis: Analysis, index: int, block: Paragraph, local: int
) -> Explained | None:
    view = next((view for view in analysis.views if _holds(view.timeline.part, index)), None)
    if view is None:
        return None
    timeline = view.timeline
    voice = voice_of(timeline.part.settings, analysis.project, timeline.calibration)
    if mark := about_mark(block, local, voice):
        return mark
    start = analysis.blocks.sum_between(0, index).length
    placed = next(each for each in timeline.paragraphs(start, start) if each.start == start)
    return about_speech(timeline, placed, local, voice)


def _holds(part: Part, index: int) -> bool:
    return part.first_block <= index < part.end_block
