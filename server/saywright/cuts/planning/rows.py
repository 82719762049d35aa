"""What each line costs in ticks, at least, for a pass that knows only what its neighbours do."""

from collections.abc import Sequence
from typing import NamedTuple

from saywright.cuts.planning.problem import Line, Problem, bits_of


class Row(NamedTuple):
    """What one line costs in ticks, at least: `versions`, what it may be if it stays, by ticks
    with the gap after it, points and bits; `next_to` more if the line before stays, `apart` more
    if it goes; `gone` if it goes itself, and `crossing` more if its paragraph ends with it and has
    a line that stayed. `enter` and `leave_before` in points; `apart_after`: so that a cut that
    begins with it gains nothing at its paragraph's end."""

    versions: tuple[tuple[int, int, int], ...]
    next_to: int
    apart: int
    gone: int
    crossing: int
    enter: int
    leave_before: int
    apart_after: bool
    ends: bool
    fixed: bool


def rows_of(problem: Problem) -> list[Row]:
    longest = longest_pause(problem)
    bits = bits_of(problem)
    rows: list[Row] = []
    before: Line | None = None
    first = 0
    for index, line in enumerate(problem.lines):
        opens = before is None or before.ends
        first = index if opens else first
        rows.append(
            Row(
                versions=tuple(
                    (_stays(line, each.sound, each.pause), each.worth, own)
                    for each, own in zip(line.versions, bits[index], strict=True)
                ),
                next_to=_more(before, line),
                apart=max(line.lead - longest, 0) if before else line.lead,
                gone=max(line.left + line.after - longest, 0),
                crossing=_crossing(problem.lines[first : index + 1]) if line.ends else 0,
                enter=line.enter if before else 0,
                leave_before=before.leave if before else 0,
                apart_after=before is None or opens or not _is_within_pause(before),
                ends=line.ends,
                fixed=line.fixed,
            )
        )
        before = line
    return rows


def _stays(line: Line, sound: int, pause: int) -> int:
    """The ticks of a line with the gap after it."""
    return sound + max(line.tail + line.after, pause + (line.edge if line.ends else 0))


def refund(last: Line) -> int:
    """What is charged, at most, for the pause after the last line if it stays, and never made."""
    edge = last.edge if last.ends else 0
    return max(max(_pauses(last)) + edge - last.tail - last.after, 0)


def longest_pause(problem: Problem) -> int:
    return max(max(_pauses(line)) + line.edge for line in problem.lines)


def _pauses(line: Line) -> list[int]:
    """What its punctuation may make after it, by what it may be."""
    return [line.pause, *(trim.pause for trim in line.trims)] if line.trims else [line.pause]


def _is_within_pause(line: Line) -> bool:
    """Whether what is marked after it is no longer than its own pause, whatever it is."""
    return line.tail + line.after <= min(_pauses(line))


def _more(before: Line | None, line: Line) -> int:
    """By how much `lead` makes the gap between two neighbours longer."""
    if before is None:
        return line.lead
    if not line.lead:
        return 0
    marked, edge = before.tail + before.after, before.edge if before.ends else 0
    return min(
        max(marked + line.lead, pause + edge) - max(marked, pause + edge)
        for pause in _pauses(before)
    )


def _crossing(paragraph: Sequence[Line]) -> int:
    """What a paragraph's end adds at least to a pause that began before its last line, and that
    was longer then than what was marked."""
    least: int | None = None
    marked = 0
    for before, line in zip(reversed(paragraph[:-1]), reversed(paragraph), strict=False):
        marked += line.left + line.after
        after = before.tail + before.after
        for pause in _pauses(before):
            if after <= pause:
                more = max(pause + before.edge - max(pause, after + marked), 0)
                least = more if least is None else min(least, more)
    return least or 0
