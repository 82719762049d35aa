"""What is to be solved: which lines of a piece to keep, in whole numbers and without any text.

A *line* is a sentence that is spoken. Of every line it is decided whether it stays. Two clocks
run through those that stay, in ticks of 2⁻²⁰ seconds. One counts sounds and the silences that are
marked, the other sounds and the pauses that punctuation makes; the next line starts when both
allow it, since of the two the longer counts. That is `speech.stretch` line by line.

Worth is counted in points. Points are lost at seams, where a line stays and its neighbour goes,
and where a line stays and one that it leans on goes.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

TICKS_PER_SECOND = 2**20


def ticks(seconds: float) -> int:
    """Seconds of the grid (`speech.grid`) as ticks: exact."""
    return round(seconds * TICKS_PER_SECOND)


class Line(NamedTuple):
    """One line: ticks, points, and where it stands.

    `sound`: from its first sound to its last. `pause`: what its punctuation makes if its
    paragraph goes on, and `edge` what more if another paragraph follows. `lead` and `tail` are
    marked silences that a cut takes along; `left` stay behind in its place, and `after` stand
    after it whatever goes. `enter` is what it costs to keep it if the line before goes, `leave`
    if the line after does. `fixed`: it cannot be cut. `ends`: the last line of its paragraph.
    """

    sound: int
    worth: int
    pause: int = 0
    edge: int = 0
    lead: int = 0
    tail: int = 0
    left: int = 0
    after: int = 0
    enter: int = 0
    leave: int = 0
    fixed: bool = False
    ends: bool = False


class Bond(NamedTuple):
    """`cost` points are lost where the line `late` stays and the line `early`, before it, goes."""

    early: int
    late: int
    cost: int


@dataclass(frozen=True, slots=True)
class Problem:
    """Lines in order, the marked silences before the first, and how long it all may take.

    Bonds join lines that are no neighbours; at most one for each pair. A plan is wanted that
    takes `limit` ticks at most. Each tick that it is shorter than `floor` costs `shortfall`
    points.
    """

    lines: tuple[Line, ...]
    limit: int
    before: int = 0
    bonds: tuple[Bond, ...] = ()
    floor: int = 0
    shortfall: float = 0.0


def time_of(problem: Problem, kept: Sequence[bool]) -> int:
    """How long the kept lines take, in ticks."""
    marked, natural, pending = problem.before, 0, 0
    for line, stays in zip(problem.lines, kept, strict=True):
        if stays:
            end = max(marked + line.lead, natural) + line.sound
            marked, natural, pending = end + line.tail, end + line.pause, line.edge
        else:
            marked += line.left
        marked += line.after
        if line.ends:
            natural, pending = natural + pending, 0
    return marked


def worth_of(problem: Problem, kept: Sequence[bool]) -> int:
    """The points that the kept lines keep."""
    points = sum(line.worth for line, stays in zip(problem.lines, kept, strict=True) if stays)
    for index, (one, other) in enumerate(pairwise(kept)):
        if other and not one:
            points -= problem.lines[index + 1].enter
        elif one and not other:
            points -= problem.lines[index].leave
    lost = [bond.cost for bond in problem.bonds if kept[bond.late] and not kept[bond.early]]
    return points - sum(lost)


def is_allowed(problem: Problem, kept: Sequence[bool]) -> bool:
    """Whether no fixed line goes and the time is within the limit."""
    stay = all(stays or not line.fixed for line, stays in zip(problem.lines, kept, strict=True))
    return stay and time_of(problem, kept) <= problem.limit


def score_of(problem: Problem, kept: Sequence[bool]) -> float:
    """The points less what a shortfall costs: what is to be made as large as it can be."""
    short = max(problem.floor - time_of(problem, kept), 0)
    return worth_of(problem, kept) - problem.shortfall * short
