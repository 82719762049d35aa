"""`saywright gather`: brings the kept lines of a script's drafts into its piece."""

import difflib
import sys
from pathlib import Path
from typing import NamedTuple

from saywright.analysis import Analysis, analyse
from saywright.drafting.gathering import Gathered, gather
from saywright.drafting.kept_lines import kept_lines
from saywright.files import (
    NotTextError,
    UnreadableFileError,
    nearest_project,
    read_script,
    replace_script,
)
from saywright.finding import applied
from saywright.markup.tree import Part
from saywright.speech.piece_names import NoSuchPieceError, listed, piece_called
from saywright.speech.slot import clock, told_seconds

_COULD_NOT_RUN = 2


class Told(NamedTuple):
    """What the command line says. `flow`: in an order that flows, not the file's. `diff`: show
    what would be written, and write nothing."""

    script: Path
    part: str | None
    flow: bool
    diff: bool


class NothingToGatherError(Exception):
    """Why nothing can be gathered; the message is for the writer."""


def run(told: Told) -> int:
    """Gather, or show what would be; returns the exit code."""
    try:
        analysis = analyse(read_script(told.script), nearest_project(told.script)[0])
        piece = _piece(analysis, told.part)
        gathered = _gathered(analysis, piece, flow=told.flow)
        if gathered is None:
            print(f"{told.script}: Every kept line is in {_named(piece)} already.")
        elif told.diff:
            _print_diff(told.script, analysis.text, gathered)
        else:
            _write(told.script, analysis, gathered)
    except (UnreadableFileError, NotTextError, NothingToGatherError) as error:
        print(f"{told.script}: {error}", file=sys.stderr)
        return _COULD_NOT_RUN
    return 0


def _gathered(analysis: Analysis, piece: Part | None, *, flow: bool) -> Gathered | None:
    if next(kept_lines(analysis), None) is None:
        raise NothingToGatherError(
            "No line is kept in its drafts. Put __ before and after a line to keep it."
        )
    return gather(analysis, piece, flow=flow)


def _piece(analysis: Analysis, label: str | None) -> Part | None:
    """The piece that is named, or the only one; None where there is none yet."""
    pieces = _pieces(analysis)
    labels = [part.label for part in pieces]
    if label is not None:
        try:
            return pieces[piece_called(label, labels)]
        except NoSuchPieceError as error:
            raise NothingToGatherError(str(error)) from error
    if len(pieces) > 1:
        raise NothingToGatherError(
            f"There are several pieces. Name one with --part: {listed(labels)}"
        )
    return pieces[0] if pieces else None


def _pieces(analysis: Analysis) -> list[Part]:
    return [part for part in analysis.parts if part.kind == "piece"]


def _named(piece: Part | None) -> str:
    return f"“{piece.label}”" if piece and piece.label else "the piece"


def _write(script: Path, analysis: Analysis, gathered: Gathered) -> None:
    if read_script(script) != analysis.text:
        raise NothingToGatherError("It was changed meanwhile. Try again.")
    text = applied(analysis.text, gathered.fix.edits)
    replace_script(script, text)
    count = len(gathered.lines)
    lines = "1 kept line is" if count == 1 else f"{count} kept lines are"
    where = _named(gathered.part) if gathered.part else "a new piece"
    print(f"{script}: {lines} in {where} now. {_runs(analyse(text, analysis.project), gathered)}")


def _runs(after: Analysis, gathered: Gathered) -> str:
    """How long the piece is with them, and how long it may be."""
    number = -1  # a new piece stands last
    if gathered.part:
        number = sum(each.start <= gathered.part.start for each in _pieces(after)) - 1
    view = list(after.pieces)[number]
    slot = f" of {told_seconds(view.aim.slot.high_seconds)}" if view.aim else ""
    return f"It runs {clock(view.timeline.seconds)}{slot}."


def _print_diff(script: Path, before: str, gathered: Gathered) -> None:
    after = applied(before, gathered.fix.edits)
    for line in difflib.unified_diff(_lines(before), _lines(after), str(script), str(script)):
        print(line if line.endswith("\n") else f"{line}\n\\ No newline at end of file\n", end="")


def _lines(text: str) -> list[str]:
    """Lines as diffs know them: they end with LF alone."""
    lines = text.split("\n")
    return [f"{line}\n" for line in lines[:-1]] + ([lines[-1]] if lines[-1] else [])
