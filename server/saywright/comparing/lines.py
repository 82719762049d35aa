"""A piece as its lines, to be compared: each sentence with its words, its marks and its seconds."""

import re
from bisect import bisect_left
from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from itertools import accumulate, islice
from typing import NamedTuple

from saywright.markup.tree import Breath, Cue, Direction, Paragraph, Range
from saywright.speech.paragraph_words import inside
from saywright.speech.timeline import Placed, PlacedSentence, Timeline
from saywright.speech.voice import Voice

# A word, a letter of a script that puts no spaces between words, or anything else but a blank
_UNSPACED = r"\u3041-\u30ff\u3400-\u9fff\uf900-\ufaff"
_LETTERS = rf"[^\W_{_UNSPACED}]+"
_TOKEN = re.compile(rf"[{_UNSPACED}]|{_LETTERS}(?:['’]{_LETTERS})*|[^\w\s]+|_+")


class Token(NamedTuple):
    """A word, or a run of punctuation: half-open code points of the line's text."""

    start: int
    end: int
    text: str
    is_word: bool
    cut: bool


@dataclass(frozen=True)
class Line:
    """A sentence of a piece.

    `start` and `end` are file offsets, `plain` is its range in its paragraph's spoken text, and
    `paragraph_start` the file offset of that. `seconds` are its speech and the silence after it,
    zero where it is cut. `silences` are the seconds of each marked silence that belongs to it and
    is performed. `first_seconds`: when it is heard.
    """

    start: int
    end: int
    paragraph: Paragraph
    paragraph_start: int
    plain: Range
    seconds: float
    first_seconds: float
    kept: bool
    cut: bool
    silences: tuple[float, ...]

    @cached_property
    def text(self) -> str:
        """All of its words, cut or not, with its marks off."""
        return self.paragraph.plain[self.plain.start : self.plain.end]

    @cached_property
    def tokens(self) -> tuple[Token, ...]:
        return tuple(_tokens(self))

    @cached_property
    def known_by(self) -> tuple[str, ...]:
        """Its words, cut or not, or all that stands there where it has none; never empty."""
        words = tuple(token.text.casefold() for token in self.tokens if token.is_word)
        return words or (self.text.strip(),)

    @property
    def spoken_words(self) -> tuple[str, ...]:
        return tuple(
            token.text.casefold() for token in self.tokens if token.is_word and not token.cut
        )

    @property
    def heard(self) -> bool:
        """Whether a word of it is spoken."""
        return not self.cut

    def place(self, start: int, end: int) -> Range:
        """The file offsets of a range of `text`."""
        first = self.plain.start
        source = self.paragraph.source_range(first + start, first + end)
        return Range(self.paragraph_start + source.start, self.paragraph_start + source.end)


def _tokens(line: Line) -> Iterator[Token]:
    first = line.plain.start
    found = list(_TOKEN.finditer(line.text))
    cuts = inside(line.paragraph.cuts, [first + token.start() for token in found])
    for token, cut in zip(found, cuts, strict=True):
        yield Token(*token.span(), token.group(), token.group()[0].isalnum(), cut)


def lines_of(timeline: Timeline, voice: Voice) -> tuple[Line, ...]:
    """The lines of a part, in order."""
    found: list[Line] = []
    silences = _silences_by_line(timeline, voice)
    sentences = iter(timeline.sentences)
    for placed in timeline.paragraphs():
        for sentence in placed.timed.sentences:
            found.append(_line(placed, next(sentences), tuple(silences[len(found)])))
            assert found[-1].plain == sentence.plain
    return tuple(found)


def _line(placed: Placed, at: PlacedSentence, silences: tuple[float, ...]) -> Line:
    sentence = at.sentence
    return Line(
        start=at.start,
        end=at.end,
        paragraph=placed.timed.paragraph,
        paragraph_start=placed.start,
        plain=sentence.plain,
        seconds=0.0 if sentence.cut else sentence.speech_seconds + at.pause_seconds,
        first_seconds=at.first_seconds,
        kept=sentence.kept,
        cut=sentence.cut,
        silences=silences,
    )


def _silences_by_line(timeline: Timeline, voice: Voice) -> Mapping[int, list[float]]:
    """The seconds of the performed silences, by the number of the line that they belong to.

    That is the sentence before, or at a paragraph's start the one after. Those of a paragraph
    without a sentence belong to the line before it, and those of a cue to the line after it.
    """
    found: defaultdict[int, list[float]] = defaultdict(list)
    count = 0
    part = timeline.part
    for each in islice(timeline.blocks.items(part.first_block), part.end_block - part.first_block):
        cue = each.block.direction if isinstance(each.block, Cue) else None
        if cue and cue.silence:
            found[count].append(voice.seconds_of(cue.silence))
        if each.timed:
            starts = [sentence.plain.start for sentence in each.timed.sentences]
            for at, seconds in _performed(each.timed.paragraph, voice):
                within = max(bisect_left(starts, at) - 1, 0)
                found[count + within if starts else max(count - 1, 0)].append(seconds)
            count += len(starts)
    return found


def _performed(paragraph: Paragraph, voice: Voice) -> Iterator[tuple[int, float]]:
    """Each marked silence outside cuts: its offset in the spoken text, and its seconds."""
    marks: list[Direction | Breath] = [*paragraph.directions, *paragraph.breaths]
    cuts = [span for span in paragraph.spans if span.kind == "cut"]
    starts = [cut.start for cut in cuts]
    ends = [0, *accumulate((cut.end for cut in cuts), max)]
    for mark in sorted(marks, key=lambda mark: mark.start):
        if mark.silence and mark.start >= ends[bisect_left(starts, mark.start)]:
            yield paragraph.plain_of(mark.start), voice.seconds_of(mark.silence)
