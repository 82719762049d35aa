"""A piece as its lines: what each takes, what of the silences goes with it, and what is left of
the time when some of them go, or parts of them.

The time of what is left is that of the script with those cuts marked, as `speech` would tell it;
the tests hold the two against each other.
"""

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from saywright.cuts.marking import Places
from saywright.cuts.planning.problem import TICKS_PER_SECOND, Kept, ticks
from saywright.cuts.trimming import TrimmedAway
from saywright.markup.tree import Paragraph, Range
from saywright.speech.grid import on_grid
from saywright.speech.model import gap_kind, pause_seconds
from saywright.speech.paragraph_words import live_text
from saywright.speech.timing import Sentence
from saywright.speech.voice import Voice


@dataclass(slots=True)
class Silences:
    """Ticks of marked silence about a line: `lead` before it and `tail` after it go along when it
    is cut, `left` inside it stays behind, `after` stands after it whatever is cut."""

    lead: int = 0
    tail: int = 0
    left: int = 0
    after: int = 0


class TrimmedLine(NamedTuple):
    """A line as it is without some parts of it, which are apart and in order."""

    line: "SpokenLine"
    parts: tuple[TrimmedAway, ...]

    @property
    def places(self) -> Places:
        return Places(
            tuple(each for part in self.parts for each in part.places.stretches),
            tuple(each for part in self.parts for each in part.places.extents),
        )


@dataclass(frozen=True, slots=True)
class SpokenLine:
    """A sentence of which something is spoken, in its paragraph, which starts at file offset `at`.

    `first` and `last`: where in the paragraph's spoken text its first word begins and its last
    ends. `sound` in ticks, its last word not drawn out. `pause` and `stop`: what its punctuation
    makes within its paragraph, and what its paragraph's end would; `pause` is None where it
    depends on what comes next. `places` is None where it cannot be cut. `trims`: what it may be
    instead; of one of those `gone` are the stretches of the spoken text that go, and `sentence`
    has the text and the seconds of what is left, but stands where the whole does.
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
    trims: tuple[TrimmedLine, ...] = ()
    gone: tuple[Range, ...] = ()

    def version(self, stays: int) -> "SpokenLine":
        """What is left of it, see `problem.Kept`."""
        return self.trims[stays - 2].line if stays > 1 else self

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
        return self.seconds_of([1] * len(self.lines))

    def seconds_of(self, kept: Kept) -> float:
        """How long the piece takes where only this stays."""
        end, marked = 0, self.before
        last: SpokenLine | None = None
        gone: list[SpokenLine] = []
        for whole, stays in zip(self.lines, kept, strict=True):
            if stays:
                line = whole.version(stays)
                end += self._gap(last, gone, line, marked + line.silences.lead) + line.sound
                last, gone, marked = line, [], line.silences.tail
            else:
                gone.append(whole)
                marked += whole.silences.left
            marked += whole.silences.after
        return (end + marked + (self.drawn if last is not None else 0)) / TICKS_PER_SECOND

    def _gap(
        self, one: SpokenLine | None, gone: Sequence[SpokenLine], other: SpokenLine, marked: int
    ) -> int:
        """From one line's last sound to the next one's first, with the drawing out in it."""
        if one is None:
            return marked
        pause, drawn = self.pause_between(one, gone, other)
        return max(marked, pause) + drawn

    def pause_between(
        self, line: SpokenLine, gone: Sequence[SpokenLine], following: SpokenLine
    ) -> tuple[int, int]:
        """The pause that punctuation makes between two lines where all between go, and by how
        much the word before it is drawn out; in ticks."""
        if line.at != following.at:
            return line.stop, self.drawn
        if line.pause is not None:
            return line.pause, self.drawn
        between = _text_between(line, gone, following)
        start, end = line.last, following.first
        breaks = line.paragraph.breaks if self.voice.verse else ()
        line_break = bisect_left(breaks, start) < bisect_left(breaks, end)
        pause = pause_ticks(between, line.words, line_break, self.voice)
        drawn = end - start > 1 and gap_kind(between) == "stop"
        return pause, self.drawn if drawn else 0


def _text_between(line: SpokenLine, gone: Sequence[SpokenLine], following: SpokenLine) -> str:
    """The spoken text between two lines of a paragraph where all between go."""
    paragraph, start = line.paragraph, line.last
    holes = [each for each in line.gone if each.start >= start]
    holes += [each for one in gone if one.places for each in one.places.stretches]
    holes += [each for each in following.gone if each.end <= following.first]
    pieces: list[str] = []
    for hole in holes:
        pieces.append(live_text(paragraph, start, hole.start))
        start = hole.end
    pieces.append(live_text(paragraph, start, following.first))
    return "".join(pieces)


def pause_ticks(between: str, words_before: int, line_break: bool, voice: Voice) -> int:
    """The pause of the punctuation in `between`, see `model.pause_seconds`."""
    pause = pause_seconds(between, words_before=words_before, line_break=line_break)
    return ticks(on_grid(pause * voice.scale))
