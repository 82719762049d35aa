"""Lines that belong together by how they are set: under a number, in quotation marks, on a line of
verse. What it costs to part them."""

import re
from bisect import bisect_left
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from saywright.cuts.planning.piece import SpokenLine
from saywright.language.english.tag import is_english

_HEAD, _ITEM, _IN_ORDER = 120, 40, 140
_RUNS_ON = 140
_HALF_OF_VERSE, _HALF_OF_SPEECH, _IN_SPEECH = 70, 110, 50
_LONGEST_ITEM = 4

_NUMBERS = (
    "one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen "
    "sixteen seventeen eighteen nineteen twenty"
).replace(" ", "|")
_NUMBER_ALONE = re.compile(rf"\W*(?:number\s+)?(?:\d+|{_NUMBERS})\W*", re.IGNORECASE)
_NUMBER_FIRST = re.compile(rf"\W*(?:number\s+)?(?:\d+|{_NUMBERS})\b", re.IGNORECASE)
_IN_TURN = re.compile(
    r"\W*(?:first|second|third|fourth|fifth|last)(?:ly)?\s*[,:]|\W*finally\s*[,:]", re.IGNORECASE
)
_CLOSES = re.compile(r"[.!?…;:][\"”’)\s]*$")
_QUOTES = re.compile('["“”]')


class Tie(NamedTuple):
    """`cost` points are lost where the line `stays` stays and the line `without` goes."""

    stays: int
    without: int
    cost: int


def ties(lines: Sequence[SpokenLine], language: str, *, verse: bool) -> list[Tie]:
    found = list(_of_quotations(lines))
    if is_english(language):
        found += _of_items([line.text for line in lines])
    if verse:
        found += _of_verse(lines)
    return found


def is_number(text: str) -> bool:
    """Whether it is a number and no more, as the head of something in a list."""
    return _NUMBER_ALONE.fullmatch(text) is not None


def _of_items(texts: Sequence[str]) -> Iterator[Tie]:
    heads = [index for index, text in enumerate(texts) if is_number(text)]
    if len(heads) > 1:
        items = [index for index, text in enumerate(texts) if _NUMBER_FIRST.match(text)]
        for head, following in pairwise([*items, len(texts)]):
            if head in heads and head + 1 < following:
                yield Tie(head, head + 1, _HEAD)
                yield Tie(head + 1, head, _HEAD)
            for index in range(head + 1, min(following, head + _LONGEST_ITEM)):
                yield Tie(index, index - 1, _ITEM)
    turns = [index for index, text in enumerate(texts) if _IN_TURN.match(text)]
    for one, other in pairwise(turns):
        yield Tie(other, one, _IN_ORDER)


def _of_quotations(lines: Sequence[SpokenLine]) -> Iterator[Tie]:
    """A speech that is quoted over several lines keeps both its marks, and who opens it."""
    opener: int | None = None
    for index, line in enumerate(lines):
        if index and lines[index - 1].at != line.at:
            opener = None  # a quotation that goes on in the next paragraph is opened there anew
        marks = len(_QUOTES.findall(line.text))
        still = _open_after(line.text, opener is not None)
        if opener is not None:
            yield Tie(index - 1, index, _HALF_OF_SPEECH)
            yield Tie(index, opener, _IN_SPEECH if still and marks < 2 else _HALF_OF_SPEECH)
        if not still:
            opener = None
        elif opener is None or marks > 1:
            opener = index


def _open_after(text: str, is_open: bool) -> bool:
    for mark in _QUOTES.findall(text):
        is_open = mark == "“" or (mark == '"' and not is_open)
    return is_open


def _of_verse(lines: Sequence[SpokenLine]) -> Iterator[Tie]:
    """Sentences that share a line of verse, or run on from one stanza into the next: half of it
    would be left."""
    for index, (one, other) in enumerate(pairwise(lines)):
        breaks = one.paragraph.breaks
        apart = bisect_left(breaks, one.last) < bisect_left(breaks, other.first)
        if not _CLOSES.search(one.text):
            yield Tie(index, index + 1, _RUNS_ON)
            yield Tie(index + 1, index, _RUNS_ON)
        elif one.at == other.at and not apart:
            yield Tie(index, index + 1, _HALF_OF_VERSE)
            yield Tie(index + 1, index, _HALF_OF_VERSE)
