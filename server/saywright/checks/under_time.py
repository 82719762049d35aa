"""A piece that ends before its slot's lower end."""

from collections.abc import Iterator

from saywright.checks.check import Check, Page, View
from saywright.finding import Finding
from saywright.speech.slot import clock, told_between


def find(view: View) -> Iterator[Finding]:
    timeline, aim = view.timeline, view.aim
    if not aim or not timeline.words or timeline.seconds >= aim.slot.low_seconds:
        return
    short = told_between(timeline.seconds, aim.slot.low_seconds)
    message = (
        f"The piece runs {clock(timeline.seconds)} and its slot begins at "
        f"{clock(aim.slot.low_seconds)}: {short} short."
    )
    yield Finding("under-time", *view.heading, message)


CHECK = Check(
    "under-time",
    "hint",
    "a piece that ends before its slot begins",
    find,
    page=Page(
        why="A slot such as 60-90s asks for a minute at least.",
        example="slot: 60-90s\n\nI weigh the salt.",
        to_do="Restore a cut, gather another line from your drafts, or let a silence stand.",
    ),
)
