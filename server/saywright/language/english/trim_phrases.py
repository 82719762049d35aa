"""Words and phrases that say again, or more closely, what is said: "the long, cold night"."""

from collections.abc import Iterator

from saywright.language.english.trim_reading import (
    Read,
    can_have_comma,
    is_fronted,
    is_nominal,
    is_pointed_at,
    joins_verb,
    matters,
    tells,
)
from saywright.language.english.trim_words import (
    ADDRESSING,
    INTENSIFIERS,
    JOINING,
    NO_QUALITY,
    POSSESSIVES,
    PRONOUNS,
    QUALITIES,
    TIMES,
)
from saywright.language.trim import Trim

_ARTICLES = frozenset(("a", "an"))
_THESE = frozenset(("the", "this", "that", "these", "those"))
_NO_SUPERLATIVES = frozenset(("honest", "modest"))
_AS_Y_OR_W = ("uni", "use", "usu", "ut", "eu", "one", "once")
_SILENT_H = ("hour", "honest", "honou", "honor", "heir")
_FEWEST_WORDS = 3  # fewer may be one thing more, as in: the oar, a rope
_CONTRASTING = frozenset(("one", "ones", "other", "others", "not", "n't"))


def appositives(read: Read) -> Iterator[Trim]:
    """As in: I asked Tom, the old keeper. Of things in a row each is needed, and none is one."""
    for place in range(2, read.end - 1):
        start = read.set_off(place)
        if start is None or not _names_again(read, place):
            continue
        end = read.next_break(place)
        if not _is_phrase(read, place, end) or matters(read, place, end):
            continue
        if end == read.end:
            if read.stops and tells(read, 0, place):
                yield read.trim(start, end, "appositive", "the second name for it")
        elif start == place and read.words[end] == ",":
            beyond_head = _head(read, place, end) + 1
            if _has_place_for_comma(read, place, end + 1) and not is_pointed_at(
                read, beyond_head, end
            ):
                yield read.trim(place, end + 1, "appositive", "the second name for it")


def _has_place_for_comma(read: Read, left: int, right: int) -> bool:
    """Not in: in Ness, the salt, the rope and the ferry waited."""
    said = tells(read, 0, left) or read.word(right) in PRONOUNS
    return joins_verb(read, right) or (said and can_have_comma(read, left, right))


def _names_again(read: Read, place: int) -> bool:
    """Whether the phrase at `place` may say again what is named right before the mark."""
    named = _determiner_before(read, place - 2)
    before = read.last_break(place - 1)
    if named is None or before - 1 in read.verbs:
        return False
    ends_clause = tells(read, before + 1, place) or is_fronted(read, place)
    return ends_clause and _may_follow(read, place, named)


def _may_follow(read: Read, place: int, named: str) -> bool:
    """Whether what begins at `place` is likelier to be that which `named` leads up to than one
    thing more: not in my coat, my hat."""
    word = read.words[place]
    if word == "one":
        return read.word(place + 1) == "of"
    if word in _ARTICLES:
        if named in _THESE and read.next_break(place) - place < _FEWEST_WORDS:
            return False
        return named not in _ARTICLES or _is_such_one(read, place)
    if word == "the":
        bare = read.word(place - 3) == named and _is_such_one(read, place)
        return bare or named == "" or named in POSSESSIVES
    return word in POSSESSIVES and named == ""


def _is_such_one(read: Read, place: int) -> bool:
    """As in: a good one, a white one with a switch."""
    end = read.next_break(place)
    return "one" in read.words[place + 1 : min(place + 5, end)]


def _determiner_before(read: Read, place: int) -> str | None:
    """The article or the like of the phrase that ends at `place`: empty for a name, None where
    there is neither."""
    if not is_nominal(read, place):
        return None
    if read.letters(place)[0] == "X":
        return ""
    at = place - 1
    while at >= 0 and (read.classes[at][0] in "jX" or is_nominal(read, at)):
        at -= 1
    word = read.word(at)
    return word if word in _ARTICLES | POSSESSIVES | _THESE else None


def _is_phrase(read: Read, start: int, end: int) -> bool:
    """Whether it names something, in one piece: no time, nobody spoken to, no clause."""
    words = read.words[start:end]
    if end - start < 2 or not TIMES.isdisjoint(words):
        return False
    if words[0] in POSSESSIVES and not ADDRESSING.isdisjoint(words):
        return False
    if not JOINING.isdisjoint(words) or tells(read, start, end):
        return False
    if any(is_nominal(read, at - 1) and "D" in read.classes[at] for at in range(start + 1, end)):
        return False  # as in: the keeper laughed
    return "one" in words or any(is_nominal(read, at) for at in range(start + 1, end))


def _head(read: Read, start: int, end: int) -> int:
    """The word that a phrase is about: the last noun before what is said of it."""
    at = start + 1
    while at + 1 < end and (is_nominal(read, at + 1) or read.classes[at + 1][0] == "j"):
        at += 1
    return at


def doubled(read: Read) -> Iterator[Trim]:
    """The first of two words that do the same work."""
    yield from _doubled_qualities(read)
    yield from _said_twice(read)


def _doubled_qualities(read: Read) -> Iterator[Trim]:
    """The first of two describing words before a noun, as in: the long, cold night."""
    for place in range(1, read.end - 2):
        if (
            read.words[place + 1] == ","
            and (read.classes[place - 1][0] in "doi'" or read.words[place - 1] in _THESE)
            and _is_quality(read, place)
            and _is_quality(read, place + 2)
            and _leads_to_a_noun(read, place + 3)
            and not _jars(read.words[place - 1], read.words[place + 2])
            and _CONTRASTING.isdisjoint(read.words[place:])
        ):
            yield read.trim(place, place + 2, "doubled", "the first of two describing words")


def _is_quality(read: Read, place: int) -> bool:
    letters, word = read.letters(place), read.word(place)
    if word in NO_QUALITY or word.startswith(("un", "non")) or word.endswith("less"):
        return False
    if word.endswith("est") and word not in _NO_SUPERLATIVES:
        return False
    return letters[0] == "j" or letters.startswith("uj") or word in QUALITIES


def _leads_to_a_noun(read: Read, place: int) -> bool:
    """At once, or after one more describing word."""
    if read.words[place] == ",":
        return _is_quality(read, place + 1) and is_nominal(read, place + 2)
    return is_nominal(read, place) or (_is_quality(read, place) and is_nominal(read, place + 1))


def _jars(before: str, after: str) -> bool:
    """Whether "a" or "an" would come to stand before the wrong sound, as far as letters tell."""
    vowel = after[0] in "aeiou" and not after.startswith(_AS_Y_OR_W)
    vowel = vowel or after.startswith(_SILENT_H)
    return (before == "a" and vowel) or (before == "an" and not vowel)


def _said_twice(read: Read) -> Iterator[Trim]:
    """As in: very, very cold."""
    for place in range(read.end - 2):
        word = read.words[place]
        comma = read.words[place + 1] == ","
        again = place + 1 + comma
        if (
            word in INTENSIFIERS
            and read.word(again) == word
            and (place or comma)
            and read.letters(again + 1)[0] in "jauns"
        ):
            yield read.trim(place, place + 1 + comma, "doubled", "the word said twice")
