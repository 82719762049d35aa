"""What a speaker says by the way: "Well, you know," and ", I suppose"."""

from collections.abc import Iterator, Sequence

from saywright.language.english.fillers import fillers
from saywright.language.english.trim_reading import (
    Read,
    begins_clause,
    can_have_comma,
    is_fronted,
    is_nominal,
    is_pointed_at,
    joins_verb,
    matters,
    may_hold_verb,
    tells,
)
from saywright.language.english.trim_words import (
    ADDRESSING,
    ASIDES,
    ASKING,
    CORRECTING,
    JOINING,
    OPENINGS,
    POSSESSIVES,
    PRONOUNS,
    SUBORDINATORS,
)
from saywright.language.trim import Trim

Phrases = dict[str, list[tuple[str, ...]]]


def _by_first(phrases: Sequence[str]) -> Phrases:
    """Phrases as words, the longest first, by their first word."""
    found: Phrases = {}
    for phrase in sorted(phrases, key=len, reverse=True):
        words = tuple(phrase.replace("'", " '").split())
        found.setdefault(words[0], []).append(words)
    return found


_OPENINGS = _by_first(OPENINGS)
_ASIDES = _by_first(ASIDES)
_CLAUSES = frozenset("know see mean look listen believe trust right".split())


def _phrase_at(read: Read, place: int, phrases: Phrases) -> int | None:
    """The place after one of `phrases` that stands at `place`."""
    for words in phrases.get(read.word(place), ()):
        if tuple(read.words[place : place + len(words)]) == words:
            return place + len(words)
    return None


def openings(read: Read) -> Iterator[Trim]:
    """As in: Well, you know, I never did."""
    at = 0
    while (end := _phrase_at(read, at, _OPENINGS)) and read.word(end) == ",":
        at = end + 1
    if at and _stands_alone(read, at):
        yield read.trim(0, at, "opening", "the opening")


def _stands_alone(read: Read, at: int) -> bool:
    """Whether a sentence may begin at `at`. Not in: you see, hear and smell it; oh, my god."""
    if read.word(at) in POSSESSIVES and read.word(at + 1) in ADDRESSING:
        return False
    if read.word(at) in PRONOUNS:
        return may_hold_verb(read, at + 1, read.next_break(at))
    if not _CLAUSES.isdisjoint(read.words[:at]):
        return begins_clause(read, at)
    asks = read.asks or read.word(at) not in ASKING
    return asks and read.word(at) not in JOINING and tells(read, at, read.end)


def loose_fillers(read: Read) -> Iterator[Trim]:
    """As in: I kind of knew. Where no mark stands beside it."""
    for start, end in fillers(read.text):
        before, after = read.text[:start].rstrip(), read.text[end:]
        ends = read.stops and end == read.spans[read.end - 1][1]
        loose = before[-1:].isalnum() and (ends or after[:1].isspace())
        if loose and before.rpartition(" ")[2].lower() not in {"a", "an"}:
            yield Trim(start, end, "filler", "the filler")


def asides(read: Read) -> Iterator[Trim]:
    """As in: I never did, I suppose."""
    if read.asks:
        return
    for place in range(2, read.end):
        start = read.set_off(place)
        end = _phrase_at(read, place, _ASIDES) if start is not None else None
        if start is None or end is None:
            continue
        if end == read.end:
            if read.stops and tells(read, read.last_break(place - 1) + 1, place - 1):
                yield read.trim(start, end, "aside", "the aside")
        elif start == place and read.words[end] == "," and _leaves_comma(read, place, end + 1):
            yield read.trim(place, end + 1, "aside", "the aside")


def _leaves_comma(read: Read, left: int, right: int) -> bool:
    """Whether the comma before the aside fits what is left; also where a clause is added."""
    adds = read.word(right) in SUBORDINATORS or read.words[right : right + 2] == ["the", "way"]
    if joins_verb(read, right) or (adds and tells(read, 0, left)):
        return True
    return can_have_comma(read, left, right)


def dashed(read: Read) -> Iterator[Trim]:
    """As in: Tom – the old keeper – shut the door. Both dashes go, so no comma is left."""
    dashes = [at for at in range(read.end) if read.is_dash(at)]
    if len(dashes) != 2 or dashes[0] == 0:
        return
    start, end = dashes
    content = read.words[start + 1 : end]
    if len({*content}) < 2 or content[0] in read.words[:start]:
        return
    if content[0] in JOINING or not CORRECTING.isdisjoint(content):
        return
    if matters(read, start, end) or is_pointed_at(read, start, end):
        return
    if not ADDRESSING.isdisjoint(content) and not read.finite(start, end):
        return
    if _holds_together(read, start, end + 1):
        yield read.trim(start, end + 1, "aside", "the aside")


def _holds_together(read: Read, left: int, right: int) -> bool:
    """Whether what ends at `left` and what begins at `right` are one sentence."""
    if read.words[left - 1] in {",", ";", ":"} or read.word(right) in {",", ";", ":", ""}:
        return False
    if read.classes[left - 1][0] in "dto":
        return False
    outside = tells(read, 0, left), tells(read, right, read.end)
    if all(outside):
        return read.word(right) in JOINING
    if outside[1]:
        return right in read.verbs or read.letters(right)[0] == "a" or is_fronted(read, left)
    joined = read.word(right) in SUBORDINATORS | JOINING or read.letters(right)[0] in "ita"
    return outside[0] and (joined or not is_nominal(read, left - 1))
