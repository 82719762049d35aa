"""What can be done to the sentence at a place, flagged or not."""

from collections.abc import Iterator

from saywright.analysis import Analysis
from saywright.cuts import marking
from saywright.cuts.trimming import possible_trims, shortened, trim, veiled
from saywright.finding import Fix
from saywright.markup.tree import Range
from saywright.speech.timeline import Placed
from saywright.speech.timing import Sentence
from saywright.speech.voice import language_of

_MOST_TRIMS = 4
_REREAD = 400_000  # code points of a paragraph that are read again, in all, to try its trims


def fixes_at(analysis: Analysis, where: Range) -> Iterator[Fix]:
    """Cut, keep, trim, restore, release and delete, each where it applies, at a range of the
    file."""
    for view in analysis.views:
        part = view.timeline.part
        language = language_of(part.settings, analysis.project)
        for placed in view.timeline.paragraphs(where.start, where.end):
            local = Range(where.start - placed.start, where.end - placed.start)
            for fix in _fixes(analysis, placed, local, marking.around(part, placed), language):
                yield fix.shifted(placed.start)


def _fixes(
    analysis: Analysis, placed: Placed, where: Range, around: marking.Around, language: str
) -> Iterator[Fix]:
    paragraph = placed.timed.paragraph
    sentence = next(
        (s for s in placed.timed.sentences if where.start <= s.end and s.start <= where.end), None
    )
    if sentence is None:
        return
    touched = Range(sentence.start, sentence.end)
    offers = (
        marking.cut(paragraph, sentence),
        marking.keep(paragraph, sentence),
        *_trims(analysis, placed, sentence, language),
        marking.restore(paragraph, touched, around),
        marking.release(paragraph, touched, around),
        marking.delete(paragraph, sentence, around),
    )
    yield from (fix for fix in offers if fix)


def _trims(analysis: Analysis, placed: Placed, sentence: Sentence, language: str) -> Iterator[Fix]:
    """The first few trims of a sentence, no two of one title, which quotes no name from life."""
    paragraph = placed.timed.paragraph
    most = min(_MOST_TRIMS, _REREAD // max(len(paragraph.text), 1))
    offered: set[str] = set()
    for away in possible_trims(paragraph, sentence, language)[:most]:
        words = shortened(veiled(away.words, analysis))
        fix = trim(paragraph, away)
        if fix and words not in offered:
            offered.add(words)
            yield fix._replace(title=f"Trim “{words}”")
