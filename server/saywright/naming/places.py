"""Every place in a script where a name stands."""

from collections.abc import Iterator
from typing import NamedTuple

import regex

from saywright.analysis import Analysis
from saywright.naming.regions import RegionKind, Regions
from saywright.naming.spelling import Name, is_shouted, pattern

# names that are verbs too: “Will you come?” asks, and “I WILL go” insists
_ALSO_VERBS = frozenset("will may mark hope grant rob sue bill pat drew art".split())
_TAKES_A_VERB = regex.compile(
    r"\s+(?:i|you|he|she|it|we|they|me|us|him|her|them|my|your|this|that|there|the|an?)(?![\p{L}])",
    regex.I,
)
_INSIDE = regex.compile(r"(?<=[\p{L}\p{M}\p{N}][ \t,'’*_~]{1,8})")


class Place(NamedTuple):
    """A name where it stands in the file, and in what kind of region."""

    name: Name
    start: int
    end: int
    kind: RegionKind


def places(analysis: Analysis, name: Name) -> Iterator[Place]:
    """Where the name stands, in the file's order."""
    regions = Regions(analysis)
    text = analysis.text
    for found in pattern(name).finditer(text):
        start, end = found.span()
        region = regions.holding(start, end)
        if region and counts(text, start, end, region.kind):
            yield Place(name, start, end, region.kind)


def counts(text: str, start: int, end: int, kind: RegionKind) -> bool:
    """Whether a word with a name's letters is that name: a rose is no Rose."""
    if kind in ("speaker", "reader"):
        return True
    written = text[start:end]
    if written.islower():
        return False
    if written.lower() not in _ALSO_VERBS:
        return True
    return not is_shouted(written) and (
        is_inside(text, start) or not _TAKES_A_VERB.match(text, end)
    )


def is_inside(text: str, start: int) -> bool:
    """Whether a word goes before in the same sentence, so that a capital means something."""
    return _INSIDE.match(text, start) is not None
