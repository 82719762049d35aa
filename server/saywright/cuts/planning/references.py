"""Which earlier line a "she", "it" or "that lamp" needs: the nearest that names what agrees."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Literal, NamedTuple

from saywright.language.english.mention_words import GROUPS, VESSELS
from saywright.language.english.mentions import Mention, Mentions, Pointer, mentions

_PERSON, _THING, _SAME_NOUN = 80, 60, 40
_PLACE, _OF_THOSE, _BROUGHT_IN = 60, 60, 60
_FARTHEST_PERSON, _FARTHEST_THING, _FARTHEST_NOUN, _FARTHEST_PLACE = 8, 3, 30, 4
_JUST_NOW, _TOPIC = 2, 5
_PRONOUNS = frozenset(
    """
    she her hers herself he him his himself they them their theirs themselves it its itself
    """.split()
)
_SOMEBODY = frozenset(("somebody", "someone"))
_OTHER_SHARE = 0.5  # of what is lost, where another could be meant as well
_UNTOLD = 1  # so many lines farther counts a name of whose gender nothing is told
_UNSURE = 2  # and so many another person
_MAYBE_SHE = 1  # and so many a ship
_MAYBE_NO_PERSON = 5  # and so many one that may be a thing: "the winter"
_FIRST = 12  # code points, before which a line's subject mostly stands


Kind = Literal["again", "who", "what", "where", "they"]


class Reference(NamedTuple):
    """The line `late` points back to `word` in the line `early`; points that are lost without.
    `shown`: the word of the late line that does so; `kind`: it says the same again, or stands for
    a person, a thing, a place, or several. `word` is empty where the early line only spoke of the
    same."""

    early: int
    late: int
    cost: int
    word: str
    shown: str
    kind: Kind


@dataclass
class _Known:
    """Somebody or something named: in which line, and which was the last to speak of it."""

    mention: Mention
    line: int
    last: int


def references(texts: Sequence[str]) -> Iterator[Reference]:
    """What the lines point back to in earlier ones, in order (English)."""
    known: list[_Known] = []
    said = [mentions(text) for text in texts]
    genders = _genders(said)
    for index, (named, pointers, _, loose) in enumerate(said):
        pointed: set[tuple[str, bool, bool, str]] = set()
        for pointer, own in (*pointers, *loose):
            sort = pointer.gender, pointer.plural, pointer.person, pointer.noun or pointer.word
            if pointer.word in _PRONOUNS:
                sort = pointer.gender, pointer.plural, pointer.person, ""
            if sort in pointed or _is_told(pointer, own, genders):
                continue
            pointed.add(sort)
            couple = _two_people(pointer, index, known)
            found = couple or _nearest(pointer, index, known, genders)
            found = _somebody(pointer, index, known, found)
            for each, share in zip(found, (1, _OTHER_SHARE), strict=False):
                cost = round(_cost(pointer) * share)
                shown = pointer.noun if pointer.word == "the" else pointer.word
                yield Reference(each.line, index, cost, each.mention.word, shown, _kind(pointer))
            yield from _goes_on_about(pointer, index, found, known)
            for each in couple or found[:1]:
                each.last = index
            if found and pointer.gender and _is_person(found[0].mention):
                genders.setdefault(found[0].mention.word, pointer.gender)
        known = [each for each in known if index - each.last < _FARTHEST_NOUN]
        known += [_Known(mention, index, index) for mention in named]


def _two_people(pointer: Pointer, index: int, known: Sequence[_Known]) -> list[_Known]:
    """The two whom "they" stands for, where a woman and a man were just spoken of and no others."""
    if pointer.word not in _PRONOUNS or not pointer.plural:
        return []
    near = [each for each in known if index - each.last <= _JUST_NOW]
    near.sort(key=lambda each: -each.last)
    two = [
        next((each for each in near if each.mention.gender == gender), None)
        for gender in ("f", "m")
    ]
    others = (each for each in near if each.mention.plural and not each.mention.thing)
    if not all(two) or next(others, None):
        return []
    return [each for each in two if each]


def _somebody(
    pointer: Pointer, index: int, known: Sequence[_Known], found: list[_Known]
) -> list[_Known]:
    """Of "he", where nobody nearer could be meant, the "somebody" of whom was just spoken."""
    if not pointer.gender:
        return found
    near = [
        each for each in known if each.mention.word in _SOMEBODY and index - each.last <= _TOPIC
    ]
    if near and (not found or found[0].last < near[-1].last):
        return [near[-1]]
    return found


def _goes_on_about(
    pointer: Pointer, index: int, found: Sequence[_Known], known: Sequence[_Known]
) -> Iterator[Reference]:
    """The line that last spoke of the same with a pronoun too; of "they" also one that spoke of
    others, since who is meant shows only from there."""
    if pointer.gender or not found:
        return
    topics = [found[0]]
    if pointer.plural and pointer.word in _PRONOUNS:
        topics += [each for each in known if each.mention.plural and each is not found[0]]
    spoken = [each for each in topics if each.line < each.last < index <= each.last + _TOPIC]
    if spoken:
        last = max(spoken, key=lambda each: each.last)
        other = last is not found[0] or last.last == index - 1
        cost = round(_cost(pointer) * (1 if other else _OTHER_SHARE))
        yield Reference(last.last, index, cost, "", pointer.word, _kind(pointer))


def _genders(said: Iterable[Mentions]) -> dict[str, str]:
    """Of people whose word does not tell: told by a sentence that names one only, then says "she"
    or "he"."""
    found: dict[str, str] = {}
    for named, *_ in said:
        found.update((each.word, each.gender) for each in named if each.name and each.gender)
    for _, pointers, *_ in said:
        for pointer, own in pointers:
            people = [each for each in own if each.person and not each.gender]
            if pointer.gender and len(people) == len(own) == 1 and _is_person(people[0]):
                found.setdefault(people[0].word, pointer.gender)
    return found


def _is_told(pointer: Pointer, own: Sequence[Mention], genders: dict[str, str]) -> bool:
    """Whether its own sentence tells who or what it is."""
    return any(
        _agrees(pointer, each, genders) and (not pointer.gender or _is_person(each)) for each in own
    )


def _is_person(mention: Mention) -> bool:
    return mention.name or not mention.thing


def _nearest(
    pointer: Pointer, index: int, known: Sequence[_Known], genders: dict[str, str]
) -> list[_Known]:
    """The one that is meant most likely, and one in another line that could be as well."""
    farthest = _FARTHEST_PERSON if pointer.person else _FARTHEST_THING
    farthest = _FARTHEST_NOUN if pointer.noun else farthest
    farthest = _FARTHEST_PLACE if pointer.word == "there" else farthest
    near = [each for each in known if index - each.last <= farthest]
    if pointer.noun:
        near = [each for each in near if each.mention.word == pointer.noun]
    ranked: list[tuple[tuple[int, bool, bool, int], int]] = []
    for number, each in enumerate(near):
        if _agrees(pointer, each.mention, genders):
            # who is known to agree, then who was spoken of, then a line's first, mostly its subject
            doubt = _doubt(pointer, each.mention, genders)
            rank = index - each.last + doubt, doubt > 0, each.last == each.line, each.mention.start
            ranked.append((rank, number))
    ranked.sort()
    if not ranked:
        return []
    (away, *_), first = ranked[0]
    best = near[first]
    others = (near[number] for rank, number in ranked if rank[0] == away)
    other = next((each for each in others if each.line != best.line), None)
    return [best, other] if other else [best]


def _agrees(pointer: Pointer, mention: Mention, genders: dict[str, str]) -> bool:
    gender = genders.get(mention.word, "")
    return pointer.agrees(mention) and not (pointer.gender and gender not in ("", pointer.gender))


def _doubt(pointer: Pointer, mention: Mention, genders: dict[str, str]) -> int:
    """How many lines farther a candidate counts than it is."""
    if pointer.plural:
        certain = not mention.thing or mention.word in GROUPS
        return 0 if certain else 1 + mention.aside
    if pointer.noun or not (pointer.person or pointer.thing):
        return 0
    if not pointer.person:
        return _UNSURE if mention.person else 0
    return 0 if mention.gender or genders.get(mention.word) else _doubt_of_gender(pointer, mention)


def _doubt_of_gender(pointer: Pointer, mention: Mention) -> int:
    """The same of somebody who may be "she" or "he"."""
    if mention.word in VESSELS:
        return _MAYBE_SHE if pointer.gender == "f" else _MAYBE_NO_PERSON
    if mention.name:
        return _UNTOLD
    return _MAYBE_NO_PERSON if mention.thing and mention.start > _FIRST else _UNSURE


def _kind(pointer: Pointer) -> Kind:
    if pointer.word == "the":
        return "again"
    if pointer.word == "there":
        return "where"
    if pointer.plural and not pointer.noun:
        return "they"
    return "who" if pointer.gender else "what"


def _cost(pointer: Pointer) -> int:
    if pointer.noun:
        return _BROUGHT_IN if pointer.word == "the" else _SAME_NOUN
    if not (pointer.person or pointer.thing):
        return _PLACE if pointer.word == "there" else _OF_THOSE
    return _PERSON if pointer.gender else _THING
