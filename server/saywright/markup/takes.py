"""A line of a `takes` part: one timed read-through."""

import re

from saywright.finding import Edit, Finding, Fix
from saywright.markup.lines import LEAD, lead_length
from saywright.markup.tree import Take
from saywright.markup.values import DURATION, NUMBER, read_duration

_TAKE = re.compile(
    rf"{LEAD}(?P<seconds>{DURATION})(?:\s+of\s+(?P<estimate>{DURATION}))?"
    r"(?:\s+(?P<date>[0-9]{4}-[0-9]{2}-[0-9]{2}))?(?:\s+(?P<reader>\S.*?))?\s*",
    re.IGNORECASE | re.DOTALL,
)
_BARE = re.compile(rf"{LEAD}(?P<number>{NUMBER})(?=\s|\Z)")


def read_take(line: str) -> Take:
    """`duration [of duration] [date] [reader]`, as in `64.2s of 58.9s 2026-11-25 Ana`."""
    take = _TAKE.fullmatch(line)
    if not take or read_duration(take["seconds"]) <= 0:
        return Take(line, (_unreadable(line),))
    estimate = take["estimate"]
    return Take(
        line,
        (),
        read_duration(take["seconds"]),
        read_duration(estimate) if estimate else None,
        take["date"],
        take["reader"],
    )


def _unreadable(line: str) -> Finding:
    start, end = lead_length(line), len(line.rstrip())
    fixes: tuple[Fix, ...] = ()
    if bare := _BARE.match(line):
        at = bare.end("number")
        fixes = (Fix(f"Write {bare['number']}s", (Edit(at, at, "s"),)),)
    message = (
        "This take cannot be read. Write the time it took, and if you like the estimate, "
        "the day and the reader: 64.2s of 58.9s 2026-11-25 Ana"
    )
    return Finding("take-line", start, end, message, fixes)
