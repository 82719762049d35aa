"""What a writer might look for at a sentence and does not find, and why."""

from bisect import bisect_left
from collections.abc import Iterator
from itertools import islice
from typing import NamedTuple

from saywright.analysis import Analysis
from saywright.markup.tree import Range

_KEPT = "The line is kept: release it first."


class Refused(NamedTuple):
    """The title of a fix that is not to be had, and the reason."""

    title: str
    why: str


def refused_at(analysis: Analysis, where: Range) -> Iterator[Refused]:
    """Of the sentence that `at_place.fixes_at` would cut."""
    first = bisect_left(analysis.views, where.start, key=lambda view: view.timeline.part.end)
    for view in islice(analysis.views, first, None):
        if view.timeline.part.start > where.end:
            break
        for placed in view.timeline.paragraphs(where.start, where.end):
            start, end = where.start - placed.start, where.end - placed.start
            met = (s for s in placed.timed.sentences if start <= s.end and s.start <= end)
            sentence = next(met, None)
            if sentence and sentence.kept:
                yield Refused("Cut this sentence", _KEPT)
                yield Refused("Delete this sentence for good", _KEPT)
