"""A paragraph's tree → its sentences with their seconds, and a clock along its text."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from saywright.language.sentences import sentence_spans
from saywright.markup.tree import Paragraph, Range
from saywright.speech.clock import Clock, Ticks, pause_between, stumbles_between
from saywright.speech.extent import source_extents
from saywright.speech.model import gap_kind
from saywright.speech.paragraph_words import (
    Word,
    inside,
    lengthening_seconds,
    live_text,
    spoken_in,
)
from saywright.speech.voice import Voice


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
    leads: Ticks
    ticks: Ticks

    def seconds_at(self, offset: int) -> float:
        """Seconds since the paragraph's first sound when `offset` of its source is reached."""
        return self.ticks.seconds_at(offset)

    def lead_seconds_at(self, offset: int) -> float:
        """Seconds of marked silence before `offset`, itself before the first sound."""
        return self.leads.seconds_at(offset)


def time_paragraph(paragraph: Paragraph, voice: Voice) -> TimedParagraph:
    """The one way from a paragraph to seconds."""
    spans = [Range(*span) for span in sentence_spans(paragraph.plain, voice.language)]
    words = spoken_in(paragraph, spans, voice)
    live = [word for word in words if not word.cut] if paragraph.cuts else words
    clock = Clock(paragraph, voice, live)
    return TimedParagraph(
        paragraph=paragraph,
        sentences=tuple(_sentences(paragraph, voice, spans, words, clock)),
        seconds=clock.seconds,
        lead_seconds=clock.lead_seconds,
        tail_seconds=clock.tail_seconds,
        stop_seconds=clock.stop_seconds,
        marked_seconds=clock.marked_seconds,
        last=live[-1].sentence if live else None,
        leads=clock.leads.ticks(),
        ticks=clock.ticks.ticks(),
    )


def _sentences(
    paragraph: Paragraph,
    voice: Voice,
    spans: Sequence[Range],
    words: Sequence[Word],
    clock: Clock,
) -> Iterator[Sentence]:
    by_sentence: list[list[Word]] = [[] for _ in spans]
    for word in words:
        by_sentence[word.sentence].append(word)
    done = 0
    for span, extent, own in zip(spans, source_extents(paragraph, spans), by_sentence, strict=True):
        live = [word for word in own if not word.cut] if paragraph.cuts else own
        cut = not live and (bool(own) or inside(paragraph.cuts, [span.start])[0])
        if cut:
            speech, pause = _as_if_spoken(paragraph, voice, span, own)
            text = paragraph.plain[span.start : span.end]
        else:
            last = max(done + len(live) - 1, done)
            pause = sum(clock.gaps[last : done + len(live)])
            speech = sum([word.seconds for word in live]) + sum(clock.gaps[done:last])
            done += len(live)
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
        inner += pause_between(
            gap, count, False, stumbles_between(gap, plain, word, following, voice), voice
        )
        stops += gap_kind(gap) == "stop"
    pause = pause_between(plain[words[-1].end : span.end], len(words), False, False, voice)
    sounds = sum(word.seconds for word in words) + stops * lengthening_seconds(voice)
    return sounds + inner, pause
