"""A paragraph's tree → its sentences with their seconds, and a clock along its text."""

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

from saywright.language.sentences import sentence_spans
from saywright.markup.tree import Breath, Direction, Paragraph, Range
from saywright.speech.extent import source_extents
from saywright.speech.grid import on_grid
from saywright.speech.model import gap_kind, is_stumble, pause_seconds
from saywright.speech.paragraph_words import (
    Word,
    inside,
    lengthening_seconds,
    live_text,
    spoken_in,
)
from saywright.speech.voice import Voice


class Tick(NamedTuple):
    """After the source offset `at`, `seconds` have gone since the paragraph's first sound."""

    at: int
    seconds: float


@dataclass(frozen=True, slots=True)
class Sentence:
    """A sentence and its time; `start` and `end` count source code points of the paragraph.

    `text` is what is spoken, or the cut words where all are cut. `pause_seconds` is the gap to
    the next sentence that is spoken in this paragraph; after the paragraph's last, zero.
    """

    start: int
    end: int
    plain: Range
    text: str
    words: int
    syllables: int
    speech_seconds: float
    pause_seconds: float
    kept: bool
    cut: bool


@dataclass(frozen=True, slots=True)
class TimedParagraph:
    """The times of one paragraph, whatever stands around it.

    `seconds` is from the first sound to the last. `lead_seconds` and `tail_seconds` are the
    silences marked before and after, `marked_seconds` those in between; `stop_seconds` the pause
    that its end makes by itself, if speech goes on after it. `last` is the index of the last
    sentence spoken, None where no word is spoken (its silences are then all in `lead_seconds`).
    """

    paragraph: Paragraph
    sentences: tuple[Sentence, ...]
    seconds: float
    lead_seconds: float
    tail_seconds: float
    stop_seconds: float
    marked_seconds: float
    last: int | None
    leads: tuple[Tick, ...]
    ticks: tuple[Tick, ...]

    def seconds_at(self, offset: int) -> float:
        """Seconds since the paragraph's first sound when `offset` of its source is reached."""
        index = bisect_right(self.ticks, offset, key=_at) - 1
        return self.ticks[index].seconds if index >= 0 else 0.0

    def lead_seconds_at(self, offset: int) -> float:
        """Seconds of marked silence before `offset`, itself before the first sound."""
        index = bisect_right(self.leads, offset, key=_at) - 1
        return self.leads[index].seconds if index >= 0 else 0.0


def _at(tick: Tick) -> int:
    return tick.at


class _Hush(NamedTuple):
    """A marked silence that is performed: where it stands in the plain text and in the source."""

    plain: int
    source_end: int
    seconds: float


def time_paragraph(paragraph: Paragraph, voice: Voice) -> TimedParagraph:
    """The one way from a paragraph to seconds."""
    spans = [Range(*span) for span in sentence_spans(paragraph.plain, voice.language)]
    words = spoken_in(paragraph, spans, voice)
    live = [word for word in words if not word.cut] if paragraph.cuts else words
    clock = _Clock(paragraph, voice, live, list(_hushes(paragraph, voice)))
    return TimedParagraph(
        paragraph=paragraph,
        sentences=tuple(_sentences(paragraph, voice, spans, words, clock)),
        seconds=clock.seconds,
        lead_seconds=clock.lead_seconds,
        tail_seconds=clock.tail_seconds,
        stop_seconds=clock.stop_seconds,
        marked_seconds=clock.marked_seconds,
        last=live[-1].sentence if live else None,
        leads=tuple(clock.leads),
        ticks=tuple(clock.ticks),
    )


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


class _Clock:
    """Runs through the spoken words and silences once; `gaps[i]` is the silence after word i."""

    def __init__(
        self, paragraph: Paragraph, voice: Voice, live: Sequence[Word], hushes: Sequence[_Hush]
    ) -> None:
        self.leads: list[Tick] = []
        self.ticks: list[Tick] = []
        self.gaps: list[float] = []
        self.seconds = self.lead_seconds = self.tail_seconds = self.stop_seconds = 0.0
        self.marked_seconds = 0.0
        self._hushes = hushes
        self._next = 0
        end = len(paragraph.plain)
        self.lead_seconds = self._hush(live[0].start if live else end, 0.0, self.leads)
        if live:
            self._run(paragraph, voice, live)
            self.tail_seconds = self._hush(end, self.seconds, self.ticks)
            rest = live_text(paragraph, live[-1].end, end)
            self.stop_seconds = _stop(rest, _counts(live)[-1], voice)

    def _run(self, paragraph: Paragraph, voice: Voice, live: Sequence[Word]) -> None:
        ends = _source_ends(paragraph, live)
        counts = _counts(live)
        breaks = paragraph.breaks if voice.verse else ()
        seconds, start = 0.0, live[0].start
        for index, word in enumerate(live):
            if index:
                between = live_text(paragraph, start, word.start)
                line_break = bool(breaks) and _breaks_between(breaks, start, word.start)
                gap = 0.0
                if between != " " or line_break:
                    stumbles = _stumbles(paragraph.plain, live[index - 1], word, voice)
                    gap = _pause(between, counts[index - 1], line_break, stumbles, voice)
                if self._next < len(self._hushes):
                    marked = self._hush(word.start, seconds, self.ticks)
                    self.marked_seconds += marked
                    gap = max(marked, gap)
                self.gaps.append(gap)
                seconds += gap
            seconds += word.seconds
            start = word.end
            self.ticks.append(Tick(ends[index], seconds))
        self.seconds = seconds

    def _hush(self, before: int, clock: float, ticks: list[Tick]) -> float:
        """The seconds of the marked silences up to plain offset `before`."""
        total = 0.0
        while self._next < len(self._hushes) and self._hushes[self._next].plain <= before:
            hush = self._hushes[self._next]
            total += hush.seconds
            ticks.append(Tick(hush.source_end, clock + total))
            self._next += 1
        return total


def _counts(live: Sequence[Word]) -> list[int]:
    """For each word, how many of its sentence have been spoken when it has."""
    counts: list[int] = []
    sentence = count = -1
    for word in live:
        count = count + 1 if word.sentence == sentence else 1
        sentence = word.sentence
        counts.append(count)
    return counts


def _source_ends(paragraph: Paragraph, words: Sequence[Word]) -> list[int]:
    """Where each word ends in the source."""
    ends: list[int] = []
    runs = paragraph.runs
    index = 0
    for word in words:
        while index + 1 < len(runs) and runs[index + 1].plain < word.end:
            index += 1
        ends.append(runs[index].source + word.end - runs[index].plain)
    return ends


def _breaks_between(breaks: Sequence[int], start: int, end: int) -> bool:
    return bisect_left(breaks, start) < bisect_left(breaks, end)


def _pause(
    between: str, words_before: int, line_break: bool, stumbles: bool, voice: Voice
) -> float:
    if between == " " and not line_break:
        return 0.0
    pause = pause_seconds(
        between, words_before=words_before, line_break=line_break, stumbles=stumbles
    )
    return on_grid(pause * voice.scale)


def _stumbles(plain: str, word: Word, following: Word, voice: Voice) -> bool:
    one, other = plain[word.start : word.end], plain[following.start : following.end]
    return is_stumble(one, other, voice.language)


def _stop(rest: str, words_before: int, voice: Voice) -> float:
    return on_grid(pause_seconds(rest, words_before=words_before, paragraph=True) * voice.scale)


def _sentences(
    paragraph: Paragraph,
    voice: Voice,
    spans: Sequence[Range],
    words: Sequence[Word],
    clock: _Clock,
) -> Iterator[Sentence]:
    by_sentence: list[list[Word]] = [[] for _ in spans]
    for word in words:
        by_sentence[word.sentence].append(word)
    gaps = iter(clock.gaps)
    for span, extent, own in zip(spans, source_extents(paragraph, spans), by_sentence, strict=True):
        live = [word for word in own if not word.cut] if paragraph.cuts else own
        cut = not live and (bool(own) or inside(paragraph.cuts, [span.start])[0])
        if cut:
            speech, pause = _as_if_spoken(paragraph, voice, span, own)
            text = paragraph.plain[span.start : span.end]
        else:
            after = [next(gaps, 0.0) for _ in live]
            pause = after.pop() if after else 0.0
            speech = sum([word.seconds for word in live]) + sum(after)
            text = live_text(paragraph, *span)
        counted = own if cut else live
        yield Sentence(
            *extent,
            plain=span,
            text=text,
            words=len(counted),
            syllables=sum([word.syllables for word in counted]),
            speech_seconds=speech,
            pause_seconds=pause,
            kept=any(word.kept for word in own) if paragraph.keeps else False,
            cut=cut,
        )


def _as_if_spoken(
    paragraph: Paragraph, voice: Voice, span: Range, words: Sequence[Word]
) -> tuple[float, float]:
    """What a cut sentence would take: its speech, and the pause that its end makes."""
    if not words:
        return 0.0, 0.0
    plain = paragraph.plain
    inner, stops = 0.0, 1
    for count, (word, following) in enumerate(pairwise(words), 1):
        gap = plain[word.end : following.start]
        inner += _pause(gap, count, False, _stumbles(plain, word, following, voice), voice)
        stops += gap_kind(gap) == "stop"
    pause = _pause(plain[words[-1].end : span.end], len(words), False, False, voice)
    sounds = sum(word.seconds for word in words) + stops * lengthening_seconds(voice)
    return sounds + inner, pause
