"""A paragraph's tree → its sentences with their seconds, and a clock along its text."""

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

from saywright.language.sentences import sentence_spans
from saywright.markup.tree import Breath, Direction, Paragraph, Range
from saywright.speech.extent import source_extents
from saywright.speech.grid import on_grid
from saywright.speech.model import pause_seconds, word_seconds
from saywright.speech.pronunciation import pronounce
from saywright.speech.spoken import spoken_words
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
    silences marked before and after; `stop_seconds` the pause that its end makes by itself, if
    speech goes on after it. `last` is the index of the last sentence spoken, None where no word
    is spoken (its silences are then all in `lead_seconds`).
    """

    paragraph: Paragraph
    sentences: tuple[Sentence, ...]
    seconds: float
    lead_seconds: float
    tail_seconds: float
    stop_seconds: float
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


class _Word(NamedTuple):
    start: int
    end: int
    sentence: int
    seconds: float
    syllables: int
    cut: bool
    kept: bool


class _Hush(NamedTuple):
    """A marked silence that is performed: where it stands in the plain text and in the source."""

    plain: int
    source_end: int
    seconds: float


def time_paragraph(paragraph: Paragraph, voice: Voice) -> TimedParagraph:
    """The one way from a paragraph to seconds."""
    plain = paragraph.plain
    spans = [Range(*span) for span in sentence_spans(plain, voice.language)]
    words = [
        word for index, span in enumerate(spans) for word in _words(paragraph, span, index, voice)
    ]
    live = [word for word in words if not word.cut]
    hushes = list(_hushes(paragraph, voice))
    clock = _Clock(paragraph, voice, live, hushes)
    return TimedParagraph(
        paragraph=paragraph,
        sentences=tuple(_sentences(paragraph, voice, spans, words, clock)),
        seconds=clock.seconds,
        lead_seconds=clock.lead_seconds,
        tail_seconds=clock.tail_seconds,
        stop_seconds=clock.stop_seconds,
        last=live[-1].sentence if live else None,
        leads=tuple(clock.leads),
        ticks=tuple(clock.ticks),
    )


def _words(paragraph: Paragraph, span: Range, sentence: int, voice: Voice) -> Iterator[_Word]:
    for word in spoken_words(paragraph.plain[span.start : span.end], voice.language):
        start, end = span.start + word.start, span.start + word.end
        stressed = _inside(paragraph.stresses, start)
        yield _Word(
            start,
            end,
            sentence,
            on_grid(word_seconds(word.said, voice.language, stressed=stressed) * voice.scale),
            sum(pronounce(said, voice.language).syllables for said in word.said),
            _inside(paragraph.cuts, start),
            _inside(paragraph.keeps, start),
        )


def _inside(ranges: Sequence[Range], offset: int) -> bool:
    if not ranges:
        return False
    index = bisect_right(ranges, offset, key=_start) - 1
    return index >= 0 and offset < ranges[index].end


def _start(where: Range) -> int:
    return where.start


def _hushes(paragraph: Paragraph, voice: Voice) -> Iterator[_Hush]:
    """Marked silences outside cuts, in order."""
    marks: list[Direction | Breath] = sorted(
        (*paragraph.directions, *paragraph.breaths), key=lambda mark: mark.start
    )
    cut_spans = [span for span in paragraph.spans if span.kind == "cut"] if marks else []
    cut_end = 0
    following = iter(cut_spans)
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
        self, paragraph: Paragraph, voice: Voice, live: Sequence[_Word], hushes: Sequence[_Hush]
    ) -> None:
        self.leads: list[Tick] = []
        self.ticks: list[Tick] = []
        self.gaps: list[float] = []
        self.seconds = self.lead_seconds = self.tail_seconds = self.stop_seconds = 0.0
        self._hushes = hushes
        self._next = 0
        if not live:
            self.lead_seconds = self._hush(len(paragraph.plain) + 1, 0.0, self.leads)
            return
        self.lead_seconds = self._hush(live[0].start, 0.0, self.leads)
        counts = _counts(live)
        for index, (word, following) in enumerate(pairwise(live)):
            self._say(paragraph, word)
            marked = self._hush(following.start, self.seconds, self.ticks)
            natural = _pause(paragraph, voice, word, following, counts[index])
            self.gaps.append(max(marked, natural))
            self.seconds += self.gaps[-1]
        self._say(paragraph, live[-1])
        self.tail_seconds = self._hush(len(paragraph.plain) + 1, self.seconds, self.ticks)
        rest = _live_text(paragraph, live[-1].end, len(paragraph.plain))
        stop = pause_seconds(rest, words_before=counts[-1], paragraph=True)
        self.stop_seconds = on_grid(stop * voice.scale)

    def _say(self, paragraph: Paragraph, word: _Word) -> None:
        self.seconds += word.seconds
        self.ticks.append(Tick(paragraph.source_of(word.end - 1) + 1, self.seconds))

    def _hush(self, before: int, clock: float, ticks: list[Tick]) -> float:
        """The seconds of the marked silences that stand before plain offset `before`."""
        total = 0.0
        while self._next < len(self._hushes) and self._hushes[self._next].plain <= before:
            hush = self._hushes[self._next]
            total += hush.seconds
            ticks.append(Tick(hush.source_end, clock + total))
            self._next += 1
        return total


def _counts(live: Sequence[_Word]) -> list[int]:
    """For each word, how many of its sentence have been spoken when it has."""
    counts: list[int] = []
    for index, word in enumerate(live):
        same = index > 0 and live[index - 1].sentence == word.sentence
        counts.append(counts[-1] + 1 if same else 1)
    return counts


def _pause(
    paragraph: Paragraph, voice: Voice, word: _Word, following: _Word, words_before: int
) -> float:
    between = _live_text(paragraph, word.end, following.start)
    line_break = voice.verse and any(
        word.end <= offset < following.start
        for offset in paragraph.breaks[
            bisect_right(paragraph.breaks, word.end - 1) : bisect_right(
                paragraph.breaks, following.start
            )
        ]
    )
    pause = pause_seconds(between, words_before=words_before, line_break=line_break)
    return on_grid(pause * voice.scale)


def _live_text(paragraph: Paragraph, start: int, end: int) -> str:
    """The spoken text from `start` to `end` without what is cut."""
    if not paragraph.cuts:
        return paragraph.plain[start:end]
    pieces: list[str] = []
    index = max(bisect_right(paragraph.cuts, start, key=_start) - 1, 0)
    while index < len(paragraph.cuts) and paragraph.cuts[index].start < end:
        cut = paragraph.cuts[index]
        pieces.append(paragraph.plain[start : max(start, cut.start)])
        start = max(start, cut.end)
        index += 1
    pieces.append(paragraph.plain[start:end])
    return "".join(pieces)


def _sentences(
    paragraph: Paragraph,
    voice: Voice,
    spans: Sequence[Range],
    words: Sequence[_Word],
    clock: _Clock,
) -> Iterator[Sentence]:
    by_sentence: list[list[_Word]] = [[] for _ in spans]
    for word in words:
        by_sentence[word.sentence].append(word)
    gaps = iter(clock.gaps)
    for span, extent, own in zip(spans, source_extents(paragraph, spans), by_sentence, strict=True):
        live = [word for word in own if not word.cut]
        cut = not live and (bool(own) or _inside(paragraph.cuts, span.start))
        if cut:
            speech, pause = _as_if_spoken(paragraph, voice, span, own)
            text = paragraph.plain[span.start : span.end]
        else:
            after = [next(gaps, 0.0) for _ in live]
            speech = sum(word.seconds for word in live) + sum(after[:-1])
            pause = after[-1] if after else 0.0
            text = _live_text(paragraph, *span)
        counted = own if cut else live
        yield Sentence(
            *extent,
            plain=span,
            text=text,
            words=len(counted),
            syllables=sum(word.syllables for word in counted),
            speech_seconds=speech,
            pause_seconds=pause,
            kept=any(word.kept for word in own),
            cut=cut,
        )


def _as_if_spoken(
    paragraph: Paragraph, voice: Voice, span: Range, words: Sequence[_Word]
) -> tuple[float, float]:
    """What a cut sentence would take: its speech, and the pause that its end makes."""
    if not words:
        return 0.0, 0.0
    inner = sum(
        pause_seconds(paragraph.plain[word.end : following.start], words_before=count)
        for count, (word, following) in enumerate(pairwise(words), 1)
    )
    pause = pause_seconds(paragraph.plain[words[-1].end : span.end], words_before=len(words))
    speech = sum(word.seconds for word in words) + on_grid(inner * voice.scale)
    return speech, on_grid(pause * voice.scale)
