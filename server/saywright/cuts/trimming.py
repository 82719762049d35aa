"""Edits that cut a part of a sentence and let the rest stand.

Only marks are put in. Where they stand: an opening mark cannot follow a word, so the comma before
what goes stays, and a trim is offered only where what is left can have that comma; the comma
after it goes. At a sentence's end the stop stays, and is all that is heard after the last word.
Dashes around an aside both go. After a trimmed opening the next word keeps its small letter: it
is spoken, and the marks come off without a trace.
"""

from bisect import bisect_right
from collections.abc import Iterator
from itertools import accumulate, takewhile
from typing import NamedTuple

from saywright.analysis import Analysis
from saywright.checks.name_from_life import without_names
from saywright.cuts.marking import Places, cut_together
from saywright.finding import Edit, Finding, Fix
from saywright.language.trim import Trim, TrimKind
from saywright.language.trims import trims
from saywright.markup.tree import SPAN_MARKS, Direction, Paragraph, Range
from saywright.speech.extent import source_extents
from saywright.speech.timing import Sentence

_LONGEST_QUOTE = 40  # code points
_PARTING = " \t\n,;:–—-…"


class TrimmedAway(NamedTuple):
    """What can go of a sentence. Offsets are the paragraph's.

    `start` to `end` is the stretch of the source that the marks would hold, `places` the same
    for `marking.cut_together`. `words` are the words that go as they are spoken, `why` what they
    are: "the aside “I suppose”". Both quote the script: `veiled` before they are shown.
    """

    start: int
    end: int
    places: Places
    kind: TrimKind
    words: str
    why: str

    @property
    def edits(self) -> tuple[Edit, ...]:
        mark = SPAN_MARKS["cut"]
        return Edit(self.start, self.start, mark), Edit(self.end, self.end, mark)


def trims_in(
    paragraph: Paragraph, sentence: Sentence, language: str = "en"
) -> tuple[TrimmedAway, ...]:
    """Everything that can go of a sentence of the paragraph, in order, each by itself.

    Each reads as meant when its marks are put in. Two that are apart can go together; one that
    lies in another goes with it. None of a sentence that is cut; nothing kept ever goes. Every
    one costs a reading of the paragraph: see `possible_trims`.
    """
    found = possible_trims(paragraph, sentence, language)
    return tuple(each for each in found if cut_together(paragraph, [each.places]))


def possible_trims(
    paragraph: Paragraph, sentence: Sentence, language: str = "en"
) -> tuple[TrimmedAway, ...]:
    """The same before it is tried whether the marks would be read as meant, for who tries those of
    many sentences at once."""
    if sentence.cut:
        return ()
    found = (_away(paragraph, sentence, each) for each in trims(sentence.text, language))
    return tuple(each for each in found if each)


def trim(paragraph: Paragraph, away: TrimmedAway) -> Fix | None:
    """Marks what goes as cut, nothing else. None where that would not be read as meant."""
    fix = cut_together(paragraph, [away.places])
    return fix._replace(title=f"Trim “{away.words}”") if fix else None


def veiled(words: str, analysis: Analysis) -> str:
    """`words` without the names that must not be shown."""
    return without_names(Finding("", 0, 0, words), analysis.project).message


def shortened(words: str) -> str:
    """`words`, or as many of the first as are short enough to be quoted."""
    if len(words) <= _LONGEST_QUOTE:
        return words
    ends = accumulate(len(word) + 1 for word in words.split(" "))
    end = max((each - 1 for each in ends if each <= _LONGEST_QUOTE), default=_LONGEST_QUOTE)
    return words[:end].rstrip(_PARTING) + "…"


def _away(paragraph: Paragraph, sentence: Sentence, each: Trim) -> TrimmedAway | None:
    stretch = _in_plain(paragraph, sentence, each)
    if stretch is None or _meets(stretch, paragraph.keeps):
        return None
    (extent,) = source_extents(paragraph, [stretch])
    if _loses_direction(paragraph, extent):
        return None
    words = " ".join(sentence.text[each.start : each.end].split()).strip(_PARTING)
    why = f"{each.why} “{words}”"
    return TrimmedAway(*extent, Places((stretch,), (extent,)), each.kind, words, why)


def _in_plain(paragraph: Paragraph, sentence: Sentence, each: Trim) -> Range | None:
    """Where a stretch of what is spoken of a sentence stands in the paragraph's spoken text; None
    where a cut stands in it."""
    before = 0
    for live in _live(paragraph, sentence.plain):
        after = before + live.end - live.start
        if each.start >= before and each.end <= after:
            at = live.start - before
            return Range(each.start + at, each.end + at)
        before = after
    return None


def _live(paragraph: Paragraph, whole: Range) -> Iterator[Range]:
    """The stretches of `whole` that are not cut."""
    start = whole.start
    for cut in paragraph.cuts[bisect_right(paragraph.cuts, start, key=_end) :]:
        if cut.start >= whole.end:
            break
        yield Range(start, max(start, cut.start))
        start = cut.end
    yield Range(start, max(start, whole.end))


def _meets(stretch: Range, others: tuple[Range, ...]) -> bool:
    """Whether `stretch` shares a code point with one of `others`, which are in order."""
    index = bisect_right(others, stretch.start, key=_end)
    return index < len(others) and others[index].start < stretch.end


def _loses_direction(paragraph: Paragraph, extent: Range) -> bool:
    """Whether a direction that is more than a silence would go along."""
    directions = paragraph.directions
    first = bisect_right(directions, extent.start, key=_end)
    inside = takewhile(lambda each: each.start < extent.end, directions[first:])
    return any(not each.bare for each in inside)


def _end(where: Range | Direction) -> int:
    return where.end
