"""Who and what an English sentence names, and what it points back to with "she", "it", "that".

By plain signs only: the classes of words, a list of people, agreement in gender and number.
Nothing here knows other sentences; `cuts.planning` looks for what is pointed to.
"""

from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import Literal, NamedTuple

from saywright.language.english import mention_words as known
from saywright.language.english.classed import classed
from saywright.language.english.word_classes import VERBAL

Gender = Literal["f", "m", ""]


class Mention(NamedTuple):
    """A noun or name in a sentence: its head `word` in lower case and where that starts.

    `gender` is empty where the word does not tell. `person`, `thing`: what it may be, often both.
    `place`: something is told to be there. `brought_in`: by "a" or "an". `aside`: it stands in what
    is said about another, as in "the keeper who had two goats".
    """

    word: str
    start: int
    plural: bool = False
    person: bool = False
    thing: bool = False
    gender: Gender = ""
    name: bool = False
    place: bool = False
    brought_in: bool = False
    aside: bool = False


class Pointer(NamedTuple):
    """A word that stands for somebody or something named earlier. Agrees with a `Mention` by the
    fields that both have. `noun`: of "that lamp", the lamp; empty for a bare pronoun."""

    word: str
    start: int
    plural: bool = False
    person: bool = False
    thing: bool = False
    gender: Gender = ""
    noun: str = ""

    def agrees(self, mention: Mention) -> bool:
        """Whether it may stand for that."""
        if self.word in known.THERE or self.word in known.OF_THEM:
            return mention.place if self.word in known.THERE else not mention.name
        if self.word == "the":
            return self.noun == mention.word and mention.brought_in
        if self.noun:
            return self.noun == mention.word
        if self.plural != mention.plural and mention.word not in known.EITHER_NUMBER:
            return False
        if self.gender and (
            mention.gender not in ("", self.gender) or mention.word in known.ANYBODY
        ):
            return False
        return (self.person and mention.person) or (self.thing and mention.thing)


class Mentions(NamedTuple):
    """What a sentence names, and what in it points to something named: each with what the sentence
    itself named before that it may stand for, the nearest last. `says_this`: a bare "this", "that"
    or "those" stands in it for what was told. `loose`: the same as `pointers`, of "there", "one",
    "the lamp" and the like, which may as well stand for nothing named."""

    named: tuple[Mention, ...]
    pointers: tuple[tuple[Pointer, tuple[Mention, ...]], ...]
    says_this: bool = False
    loose: tuple[tuple[Pointer, tuple[Mention, ...]], ...] = ()


_FAR_WORDS = 40
_MOST_WORDS = 400  # in a longer sentence nothing is looked for, which would take long


@lru_cache(maxsize=4096)
def mentions(text: str) -> Mentions:
    """Never fails; offsets are those of `text`."""
    spans, words, classes = classed(text)
    nouns = [_is_noun(words, classes, index) for index in range(len(words))]
    read = _Read([start for start, _ in spans], words, classes, nouns)
    named = tuple(read.named())
    named += tuple(read.together(named))
    pointers = tuple(
        (pointer, tuple(each for each in named if read.may_be_meant(each, pointer)))
        for pointer in (read.pointers() if len(words) <= _MOST_WORDS else ())
    )
    loose = tuple(
        (pointer, tuple(each for each in named if read.was_before(each, pointer)))
        for pointer in (read.loose() if len(words) <= _MOST_WORDS else ())
    )
    return Mentions(named, pointers, any(map(read.is_bare, range(len(words)))), loose)


def _is_noun(words: Sequence[str], classes: Sequence[str], index: int) -> bool:
    letters, first, word = classes[index], _letter(classes, index), words[index]
    if first == "X" or word in known.PEOPLE or word in known.WOMEN or word in known.MEN:
        return word not in {"one", "other"} or _after_article(classes, index)
    if first in ("n", "s"):
        # "I won't make you fish for it": after a pronoun a word that may be a verb is one
        return VERBAL.isdisjoint(letters) or words[index - 1 if index else 0] not in known.WHO
    # a word that may be a verb too is a noun after an article
    return ("n" in letters or "s" in letters) and _after_article(classes, index)


def _letter(classes: Sequence[str], index: int) -> str:
    """What a word is most likely, without the sign that it is not seen often."""
    return classes[index].removeprefix("u")[:1]


def _after_article(classes: Sequence[str], index: int) -> bool:
    at = index - 1
    while at >= 0 and classes[at][0] in known.ADJECTIVES:
        at -= 1
    return at >= 0 and classes[at][0] in "do"


class _Read(NamedTuple):
    starts: list[int]
    words: list[str]
    classes: list[str]
    nouns: list[bool]

    def named(self) -> Iterator[Mention]:
        count = len(self.words)
        for index in range(count):
            if not self.nouns[index]:
                continue
            word = self.words[index]
            if index + 1 < count and word not in known.ANYBODY and self.nouns[index + 1]:
                continue  # the next is the head: "salt works"
            if word not in known.NO_THING:
                yield self._mention(index, word)
        yield from self._joined()

    def together(self, named: Sequence[Mention]) -> Iterator[Mention]:
        """The two people that a sentence names, whom "they" may stand for."""
        people = [each for each in named if each.name or (each.person and not each.thing)]
        if len(people) > 1:
            yield people[1]._replace(plural=True, gender="")

    def _letter(self, index: int) -> str:
        return _letter(self.classes, index)

    def _mention(self, index: int, word: str) -> Mention:
        letters = self.classes[index]
        start = self.starts[index]
        if letters[0] == "X":
            title = self.words[index - 1] if index and self.words[index - 1] != "." else ""
            title = self.words[index - 2] if index > 1 and self.words[index - 1] == "." else title
            woman = word in known.WOMEN or title in known.WOMEN or title in ("mrs", "miss", "ms")
            man = word in known.MEN or title in known.MEN or title == "mr"
            gender: Gender = "f" if woman else "m" if man else ""
            place = self._is_place(index)
            return Mention(word, start, False, True, True, gender, True, place)
        base = known.singular(word)
        gender = "f" if base in known.WOMEN else "m" if base in known.MEN else ""
        person = (
            bool(gender) or base in known.PEOPLE or word in known.GROUPS or word in known.ANYBODY
        )
        plural = word in known.IRREGULAR or (word != base)
        agent = not person and base.endswith(known.AGENTS) and not base.endswith("oor")
        thing = not person or base in known.CREATURES or word in known.GROUPS
        may_be = person or agent or plural or base in known.CALLED_SHE
        place = (thing or not person) and self._is_place(index)
        brought_in = self._before(index) in ("a", "an", "one")
        aside = not known.ABOUT.isdisjoint(self.words[max(index - _FAR_WORDS, 0) : index])
        return Mention(word, start, plural, may_be, thing, gender, False, place, brought_in, aside)

    def _before(self, index: int) -> str:
        """The word before a noun and what describes it."""
        at = index - 1
        while at >= 0 and (self.classes[at][0] in known.ADJECTIVES or self._letter(at) in "nj"):
            at -= 1
        return self.words[at] if at >= 0 else ""

    def _is_place(self, index: int) -> bool:
        """Whether something is told to be there: "on the quay", "to Ness"; not "in my coat"."""
        at = index - 1
        while at >= 0 and (self._letter(at) in "nj" or self.classes[at][0] in "dX"):
            at -= 1
        return at >= 0 and self.words[at] in known.AT_A_PLACE

    def loose(self) -> Iterator[Pointer]:
        for index, word in enumerate(self.words):
            start = self.starts[index]
            there = word in known.THERE and self._is_place_told(index)
            if there or (word in known.OF_THEM and self._stands_for_noun(index)):
                yield Pointer(word, start)
            elif word == "the" and (noun := self._named_after(index)):
                yield Pointer(word, start, noun=noun)

    def was_before(self, mention: Mention, pointer: Pointer) -> bool:
        return mention.start < pointer.start and pointer.agrees(mention)

    def _is_place_told(self, index: int) -> bool:
        """Whether "there" is a place: not in "there was a lamp", nor in "over there"."""
        before = self.words[index - 1] if index else ""
        after = self.words[index + 1] if index + 1 < len(self.words) else "."
        if before == "over" or after in known.BE or self._class(index + 1) in "MDZ":
            return False
        ends = not after[0].isalnum()
        return ends or (before not in known.BE and self._class(index + 1) not in "adnsBc")

    def _class(self, index: int) -> str:
        return self._letter(index) if index < len(self.words) else "."

    def _stands_for_noun(self, index: int) -> bool:
        """Whether "one", "another", "some" has no noun of its own: "I was hoping for one"."""
        if len([word for word in self.words if word[0].isalnum()]) < 2:
            return False  # a number, or what is left out is the whole
        before = self.words[index - 1] if index else ""
        after = self.words[index + 1] if index + 1 < len(self.words) else "."
        if before in known.IN_NONE or after in ("of", "another", "day", "by", "who", "that", "and"):
            return False
        if before in ("another", "by", "and") or after[0] in "-'’":
            return False
        following = "MDZiw" if before == "the" else "MDZ"  # "the one about whales"
        return not after[0].isalnum() or self._class(index + 1) in following

    def _named_after(self, index: int) -> str:
        at = self._head_after(index)
        return self.words[at] if at < len(self.words) and self.nouns[at] else ""

    def _head_after(self, index: int) -> int:
        """Where the noun would stand that a word like "the" belongs to."""
        at = index + 1
        while at < len(self.words) and self.classes[at][0] in known.ADJECTIVES:
            at += 1
        while at + 1 < len(self.words) and self.nouns[at] and self.nouns[at + 1]:
            at += 1
        return at

    def _joined(self) -> Iterator[Mention]:
        """Of "Ada and Joss", the two of them."""
        for index in range(1, len(self.words) - 1):
            if self.words[index] in ("and", "or") and self.nouns[index - 1]:
                at = index + 1
                while at < len(self.words) - 1 and self.classes[at][0] in "doj":
                    at += 1
                if self.nouns[at]:
                    yield Mention(self.words[at], self.starts[at], True, True, True)

    def pointers(self) -> Iterator[Pointer]:
        for index, word in enumerate(self.words):
            start = self.starts[index]
            if word in known.SHE:
                yield Pointer(word, start, person=True, gender="f")
            elif word in known.HE:
                yield Pointer(word, start, person=True, gender="m")
            elif word in known.THEY:
                yield Pointer(word, start, plural=True, person=True, thing=True)
            elif word in known.IT and not self._is_empty(index):
                yield Pointer(word, start, thing=True)
            elif word in known.POINTING and (noun := self._noun_after(index)):
                yield Pointer(word, start, thing=True, person=True, noun=noun)

    def is_bare(self, index: int) -> bool:
        """Whether a "this" or "that" stands alone for something told: "That is all", "after that".
        With "that" only where a verb or the clause's end follows, and no noun that it joins to."""
        word = self.words[index]
        if word not in known.POINTING or self._noun_after(index):
            return False
        before = self.words[index - 1] if index else ""
        after = self.words[index + 1] if index + 1 < len(self.words) else "."
        letters = self.classes[index + 1] if index + 1 < len(self.words) else "."
        if letters[0] in "nsXucj" and word != "those":
            return False
        ends = not after[0].isalnum() and after[0] != "'"
        if word == "that":
            opens = not index or not before[0].isalnum() or before in known.OPENERS
            verb = after in known.BE or letters[0] in "ZDM"
            return (opens and verb) or (ends and before != "so") or before in known.BEFORE_THAT
        if word == "those":
            return after not in ("who", "of", "that", "which")
        return True

    def may_be_meant(self, mention: Mention, pointer: Pointer) -> bool:
        """Whether a pronoun may stand for what its own sentence named before. The one who does a
        thing and the one to whom it is done are two: "Joss laughed at her"."""
        if mention.start >= pointer.start or not pointer.agrees(mention):
            return False
        at = self.starts.index(pointer.start)
        if pointer.word not in known.TO_WHOM or (
            pointer.word == "her" and at + 1 < len(self.words) and self.nouns[at + 1]
        ):
            return True
        between = range(self.starts.index(mention.start), at)
        return any(self.words[each] in known.BREAKS and not self._goes_on(each) for each in between)

    def _goes_on(self, index: int) -> bool:
        """Whether an "and", or a comma before it, joins what the same one does: "She sat and packed
        her a coat"."""
        joint = index + 1 if self.words[index] == "," else index
        if joint + 1 >= len(self.words) or self.words[joint] not in ("and", "but", "or"):
            return False
        return self.classes[joint + 1][0] in "DZN"

    def _is_empty(self, index: int) -> bool:
        """Whether "it" stands for nothing: "it rained", "it was late"."""
        after = self.words[index + 1 : index + 4]
        if not after:
            return False
        if after[0] in known.AFTER_IT_IS_EMPTY:
            return True
        if after[0] not in known.BE:
            return False
        rest = [word for word in after[1:] if word not in known.PASSED_OVER]
        return bool(rest) and rest[0] in known.EMPTY_AFTER_IT_IS

    def _noun_after(self, index: int) -> str:
        """The noun of "that lamp", "those wet sacks"; empty where there is none."""
        at = self._head_after(index)
        # "that" before a plural joins clauses: "I knew that wagons came"
        if at < len(self.words) and self.nouns[at] and self._letter(at) in ("n", "s"):
            fits = (self.words[index] in ("these", "those")) == (self._letter(at) == "s")
            return self.words[at] if fits and self.words[at] not in known.NO_THING else ""
        return ""
