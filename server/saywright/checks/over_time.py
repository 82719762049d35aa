"""A piece that runs past its slot, said on the sentence that crosses it."""

from collections.abc import Iterator

from saywright.checks.check import Check, Page, View
from saywright.cuts import marking
from saywright.finding import Finding, Fix
from saywright.speech.slot import clock, slot_clock, told_between, told_seconds
from saywright.speech.timeline import Placed, Timeline


def find(view: View) -> Iterator[Finding]:
    timeline, aim = view.timeline, view.aim
    if not aim or timeline.seconds <= aim.seconds or not timeline.words:
        return
    start, end, fixes = _crossing(timeline, aim.seconds) or (*view.heading, ())
    over = told_between(aim.seconds, timeline.seconds)
    left_free = f" less {told_seconds(aim.margin_seconds)}" if aim.margin_seconds else ""
    message = (
        f"The piece runs past its slot here: {clock(timeline.seconds)} in a slot of "
        f"{slot_clock(aim.slot)}{left_free}, {over} too long."
    )
    yield Finding("over-time", start, end, message, fixes)


def _crossing(timeline: Timeline, seconds: float) -> tuple[int, int, tuple[Fix, ...]] | None:
    """The sentence with which `seconds` are passed: its range, and what can be done to it."""
    crossing = timeline.crossing(seconds)
    if crossing is None:
        return None
    placed, index = crossing
    sentence = placed.timed.sentences[index]
    start, end = placed.start + sentence.start, placed.start + sentence.end
    return start, end, _fixes(placed, index, marking.around(timeline.part, placed))


def _fixes(placed: Placed, index: int, around: marking.Around) -> tuple[Fix, ...]:
    paragraph, sentence = placed.timed.paragraph, placed.timed.sentences[index]
    fixes = (
        marking.cut(paragraph, sentence),
        marking.keep(paragraph, sentence),
        marking.delete(paragraph, sentence, around),
    )
    return tuple(fix.shifted(placed.start) for fix in fixes if fix)


CHECK = Check(
    "over-time",
    "warning",
    "a piece that runs past its slot",
    find,
    page=Page(
        why="Whoever runs over is stopped, or loses points, or the next one's time. The mark "
        "stands on the sentence with which the slot, less its margin, is passed.",
        example="slot: 2s\n\nI weigh the salt. I never cheat. I go home.",
        to_do="Cut a line, here or anywhere before: it stays in the file between ~~ and ~~, and "
        "is restored with one action. Lines that must stay are marked as kept.",
    ),
)
