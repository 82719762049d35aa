"""A paragraph without what is cut, mended as far as exactly the same is still spoken."""

import re
from bisect import bisect_right
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

from saywright.cuts.closing_up import closed_up
from saywright.cuts.marking import between
from saywright.markup.reader import BlockReader, Context, split_lines
from saywright.markup.settings import Settings
from saywright.markup.tree import Block, Breath, Direction, Note, Paragraph, Range, Span
from saywright.speech.paragraph_words import live_text
from saywright.speech.timed_block import timed_block
from saywright.speech.voice import Voice

_SAME_SECONDS = 1e-6
_MOST_TRIED = 12
_WORD = re.compile(r"[^\W_]+")


def without_cuts(paragraph: Paragraph, settings: Settings, voice: Voice) -> str:
    """The paragraph's text without what is cut and the marks around it: whole lines, or "".

    What is taken out closes up, a comma that would stand alone goes with it, a sentence that now
    begins later gets a capital: as far as the same words are spoken in the same time. Where even
    the bare words would not be, the cut that is at fault stays marked, or else all do.
    """
    cuts = [span for span in paragraph.spans if span.kind == "cut"]
    tries = [cuts] if cuts else []
    if 1 < len(cuts) <= _MOST_TRIED:
        tries += [[cut for cut in cuts if cut is not stays] for stays in cuts]
    for taken in tries:
        gaps = _removed(paragraph, taken)
        for text in closed_up(paragraph.text, gaps):
            if _says_the_same(paragraph, gaps, text, settings, voice):
                return text
    return paragraph.text


def _removed(paragraph: Paragraph, cuts: Sequence[Span]) -> list[Range]:
    """The stretches of the source to take out, in order and apart, with those cuts. What is kept
    stays, whatever cut is around it, save its silences, which the cut holds."""
    keeps = _joined(Range(s.start, s.end) for s in paragraph.spans if s.kind == "keep")
    holes = _joined(Range(span.start, span.end) for span in cuts)
    gone: list[Range] = [each for hole in holes for each in between(hole, keeps)]
    for span in cuts:
        gone += (Range(span.start, span.inner.start), Range(span.inner.end, span.end))
    gone += (Range(m.start, m.end) for m in _marks(paragraph) if _is_in(holes, m.start))
    held, taken = _joined(gone), set(cuts)
    for span in paragraph.spans:
        # of a mark whose partner goes the other one would be spoken
        if span not in taken and _is_in(held, span.start) != _is_in(held, span.inner.end):
            gone += (Range(span.start, span.inner.start), Range(span.inner.end, span.end))
    return _joined(gone)


def _marks(paragraph: Paragraph) -> Iterator[Direction | Breath]:
    yield from paragraph.directions
    yield from paragraph.breaths


def _joined(ranges: Iterable[Range]) -> list[Range]:
    joined: list[Range] = []
    for start, end in sorted(ranges):
        if joined and start <= joined[-1].end:
            joined[-1] = Range(joined[-1].start, max(end, joined[-1].end))
        else:
            joined.append(Range(start, end))
    return joined


def _end(where: Range) -> int:
    return where.end


def _is_in(ranges: Sequence[Range], at: int) -> bool:
    """Whether one of the ranges, which are in order and apart, holds `at`."""
    index = bisect_right(ranges, at, key=_end)
    return index < len(ranges) and ranges[index].start <= at


def _says_the_same(
    paragraph: Paragraph, gaps: Sequence[Range], text: str, settings: Settings, voice: Voice
) -> bool:
    """Whether `text` on its own says what is spoken of the paragraph, in the same time."""
    block = _block(text, settings)
    if block is None or isinstance(block, Note):
        return not _live_words(paragraph) and not any(
            mark.silence for mark in _left(paragraph, gaps)
        )
    if not isinstance(block, Paragraph):
        return False
    return (
        _cut(block, ()) == _cut(paragraph, gaps)
        and _live_words(block) == _live_words(paragraph)
        and _leaned_on(block) == _leaned_on(paragraph)
        and _kept(block) == _kept(paragraph)
        and _notes(block, ()) == _notes(paragraph, gaps)
        and _written(block, _left(block, ())) == _written(paragraph, _left(paragraph, gaps))
        and not Counter(_problems(block)) - Counter(_problems(paragraph))
        and _takes_as_long(block, paragraph, voice)
    )


def _block(text: str, settings: Settings) -> Block | None:
    """The one block that `text` is read as in a piece; a blank one where it is several."""
    reader = BlockReader(settings, Context("piece", settings))
    for line in split_lines(text):
        reader.read(line)
    reader.end()
    blocks = [each.block for each in reader.blocks]
    if not blocks:
        return None
    return blocks[0] if len(blocks) == 1 else Block(text)


def _live_words(paragraph: Paragraph) -> list[str]:
    return _WORD.findall(live_text(paragraph, 0, len(paragraph.plain)).casefold())


def _cut(paragraph: Paragraph, gaps: Sequence[Range]) -> list[str]:
    """What the cuts hold that are still marked."""
    return [
        paragraph.text[span.inner.start : span.inner.end]
        for span in paragraph.spans
        if span.kind == "cut" and not _is_in(gaps, span.start)
    ]


def _leaned_on(paragraph: Paragraph) -> list[str]:
    return _live_in(paragraph, paragraph.stresses)


def _kept(paragraph: Paragraph) -> list[str]:
    return _live_in(paragraph, paragraph.keeps)


def _live_in(paragraph: Paragraph, ranges: Sequence[Range]) -> list[str]:
    return [
        word for where in ranges for word in _WORD.findall(live_text(paragraph, *where).casefold())
    ]


def _left(paragraph: Paragraph, gaps: Sequence[Range]) -> list[Direction | Breath]:
    marks = sorted(_marks(paragraph), key=lambda mark: mark.start)
    return [mark for mark in marks if not _is_in(gaps, mark.start)]


def _written(paragraph: Paragraph, marks: Sequence[Direction | Breath]) -> list[str]:
    return [paragraph.text[mark.start : mark.end] for mark in marks]


def _notes(paragraph: Paragraph, gaps: Sequence[Range]) -> list[str]:
    return [
        paragraph.text[start:end].strip()
        for start, end in paragraph.notes
        if not _is_in(gaps, start)
    ]


def _problems(paragraph: Paragraph) -> Iterator[str]:
    return (problem.check for problem in paragraph.problems)


def _takes_as_long(one: Paragraph, other: Paragraph, voice: Voice) -> bool:
    """Whether two paragraphs take the same time wherever they stand."""
    a, b = timed_block(one, voice).stretch, timed_block(other, voice).stretch
    seconds = (
        (a.lead_seconds, b.lead_seconds),
        (a.sound_seconds, b.sound_seconds),
        (a.tail_seconds, b.tail_seconds),
        (a.stop_seconds, b.stop_seconds),
        (a.marked_seconds, b.marked_seconds),
    )
    return (
        a.sounds == b.sounds
        and (a.words, a.syllables) == (b.words, b.syllables)
        and all(abs(one - other) < _SAME_SECONDS for one, other in seconds)
    )
