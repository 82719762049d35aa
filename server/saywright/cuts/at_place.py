"""What can be done to the sentence at a place, flagged or not."""

from collections.abc import Iterator

from saywright.analysis import Analysis
from saywright.cuts import marking
from saywright.finding import Fix
from saywright.markup.tree import Range
from saywright.speech.timeline import Placed


def fixes_at(analysis: Analysis, where: Range) -> Iterator[Fix]:
    """Cut, keep, restore, release and delete, each where it applies, at a range of the file."""
    for view in analysis.views:
        for placed in view.timeline.paragraphs(where.start, where.end):
            local = Range(where.start - placed.start, where.end - placed.start)
            fixes = _fixes(placed, local, marking.around(view.timeline.part, placed))
            yield from (fix.shifted(placed.start) for fix in fixes)


def _fixes(placed: Placed, where: Range, around: marking.Around) -> Iterator[Fix]:
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
        marking.restore(paragraph, touched, around),
        marking.release(paragraph, touched, around),
        marking.delete(paragraph, sentence, around),
    )
    yield from (fix for fix in offers if fix)
