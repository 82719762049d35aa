"""What is told of a take's line: what it is read as."""

from collections.abc import Iterator

from saywright.explaining.explained import Explained
from saywright.markup.lines import lead_length
from saywright.markup.tree import Take
from saywright.speech.slot import clock

_OTHER_TEXT = 2.0


def about_take(block: Take) -> Explained | None:
    """Its range is the block's; None where it cannot be read, which a finding tells."""
    if block.seconds is None:
        return None
    start = lead_length(block.text)
    who = f" by {block.reader}" if block.reader else ""
    when = f" on {block.date}" if block.date else ""
    what = f"A take of {_told(block.seconds)}{who}{when}"
    return Explained(start, len(block.text.rstrip()), what, tuple(_against(block, block.seconds)))


def _against(block: Take, seconds: float) -> Iterator[str]:
    estimate = block.estimated_seconds
    if estimate is None:
        yield "It is held against the piece as it stands now."
        return
    yield f"The usual reader would have taken {_told(estimate)} for the piece as it was then."
    pace = seconds / estimate if estimate else _OTHER_TEXT
    if not 1 / _OTHER_TEXT < pace < _OTHER_TEXT:
        yield "That is so far from it that it is taken to be of another text."
        return
    percent = round(abs(pace - 1) * 100)
    yield f"{percent}% {'slower' if pace > 1 else 'faster'}." if percent else "As fast."


def _told(seconds: float) -> str:
    minutes = f" ({clock(seconds)})" if seconds >= 60 else ""
    return f"{round(seconds, 1):g} s{minutes}"
