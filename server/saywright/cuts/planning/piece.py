"""A piece as its lines: what each takes, what of the silences goes with it, and what is left of
the time when some of them go.

The time of what is left is that of the script with those cuts marked, as `speech` would tell it;
the tests hold the two against each other.
"""

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass

from saywright.cuts.marking import Places
from saywright.cuts.planning.problem import TICKS_PER_SECOND, ticks
from saywright.markup.tree import Paragraph
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
        if line.at != following.at:
            return line.stop, self.drawn
        if line.pause is not None:
            return line.pause, self.drawn
        between = self._text_between(one, other)
        start, end = line.last, following.first
        breaks = line.paragraph.breaks if self.voice.verse else ()
        line_break = bisect_left(breaks, start) < bisect_left(breaks, end)
        pause = pause_ticks(between, line.words, line_break, self.voice)
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


def pause_ticks(between: str, words_before: int, line_break: bool, voice: Voice) -> int:
    """The pause of the punctuation in `between`, see `model.pause_seconds`."""
    pause = pause_seconds(between, words_before=words_before, line_break=line_break)
    return ticks(on_grid(pause * voice.scale))
