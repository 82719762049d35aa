"""How long a piece runs, said at its start."""

from collections.abc import Iterator

from saywright.checks.check import Check, View
from saywright.finding import Finding
from saywright.speech.slot import clock, slot_clock
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
    pace = round(timeline.words * 60 / timeline.seconds) if timeline.seconds else 0
    message = f"{time}. {words}, {pace} a minute with the silences."
    yield Finding("running-time", *view.heading, message)


CHECK = Check("running-time", "hint", "how long a piece runs", find)
