"""A piece with all that plans are made from: its lines, their worth, the problem, and the marks
that make a plan in the script."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import groupby

from saywright.analysis import Analysis
from saywright.checks.check import View
from saywright.cuts.marking import Places
from saywright.cuts.planning.bonds import Leaning, leanings
from saywright.cuts.planning.marks import cut_marks, markable
from saywright.cuts.planning.piece import Piece, SpokenLine
from saywright.cuts.planning.problem import TICKS_PER_SECOND, Kept, Line, Problem, Trim
from saywright.cuts.planning.reading import piece_of
from saywright.cuts.planning.references import Reference
from saywright.cuts.planning.trimmed import with_trims
from saywright.cuts.planning.value import Worth, worths
from saywright.finding import Edit
from saywright.speech.voice import language_of, voice_of

_EDGE_STEP = 1024  # ticks: about a millisecond

_Changed = tuple[tuple[int, int], ...]
"""Lines of one paragraph that do not stay whole, each with what of it stays (`problem.Kept`)."""


@dataclass(frozen=True)
class Material:
    """What plans for one part are made from; what was found once is remembered."""

    piece: Piece
    worth: Sequence[Worth]
    problem: Problem
    references: Sequence[Reference]
    language: str
    aim_seconds: float
    _tried: dict[_Changed, tuple[Edit, ...]] = field(default_factory=dict)
    _saved: dict[tuple[int, int], float] = field(default_factory=dict)

    def edits(self, kept: Kept) -> tuple[Edit, ...]:
        """The marks that make the plan."""
        return tuple(edit for changed in self._by_paragraph(kept) for edit in self._marks(changed))

    def saved(self, index: int, stays: int) -> float:
        """The seconds by which the piece is shorter where this alone is done. Only the lines next
        to it matter, so only those are reckoned."""
        if (index, stays) not in self._saved:
            first = max(index - 1, 0)
            near = replace(self.piece, lines=self.piece.lines[first : index + 2])
            kept = [stays if first + at == index else 1 for at in range(len(near.lines))]
            self._saved[index, stays] = near.seconds - near.seconds_of(kept)
        return self._saved[index, stays]

    def unmarkable(self, kept: Kept) -> set[int]:
        """Of the lines that do not stay whole, those whose marks would not be read beside the
        others'."""
        found: set[int] = set()
        for changed in self._by_paragraph(kept):
            if not self._marks(changed):
                paragraph = self.piece.lines[changed[0][0]].paragraph
                read = markable(paragraph, self._places(changed))
                found |= {line for (line, _), one in zip(changed, read, strict=True) if not one}
        return found

    def _by_paragraph(self, kept: Kept) -> Iterator[_Changed]:
        changed = ((index, stays) for index, stays in enumerate(kept) if stays != 1)
        for _, group in groupby(changed, key=lambda each: self.piece.lines[each[0]].at):
            yield tuple(group)

    def _marks(self, changed: _Changed) -> tuple[Edit, ...]:
        """The marks of one paragraph; none where they would not be read."""
        if changed not in self._tried:
            first = self.piece.lines[changed[0][0]]
            edits = cut_marks(first.paragraph, self._places(changed))
            self._tried[changed] = tuple(each.shifted(first.at) for each in edits)
        return self._tried[changed]

    def _places(self, changed: _Changed) -> list[Places]:
        return [_places(self.piece.lines[line], stays) for line, stays in changed]


def material_of(analysis: Analysis, view: View, aim_seconds: float) -> Material:
    settings = view.timeline.part.settings
    voice = voice_of(settings, analysis.project, view.timeline.calibration)
    piece = with_trims(piece_of(view.timeline, voice))
    language = language_of(settings, analysis.project)
    findings = [each.finding for each in analysis.reported]
    worth = worths(piece.lines, findings, language, settings.title or "")
    leaning = leanings(piece.lines, worth, language, verse=voice.verse)
    lines = tuple(_line(piece, index, worth[index], leaning) for index in range(len(worth)))
    problem = Problem(lines, int(aim_seconds * TICKS_PER_SECOND), piece.before, leaning.bonds)
    return Material(piece, worth, problem, leaning.references, language, aim_seconds)


def _line(piece: Piece, index: int, worth: Worth, leaning: Leaning) -> Line:
    line = piece.lines[index]
    pause = _pause(piece, line, index)
    edge = _edge(line, pause)
    silences, needed = line.silences, leaning.needed[index]
    trims = tuple(
        Trim(each.line.sound + piece.drawn, points + needed - lost, _pause(piece, each.line, index))
        for each, points, lost in zip(line.trims, worth.trims, leaning.trims[index], strict=True)
    )
    return Line(
        sound=line.sound + piece.drawn,
        worth=worth.points + needed,
        pause=pause,
        edge=edge,
        lead=silences.lead,
        tail=silences.tail,
        left=silences.left,
        after=silences.after,
        enter=leaning.enter[index],
        leave=leaning.leave[index],
        fixed=line.places is None,
        ends=line.ends,
        trims=trims,
    )


def _pause(piece: Piece, line: SpokenLine, index: int) -> int:
    if line.ends:
        return line.stop
    if line.pause is not None:
        return line.pause
    return piece.pause_between(line, (), piece.lines[index + 1])[0]


def _edge(line: SpokenLine, pause: int) -> int:
    edge = 0 if line.ends else max(line.stop - pause, 0)
    return -(-edge // _EDGE_STEP) * _EDGE_STEP


def _places(line: SpokenLine, stays: int) -> Places:
    places = line.trims[stays - 2].places if stays else line.places
    assert places
    return places


def fixed(problem: Problem, lines: set[int]) -> Problem:
    """The problem in which these lines stay whole as well."""
    return replace(
        problem,
        lines=tuple(
            line._replace(fixed=True, trims=()) if index in lines else line
            for index, line in enumerate(problem.lines)
        ),
    )
