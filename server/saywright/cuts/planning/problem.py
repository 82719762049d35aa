"""What is to be solved: which lines of a piece to keep, in whole numbers and without any text.

A *line* is a sentence that is spoken. Of every line it is decided whether it stays, and whether
whole or trimmed; `Kept` says so for each. Two clocks run through those that stay, in ticks of
2⁻²⁰ seconds. One counts sounds and the silences that are marked, the other sounds and the pauses
that punctuation makes; the next line starts when both allow it, since of the two the longer
counts. That is `speech.stretch` line by line.

Worth is counted in points. Points are lost at seams, where a line stays and its neighbour goes,
and where a line stays and one that it leans on goes.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

TICKS_PER_SECOND = 2**20

Kept = Sequence[int]
"""For each line: 0, it goes; 1, it stays whole; from 2 on, it stays as the first, second … of its
`trims`."""


def ticks(seconds: float) -> int:
    """Seconds of the grid (`speech.grid`) as ticks: exact."""
    return round(seconds * TICKS_PER_SECOND)


class Trim(NamedTuple):
    """A line of which a part goes: its own `sound`, `worth` and `pause` (see `Line`)."""

    sound: int
    worth: int
    pause: int = 0


class Line(NamedTuple):
    """One line: ticks, points, and where it stands.

    `sound`: from its first sound to its last. `pause`: what its punctuation makes if its
    paragraph goes on, and `edge` what more if another paragraph follows. `lead` and `tail` are
    marked silences that a cut takes along; `left` stay behind in its place, and `after` stand
    after it whatever goes. `enter` is what it costs to keep it if the line before goes, `leave`
    if the line after does. `fixed`: it cannot be cut. `ends`: the last line of its paragraph.
    `trims`: what it may be instead of whole.
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
    trims: tuple[Trim, ...] = ()

    @property
    def versions(self) -> tuple[Trim, ...]:
        """What it is if it stays, the whole of it first."""
        return Trim(self.sound, self.worth, self.pause), *self.trims


class Bond(NamedTuple):
    """`cost` points are lost where the line `late` stays and the line `early`, before it, goes."""

    early: int
    late: int
    cost: int


class Unlike(NamedTuple):
    """A plan of which not all is to be done again: of the lines that it does not leave whole, in
    at least so many something else is wanted."""

    kept: Kept
    least: int

    def differs(self, index: int, stays: int) -> bool:
        return self.kept[index] not in (1, stays)

    def count(self, kept: Kept) -> int:
        return sum(one not in (1, other) for one, other in zip(self.kept, kept, strict=True))


@dataclass(frozen=True, slots=True)
class Problem:
    """Lines in order, the marked silences before the first, and how long it all may take.

    Bonds join lines that are no neighbours; at most one for each pair. A plan is wanted that
    takes `limit` ticks at most and is `unlike` others. Each tick that it is shorter than `floor`
    costs `shortfall` points.
    """

    lines: tuple[Line, ...]
    limit: int
    before: int = 0
    bonds: tuple[Bond, ...] = ()
    floor: int = 0
    shortfall: float = 0.0
    unlike: tuple[Unlike, ...] = ()


def bits_of(problem: Problem) -> list[tuple[int, ...]]:
    """For each line the bits that tell what it is if it stays: whole, or one of its trims. Those
    of all lines together make a number that tells a plan, see `kept_of`."""
    place = len(problem.lines)
    found: list[tuple[int, ...]] = []
    for index, line in enumerate(problem.lines):
        if not line.trims:
            found.append((1 << index,))
            continue
        found.append(tuple(1 << index | each << place for each in range(len(line.trims) + 1)))
        place += len(line.trims).bit_length()
    return found


def kept_of(problem: Problem, bits: int) -> tuple[int, ...]:
    kept: list[int] = []
    place = len(problem.lines)
    for index, line in enumerate(problem.lines):
        width = len(line.trims).bit_length()
        stays = bits >> index & 1
        kept.append(stays + (bits >> place & (1 << width) - 1 if width and stays else 0))
        place += width
    return tuple(kept)


def time_of(problem: Problem, kept: Kept) -> int:
    """How long the kept lines take, in ticks."""
    marked, natural, pending = problem.before, 0, 0
    for line, stays in zip(problem.lines, kept, strict=True):
        if stays:
            sound, _, pause = line.versions[stays - 1] if stays > 1 else (line.sound, 0, line.pause)
            end = max(marked + line.lead, natural) + sound
            marked, natural, pending = end + line.tail, end + pause, line.edge
        else:
            marked += line.left
        marked += line.after
        if line.ends:
            natural, pending = natural + pending, 0
    return marked


def worth_of(problem: Problem, kept: Kept) -> int:
    """The points that the kept lines keep."""
    points = sum(
        line.trims[stays - 2].worth if stays > 1 else line.worth
        for line, stays in zip(problem.lines, kept, strict=True)
        if stays
    )
    for index, (one, other) in enumerate(pairwise(kept)):
        if other and not one:
            points -= problem.lines[index + 1].enter
        elif one and not other:
            points -= problem.lines[index].leave
    lost = [bond.cost for bond in problem.bonds if kept[bond.late] and not kept[bond.early]]
    return points - sum(lost)


def is_allowed(problem: Problem, kept: Kept) -> bool:
    """Whether no fixed line goes, the time is within the limit, and it is unlike enough."""
    stay = all(stays or not line.fixed for line, stays in zip(problem.lines, kept, strict=True))
    unlike = all(each.count(kept) >= each.least for each in problem.unlike)
    return stay and unlike and time_of(problem, kept) <= problem.limit


def score_of(problem: Problem, kept: Kept) -> float:
    """The points less what a shortfall costs: what is to be made as large as it can be."""
    short = max(problem.floor - time_of(problem, kept), 0)
    return worth_of(problem, kept) - problem.shortfall * short
