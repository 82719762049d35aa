"""A paragraph with the sentences that stand near it: what a check of the words may look at.

One coordinate system: half-open code points counted from the start of a stretch of paragraphs,
in which findings and fixes are given too. `Line` leads there from a sentence's own text.
"""

from bisect import bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from operator import attrgetter, itemgetter

from saywright.cuts.marking import Around
from saywright.cuts.rewording import reworded
from saywright.finding import Edit, Fix
from saywright.language.facts import Facts
from saywright.language.sentence_facts import sentence_facts
from saywright.markup.settings import Settings
from saywright.markup.tree import Paragraph, Range
from saywright.speech.timing import Sentence, TimedParagraph

REACH_SENTENCES = 12
REACH_BLOCKS = 48


@dataclass(frozen=True)
class Line:
    """A sentence of which something is spoken.

    `text` is what is spoken of it, and offsets in it are what the methods take. `at` is where its
    paragraph starts, `block` the paragraph's place among all blocks of the stretch. `opens`: it
    is the first that is spoken in its paragraph.
    """

    block: int
    at: int
    timed: TimedParagraph
    sentence: Sentence
    opens: bool
    language: str

    @property
    def text(self) -> str:
        return self.sentence.text

    @property
    def paragraph(self) -> Paragraph:
        return self.timed.paragraph

    @cached_property
    def facts(self) -> Facts | None:
        """What is known of its grammar; None in a language of which nothing is."""
        return sentence_facts(self.text, self.language)

    @property
    def span(self) -> Range:
        """The whole sentence, with the marks that are wholly its own."""
        return Range(self.sentence.start + self.at, self.sentence.end + self.at)

    def where(self, start: int, end: int) -> Range:
        """Where `text[start:end]` stands, `start` < `end`; marks inside are taken in."""
        inner = self.paragraph.source_range(self.plain(start), self.plain(end - 1) + 1)
        return Range(inner.start + self.at, inner.end + self.at)

    def plain(self, offset: int) -> int:
        """The offset in the paragraph's spoken text of the code point at `offset`."""
        if not self.paragraph.cuts:
            return self.sentence.plain.start + offset
        spoken, plain = self._live[bisect_right(self._live, offset, key=itemgetter(0)) - 1]
        return plain + offset - spoken

    @cached_property
    def _live(self) -> list[tuple[int, int]]:
        """Where each stretch that is not cut starts: in `text`, and in the paragraph's text."""
        start, cuts = self.sentence.plain.start, self.paragraph.cuts
        stretches = [(0, start)]
        gone = 0
        for cut in cuts[bisect_right(cuts, start, key=attrgetter("end")) :]:
            if cut.start >= self.sentence.plain.end:
                break
            gone += cut.end - max(cut.start, start)
            stretches.append((cut.end - start - gone, cut.end))
        return stretches

    def seconds(self, start: int, end: int) -> float:
        """How long `text[start:end]` takes to say, `start` < `end`, with the pauses in it, and
        with the silence before its first word."""
        where = self.paragraph.source_range(self.plain(start), self.plain(end - 1) + 1)
        return self.timed.seconds_at(where.end) - self.timed.seconds_at(where.start)


@dataclass(frozen=True)
class Passage:
    """The sentences of a stretch in which one speaker speaks, and which of them are looked at.

    `lines[first:last]` are those of one paragraph. A check looks no further than `before` and
    `after`, which hold up to a dozen sentences each, and reports what begins in `own`.
    `speaker` is who speaks, if that is known; `opens_file`: settings could begin here.
    """

    lines: Sequence[Line]
    first: int
    last: int
    settings: Settings
    speaker: str | None
    language: str
    opens_file: bool = False

    @cached_property
    def own(self) -> Sequence[Line]:
        return self.lines[self.first : self.last]

    @cached_property
    def before(self) -> Sequence[Line]:
        """The sentences before, the nearest last."""
        lines = self.lines[max(self.first - REACH_SENTENCES, 0) : self.first]
        nearest = self.lines[self.first].block - REACH_BLOCKS
        return [line for line in lines if line.block >= nearest]

    @cached_property
    def after(self) -> Sequence[Line]:
        """The sentences after, the nearest first."""
        lines = self.lines[self.last : self.last + REACH_SENTENCES]
        nearest = self.lines[self.first].block + REACH_BLOCKS
        return [line for line in lines if line.block <= nearest]

    def fix(self, title: str, line: Line, edits: Iterable[Edit]) -> Fix | None:
        """A fix that makes `edits`, whose offsets are those of `line.text`.

        None where that cannot be done without touching a mark or another word.
        """
        in_plain = [_in_plain(line, edit) for edit in edits]
        around = Around(self.settings.speakers, self.opens_file)
        within = Range(line.sentence.start, line.sentence.end)
        fix = reworded(title, line.paragraph, in_plain, around, within)
        return fix.shifted(line.at) if fix else None


def _in_plain(line: Line, edit: Edit) -> Edit:
    if edit.start == edit.end:
        at = line.plain(edit.start)
        return Edit(at, at, edit.text)
    return Edit(line.plain(edit.start), line.plain(edit.end - 1) + 1, edit.text)
