"""`saywright cut`: plans that bring a piece into its time; writes one only when told to."""

import difflib
import json
import re
import shutil
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from saywright.analysis import Analysis, analyse
from saywright.checks.check import View
from saywright.commands.cut_table import told_plans
from saywright.cuts.planning.plans import MOST_WORDS, Plan, Planned, plan
from saywright.files import (
    NotTextError,
    UnreadableFileError,
    nearest_project,
    read_script,
    replace_script,
)
from saywright.finding import applied
from saywright.markup.lines import LEAD
from saywright.markup.values import DURATION
from saywright.speech.piece_names import NoSuchPieceError, listed, piece_called
from saywright.speech.piece_takes import takes_of_any_length
from saywright.speech.slot import clock, told_between

_COULD_NOT_RUN = 2
_PACE_SECONDS = 0.05
_TIME = re.compile(rf"{LEAD}({DURATION})", re.IGNORECASE)


class Told(NamedTuple):
    """What the command line says. `to_seconds`: a time in the place of the slot. `apply`: the
    plan to write; `diff`: the plan to show as a diff; None where not asked for."""

    script: Path
    part: str | None
    to_seconds: float | None
    plans: int
    apply: int | None
    diff: int | None
    json: bool


class NoPlanError(Exception):
    """Why no plan can be made; the message is for the writer."""


def run(told: Told) -> int:
    """Show plans, or write one; returns the exit code."""
    try:
        analysis = analyse(read_script(told.script), nearest_project(told.script)[0])
        view = _chosen(analysis, told)
        aim = _aim_seconds(view, told)
        _check_length(view)
        planned = plan(analysis, view, aim, told.plans)
        _say(told, analysis, view, planned)
    except (UnreadableFileError, NotTextError, NoPlanError, NoSuchPieceError) as error:
        print(f"{told.script}: {error}", file=sys.stderr)
        return _COULD_NOT_RUN
    fits = planned.is_inside or (planned.plans and planned.kept_seconds is None)
    return int(not fits)


def _chosen(analysis: Analysis, told: Told) -> View:
    """The piece that is named, or the only one, or the only one that is too long."""
    everyone = list(analysis.pieces)
    labels = [view.timeline.part.label for view in everyone]
    if told.part is not None:
        everyone = [everyone[piece_called(told.part, labels)]]
    pieces = [view for view in everyone if view.timeline.stretch.sounds]
    if not pieces and told.part is not None:
        raise NoPlanError("Nothing is spoken in this piece.")
    if not pieces:
        raise NoPlanError("There is no piece in this script in which something is spoken.")
    if len(pieces) == 1:
        return pieces[0]
    too_long = [view for view in pieces if _is_too_long(view, told.to_seconds)]
    if len(too_long) > 1:
        names = listed(labels, [everyone.index(view) for view in too_long])
        raise NoPlanError(f"Several pieces run too long. Name one with --part: {names}")
    return (too_long or pieces)[0]


def _is_too_long(view: View, to_seconds: float | None) -> bool:
    aim = view.aim.seconds if to_seconds is None and view.aim else to_seconds
    return aim is not None and view.timeline.seconds > aim


def _aim_seconds(view: View, told: Told) -> float:
    if told.to_seconds is not None:
        return told.to_seconds
    if view.aim is None:
        raise NoPlanError(
            "It has no slot. Say how long it may be with --to 60s, or write slot: 60s in it."
        )
    return view.aim.seconds


def _check_length(view: View) -> None:
    if view.timeline.words > MOST_WORDS:
        raise NoPlanError(
            f"It has {view.timeline.words:,} words, too many to plan for. Plans are made for up to "
            f"{MOST_WORDS:,}; divide it with lines of ---- first."
        )


def _say(told: Told, analysis: Analysis, view: View, planned: Planned) -> None:
    asked = told.apply is not None or told.diff is not None
    if asked and not told.json and not any(plan.cuts for plan in planned.plans):
        why = "It is inside its time already" if planned.is_inside else "Every line is kept"
        print(f"{told.script}: {why}, at {clock(planned.seconds)}. There is nothing to cut.")
        return
    if told.apply is not None:
        _apply(told, analysis, view, planned, told.apply)
    if told.json:
        print(json.dumps(_as_json(view, planned, told.plans), ensure_ascii=False, indent=2))
    elif told.diff is not None:
        _print_diff(told.script, analysis.text, _numbered(told, planned, told.diff))
    elif told.apply is None:
        columns = shutil.get_terminal_size().columns
        print("\n".join(told_plans(told.script.name, analysis, view, planned, columns)))


def _numbered(told: Told, planned: Planned, number: int) -> Plan:
    if number > len(planned.plans):
        there = {0: "is no plan", 1: "is one plan only"}.get(
            len(planned.plans), f"are only {len(planned.plans)} plans"
        )
        more = f" --plans {number} asks for more." if len(planned.plans) == told.plans else ""
        raise NoPlanError(f"There is no plan {number}: there {there}.{more}")
    return planned.plans[number - 1]


def _apply(told: Told, analysis: Analysis, view: View, planned: Planned, number: int) -> None:
    chosen = _numbered(told, planned, number)
    if read_script(told.script) != analysis.text:
        raise NoPlanError("It was changed meanwhile. Try again.")
    text = applied(analysis.text, chosen.edits)
    replace_script(told.script, text)
    if told.json:
        return
    print(f"{told.script}: plan {number} is marked; it runs {clock(chosen.seconds)} now.")
    if planned.kept_seconds is not None:
        over = told_between(planned.aim_seconds, planned.kept_seconds)
        print(f"That is still {over} over.")
    _warn_of_takes(analysis, view, text, chosen)


def _warn_of_takes(analysis: Analysis, view: View, text: str, chosen: Plan) -> None:
    """A take that does not say of how long a piece it is counts as one of the shorter piece."""
    after = analyse(text, analysis.project).views[analysis.views.index(view)].timeline
    if abs(after.seconds - chosen.seconds) <= _PACE_SECONDS:
        return
    part, blocks = view.timeline.part, analysis.blocks
    rules = blocks.sum_between(0, part.first_block).rules + part.has_rule
    before = takes_of_any_length(blocks, analysis.settings, analysis.project, rules)
    if not before.takes:
        return
    times = [clock(take.seconds or 0.0) for take in before.takes]
    written = _TIME.match(before.takes[0].text)
    assert written
    length = f"of {before.usual_seconds:.1f}s"
    several = len(times) > 1
    takes, was, its, it_counts = (
        ("takes", "were", "their times", "they count as ones")
        if several
        else ("take", "was", "its time", "it counts as one")
    )
    print(
        f"The {takes} of {_listed_times(times)} {was} of the longer piece. Write {length} after "
        f"{its}, as {written[1]} {length}. Until then {it_counts} of the shorter piece, which is "
        f"taken to run {clock(after.seconds)}, not {clock(chosen.seconds)}."
    )


def _listed_times(times: Sequence[str]) -> str:
    *others, last = times
    return f"{', '.join(others)} and {last}" if others else last


def _print_diff(script: Path, before: str, chosen: Plan) -> None:
    after = applied(before, chosen.edits)
    lines = difflib.unified_diff(
        _lines(before), _lines(after), str(script), str(script), lineterm="\n"
    )
    for line in lines:
        print(line if line.endswith("\n") else f"{line}\n\\ No newline at end of file\n", end="")
    if before != after:
        sys.stdout.flush()


def _lines(text: str) -> list[str]:
    """Lines as diffs know them: they end with LF alone."""
    lines = text.split("\n")
    return [f"{line}\n" for line in lines[:-1]] + ([lines[-1]] if lines[-1] else [])


def _as_json(view: View, planned: Planned, most: int) -> dict[str, object]:
    return {
        "part": view.timeline.part.label,
        "slot_seconds": view.aim.slot.high_seconds if view.aim else None,
        "aim_seconds": round(planned.aim_seconds, 3),
        "seconds": round(planned.seconds, 3),
        "plans": [
            {
                "seconds": round(each.seconds, 3),
                "cuts": [
                    {"start": start, "end": end, "why": cut.why}
                    for cut in each.cuts
                    for start, end in cut.places
                ],
            }
            for each in planned.plans[:most]
        ],
    }
