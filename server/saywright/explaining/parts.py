"""What is told of a part: its time, and how its slot stands to a slow and to a fast reading."""

from collections.abc import Iterator

from saywright.analysis import Analysis
from saywright.checks.check import View
from saywright.explaining.explained import counted
from saywright.markup.settings import Goal
from saywright.markup.tree import Part
from saywright.speech.piece_takes import same_name
from saywright.speech.slot import Aim, clock, slot_clock, told_between
from saywright.speech.timeline import Timeline
from saywright.speech.told_range import told_range


def part_name(part: Part) -> str:
    return f"{part.kind}: {part.label}" if part.label else part.kind


def about_part(analysis: Analysis, part: Part) -> Iterator[str]:
    """What is told where the part's rule stands, a line each."""
    view = next((each for each in analysis.views if each.timeline.part == part), None)
    if view:
        yield from about_time(view)
        yield from _about_goal(part.settings.goal)
    elif part.kind == "takes":
        named = f"the piece “{part.label}”" if part.label else "every piece"
        yield f"Timed read-throughs of {named}, one a line."
        if part.label and not any(
            same_name(each.timeline.part.label, part.label) for each in analysis.pieces
        ):
            yield "There is no piece of that name, so they count for none."
    else:
        yield "For yourself: nothing here is spoken, timed or checked."


def about_time(view: View) -> Iterator[str]:
    """A spoken part's time, with its range, beside its slot."""
    timeline, aim = view.timeline, view.aim
    if not timeline.words:
        silence = f", {clock(timeline.seconds)} of silence" if timeline.seconds else ""
        yield f"No word is spoken yet{silence}."
        return
    of_slot = f" of {slot_clock(aim.slot)}" if aim else ""
    aiming = f", aiming at {clock(aim.seconds)}" if aim and aim.margin_seconds else ""
    yield f"{clock(timeline.seconds)}{of_slot}{told_range(timeline)}{aiming}."
    yield f"{counted(timeline.words, 'word')}, {counted(timeline.syllables, 'syllable')}."
    if aim:
        yield from _against(timeline, aim)


def told_in_short(view: View) -> str:
    """A spoken part's time, with its range, and how its slot stands to it, in one line."""
    time, *more = about_time(view)
    return " ".join((time, *more[1:]))


def _against(timeline: Timeline, aim: Aim) -> Iterator[str]:
    if timeline.seconds > aim.seconds:
        yield f"{told_between(aim.seconds, timeline.seconds)} too long.".capitalize()
    elif timeline.seconds < aim.slot.low_seconds:
        yield f"{told_between(timeline.seconds, aim.slot.low_seconds)} too short.".capitalize()
    if slow := slow_reading(timeline, aim):
        yield slow
    if fast := fast_reading(timeline, aim):
        yield fast


def slow_reading(timeline: Timeline, aim: Aim) -> str | None:
    """That a slow reading runs over a slot that the usual one fits, or None where it does not."""
    slot, high = aim.slot, timeline.range_seconds[1]
    if timeline.seconds > aim.seconds:
        return None
    if _told_later(high, slot.high_seconds):
        return f"A slow reading may run over: up to {clock(high)} in a slot of {slot_clock(slot)}."
    if aim.margin_seconds and _told_later(high, aim.seconds):
        left = clock(aim.seconds)
        return f"A slow reading may use up the margin: up to {clock(high)} where {left} is the aim."
    return None


def fast_reading(timeline: Timeline, aim: Aim) -> str | None:
    """That a fast reading ends before a slot begins that the usual one fits, or None."""
    slot, low = aim.slot, timeline.range_seconds[0]
    if timeline.seconds < slot.low_seconds or not _told_later(slot.low_seconds, low):
        return None
    return f"A fast reading may end early: at {clock(low)} in a slot of {slot_clock(slot)}."


def _told_later(one: float, other: float) -> bool:
    """Whether one time is later than another as they are told, in whole seconds."""
    return int(one + 0.5) > int(other + 0.5)


def _about_goal(goal: Goal) -> Iterator[str]:
    if goal.timer_seconds is not None:
        yield f"To be written in {clock(goal.timer_seconds)}, without stopping."
    if goal.count is not None:
        yield f"To be {counted(goal.count, 'item')}, one a line."
    if goal.alphabet:
        yield "Each sentence is to start with the alphabet's next letter."
