"""A clock that runs along the spoken words and marked silences of a paragraph."""

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from saywright.markup.tree import Breath, Direction, Paragraph
from saywright.speech.grid import on_grid
from saywright.speech.model import gap_kind, is_stumble, pause_seconds
from saywright.speech.paragraph_words import Word, live_text
from saywright.speech.voice import Voice


class Ticks(NamedTuple):
    """After each source offset of `at`, in order, so many `seconds` have gone since the
    paragraph's first sound."""

    at: tuple[int, ...]
    seconds: tuple[float, ...]

    def seconds_at(self, offset: int) -> float:
        index = bisect_right(self.at, offset) - 1
        return self.seconds[index] if index >= 0 else 0.0


class _Hush(NamedTuple):
    """A marked silence that is performed: where it stands in the plain text and in the source."""

    plain: int
    source_end: int
    seconds: float


class _Marked:
    """Ticks while they are made."""

    def __init__(self) -> None:
        self.at: list[int] = []
        self.seconds: list[float] = []

    def ticks(self) -> Ticks:
        return Ticks(tuple(self.at), tuple(self.seconds))


class Clock:
    """Runs through the spoken words and silences once; `gaps[i]` is the silence after word i."""

    def __init__(self, paragraph: Paragraph, voice: Voice, live: Sequence[Word]) -> None:
        self.leads, self.ticks = _Marked(), _Marked()
        self.gaps: list[float] = []
        self.seconds = self.lead_seconds = self.tail_seconds = self.stop_seconds = 0.0
        self.marked_seconds = 0.0
        self._hushes = list(_hushes(paragraph, voice))
        self._next = 0
        end = len(paragraph.plain)
        self.lead_seconds = self._hush(live[0].start if live else end, 0.0, self.leads)
        if live:
            last_count = self._run(paragraph, voice, live)
            self.tail_seconds = self._hush(end, self.seconds, self.ticks)
            rest = live_text(paragraph, live[-1].end, end)
            self.stop_seconds = _stop(rest, last_count, voice)

    def _run(self, paragraph: Paragraph, voice: Voice, live: Sequence[Word]) -> int:
        """Returns how many words of the last sentence there are."""
        plain, hushes = paragraph.plain, len(self._hushes)
        breaks = paragraph.breaks if voice.verse else ()
        seconds, before, count, sentence = 0.0, live[0], 0, live[0].sentence
        for word, source_end in zip(live, _source_ends(paragraph, live), strict=True):
            if count:
                gap, done, start = 0.0, before.end, word.start
                if breaks or start - done > 1 or plain[done] != " ":
                    gap = _gap(paragraph, voice, before, word, count)
                if self._next < hushes:
                    marked = self._hush(start, seconds, self.ticks)
                    self.marked_seconds += marked
                    gap = max(marked, gap)
                self.gaps.append(gap)
                seconds += gap
            seconds += word.seconds
            self.ticks.at.append(source_end)
            self.ticks.seconds.append(seconds)
            count = count + 1 if word.sentence == sentence else 1
            before, sentence = word, word.sentence
        self.seconds = seconds
        return count

    def _hush(self, before: int, clock: float, ticks: _Marked) -> float:
        """The seconds of the marked silences up to plain offset `before`."""
        total = 0.0
        while self._next < len(self._hushes) and self._hushes[self._next].plain <= before:
            hush = self._hushes[self._next]
            total += hush.seconds
            ticks.at.append(hush.source_end)
            ticks.seconds.append(clock + total)
            self._next += 1
        return total


def _source_ends(paragraph: Paragraph, words: Sequence[Word]) -> list[int]:
    """Where each word ends in the source."""
    runs = paragraph.runs
    if len(runs) == 1:
        shift = runs[0].source - runs[0].plain
        return [word.end + shift for word in words]
    ends: list[int] = []
    index = 0
    for word in words:
        while index + 1 < len(runs) and runs[index + 1].plain < word.end:
            index += 1
        ends.append(runs[index].source + word.end - runs[index].plain)
    return ends


def _breaks_between(breaks: Sequence[int], start: int, end: int) -> bool:
    return bisect_left(breaks, start) < bisect_left(breaks, end)


def _gap(
    paragraph: Paragraph, voice: Voice, word: Word, following: Word, words_before: int
) -> float:
    """The pause between two words that are spoken."""
    between = live_text(paragraph, word.end, following.start)
    line_break = voice.verse and _breaks_between(paragraph.breaks, word.end, following.start)
    stumbles = stumbles_between(between, paragraph.plain, word, following, voice)
    return pause_between(between, words_before, line_break, stumbles, voice)


def pause_between(
    between: str, words_before: int, line_break: bool, stumbles: bool, voice: Voice
) -> float:
    if between == " " and not line_break:
        return 0.0
    pause = pause_seconds(
        between, words_before=words_before, line_break=line_break, stumbles=stumbles
    )
    return on_grid(pause * voice.scale)


def stumbles_between(between: str, plain: str, word: Word, following: Word, voice: Voice) -> bool:
    """Whether the speaker stumbles there, and the pause depends on it."""
    if gap_kind(between) != "comma":
        return False
    one, other = plain[word.start : word.end], plain[following.start : following.end]
    return is_stumble(one, other, voice.language)


def _stop(rest: str, words_before: int, voice: Voice) -> float:
    return on_grid(pause_seconds(rest, words_before=words_before, paragraph=True) * voice.scale)


def _hushes(paragraph: Paragraph, voice: Voice) -> Iterator[_Hush]:
    """Marked silences outside cuts, in order."""
    marks: list[Direction | Breath] = [*paragraph.directions, *paragraph.breaths]
    marks.sort(key=lambda mark: mark.start)
    cuts = [span for span in paragraph.spans if span.kind == "cut"] if marks else []
    cut_end = 0
    following = iter(cuts)
    cut = next(following, None)
    for mark in marks:
        while cut and cut.start < mark.start:
            cut_end = max(cut_end, cut.end)
            cut = next(following, None)
        if mark.silence and mark.start >= cut_end:
            seconds = on_grid(voice.seconds_of(mark.silence))
            yield _Hush(paragraph.plain_of(mark.start), mark.end, seconds)
