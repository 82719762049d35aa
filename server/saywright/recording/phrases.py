"""A piece's timeline → its phrases: what is said in one go, and the silence expected after."""

import re
from bisect import bisect_right
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from saywright.markup.tree import Paragraph
from saywright.speech.clock import Ticks
from saywright.speech.model import is_stumble, pause_seconds
from saywright.speech.timeline import PlacedSentence, Timeline

_GAP_AND_WORD = re.compile(r"(\W*)([\w'’]*)")
_SMALL_WORD = re.compile(r"\b[\w'’]{1,8}\Z")
_HUSH_ENDS = (")", "|")
_SHORTEST_PHRASE_SECONDS = 0.05
# enough for `pause_seconds`: inside a sentence how many words came before changes nothing
_ANY_WORDS = 8
_REACH = 10  # far enough back for a word that one stumbles over


class Phrase(NamedTuple):
    """`sentence` is an index into the spoken sentences; the last phrase of each ends it."""

    sentence: int
    sound_seconds: float
    pause_seconds: float
    marked: bool
    ends_sentence: bool


class Expected(NamedTuple):
    """What the script makes expect: the sentences that are spoken, and their phrases."""

    sentences: tuple[PlacedSentence, ...]
    phrases: tuple[Phrase, ...]


class _Tick(NamedTuple):
    """After the source offset `at` so many seconds have gone."""

    at: int
    seconds: float


class _Break(NamedTuple):
    """A silence inside a sentence, in seconds of the paragraph's clock."""

    at_seconds: float
    seconds: float
    marked: bool


def expected(timeline: Timeline, language: str = "en") -> Expected:
    sentences: list[PlacedSentence] = []
    phrases: list[Phrase] = []
    placed_sentences = iter(timeline.sentences)
    for placed in timeline.paragraphs():
        timed = placed.timed
        for sentence in timed.sentences:
            own = next(placed_sentences)
            if sentence.cut or not sentence.words:
                continue
            ticks = list(_between(timed.ticks, sentence.start, sentence.end))
            start_seconds = own.first_seconds - placed.first_seconds
            breaks = _breaks(timed.paragraph, ticks, language)
            phrases += _phrases(len(sentences), own, start_seconds, breaks)
            sentences.append(own)
    return Expected(tuple(sentences), tuple(phrases))


def _between(ticks: Ticks, start: int, end: int) -> Iterator[_Tick]:
    first, last = bisect_right(ticks.at, start), bisect_right(ticks.at, end)
    yield from map(_Tick, ticks.at[first:last], ticks.seconds[first:last])


def _breaks(paragraph: Paragraph, ticks: Sequence[_Tick], language: str) -> Iterator[_Break]:
    """The silences between the words of one sentence."""
    word: _Tick | None = None
    marked_seconds = 0.0
    for tick in ticks:
        if paragraph.text[tick.at - 1] in _HUSH_ENDS:
            marked_seconds = tick.seconds - word.seconds if word else 0.0
            continue
        if word:
            seconds = max(marked_seconds, _natural_seconds(paragraph, word, language))
            if seconds:
                yield _Break(word.seconds, seconds, marked_seconds > 0)
        word, marked_seconds = tick, 0.0


def _natural_seconds(paragraph: Paragraph, word: _Tick, language: str) -> float:
    at = paragraph.plain_of(word.at)
    before = _SMALL_WORD.search(paragraph.plain[max(at - _REACH, 0) : at])
    gap = _GAP_AND_WORD.match(paragraph.plain, at)
    if not gap:
        return 0.0
    stumbles = before is not None and is_stumble(before[0], gap[2], language)
    return pause_seconds(gap[1], words_before=_ANY_WORDS, stumbles=stumbles)


def _phrases(
    index: int, sentence: PlacedSentence, start_seconds: float, breaks: Iterator[_Break]
) -> Iterator[Phrase]:
    clock = start_seconds
    for at_seconds, seconds, marked in breaks:
        yield Phrase(index, _sounding(clock, at_seconds), seconds, marked, False)
        clock = at_seconds + seconds
    end_seconds = start_seconds + sentence.last_seconds - sentence.first_seconds
    sound_seconds = _sounding(clock, end_seconds)
    yield Phrase(index, sound_seconds, sentence.pause_seconds, False, True)


def _sounding(start_seconds: float, end_seconds: float) -> float:
    return max(end_seconds - start_seconds, _SHORTEST_PHRASE_SECONDS)
