"""Plans that fit a piece into a time: which sentences to cut, and why those."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby
from typing import NamedTuple

from saywright.analysis import Analysis
from saywright.checks.check import View
from saywright.cuts.marking import Places, cut_together
from saywright.cuts.planning.bonds import leanings
from saywright.cuts.planning.piece import Piece, SpokenLine
from saywright.cuts.planning.problem import TICKS_PER_SECOND, Line, Problem, ticks
from saywright.cuts.planning.reading import piece_of
from saywright.cuts.planning.relaxation import Prices
from saywright.cuts.planning.solver import EXACT_LINES, QUICK, solve
from saywright.cuts.planning.value import POINTS, Worth, worths
from saywright.cuts.planning.why import Choice, why
from saywright.finding import Edit
from saywright.speech.voice import language_of, voice_of

_CLOSE = 0.95
_DIFFERENT = 3  # of what another plan cuts, one line in so many stays
_TRIES = 6
_EDGE_STEP = 1024  # ticks: about a millisecond
_SHORTFALL = 20.0  # mean worth of a second, for each second that a plan is too short


_Widths = Sequence[int | None] | None


class Cut(NamedTuple):
    """A sentence to cut: the stretches of the file to be marked, what it takes, and why."""

    places: tuple[tuple[int, int], ...]
    line: int
    seconds: float
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
    even that is too long; the one plan is then that one."""

    seconds: float
    aim_seconds: float
    plans: tuple[Plan, ...]
    kept_seconds: float | None = None

    @property
    def is_inside(self) -> bool:
        return self.seconds <= self.aim_seconds


@dataclass(frozen=True)
class _Material:
    """A piece with all that plans are made from."""

    piece: Piece
    worth: Sequence[Worth]
    problem: Problem
    language: str
    aim_seconds: float


def plan(analysis: Analysis, view: View, aim_seconds: float, count: int = 3) -> Planned:
    """Up to `count` plans, the best first, that bring a part of the script to `aim_seconds`.

    No kept line is cut. Each plan leaves in a third or more of what any plan before it cuts.
    """
    seconds = view.timeline.seconds
    if seconds <= aim_seconds:
        return Planned(seconds, aim_seconds, ())
    material = _material(analysis, view, aim_seconds)
    piece = material.piece
    fixed = [line.fixed for line in material.problem.lines]
    unmarkable = _unmarkable(piece, fixed)
    fixed = [stays or index in unmarkable for index, stays in enumerate(fixed)]
    least = piece.seconds_of(fixed)
    if least > aim_seconds:
        return Planned(seconds, aim_seconds, tuple(_plan(material, fixed, 0.0)), least)
    return Planned(seconds, aim_seconds, tuple(_different(material, count)))


def problem_of(analysis: Analysis, view: View, aim_seconds: float) -> Problem:
    """What the first plan of a part solves."""
    return _material(analysis, view, aim_seconds).problem


def _material(analysis: Analysis, view: View, aim_seconds: float) -> _Material:
    settings = view.timeline.part.settings
    voice = voice_of(settings, analysis.project, view.timeline.calibration)
    piece = piece_of(view.timeline, voice)
    language = language_of(settings, analysis.project)
    findings = [each.finding for each in analysis.reported]
    worth = worths(piece.lines, findings, language)
    leaning = leanings(piece.lines, worth, language)
    lines = tuple(
        _line(piece, index, worth[index].points, leaning.enter[index], leaning.leave[index])
        for index in range(len(piece.lines))
    )
    problem = Problem(lines, int(aim_seconds * TICKS_PER_SECOND), piece.before, leaning.bonds)
    return _Material(piece, worth, problem, language, aim_seconds)


def _line(piece: Piece, index: int, points: int, enter: int, leave: int) -> Line:
    line = piece.lines[index]
    if line.ends:
        pause = line.stop
    elif line.pause is not None:
        pause = line.pause
    else:
        pause, _ = piece.pause_between(index, index + 1)
    edge = 0 if line.ends else max(line.stop - pause, 0)
    silences = line.silences
    return Line(
        sound=line.sound + piece.drawn,
        worth=points,
        pause=pause,
        edge=-(-edge // _EDGE_STEP) * _EDGE_STEP,
        lead=silences.lead,
        tail=silences.tail,
        left=silences.left,
        after=silences.after,
        enter=enter,
        leave=leave,
        fixed=line.places is None,
        ends=line.ends,
    )


def _different(material: _Material, count: int) -> Iterator[Plan]:
    earlier: list[frozenset[int]] = []
    prices: Prices | None = None
    for _ in range(count):
        found = _unlike(material, earlier, prices)
        if found is None:
            return
        kept, gap, prices = found
        earlier.append(frozenset(index for index, stays in enumerate(kept) if not stays))
        yield from _plan(material, kept, gap)


def _unlike(
    material: _Material, earlier: Sequence[frozenset[int]], prices: Prices | None
) -> tuple[tuple[bool, ...], float, Prices] | None:
    """The best plan that differs enough from `earlier`: of the problem in which what those cut
    is worth more, by as little as it takes. One that ends close to the aim, if there is one."""
    if not earlier:
        return _closest(material, material.problem, prices, None)
    problem = material.problem
    mean = sum(line.worth for line in problem.lines) / len(problem.lines)
    widths = QUICK if len(problem.lines) <= EXACT_LINES else None
    for search in (_closest, _fitting):
        more = mean / 3
        for _ in range(_TRIES):
            found = search(material, _dearer(problem, earlier, round(more)), prices, widths)
            if found is None:
                return None
            if all(_differs(found[0], cut) for cut in earlier):
                return found
            more *= 2
    return None


def _differs(kept: Sequence[bool], cut: frozenset[int]) -> bool:
    return _DIFFERENT * sum(kept[index] for index in cut) >= len(cut)


def _dearer(problem: Problem, earlier: Sequence[frozenset[int]], points: int) -> Problem:
    """The problem where each line is worth `points` more for each plan that cuts it."""
    points = round(points / POINTS) * POINTS
    lines = tuple(
        line._replace(worth=line.worth + points * sum(index in cut for cut in earlier))
        for index, line in enumerate(problem.lines)
    )
    return replace(problem, lines=lines)


def _closest(
    material: _Material, problem: Problem, prices: Prices | None, widths: _Widths
) -> tuple[tuple[bool, ...], float, Prices] | None:
    """The best plan by the exact time, and close below it where that can be."""
    found = _fitting(material, problem, prices, widths)
    if found is None or material.piece.seconds_of(found[0]) >= _CLOSE * material.aim_seconds:
        return found
    total = sum(line.worth for line in problem.lines)
    sound = sum(line.sound for line in problem.lines)
    floor = ticks(_CLOSE * material.aim_seconds)
    fuller = replace(problem, floor=floor, shortfall=_SHORTFALL * total / sound)
    return _fitting(material, fuller, found[2], widths) or found


def _fitting(
    material: _Material, problem: Problem, prices: Prices | None, widths: _Widths
) -> tuple[tuple[bool, ...], float, Prices] | None:
    """The best plan that fits and can be marked.

    Where a pause depends on what follows, the problem holds what it mostly is: if the plan turns
    out too long, it is tried again with so much less time. Where the marks of a cut would not be
    read, as those of a sentence without a blank after it, that line is tried as one that stays.
    """
    for _ in range(_TRIES):
        found = solve(problem, prices, widths)
        if found is None or not any(found.kept):
            return None
        unmarkable = _unmarkable(material.piece, found.kept)
        over = material.piece.seconds_of(found.kept) - material.aim_seconds
        if not unmarkable and over <= 0:
            return found.kept, found.gap, found.prices
        if over > 0:
            problem = replace(problem, limit=problem.limit - max(ticks(over), 1))
        lines = tuple(
            line._replace(fixed=line.fixed or index in unmarkable)
            for index, line in enumerate(problem.lines)
        )
        problem = replace(problem, lines=lines)
    return None


def _unmarkable(piece: Piece, kept: Sequence[bool]) -> set[int]:
    """Of the lines that go, those whose marks would not be read beside the others'."""
    found: set[int] = set()
    for indices in _by_paragraph(piece, kept):
        if _edits([piece.lines[index] for index in indices]):
            continue
        marked: list[SpokenLine] = []
        for index in indices:
            if _edits([*marked, piece.lines[index]]):
                marked.append(piece.lines[index])
            else:
                found.add(index)
    return found


def _by_paragraph(piece: Piece, kept: Sequence[bool]) -> Iterator[list[int]]:
    """The lines that go, those of each paragraph together."""
    gone = (index for index, stays in enumerate(kept) if not stays)
    for _, indices in groupby(gone, key=lambda index: piece.lines[index].at):
        yield list(indices)


def _plan(material: _Material, kept: Sequence[bool], gap: float) -> Iterator[Plan]:
    piece = material.piece
    gone = [index for index, stays in enumerate(kept) if not stays]
    edits: list[Edit] = []
    for indices in _by_paragraph(piece, kept):
        edits += _edits([piece.lines[index] for index in indices])
    choice = Choice(material.problem, kept, piece.lines, material.worth, material.language)
    cuts = tuple(_cut(piece.lines[index], index, why(choice, index)) for index in gone)
    yield Plan(piece.seconds_of(kept), cuts, tuple(edits), gap)


def _edits(lines: Sequence[SpokenLine]) -> tuple[Edit, ...]:
    """The marks of all the cuts of one paragraph."""
    fix = cut_together(lines[0].paragraph, [_places(line) for line in lines])
    return fix.shifted(lines[0].at).edits if fix else ()


def _places(line: SpokenLine) -> Places:
    assert line.places
    return line.places


def _cut(line: SpokenLine, index: int, reason: str) -> Cut:
    places = tuple((start + line.at, end + line.at) for start, end in _places(line).extents)
    return Cut(places, index, line.sentence.speech_seconds, line.text, reason)
