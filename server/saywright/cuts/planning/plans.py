"""Plans that fit a piece into a time: what to cut, and why that."""

from collections.abc import Iterator
from typing import NamedTuple

from saywright.analysis import Analysis
from saywright.checks.check import View
from saywright.cuts.planning.different import different
from saywright.cuts.planning.material import Material, material_of
from saywright.cuts.planning.problem import TICKS_PER_SECOND, Kept, Problem
from saywright.cuts.planning.why import Choice, whys_of
from saywright.cuts.trimming import veiled
from saywright.finding import Edit

MOST_WORDS = 20_000
"""Of a piece that is planned for: more than two hours' talk, and most of a minute's work."""


class Cut(NamedTuple):
    """A sentence to cut, or a part of one where it is a `trim`: the stretches of the file to be
    marked, its words, and why it. `seconds`: by what the piece is shorter where nothing else goes,
    `silence_seconds` of which are silences that are marked there and go along."""

    places: tuple[tuple[int, int], ...]
    line: int
    trim: bool
    seconds: float
    silence_seconds: float
    text: str
    why: str


class Plan(NamedTuple):
    """`seconds` are those of the piece with the cuts made, by edits of marks only. `gap`: by
    what share another plan might be better, 0 where none is."""

    seconds: float
    cuts: tuple[Cut, ...]
    edits: tuple[Edit, ...]
    gap: float = 0.0


class Planned(NamedTuple):
    """What was found for a piece. `kept_seconds`: what it takes with all gone that can go, where
    even that is too long; the one plan is then that one, and `unmarkable` so many of the lines that
    stay are not kept, but cannot be marked, because of a mark left open nearby."""

    seconds: float
    aim_seconds: float
    plans: tuple[Plan, ...]
    kept_seconds: float | None = None
    unmarkable: int = 0

    @property
    def is_inside(self) -> bool:
        return self.seconds <= self.aim_seconds


def plan(analysis: Analysis, view: View, aim_seconds: float, count: int = 3) -> Planned:
    """Up to `count` plans, the best first, that bring a part of the script to `aim_seconds`.

    No kept line is cut. Each plan does not do a third or more of what any plan before it does.
    """
    seconds = view.timeline.seconds
    if seconds <= aim_seconds:
        return Planned(seconds, aim_seconds, ())
    material = material_of(analysis, view, aim_seconds)
    least = [int(line.fixed) for line in material.problem.lines]
    for index in material.unmarkable(least):
        least[index] = 1
    kept_seconds = material.piece.seconds_of(least)
    if kept_seconds > aim_seconds:
        (reasons,) = whys_of([_choice(material, least)])
        nearest = _plan(analysis, material, least, 0.0, reasons)
        lines = zip(material.piece.lines, least, strict=True)
        unmarkable = sum(bool(stays) and not line.sentence.kept for line, stays in lines)
        return Planned(seconds, aim_seconds, (nearest,), kept_seconds, unmarkable)
    found = list(different(material, count))
    why = whys_of([_choice(material, each.kept) for each in found])
    plans = tuple(
        _plan(analysis, material, each.kept, each.gap, reasons)
        for each, reasons in zip(found, why, strict=True)
    )
    return Planned(seconds, aim_seconds, plans)


def problem_of(analysis: Analysis, view: View, aim_seconds: float) -> Problem:
    """What the first plan of a part solves."""
    return material_of(analysis, view, aim_seconds).problem


def _choice(material: Material, kept: Kept) -> Choice:
    lines, language = material.piece.lines, material.language
    return Choice(material.problem, kept, lines, material.worth, material.references, language)


def _plan(
    analysis: Analysis, material: Material, kept: Kept, gap: float, reasons: dict[int, str]
) -> Plan:
    cuts: list[Cut] = []
    for index, stays in enumerate(kept):
        if not stays:
            cuts.append(_cut(analysis, material, index, reasons[index]))
        elif stays > 1:
            cuts += _trims(analysis, material, index, stays)
    return Plan(material.piece.seconds_of(kept), tuple(cuts), material.edits(kept), gap)


def _cut(analysis: Analysis, material: Material, index: int, reason: str) -> Cut:
    line = material.piece.lines[index]
    assert line.places
    places = tuple((start + line.at, end + line.at) for start, end in line.places.extents)
    silent = (line.silences.lead + line.silences.tail) / TICKS_PER_SECOND
    seconds = material.saved(index, 0)
    text, reason = veiled(line.text, analysis), veiled(reason, analysis)
    return Cut(places, index, False, seconds, silent, text, reason)


def _trims(analysis: Analysis, material: Material, index: int, stays: int) -> Iterator[Cut]:
    line = material.piece.lines[index]
    for part in line.trims[stays - 2].parts:
        alone = next(number for number, each in enumerate(line.trims, 2) if each.parts == (part,))
        place = (part.start + line.at, part.end + line.at)
        seconds = material.saved(index, alone)
        words = veiled(part.words, analysis)
        what = part.why.removesuffix(f" “{part.words}”")
        yield Cut((place,), index, True, seconds, 0.0, words, f"{what}; the line stands without")
