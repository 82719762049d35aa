"""A piece as its lines: what each takes, what of the silences goes with it, and what is left of
the time when some of them go.

The time of what is left is that of the script with those cuts marked, as `speech` would tell it;
the tests hold the two against each other.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import NamedTuple

from saywright.cuts.marking import Places, cut_together, places_to_cut
from saywright.cuts.planning.problem import TICKS_PER_SECOND, ticks
from saywright.markup.tree import Breath, Direction, Paragraph, Range
from saywright.speech.grid import on_grid
from saywright.speech.model import gap_kind, pause_seconds
from saywright.speech.paragraph_words import lengthening_seconds, live_text, spoken_in
from saywright.speech.timing import Sentence, TimedParagraph
from saywright.speech.voice import Voice


@dataclass(slots=True)
class Silences:
    """Ticks of marked silence about a line: `lead` before it and `tail` after it go along when it
    is cut, `left` inside it stays behind, `after` stands after it whatever is cut."""

    lead: int = 0
    tail: int = 0
    left: int = 0
    after: int = 0


@dataclass(frozen=True, slots=True)
class SpokenLine:
    """A sentence of which something is spoken, in its paragraph, which starts at file offset `at`.

    `first` and `last`: where in the paragraph's spoken text its first word begins and its last
    ends. `sound` in ticks, its last word not drawn out. `pause` and `stop`: what its punctuation
    makes within its paragraph, and what its paragraph's end would; `pause` is None where it
    depends on what comes next. `places` is None where it cannot be cut.
    """

    at: int
    paragraph: Paragraph
    sentence: Sentence
    words: int
    first: int
    last: int
    sound: int
    pause: int | None
    stop: int
    ends: bool
    places: Places | None
    silences: Silences

    @property
    def text(self) -> str:
        return self.sentence.text


@dataclass(frozen=True)
class Piece:
    """The lines of a part; `before` and `drawn` in ticks: the silence marked before the first,
    and by how much the last word before a stop is drawn out."""

    lines: tuple[SpokenLine, ...]
    before: int
    drawn: int
    voice: Voice

    @property
    def seconds(self) -> float:
        return self.seconds_of([True] * len(self.lines))

    def seconds_of(self, kept: Sequence[bool]) -> float:
        """How long the piece takes where only these lines stay."""
        end, marked = 0, self.before
        last: int | None = None
        for index, (line, stays) in enumerate(zip(self.lines, kept, strict=True)):
            if stays:
                end += self._gap(last, index, marked + line.silences.lead) + line.sound
                last, marked = index, line.silences.tail
            else:
                marked += line.silences.left
            marked += line.silences.after
        return (end + marked + (self.drawn if last is not None else 0)) / TICKS_PER_SECOND

    def _gap(self, one: int | None, other: int, marked: int) -> int:
        """From one line's last sound to the next one's first, with the drawing out in it."""
        if one is None:
            return marked
        pause, drawn = self.pause_between(one, other)
        return max(marked, pause) + drawn

    def pause_between(self, one: int, other: int) -> tuple[int, int]:
        """The pause that punctuation makes between two lines where all between go, and by how
        much the word before it is drawn out; in ticks."""
        line, following = self.lines[one], self.lines[other]
        if line.paragraph is not following.paragraph or line.at != following.at:
            return line.stop, self.drawn
        if line.pause is not None:
            return line.pause, self.drawn
        between = self._text_between(one, other)
        start, end = line.last, following.first
        breaks = line.paragraph.breaks if self.voice.verse else ()
        line_break = bisect_left(breaks, start) < bisect_left(breaks, end)
        pause = _pause(between, line.words, line_break, self.voice)
        drawn = end - start > 1 and gap_kind(between) == "stop"
        return pause, self.drawn if drawn else 0

    def _text_between(self, one: int, other: int) -> str:
        """The spoken text between two lines of a paragraph where all between go."""
        paragraph = self.lines[one].paragraph
        start = self.lines[one].last
        pieces: list[str] = []
        for line in self.lines[one + 1 : other]:
            for stretch in line.places.stretches if line.places else ():
                pieces.append(live_text(paragraph, start, stretch.start))
                start = stretch.end
        pieces.append(live_text(paragraph, start, self.lines[other].first))
        return "".join(pieces)


def piece_of(spoken: Iterable[tuple[int, TimedParagraph] | float], voice: Voice) -> Piece:
    """The lines of paragraphs in order, each with its file offset; numbers are the seconds of
    silences that are marked between them."""
    reader = _Reader(voice)
    for each in spoken:
        if isinstance(each, tuple):
            reader.read(*each)
        else:
            reader.fixed(ticks(each))
    return Piece(tuple(reader.lines), reader.before, reader.drawn, voice)


class _Extent(NamedTuple):
    start: int
    end: int
    line: int


@dataclass
class _Reader:
    """Reads paragraph after paragraph. `lines` and `before` as in `Piece`."""

    voice: Voice
    lines: list[SpokenLine] = field(default_factory=list)
    before: int = 0

    @property
    def drawn(self) -> int:
        return ticks(lengthening_seconds(self.voice))

    def fixed(self, silence: int) -> None:
        """A silence after what was read last that stands whatever is cut."""
        if self.lines:
            self.lines[-1].silences.after += silence
        else:
            self.before += silence

    def read(self, at: int, timed: TimedParagraph) -> None:
        paragraph = timed.paragraph
        spans = [sentence.plain for sentence in timed.sentences]
        by_sentence: list[list[Range]] = [[] for _ in spans]
        for word in spoken_in(paragraph, spans, self.voice):
            if not word.cut:
                by_sentence[word.sentence].append(Range(word.start, word.end))
        live = [(each, words) for each, words in enumerate(by_sentence) if words]
        sentences = [timed.sentences[each] for each, _ in live]
        places = _cuttable(paragraph, sentences)
        edges = [Range(words[0].start, words[-1].end) for _, words in live]
        counts = [len(words) for _, words in live]
        first = len(self.lines)
        own = self._lines(at, paragraph, sentences, edges, counts, places)
        silences = _Placing(paragraph, self.voice, by_sentence, own, first)
        before = list(own)
        self._place(silences, before)

    def _lines(
        self,
        at: int,
        paragraph: Paragraph,
        sentences: Sequence[Sentence],
        edges: Sequence[Range],
        counts: Sequence[int],
        places: Sequence[Places | None],
    ) -> list[SpokenLine]:
        raise NotImplementedError
