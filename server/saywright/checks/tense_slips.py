"""Whether lines in another tense are a slip, a new section, or as they should be."""

from collections.abc import Iterator, Mapping, Sequence
from functools import lru_cache
from importlib.resources import files
from typing import NamedTuple

from saywright.checks.tense_clash import Clash, clash
from saywright.checks.tense_runs import (
    MOST_LINES,
    Bearing,
    Run,
    Told,
    bearing,
    has_time_cue,
    holds_to_this_day,
    runs,
)
from saywright.checks.tense_signs import is_told_as_it_happens, signs

# Above these weights lines are told of. Both come from the untouched texts of the benchmark: past
# pieces, in which lines in the present slip, get a fifth of the false alarms that are allowed.
LEAST_WEIGHT: Mapping[Bearing, float] = {"present": 0.45, "past": 1.72}
LEAST_SURE = 0.8  # of a line that is told of: seven in ten wrong tenses are less sure than this
LESS_WHERE_DECLARED = 0.7
SECTION_AFTER = 4  # lines of one tense


class ClashAt(NamedTuple):
    """Two tenses in the line at `line`."""

    line: int
    clash: Clash


class Slip(NamedTuple):
    run: Run


class Section(NamedTuple):
    run: Run


def drifts(
    lines: Sequence[Told], first: int, end: int, declared: Bearing | None = None
) -> Iterator[ClashAt | Slip | Section]:
    """All that is to be told of the lines from `first` to before `end`; `declared` is the tense
    that the piece says it keeps to."""
    clashing = {
        at: found
        for at in range(first, end)
        if (found := clash(lines[at])) and (found.shared or kept_tense(lines, at, declared))
    }
    yield from (ClashAt(*each) for each in clashing.items())
    for run in runs(lines):
        if first <= run.first < end and clashing.keys().isdisjoint(run.lines):
            if is_slip(lines, run, declared):
                yield Slip(run)
            elif is_new_section(lines, run, declared):
                yield Section(run)


def kept_tense(lines: Sequence[Told], at: int, declared: Bearing | None) -> Bearing | None:
    """The tense that the lines around the one at `at` are told in, where nearly all are in one."""
    near = [*lines[max(at - 4, 0) : at], *lines[at + 1 : at + 5]]
    tenses = [bearing(line) for line in near]
    past, present = tenses.count("past"), tenses.count("present")
    if declared or max(past, present) < 3:
        return declared
    if past >= 2 * present:
        return "past"
    return "present" if present >= 2 * past else None


def is_slip(lines: Sequence[Told], run: Run, declared: Bearing | None) -> bool:
    """Whether the lines of `run` fell out of the tense of those around them, or of the piece."""
    if len(run.lines) > MOST_LINES or run.tense == declared:
        return False
    if not (run.before and run.after) or not all(_is_sure(lines[at]) for at in run.lines):
        return False
    if any(holds_to_this_day(lines[at]) for at in run.lines):
        return False
    if run.tense == "past" and has_time_cue(lines, run.first):
        return False
    least = LEAST_WEIGHT[run.tense] - (LESS_WHERE_DECLARED if declared else 0)
    return weight(lines, run) >= least or is_told_as_it_happens(lines, run)


def _is_sure(line: Told) -> bool:
    return line.facts is not None and line.facts.sure >= LEAST_SURE


def is_new_section(lines: Sequence[Told], run: Run, declared: Bearing | None) -> bool:
    """Whether a piece that is to stay in one tense leaves it for long, and nothing shows it."""
    if declared is None or run.tense == declared or len(run.lines) <= MOST_LINES:
        return False
    marked = lines[run.first].opens or has_time_cue(lines, run.first)
    return len(run.before) >= SECTION_AFTER and not marked


def weight(lines: Sequence[Told], run: Run) -> float:
    """How much speaks for a slip; 0 is as likely as not among texts of which half were changed."""
    weights = _weights()[run.tense]
    return weights["every run"] + sum(weights.get(sign, 0.0) for sign in signs(lines, run))


@lru_cache(maxsize=1)
def _weights() -> Mapping[Bearing, Mapping[str, float]]:
    """Of each sign, for lines in the present and for lines in the past."""
    text = files(__package__).joinpath("tense_weights.txt").read_text(encoding="utf-8")
    present: dict[str, float] = {}
    past: dict[str, float] = {}
    for line in text.splitlines():
        if not line.startswith("#"):
            of_present, of_past, sign = line.split(maxsplit=2)
            present[sign], past[sign] = float(of_present), float(of_past)
    return {"present": present, "past": past}
