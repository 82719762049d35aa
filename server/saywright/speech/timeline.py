"""A part's paragraphs one after another: its lead, its total, and the clock at any offset."""

from bisect import bisect_right
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from saywright.markup.tree import Cue, Part
from saywright.speech.timing import Sentence, TimedParagraph


class Placed(NamedTuple):
    """A paragraph where it stands: its file offset, and the part's seconds around it.

    `arrival_seconds`: silences marked before it are over. `first_seconds`: its first sound.
    `gap_seconds`: the silence after it, up to the next sound (after the last, what is marked).
    """

    start: int
    timed: TimedParagraph
    arrival_seconds: float
    first_seconds: float
    gap_seconds: float
    speaker: str | None


class PlacedSentence(NamedTuple):
    """A sentence where it stands: file offsets, its pause to the next sound, and the part's
    seconds at its first and last sound (both at the place of the cut where it is cut)."""

    start: int
    end: int
    sentence: Sentence
    pause_seconds: float
    first_seconds: float
    last_seconds: float
    speaker: str | None


@dataclass(frozen=True)
class Timeline:
    """The time of one part."""

    part: Part
    paragraphs: tuple[Placed, ...]
    lead_seconds: float
    seconds: float

    @cached_property
    def sentences(self) -> tuple[PlacedSentence, ...]:
        return tuple(sentence for placed in self.paragraphs for sentence in _placed(placed))

    @cached_property
    def words(self) -> int:
        return sum(each.sentence.words for each in self.sentences if not each.sentence.cut)

    @cached_property
    def syllables(self) -> int:
        return sum(each.sentence.syllables for each in self.sentences if not each.sentence.cut)

    def seconds_at(self, offset: int) -> float:
        """Seconds from the part's start until what stands before file offset `offset` is done."""
        index = bisect_right(self.paragraphs, offset, key=_start) - 1
        if index < 0:
            return 0.0
        placed = self.paragraphs[index]
        timed, local = placed.timed, offset - placed.start
        if timed.last is None or (timed.ticks and local < timed.ticks[0].at):
            return placed.arrival_seconds - timed.lead_seconds + timed.lead_seconds_at(local)
        return placed.first_seconds + timed.seconds_at(local)


def _start(placed: Placed) -> int:
    return placed.start


def timeline(part: Part, blocks: Iterable[tuple[int, TimedParagraph | Cue, float]]) -> Timeline:
    """The clock run through a part.

    `blocks`: file offset, then a paragraph's times or a cue, then the seconds of silence that
    the cue's direction asks for (zero for a paragraph).
    """
    placed: list[Placed] = []
    speaker = part.settings.speakers[0] if part.settings.speakers else None
    clock = _Clock()
    for start, block, silence in blocks:
        if isinstance(block, Cue):
            speaker = block.speaker
            clock.marked += silence
            continue
        gap, arrival = clock.reach(block)
        if gap is not None:
            _close_gap(placed, gap)
        placed.append(Placed(start, block, arrival, clock.first, 0.0, speaker))
    _close_gap(placed, clock.marked)
    lead = clock.marked if clock.lead is None else clock.lead
    return Timeline(part, tuple(placed), lead, clock.total)


def _close_gap(placed: list[Placed], gap: float) -> None:
    """Gives the last spoken paragraph the silence that follows it."""
    for index in range(len(placed) - 1, -1, -1):
        if placed[index].timed.last is not None:
            placed[index] = placed[index]._replace(gap_seconds=gap)
            return


class _Clock:
    """`spoken`: seconds to the end of the last sound; `marked`: silences marked since then;
    `natural`: the pause that the last sound's punctuation makes by itself."""

    def __init__(self) -> None:
        self.spoken = self.marked = self.natural = self.first = 0.0
        self.lead: float | None = None

    def reach(self, block: TimedParagraph) -> tuple[float | None, float]:
        """Run on through `block`: the gap before its first sound (None where it has none, or
        nothing was spoken before), and when the silences marked before that sound are over."""
        self.marked += block.lead_seconds
        arrival = self.spoken + self.marked
        if block.last is None:
            return None, arrival
        gap = None
        if self.lead is None:
            self.lead = self.marked
            self.first = self.marked
        else:
            gap = max(self.natural, self.marked)
            self.first = self.spoken + gap
        self.spoken = self.first + block.seconds
        self.marked, self.natural = block.tail_seconds, block.stop_seconds
        return gap, arrival

    @property
    def total(self) -> float:
        return self.spoken + self.marked


def _placed(placed: Placed) -> Iterator[PlacedSentence]:
    timed = placed.timed
    clock = placed.first_seconds
    for index, sentence in enumerate(timed.sentences):
        start, end = placed.start + sentence.start, placed.start + sentence.end
        if sentence.cut:
            yield PlacedSentence(
                start, end, sentence, sentence.pause_seconds, clock, clock, placed.speaker
            )
            continue
        pause = placed.gap_seconds if index == timed.last else sentence.pause_seconds
        last = clock + sentence.speech_seconds
        yield PlacedSentence(start, end, sentence, pause, clock, last, placed.speaker)
        clock = last + pause
