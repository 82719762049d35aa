"""The clock along one part: where each paragraph and sentence falls, and any offset's second."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from saywright.markup.tree import Part
from saywright.speech.calibration import USUAL_READER, Calibration
from saywright.speech.stretch import Stretch
from saywright.speech.timed_block import Blocks, Extent, TimedBlock
from saywright.speech.timing import Sentence, TimedParagraph


class Placed(NamedTuple):
    """A paragraph where it stands: its file offset, and the part's seconds around it.

    `first_seconds`: its first sound. `gap_seconds`: the silence after its last sound, up to the
    next (after the part's last sound, what is marked).
    """

    start: int
    timed: TimedParagraph
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
    """The time of one part of a script. What it costs to ask grows with the answer alone."""

    part: Part
    blocks: Blocks
    calibration: Calibration = USUAL_READER

    @cached_property
    def stretch(self) -> Stretch:
        return self.blocks.sum_between(self.part.first_block, self.part.end_block).stretch

    @property
    def seconds(self) -> float:
        return self.stretch.seconds

    @property
    def range_seconds(self) -> tuple[float, float]:
        """The two ends that hold 90% of readings, as far as the reader is known."""
        stretch = self.stretch
        marked = stretch.lead_seconds + stretch.marked_seconds + stretch.tail_seconds
        return self.calibration.range_of(stretch.seconds - marked, marked)

    @property
    def lead_seconds(self) -> float:
        return self.stretch.lead_seconds

    @property
    def words(self) -> int:
        return self.stretch.words

    @property
    def syllables(self) -> int:
        return self.stretch.syllables

    @cached_property
    def sentences(self) -> tuple[PlacedSentence, ...]:
        return tuple(sentence for placed in self.paragraphs() for sentence in _placed(placed))

    def paragraphs(self, first: int = 0, last: int | None = None) -> Iterator[Placed]:
        """The paragraphs that meet the file offsets from `first` to `last`, ends included."""
        if first > self.part.end or (last is not None and last < self.part.start):
            return
        local = first - self.part.start
        found = self.blocks.find(lambda sum: sum.length >= local, self.part.first_block)
        if not found:
            return
        index, before = found.index, found.before
        for block in self.blocks.items(index):
            start = self.part.start + before.length
            if index >= self.part.end_block or (last is not None and start > last):
                break
            if block.timed:
                yield self._place(index, block, before)
            before = before + self.blocks.sum_between(index, index + 1)
            index += 1

    def _place(self, index: int, block: TimedBlock, before: Extent) -> Placed:
        assert block.timed
        stretch = before.stretch
        rest = self.blocks.sum_between(index + 1, self.part.end_block).stretch
        speakers = self.part.settings.speakers
        return Placed(
            self.part.start + before.length,
            block.timed,
            _first_sound(stretch, block.stretch),
            block.stretch.gap_before(rest),
            stretch.cue or (speakers[0] if speakers else None),
        )

    def seconds_at(self, offset: int) -> float:
        """Seconds from the part's start until what stands before file offset `offset` is done."""
        local = offset - self.part.start
        found = self.blocks.find(lambda sum: sum.length >= local, self.part.first_block)
        if not found or found.index >= self.part.end_block:
            return self.seconds
        before = found.before.stretch
        timed, inside = found.item.timed, local - found.before.length
        if timed is None:
            return (before + found.item.stretch).seconds
        if timed.last is None or inside < timed.ticks.at[0]:
            return before.seconds + timed.lead_seconds_at(inside)
        return _first_sound(before, found.item.stretch) + timed.seconds_at(inside)

    def seconds_in(self, placed: Placed, inside: int) -> float:
        """The same for offset `inside` of a paragraph that is placed already, which costs less."""
        timed = placed.timed
        if timed.last is None or inside < timed.ticks.at[0]:
            return self.seconds_at(placed.start + inside)
        return placed.first_seconds + timed.seconds_at(inside)

    def crossing(self, seconds: float) -> tuple[Placed, int] | None:
        """The paragraph, and the index in it of the sentence, that is the first to end (with the
        silences marked after it) later than `seconds`; None where no sentence does."""
        found = self.blocks.find(lambda sum: sum.stretch.seconds > seconds, self.part.first_block)
        if not found or found.index >= self.part.end_block or not found.item.timed:
            return None
        placed = self._place(found.index, found.item, found.before)
        clock = placed.first_seconds
        for index, sentence in enumerate(placed.timed.sentences):
            if sentence.cut:
                continue
            clock += sentence.speech_seconds
            marked = placed.timed.tail_seconds if index == placed.timed.last else 0.0
            if clock + marked > seconds:
                return placed, index
            clock += sentence.pause_seconds
        return None


def _first_sound(before: Stretch, own: Stretch) -> float:
    """When the first sound of `own` comes, after all of `before`."""
    if not before.sounds:
        return before.lead_seconds + own.lead_seconds
    return before.lead_seconds + before.sound_seconds + before.gap_before(own)


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
