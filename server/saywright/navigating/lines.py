"""From a line to itself elsewhere: from a draft to the piece that it was gathered into and back,
and from one version of a piece to the others."""

from collections.abc import Iterable

from saywright.analysis import Analysis
from saywright.drafting.kept_lines import kept_lines, words_of
from saywright.drafting.origins import Origin, origins
from saywright.markup.tree import Part, Range
from saywright.navigating.linked import Linked, Target, at, linked
from saywright.navigating.parts import family_of

_MARKS = 3  # code points: a line's stop, and the marks around it


def from_line(analysis: Analysis, part: Part, offset: int) -> Linked | None:
    """Of a kept line in a draft, a line of a piece that came from one, or a sentence that stands
    in other versions of its piece."""
    if part.kind == "draft":
        return _from_draft(analysis, part, offset)
    if part.kind == "piece":
        return _from_origin(analysis, offset) or _from_version(analysis, part, offset)
    return None


def _from_draft(analysis: Analysis, part: Part, offset: int) -> Linked | None:
    lines = (each for each in kept_lines(analysis, part) if each.start <= offset <= each.end)
    line = next(lines, None)
    if line is None:
        return None
    pointed = Range(line.start, line.end)
    gathered = [
        Range(each.start, each.end)
        for each in origins(analysis)
        if (each.kept.start, each.kept.end) == pointed
    ]
    return linked(pointed, map(at, gathered), [pointed, *gathered], [pointed])


def _from_origin(analysis: Analysis, offset: int) -> Linked | None:
    every = origins(analysis)
    here = _around(every, offset, 0) or _around(every, offset, _MARKS)
    if not here:
        return None
    homes = [_home(each) for each in here]
    same = [Range(each.start, each.end) for each in every if _home(each) in homes]
    pointed = Range(here[0].start, here[0].end)
    return linked(pointed, map(at, homes), [*homes, *same], homes)


def _around(every: Iterable[Origin], offset: int, by: int) -> list[Origin]:
    return [each for each in every if each.start - by <= offset <= each.end + by]


def _home(origin: Origin) -> Range:
    return Range(origin.kept.start, origin.kept.end)


def _from_version(analysis: Analysis, part: Part, offset: int) -> Linked | None:
    family = [each for each in family_of(analysis, part) if each is not part]
    if not family:
        return None
    views = {id(view.timeline.part): view for view in analysis.pieces}
    sentences = views[id(part)].timeline.sentences
    own = next((each for each in sentences if each.start <= offset <= each.end), None)
    words = words_of(own.sentence.text) if own else ""
    if own is None or not words:
        return None
    pointed = Range(own.start, own.end)
    others = [
        Target(Range(each.start, each.end), Range(other.start, other.end))
        for other in family
        for each in views[id(other)].timeline.sentences
        if words_of(each.sentence.text) == words
    ]
    return linked(pointed, others, [pointed, *(each.place for each in others)])
