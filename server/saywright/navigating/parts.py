"""From a part to what it is of: from takes to their piece, from a version to the piece that it was
made from, and back."""

from collections.abc import Iterator, Sequence

from saywright.analysis import Analysis
from saywright.cuts.versions import origin_of, versions_of
from saywright.markup.lines import read_rule
from saywright.markup.tree import Part, Range, Rule
from saywright.navigating.linked import Linked, Target, linked
from saywright.speech.piece_takes import same_name

_MOST_PIECES = 200  # beyond, it is no script any more, and each would be held against each


def from_part(analysis: Analysis, part: Part, pointed: Range) -> Linked | None:
    """Of a part's rule, or of a take in it."""
    if part.kind == "takes":
        pieces = _pieces_of(analysis, part)
        everywhere = [*pieces, *_takes_of(analysis, part.label)]
        return linked(
            pointed,
            [_target(analysis, piece) for piece in pieces],
            [heading(analysis, each) for each in everywhere],
            [heading(analysis, piece) for piece in pieces],
        )
    if part.kind == "piece":
        origin = origin_of(analysis, part) if _few(analysis) else None
        family = family_of(analysis, part)
        others = [origin] if origin else [each for each in family if each is not part]
        everywhere = [*family, *(_takes_of(analysis, part.label) if part.label else ())]
        return linked(
            pointed,
            [_target(analysis, each) for each in others],
            [heading(analysis, each) for each in everywhere],
            [heading(analysis, part)],
        )
    return None


def family_of(analysis: Analysis, part: Part) -> Sequence[Part]:
    """A piece, what it was made from, and what was made from any of these, in the file's order."""
    if not _few(analysis):
        return (part,)
    family = [part]
    for each in family:  # it grows while it is gone through
        origin = origin_of(analysis, each)
        related = [*([origin] if origin else []), *versions_of(analysis, each)]
        family += [other for other in related if all(other is not known for known in family)]
    return sorted(family, key=lambda each: each.start)


def heading(analysis: Analysis, part: Part) -> Range:
    """A part's label, or the kind on its rule, or the first line of one without a rule."""
    block = analysis.blocks[part.first_block].block
    line = block.text.split("\n", 1)[0].rstrip()
    start = len(line) - len(line.lstrip())
    rule = read_rule(line) if isinstance(block, Rule) else None
    if rule and rule.label:
        start = line.index(rule.label, line.index(":") + 1)
        return Range(part.start + start, part.start + start + len(rule.label))
    return Range(part.start + start, part.start + max(len(line), start))


def _target(analysis: Analysis, part: Part) -> Target:
    return Target(heading(analysis, part), Range(part.start, part.end))


def _few(analysis: Analysis) -> bool:
    return sum(part.kind == "piece" for part in analysis.parts) <= _MOST_PIECES


def _pieces_of(analysis: Analysis, takes: Part) -> list[Part]:
    return [
        each
        for each in analysis.parts
        if each.kind == "piece" and (not takes.label or same_name(each.label, takes.label))
    ]


def _takes_of(analysis: Analysis, label: str) -> Iterator[Part]:
    return (
        each for each in analysis.parts if each.kind == "takes" and same_name(each.label, label)
    )
