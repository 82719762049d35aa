"""Plans for a cut side by side, as text that needs no colour and fits a narrow terminal."""

import re
import textwrap
from collections.abc import Iterator, Sequence
from dataclasses import replace

from saywright.checks.check import View
from saywright.cuts.planning.piece import Piece
from saywright.cuts.planning.plans import Cut, Plan, Planned
from saywright.cuts.planning.problem import TICKS_PER_SECOND
from saywright.speech.slot import clock, told_between, told_seconds

_NARROWEST, _WIDEST = 40, 80
_COLUMN = 5
_FIGURE = re.compile(r"(?<=\d) s\b")  # a figure and its unit stay on one line


def told_plans(name: str, view: View, piece: Piece, planned: Planned, columns: int) -> list[str]:
    """The lines to print about the plans for a piece, `columns` wide at most."""
    width = min(max(columns, _NARROWEST), _WIDEST)
    label = view.timeline.part.label
    title = f"{name}, {label}" if label else name
    lines = _wrapped(f"{title}: {_standing(planned)}", width)
    if planned.plans:
        lines += ["", *_table(piece, planned.plans, width)]
        lines += ["", *_wrapped("--apply N marks the cuts of a plan, --plan N shows them.", width)]
    return lines


def _standing(planned: Planned) -> str:
    aim = told_seconds(planned.aim_seconds)
    if planned.is_inside:
        return f"it runs {clock(planned.seconds)} and so is inside {aim}. There is nothing to cut."
    standing = f"it runs {clock(planned.seconds)} and should be inside {aim}."
    if planned.kept_seconds is not None:
        over = told_between(planned.aim_seconds, planned.kept_seconds)
        return (
            f"{standing} The kept lines alone run {clock(planned.kept_seconds)}, {over} too long. "
            + ("This plan comes nearest." if planned.plans[0].cuts else "Nothing else can go.")
        )
    return standing if planned.plans else f"{standing} No line of it is short enough."


def _table(piece: Piece, plans: Sequence[Plan], width: int) -> Iterator[str]:
    """A line for each sentence that a plan cuts, a column for each plan, and under it why."""
    indent = _COLUMN * len(plans) + 2
    yield _row("plan", [str(number) for number in range(1, len(plans) + 1)])
    yield _row("cuts", [str(len(each.cuts)) for each in plans])
    yield _row("runs", [clock(each.seconds) for each in plans])
    by_line = {cut.line: cut for each in reversed(plans) for cut in each.cuts}
    for line, cut in sorted(by_line.items()):
        cuts = [any(each.line == line for each in plan.cuts) for plan in plans]
        yield ""
        yield _row(_shortened(cut, width - indent), ["x" if each else "·" for each in cuts])
        yield from _wrapped(f"{cut.why} ({_lost(piece, cut.line)})", width, " " * (indent + 2))


def _lost(piece: Piece, index: int) -> str:
    """The seconds by which the piece is shorter where this line alone goes, and how much silence
    is marked that goes with it. Only the lines next to it matter, so only those are reckoned."""
    first = max(index - 1, 0)
    near = replace(piece, lines=piece.lines[first : index + 2])
    lost = near.seconds - near.seconds_of([first + at != index for at in range(len(near.lines))])
    silences = piece.lines[index].silences
    silent = (silences.lead + silences.tail) / TICKS_PER_SECOND
    if round(silent, 1) <= 0:
        return f"{lost:.1f} s"
    return f"{lost:.1f} s with {silent:.1f} s of silence"


def _row(text: str, values: Sequence[str]) -> str:
    return "".join(f"{value:>{_COLUMN}}" for value in values) + f"  {text}"


def _shortened(cut: Cut, width: int) -> str:
    return textwrap.shorten(cut.text, max(width, 12), placeholder=" …")


def _wrapped(text: str, width: int, indent: str = "") -> list[str]:
    lines = textwrap.wrap(
        _FIGURE.sub("\N{NO-BREAK SPACE}s", text),
        width,
        initial_indent=indent,
        subsequent_indent=indent,
        break_on_hyphens=False,
    )
    return [line.replace("\N{NO-BREAK SPACE}", " ") for line in lines]
