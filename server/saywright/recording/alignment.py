"""Which pause of a recording ends which phrase of the script: the most likely of all ways.

Dynamic programming over pairs (phrase, pause that ends it). From one pair to the next, phrases
may run on without a pause and pauses may fall inside phrases, at a cost. Where the speech stands
is told by how long there has been sound, pauses apart, so that a long pause shifts nothing.

The costs depend on the reader's habits, so what a first way shows of them is used for a second.
"""

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from itertools import accumulate, pairwise
from typing import NamedTuple

from saywright.recording.habits import USUAL_HABITS, Habits, Said, learned
from saywright.recording.likelihood import no_pause_cost, pause_costs, sound_cost, unplanned_cost
from saywright.recording.phrases import Phrase
from saywright.recording.silences import Heard

_PASSES = 3

# What keeps the search short. Where no way through is found all of it is doubled.
_RUN_ON_PHRASES = 20
_PAUSES_WITHIN = 5
# how far a pair may lie from its place at an even pace: a tenth of all, of a long reading less
_LEAST_STRAY_SECONDS, _STRAY_SHARE = 6.0, 0.1
_LONG_STRAY_SECONDS, _LONG_STRAY_SHARE = 12.0, 0.03
# and how far, in seconds, the sound between two pairs from what is expected: this much, and as
# much for the square root of each second
_SLACK_SECONDS, _SLACK_OF_A_SECOND = 1.0, 1.2
# what is still to come of a cost may be below zero, by no more than this
_COST_TO_COME = 4.0


class Match(NamedTuple):
    """The pause that ends a phrase, both by index."""

    phrase: int
    pause: int


class _Step(NamedTuple):
    """The cost of all up to a pair, and the pair before it."""

    cost: float
    phrase: int
    pause: int


def sound_before(heard: Heard) -> list[float]:
    """Seconds of sound before each pause, and in all."""
    starts = [pause.start_seconds for pause in heard.pauses]
    silent = accumulate((pause.seconds for pause in heard.pauses), initial=0.0)
    ends = (*starts, heard.end_seconds)
    return [end - heard.start_seconds - quiet for end, quiet in zip(ends, silent, strict=True)]


def align(phrases: Sequence[Phrase], heard: Heard) -> list[Match]:
    """The pauses that end phrases, in order. The last phrase ends with the recording."""
    habits = USUAL_HABITS
    matches: list[Match] = []
    for _ in range(_PASSES):
        before, matches = matches, _most_likely(phrases, heard, habits)
        if matches == before:
            break
        habits = _shown(phrases, heard, matches)
    return matches


def _most_likely(phrases: Sequence[Phrase], heard: Heard, habits: Habits) -> list[Match]:
    width = 1
    # wide enough, one way is always found: from the recording's start to its end in one go
    while (matches := _Search(phrases, heard, habits, width).best()) is None:
        width *= 2
    return matches


def _shown(phrases: Sequence[Phrase], heard: Heard, matches: Sequence[Match]) -> Habits:
    """The habits that these matches show."""
    made = [(phrases[match.phrase], heard.pauses[match.pause]) for match in matches]
    expected, sound = _expected_sound(phrases, heard), [0.0, *sound_before(heard)]
    ends = [(match.phrase + 1, match.pause + 1) for match in matches]
    pairs = pairwise([(0, 0), *ends, (len(expected) - 1, len(sound) - 1)])
    said = [
        Said(expected[phrase] - expected[phrase_before], sound[pause] - sound[pause_before])
        for (phrase_before, pause_before), (phrase, pause) in pairs
    ]
    return learned(phrases[:-1], made, len(heard.pauses) - len(made), said)


def _expected_sound(phrases: Sequence[Phrase], heard: Heard) -> list[float]:
    """Seconds of sound up to each phrase's end, at the pace of the whole recording."""
    sound = list(accumulate((phrase.sound_seconds for phrase in phrases), initial=0.0))
    scale = sound_before(heard)[-1] / sound[-1]
    return [seconds * scale for seconds in sound]


class _Search:
    """Pairs count from 1, so that pair (0, 0) is the recording's start."""

    def __init__(self, phrases: Sequence[Phrase], heard: Heard, habits: Habits, width: int) -> None:
        inner = phrases[:-1]
        self._habits = habits
        self._width = width
        self._heard = [0.0, *sound_before(heard)]
        self._expected = _expected_sound(phrases, heard)
        self._pause_costs = [pause_costs(phrase, heard.pauses, habits) for phrase in inner]
        self._run_on = _sums(no_pause_cost(phrase, habits) for phrase in inner)
        self._unplanned = _sums(unplanned_cost(pause, habits) for pause in heard.pauses)
        self._best: list[dict[int, _Step]] = [{0: _Step(0.0, 0, 0)}]

    def best(self) -> list[Match] | None:
        last_phrase, last_pause = len(self._expected) - 1, len(self._heard) - 1
        for phrase in range(1, last_phrase):
            self._best.append(dict(self._reached(phrase)))
        end = self._cheapest(last_phrase, last_pause)
        return list(self._way_back(end))[::-1] if end else None

    def _reached(self, phrase: int) -> Iterator[tuple[int, _Step]]:
        place, stray = self._expected[phrase], self._width * self._stray_seconds()
        last = len(self._heard) - 1
        first = max(bisect_left(self._heard, place - stray), 1)
        for pause in range(first, bisect_right(self._heard, place + stray, first, last)):
            found = self._cheapest(phrase, pause)
            if found:
                own = self._pause_costs[phrase - 1][pause - 1]
                yield pause, found._replace(cost=found.cost + own)

    def _stray_seconds(self) -> float:
        whole = self._heard[-1]
        long = _LONG_STRAY_SECONDS + _LONG_STRAY_SHARE * whole
        return max(_LEAST_STRAY_SECONDS, min(_STRAY_SHARE * whole, long))

    def _cheapest(self, phrase: int, pause: int) -> _Step | None:
        """The cheapest way to this pair, its own pause left out."""
        least, least_cost = None, math.inf
        run_on, unplanned = self._run_on[phrase - 1], self._unplanned[pause - 1]
        for phrase_before, pause_before, expected, heard in self._before(phrase, pause):
            step = self._best[phrase_before].get(pause_before)
            if step is None:
                continue
            cost = step.cost + run_on - self._run_on[phrase_before]
            cost += unplanned - self._unplanned[pause_before]
            if cost < least_cost + _COST_TO_COME:
                cost += sound_cost(heard, expected, self._habits)
                if cost < least_cost:
                    least_cost, least = cost, _Step(cost, phrase_before, pause_before)
        return least

    def _before(self, phrase: int, pause: int) -> Iterator[tuple[int, int, float, float]]:
        """The pairs that may be the one before, with the sound expected and heard since."""
        first_pause = max(pause - _PAUSES_WITHIN * self._width, 0)
        now = self._heard[pause]
        for phrase_before in range(phrase - 1, -1, -1)[: _RUN_ON_PHRASES * self._width]:
            expected = self._expected[phrase] - self._expected[phrase_before]
            slack = self._width * (_SLACK_SECONDS + _SLACK_OF_A_SECOND * math.sqrt(expected))
            if first_pause and expected - slack > now - self._heard[first_pause]:
                return
            first = bisect_left(self._heard, now - expected - slack, first_pause, pause)
            for pause_before in range(first, pause):
                heard = now - self._heard[pause_before]
                if heard < expected - slack:
                    break
                yield phrase_before, pause_before, expected, heard

    def _way_back(self, end: _Step) -> Iterator[Match]:
        step = end
        while step.phrase:
            yield Match(step.phrase - 1, step.pause - 1)
            step = self._best[step.phrase][step.pause]


def _sums(costs: Iterator[float]) -> list[float]:
    return list(accumulate(costs, initial=0.0))
