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


Stays = tuple[int, int, int, int, int]
"""What a line is if it stays: ticks of sound and of the pause after it, points, its number among
`problem.Kept`, and its bits (`problem.bits_of`)."""


def stays_of(problem: Problem) -> list[list[Stays]]:
    """For each line what it may be if it stays."""
    found: list[list[Stays]] = []
    for line, bits in zip(problem.lines, bits_of(problem), strict=True):
        edge = line.edge if line.ends else 0
        own = [(line.sound, line.pause + edge, line.worth, 1, bits[0])]
        for number, (sound, worth, pause) in enumerate(line.trims, 2):
            own.append((sound, pause + edge, worth, number, bits[number - 1]))
        found.append(own)
    return found


def rows_of(problem: Problem, stays: Sequence[Sequence[Stays]]) -> list[Row]:
    pauses = [_pauses(line) for line in problem.lines]
    longest = longest_pause(problem)
    rows: list[Row] = []
    before: Line | None = None
    first = 0
    for index, (line, own) in enumerate(zip(problem.lines, stays, strict=True)):
        opens = before is None or before.ends
        first = index if opens else first
        marked = line.tail + line.after
        rows.append(
            Row(
                tuple(
                    [
                        (sound + (marked if marked > pause else pause), worth, bits)
                        for sound, pause, worth, _, bits in own
                    ]
                ),
                _more(before, pauses[index - 1], line) if before else line.lead,
                max(line.lead - longest, 0) if before else line.lead,
                max(line.left + line.after - longest, 0),
                _crossing(problem.lines, pauses, first, index) if line.ends else 0,
                line.enter if before else 0,
                before.leave if before else 0,
                # what is marked after it is no longer than its own pause, whatever it is
                before is None or opens or before.tail + before.after > min(pauses[index - 1]),
                line.ends,
                line.fixed,
            )
        )
        before = line
    return rows


def refund(last: Line) -> int:
    """What is charged, at most, for the pause after the last line if it stays, and never made."""
    edge = last.edge if last.ends else 0
    return max(max(_pauses(last)) + edge - last.tail - last.after, 0)


def longest_pause(problem: Problem) -> int:
    return max(
        (max(_pauses(line)) if line.trims else line.pause) + line.edge for line in problem.lines
    )


def _pauses(line: Line) -> list[int]:
    """What its punctuation may make after it, by what it may be."""
    return [line.pause, *(trim.pause for trim in line.trims)] if line.trims else [line.pause]


def _more(before: Line, pauses: Sequence[int], line: Line) -> int:
    """By how much `lead` makes the gap between two neighbours longer."""
    if not line.lead:
        return 0
    marked, edge = before.tail + before.after, before.edge if before.ends else 0
    return min(
        max(marked + line.lead, pause + edge) - max(marked, pause + edge) for pause in pauses
    )


def _crossing(lines: Sequence[Line], pauses: Sequence[Sequence[int]], first: int, last: int) -> int:
    """What the end of the paragraph from line `first` to line `last` adds at least to a pause that
    began before its last line, and that was longer then than what was marked."""
    least: int | None = None
    marked = 0
    for index in range(last, first, -1):
        marked += lines[index].left + lines[index].after
        before = lines[index - 1]
        after = before.tail + before.after
        for pause in pauses[index - 1]:
            if after <= pause:
                more = max(pause + before.edge - max(pause, after + marked), 0)
                least = more if least is None else min(least, more)
        if least == 0:
            break
    return least or 0
