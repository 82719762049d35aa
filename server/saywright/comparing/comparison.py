"""Two pieces → what became of each sentence, and what that comes to in seconds."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from saywright.analysis import Analysis
from saywright.checks.check import View
from saywright.comparing.changes import Change, Kind, changes
from saywright.comparing.lines import Line, lines_of
from saywright.speech.voice import voice_of


@dataclass(frozen=True)
class Side:
    """A piece as one of the two: its times, its slot, and its lines."""

    view: View
    lines: tuple[Line, ...]

    @property
    def seconds(self) -> float:
        return self.view.timeline.seconds

    @property
    def over_seconds(self) -> float | None:
        """By how much it is longer than its slot less its margin; below zero, shorter."""
        return self.seconds - self.view.aim.seconds if self.view.aim else None


@dataclass(frozen=True)
class Total:
    """How many sentences there are of a kind, and by how much the piece is longer for them."""

    lines: int
    seconds: float


@dataclass(frozen=True)
class Comparison:
    """What became of each sentence from one piece to another."""

    before: Side
    after: Side
    changes: tuple[Change, ...]

    @property
    def seconds(self) -> float:
        """By how much the piece is longer."""
        return self.after.seconds - self.before.seconds

    @cached_property
    def totals(self) -> dict[Kind, Total]:
        """By kind, those there are. What they come to is `seconds`, with `opening_seconds`."""
        found: dict[Kind, Total] = {}
        for change in self.changes:
            old = found.get(change.kind, Total(0, 0.0))
            found[change.kind] = Total(old.lines + 1, old.seconds + change.seconds)
        return found

    @property
    def opening_seconds(self) -> float:
        """By how much more silence is before the first word."""
        return self.after.view.timeline.lead_seconds - self.before.view.timeline.lead_seconds

    @cached_property
    def same_words(self) -> bool:
        """Whether the same words are spoken in the same order."""
        return list(_spoken(self.before)) == list(_spoken(self.after))


def compare(before: Side, after: Side) -> Comparison:
    return Comparison(before, after, changes(before.lines, after.lines))


def side_of(analysis: Analysis, view: View) -> Side:
    """A piece of a script, ready to be compared."""
    timeline = view.timeline
    voice = voice_of(timeline.part.settings, analysis.project, timeline.calibration)
    return Side(view, lines_of(timeline, voice))


def _spoken(side: Side) -> Iterator[str]:
    for line in side.lines:
        yield from line.spoken_words
