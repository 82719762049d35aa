"""A recorded read-through laid beside its script: when each sentence was said, and how."""

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise
from typing import NamedTuple

from saywright.project import Project
from saywright.recording.alignment import Match, align, sound_before
from saywright.recording.phrases import Phrase, expected
from saywright.recording.silences import Heard
from saywright.recording.usual_pace import at_usual_pace
from saywright.speech.timeline import PlacedSentence, Timeline
from saywright.speech.voice import language_of


class SpokenSentence(NamedTuple):
    """A sentence as it was said, in seconds from the recording's start.

    `pause_seconds` is the silence after it, zero where it ran on into the next; its end and the
    next one's start are then worked out from the sentences around. So told, and not heard, are
    the times whose `starts_heard` or `ends_heard` is false.
    """

    placed: PlacedSentence
    start_seconds: float
    end_seconds: float
    pause_seconds: float
    starts_heard: bool
    ends_heard: bool


@dataclass(frozen=True, slots=True)
class ReadThrough:
    """A take from first sound to last, and the usual reader's estimate of the same.

    `shown_seconds` is the estimate at the pace that the script and its takes had come to.
    `marked_seconds` are the silences that the script marks before the first sound and after the
    last, in neither of the two. `pace` is how many times as long as the estimate it took,
    `speech_pace` the same for the sentences without the pauses between them.
    """

    seconds: float
    estimated_seconds: float
    shown_seconds: float
    marked_seconds: float
    sentences: tuple[SpokenSentence, ...]

    @property
    def pace(self) -> float:
        return self.seconds / self.estimated_seconds

    @property
    def speech_pace(self) -> float:
        spoken = sum(each.end_seconds - each.start_seconds for each in self.sentences)
        return spoken / sum(each.placed.sentence.speech_seconds for each in self.sentences)


def read_through(piece: Timeline, project: Project, heard: Heard) -> ReadThrough:
    """What was heard beside what was expected. The piece has at least one spoken word."""
    usual = at_usual_pace(piece, project)
    script = expected(usual, language_of(piece.part.settings, project))
    matches = align(script.phrases, heard)
    stretch = usual.stretch
    return ReadThrough(
        heard.seconds,
        stretch.sound_seconds,
        piece.stretch.sound_seconds,
        stretch.lead_seconds + stretch.tail_seconds,
        tuple(_spoken(script.sentences, script.phrases, heard, matches)),
    )


def _spoken(
    sentences: Sequence[PlacedSentence],
    phrases: Sequence[Phrase],
    heard: Heard,
    matches: Sequence[Match],
) -> Iterator[SpokenSentence]:
    pause_after = {match.phrase: heard.pauses[match.pause] for match in matches}
    places = _Places(phrases, heard, matches)
    start, starts_heard = heard.start_seconds, True
    ends = [index for index, phrase in enumerate(phrases) if phrase.ends_sentence]
    for placed, phrase in zip(sentences, ends, strict=True):
        pause = pause_after.get(phrase)
        if pause:
            end, seconds, ends_heard = pause.start_seconds, pause.seconds, True
        else:
            end, seconds = places.end_of(phrase), 0.0
            ends_heard = phrase == len(phrases) - 1
        yield SpokenSentence(placed, start, end, seconds, starts_heard, ends_heard)
        start, starts_heard = end + seconds, ends_heard


class _Places:
    """Where a phrase ends that no pause ends: between two that are known, at an even pace."""

    def __init__(self, phrases: Sequence[Phrase], heard: Heard, matches: Sequence[Match]) -> None:
        self._heard = heard
        self._sound_before = sound_before(heard)
        self._expected = list(accumulate(phrase.sound_seconds for phrase in phrases))
        known = [
            (0.0, 0.0),
            *((self._expected[match.phrase], self._sound_before[match.pause]) for match in matches),
            (self._expected[-1], self._sound_before[-1]),
        ]
        self._known = list(pairwise(known))
        self._ends = [after for _, (after, _) in self._known]

    def end_of(self, phrase: int) -> float:
        expected = self._expected[phrase]
        stretch = min(bisect_right(self._ends, expected), len(self._known) - 1)
        (expected_from, sound_from), (expected_to, sound_to) = self._known[stretch]
        share = (expected - expected_from) / (expected_to - expected_from or 1.0)
        return self._second_of(sound_from + share * (sound_to - sound_from))

    def _second_of(self, sound_seconds: float) -> float:
        """The recording's second at which there have been so many of sound."""
        passed = bisect_right(self._sound_before[:-1], sound_seconds)
        quiet = sum(pause.seconds for pause in self._heard.pauses[:passed])
        return min(self._heard.start_seconds + sound_seconds + quiet, self._heard.end_seconds)
