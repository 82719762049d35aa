"""The words of a paragraph, each with its time where it stands."""

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from saywright.markup.tree import Paragraph, Range
from saywright.speech.grid import on_grid
from saywright.speech.model import coefficients, gap_kind, seconds_and_syllables
from saywright.speech.own_words import own_words, told_of, told_sound
from saywright.speech.spoken import spoken_words
from saywright.speech.voice import Voice


class Word(NamedTuple):
    """A written word: its offsets in `plain`, its sentence by index, and its time."""

    start: int
    end: int
    sentence: int
    seconds: float
    syllables: int
    cut: bool
    kept: bool


def spoken_in(paragraph: Paragraph, sentences: Sequence[Range], voice: Voice) -> list[Word]:
    """Every word of the sentences, cut ones too.

    Drawn out are those that are spoken before a full stop, and the last that is spoken.
    """
    words = _words(paragraph, sentences, voice)
    lengthening = lengthening_seconds(voice)
    live = [index for index, word in enumerate(words) if not word.cut]
    finals = [
        index
        for index, following in pairwise(live)
        if _is_stop(paragraph, words[index].end, words[following].start)
    ]
    for index in (*finals, *live[-1:]):
        words[index] = words[index]._replace(seconds=words[index].seconds + lengthening)
    return words


def lengthening_seconds(voice: Voice) -> float:
    """By how much the last word before a full stop is drawn out."""
    return on_grid(coefficients().other["final_lengthening"] * voice.scale)


def inside(ranges: Sequence[Range], offsets: Sequence[int]) -> list[bool]:
    """For each of the offsets, which are in order, whether it lies in one of the ranges."""
    found = [False] * len(offsets)
    for start, end in ranges:
        for index in range(bisect_left(offsets, start), bisect_left(offsets, end)):
            found[index] = True
    return found


def live_text(paragraph: Paragraph, start: int, end: int) -> str:
    """The spoken text from `start` to `end` without what is cut."""
    if not paragraph.cuts:
        return paragraph.plain[start:end]
    pieces: list[str] = []
    index = bisect_right(paragraph.cuts, start, key=lambda cut: cut.end)
    while index < len(paragraph.cuts) and paragraph.cuts[index].start < end:
        cut = paragraph.cuts[index]
        pieces.append(paragraph.plain[start : max(start, cut.start)])
        start = max(start, cut.end)
        index += 1
    pieces.append(paragraph.plain[start:end])
    return "".join(pieces)


def _words(paragraph: Paragraph, sentences: Sequence[Range], voice: Voice) -> list[Word]:
    plain, language, scale = paragraph.plain, voice.language, voice.scale
    spoken = [
        (start + word.start, start + word.end, sentence, word.said)
        for sentence, (start, end) in enumerate(sentences)
        for word in spoken_words(plain[start:end], language)
    ]
    starts = [word[0] for word in spoken]
    flags = [inside(each, starts) for each in (paragraph.stresses, paragraph.cuts, paragraph.keeps)]
    own = bool(voice.words)
    return [
        Word(
            start,
            end,
            sentence,
            *(
                _told_sound(plain[start:end], said, voice, stressed)
                if own
                else _usual_sound(said, language, scale, stressed)
            ),
            cut,
            kept,
        )
        for (start, end, sentence, said), stressed, cut, kept in zip(spoken, *flags, strict=True)
    ]


def _told_sound(
    written: str, said: tuple[str, ...], voice: Voice, stressed: bool
) -> tuple[float, int]:
    """The sound of a word where the project has a list of its own."""
    told = told_of(written, own_words(voice.words))
    if told is None:
        return _usual_sound(said, voice.language, voice.scale, stressed)
    seconds, syllables = told_sound(written, told, voice.language, stressed=stressed)
    return on_grid(seconds * voice.scale), syllables


@lru_cache(maxsize=16384)
def _usual_sound(
    said: tuple[str, ...], language: str, scale: float, stressed: bool
) -> tuple[float, int]:
    seconds, syllables = seconds_and_syllables(said, language, stressed)
    return on_grid(seconds * scale), syllables


def _is_stop(paragraph: Paragraph, start: int, end: int) -> bool:
    return end - start > 1 and gap_kind(live_text(paragraph, start, end)) == "stop"
