"""How long a piece runs, said at its start."""

from collections.abc import Iterator

from saywright.checks.check import Check, Page, View
from saywright.finding import Finding
from saywright.speech.slot import clock, slot_clock
from saywright.speech.timeline import Timeline
from saywright.speech.told_range import told_range


def find(view: View) -> Iterator[Finding]:
    timeline = view.timeline
    if not timeline.words:
        return
    time = clock(timeline.seconds)
    if view.aim:
        time += f" of {slot_clock(view.aim.slot)}"
    time += told_range(timeline)
    if view.aim and view.aim.margin_seconds:
        time += f", aiming at {clock(view.aim.seconds)}"
    words = "1 word" if timeline.words == 1 else f"{timeline.words} words"
    message = f"{time}. {words}{_pace(timeline)}."
    yield Finding("running-time", *view.heading, message)


def _pace(timeline: Timeline) -> str:
    """The pace that was asked for, or else the words a minute that come of it."""
    pace = timeline.part.settings.pace
    if pace and pace.reader:
        return f" as {pace.reader} reads"
    if pace and pace.words_per_minute:
        return f" at {pace.words_per_minute:g} wpm"
    if pace and pace.syllables_per_second:
        return f" at {pace.syllables_per_second:g} syl/s"
    if not timeline.seconds:
        return ""
    return f", {round(timeline.words * 60 / timeline.seconds)} a minute with the silences"


CHECK = Check(
    "running-time",
    "hint",
    "how long a piece runs",
    find,
    page=Page(
        why="It is no fault: it is the time, said once at the start of each piece, with the range "
        "that nine readings in ten fall into, and how many words there are.",
        example="I weigh the salt.",
        to_do="Nothing. Time yourself and write the takes down, and the range gets narrower.",
    ),
)
