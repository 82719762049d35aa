"""Which pause of a recording ends which phrase of the script: the most likely of all ways.

Dynamic programming over pairs (phrase, pause that ends it). From one pair to the next, phrases
may run on without a pause and pauses may fall inside phrases, at a cost. Where the speech stands
is told by how long there has been sound, pauses apart, so that a long pause shifts nothing.
"""

import math
from collections.abc import Iterator, Sequence
from itertools import accumulate
from typing import NamedTuple

from saywright.recording.likelihood import no_pause_cost, pause_costs, sound_cost, unplanned_cost
from saywright.recording.phrases import Phrase
from saywright.recording.silences import Heard

# how far apart the next pair may lie, and how far from its place at an even pace; where no way
# through is found both are doubled
_REACH = 5
_STRAY_SECONDS = 6.0
_STRAY_SHARE = 0.1


class Match(NamedTuple):
    """The pause that ends a phrase, both by index."""

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
    reach, stray = _REACH, 1.0
    longest = len(phrases) + len(heard.pauses)
    while True:
        matches = _Search(phrases, heard, reach, stray).best()
        if matches is not None:
            return matches
        if reach > longest:
            return []
        reach, stray = 2 * reach, 2 * stray


class _Search:
    """Pairs count from 1, so that pair (0, 0) is the recording's start."""

    def __init__(self, phrases: Sequence[Phrase], heard: Heard, reach: int, stray: float) -> None:
        self._reach = reach
        self._heard_seconds = [0.0, *sound_before(heard)]
        sound = list(accumulate((phrase.sound_seconds for phrase in phrases), initial=0.0))
        scale = self._heard_seconds[-1] / sound[-1]
        self._expected_seconds = [seconds * scale for seconds in sound]
        self._stray_seconds = stray * max(_STRAY_SECONDS, _STRAY_SHARE * self._heard_seconds[-1])
        self._pause_costs = [pause_costs(phrase, heard.pauses) for phrase in phrases[:-1]]
        self._run_on_costs = list(accumulate(map(no_pause_cost, phrases[:-1]), initial=0.0))
        self._unplanned_costs = list(accumulate(map(unplanned_cost, heard.pauses), initial=0.0))
        self._best: list[dict[int, tuple[float, int, int]]] = [{0: (0.0, 0, 0)}]

    def best(self) -> list[Match] | None:
        last_phrase, last_pause = len(self._expected_seconds) - 1, len(self._heard_seconds) - 1
        for phrase in range(1, last_phrase):
            self._best.append(dict(self._reached(phrase)))
        end = self._cheapest(last_phrase, last_pause)
        return None if end is None else list(self._way_back(end[1], end[2]))[::-1]

    def _reached(self, phrase: int) -> Iterator[tuple[int, tuple[float, int, int]]]:
        place = self._expected_seconds[phrase]
        for pause in range(1, len(self._heard_seconds) - 1):
            if abs(self._heard_seconds[pause] - place) > self._stray_seconds:
                continue
            found = self._cheapest(phrase, pause)
            if found:
                cost, *before = found
                own = self._pause_costs[phrase - 1][pause - 1]
                yield pause, (cost + own, before[0], before[1])

    def _cheapest(self, phrase: int, pause: int) -> tuple[float, int, int] | None:
        """The cost of all up to this pair's own pause, and the pair before it."""
        least: tuple[float, int, int] | None = None
        least_cost = math.inf
        for phrase_before in range(max(phrase - self._reach, 0), phrase):
            reached = self._best[phrase_before]
            expected = self._expected_seconds[phrase] - self._expected_seconds[phrase_before]
            run_on = self._run_on_costs[phrase - 1] - self._run_on_costs[phrase_before]
            for pause_before in range(max(pause - self._reach, 0), pause):
                if pause_before not in reached:
                    continue
                cost = (
                    reached[pause_before][0]
                    + run_on
                    + self._unplanned_costs[pause - 1]
                    - self._unplanned_costs[pause_before]
                )
                if cost >= least_cost + 4:  # what follows cannot make up for more
                    continue
                heard = self._heard_seconds[pause] - self._heard_seconds[pause_before]
                cost += sound_cost(heard, expected)
                if cost < least_cost:
                    least_cost, least = cost, (cost, phrase_before, pause_before)
        return least

    def _way_back(self, phrase: int, pause: int) -> Iterator[Match]:
        while phrase:
            yield Match(phrase - 1, pause - 1)
            _, phrase, pause = self._best[phrase][pause]
