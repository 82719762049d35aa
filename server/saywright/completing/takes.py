"""Lines of takes: what stands after the time that was measured."""

import re
from collections.abc import Iterator
from itertools import islice

from saywright.analysis import Analysis
from saywright.completing.candidate import Candidate, Line
from saywright.markup.lines import LEAD
from saywright.markup.tree import Part
from saywright.markup.values import DURATION
from saywright.speech.calibration import USUAL_READER
from saywright.speech.piece_takes import same_name, take_readers
from saywright.speech.stretch import Stretch
from saywright.speech.timed_block import timed_block
from saywright.speech.voice import voice_of

_MEASURED = re.compile(rf"{LEAD}{DURATION}[ \t]+(?P<rest>\S{{0,20}})\Z", re.IGNORECASE)
_LONGEST_PIECE = 40_000  # code points; a longer one would take too long to time while one types


def after_time(line: Line, part: Part, analysis: Analysis, today: str) -> Iterator[Candidate]:
    """The estimate, the day and each reader, where the line holds no more than a time.

    `today` is a date as 2026-11-25.
    """
    measured = _MEASURED.match(line.before)
    if not measured or line.after.strip():
        return
    start = measured.start("rest")
    piece = _piece(part, analysis)
    seconds = _usual_seconds(piece, analysis) if piece else 0.0
    estimate = f"of {seconds:.1f}s {today}" if seconds else today
    for reader in _readers(analysis, piece, measured["rest"]) or [""]:
        text = f"{estimate} {reader}".rstrip()
        what = "what the usual reader takes, the day, who read" if seconds else "the day, who read"
        yield Candidate(text, text, start, line.cursor, "take", what)


def _piece(part: Part, analysis: Analysis) -> Part | None:
    """The piece that the part's takes are of, if it is one alone."""
    pieces = [
        each
        for each in analysis.parts
        if each.kind == "piece" and (not part.label or same_name(each.label, part.label))
    ]
    return pieces[0] if len(pieces) == 1 else None


def _usual_seconds(piece: Part, analysis: Analysis) -> float:
    """The piece from first sound to last, at the usual pace; 0 where nothing is spoken."""
    if piece.end - piece.start > _LONGEST_PIECE:
        return 0.0
    voice = voice_of(piece.settings, analysis.project, USUAL_READER)
    items = islice(analysis.blocks.items(piece.first_block), piece.end_block - piece.first_block)
    return sum((timed_block(item.block, voice).stretch for item in items), Stretch()).sound_seconds


def _readers(analysis: Analysis, piece: Part | None, begun: str) -> list[str]:
    """Those that are known, the piece's own first. What is `begun` is read as a reader's name."""
    pace = piece.settings.pace if piece else None
    names = [pace.reader] if pace and pace.reader else []
    names += [*analysis.project.readers, *sorted(take_readers(analysis.blocks) - {"", begun})]
    return list(dict.fromkeys(names))
