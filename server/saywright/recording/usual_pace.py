"""A piece as the usual reader speaks it: what a take is measured against.

So a take tells a reader's pace by itself, whatever pace the script sets and whatever takes it had.
"""

from dataclasses import replace
from itertools import islice

from saywright.measured import Measured
from saywright.project import Project
from saywright.speech.timed_block import Extent, extent_of, timed_block
from saywright.speech.timeline import Timeline
from saywright.speech.voice import voice_of


def at_usual_pace(piece: Timeline, project: Project) -> Timeline:
    """The timeline of the same piece, by itself."""
    part = piece.part
    voice = replace(voice_of(part.settings, project), scale=1.0)
    blocks = islice(piece.blocks.items(part.first_block), part.end_block - part.first_block)
    timed = [timed_block(each.block, voice) for each in blocks]
    alone = replace(part, first_block=0, end_block=len(timed))
    return replace(piece, part=alone, blocks=Measured(extent_of, Extent(), timed))
