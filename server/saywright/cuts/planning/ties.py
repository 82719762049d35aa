"""Lines that belong together by how they are set: under a number, in a scene that one of them sets,
in quotation marks, on a line of verse. What it costs to part them."""

import re
from bisect import bisect_left
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from saywright.cuts.planning.leaning import is_question
from saywright.cuts.planning.piece import SpokenLine
from saywright.language.english.tag import is_english
from saywright.language.sentence_facts import sentence_facts

_HEAD, _ITEM, _IN_ORDER = 120, 40, 140
_RUNS_ON = 140
_COUNTED = 60
_IN_SCENE, _LONGEST_SCENE = 40, 4
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
_ORDINAL = re.compile(
    r"\W*The (?:first|second|third|fourth|fifth|sixth|next|last) (\w+)\b", re.IGNORECASE
)
_COUNTS = re.compile(
    r"\b(two|three|four|five|six) (?:things|reasons|ways|kinds|sorts|rules|words|questions)\b",
    re.IGNORECASE,
)
_FEW = ("two", "three", "four", "five", "six")
_FIRST_WORDS = re.compile(r"\W*(?:and |but |or )?([\w’']+ [\w’']+)", re.IGNORECASE)
_WHEN = re.compile(
    r"""\W*(?:(?:and|but|so|then|now)\ )?(?:
    (?:on|in|at|by|from|until|since|before|after|last|next|one|that|this|the|every|all|for)\b
    [\w\ ’'-]{0,24}?\b(?:mornings?|nights?|evenings?|afternoons?|days?|weeks?|months?|years?
    |winters?|summers?|springs?|autumns?|mondays?|tuesdays?|wednesdays?|thursdays?|fridays?
    |saturdays?|sundays?|january|february|march|april|may|june|july|august|september|october
    |november|december|noon|midnight|times?)\b
    |when\ (?:i|he|she|we|they|my|the)\b(?=[^.?!]*,)|once\b|yesterday\b|tonight\b|today\b)""",
    re.IGNORECASE | re.VERBOSE,
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
        found += _of_counted([line.text for line in lines])
        found += _of_scenes(lines)
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
    for index, (one_text, other_text) in enumerate(pairwise(texts)):
        ordinals = _ORDINAL.match(one_text), _ORDINAL.match(other_text)
        if ordinals[0] and ordinals[1] and ordinals[0][1] == ordinals[1][1]:
            yield Tie(index, index + 1, _ITEM)
            yield Tie(index + 1, index, _ITEM)


def _of_counted(texts: Sequence[str]) -> Iterator[Tie]:
    """ "They come for three things.", and the three lines that begin alike: each is missed."""
    for head, text in enumerate(texts):
        counts = _COUNTS.search(text)
        if not counts:
            continue
        last = head + _FEW.index(counts[1].lower()) + 2
        openings = {_opening(each) for each in texts[head + 1 : last + 1]}
        if last < len(texts) and len(openings) == 1 and "" not in openings:
            for index in range(head + 1, last + 1):
                yield Tie(index, index - 1, _ITEM)
                yield Tie(index - 1, index, _COUNTED)


def _of_scenes(lines: Sequence[SpokenLine]) -> Iterator[Tie]:
    """ "One night in November he stopped.": what else its paragraph tells was then. "My faults?":
    it is the answer."""
    scene: int | None = None
    for index, line in enumerate(lines):
        opens = not index or lines[index - 1].at != line.at
        if sets_scene(line.text) or (opens and is_question(line.text)):
            scene = index
        elif opens:
            scene = None
        elif scene is not None and index - scene <= _LONGEST_SCENE:
            yield Tie(index, scene, _IN_SCENE)


def sets_scene(text: str) -> bool:
    """Whether its first words tell when, and the rest what: what comes after it was then."""
    if not _WHEN.match(text):
        return False
    facts = sentence_facts(text, "en")
    return facts is not None and facts.tense != "fragment"


def _opening(text: str) -> str:
    found = _FIRST_WORDS.match(text)
    return found[1].lower() if found else ""


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
