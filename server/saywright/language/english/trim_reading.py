"""A sentence as the trims look at it: its words, what they may be, and its finite verbs."""

from collections.abc import Mapping
from dataclasses import dataclass

from saywright.language.english.classed import classed
from saywright.language.english.trim_words import (
    JOINING,
    NEGATIONS,
    NOMINATIVE,
    NUMBERS,
    OPENING_A_PHRASE,
    POINTING_BACK,
    QUALITIES,
)
from saywright.language.english.word_classes import VERBAL
from saywright.language.facts import Facts, Verb
from saywright.language.trim import Trim, TrimKind

_DASHES = frozenset(("–", "—", "-", "--", "---"))
_PARTING = _DASHES | {",", ";", ":", "(", ")", "…"}
_BEFORE_NOUNS = "doijB"
_STOPS = frozenset((".", "!"))


@dataclass(frozen=True, slots=True)
class Read:
    """`words` as `tokens` gives them, `classes` as `word_classes` does; places are indices of
    both. `verbs` are the finite ones by their place. `end` is the place after the last word."""

    text: str
    spans: list[tuple[int, int]]
    words: list[str]
    classes: list[str]
    verbs: Mapping[int, Verb]
    end: int

    def word(self, place: int) -> str:
        return self.words[place] if 0 <= place < self.end else ""

    def letters(self, place: int) -> str:
        return self.classes[place] if 0 <= place < self.end else "."

    def finite(self, start: int, end: int) -> list[int]:
        """The places of the finite verbs from `start` to `end`."""
        return [place for place in self.verbs if start <= place < end]

    def next_break(self, start: int) -> int:
        """The place of the first comma, dash or the like from `start` on, or the end."""
        return next((at for at in range(start, self.end) if self._parts(at)), self.end)

    def last_break(self, end: int) -> int:
        """The place of the last comma, dash or the like before `end`, or -1."""
        return next((at for at in range(end - 1, -1, -1) if self._parts(at)), -1)

    def _parts(self, place: int) -> bool:
        """Whether a mark stands there that parts more than two words: not in "long, cold"."""
        if self.words[place] != ",":
            return self.words[place] in _PARTING
        described = all(
            self.letters(at)[0] == "j" or self.word(at) in QUALITIES
            for at in (place - 1, place + 1)
        )
        within = described and self.letters(place - 2)[0] in "doiDZ"
        return not (within or self.word(place - 1) == self.word(place + 1))

    @property
    def asks(self) -> bool:
        return any("?" in word for word in self.words[self.end :])

    @property
    def stops(self) -> bool:
        """Whether the sentence comes to its end, neither asking nor broken off."""
        return all(word in _STOPS for word in self.words[self.end :])

    def is_dash(self, place: int) -> bool:
        """Whether a dash with a blank on either side stands there."""
        if self.word(place) not in _DASHES:
            return False
        start, end = self.spans[place]
        return self.text[start - 1 : start].isspace() and self.text[end : end + 1].isspace()

    def set_off(self, place: int) -> int | None:
        """Where what a mark sets off at `place` begins: after a comma, or with its dash."""
        if self.words[place - 1] == ",":
            return place
        return place - 1 if self.is_dash(place - 1) else None

    def trim(self, start: int, end: int, kind: TrimKind, why: str) -> Trim:
        """The words from place `start` to place `end`."""
        return Trim(self.spans[start][0], self.spans[end - 1][1], kind, why)


def read(text: str, facts: Facts) -> Read:
    """One sentence, of which `facts` are known."""
    found = classed(text)
    place_of = {start: place for place, (start, _) in enumerate(found.spans)}
    verbs = {place_of[verb.start]: verb for verb in facts.verbs if verb.start in place_of}
    end = len(found.words)
    while end and not found.words[end - 1][-1].isalnum():
        end -= 1
    return Read(text, *found, verbs, end)


def is_nominal(read: Read, place: int) -> bool:
    """Whether the word may end a phrase that names something: a noun or a name."""
    letters = read.letters(place)
    if letters[0] in "nsX" or letters.startswith(("un", "us")):
        return True
    return "n" in letters and read.letters(place - 1)[0] in "doj"


def may_hold_verb(read: Read, start: int, end: int) -> bool:
    """Whether a word there may be a finite verb, or surely is one."""
    return bool(read.finite(start, end)) or not all(
        VERBAL.isdisjoint(letters) for letters in read.classes[start:end]
    )


def tells(read: Read, start: int, end: int) -> bool:
    """Whether a clause that hangs under no other has its verb there."""
    return any(read.verbs[place].role != "under" for place in read.finite(start, end))


def begins_clause(read: Read, place: int) -> bool:
    """Whether a subject stands at `place`, and its verb before the next mark."""
    if read.word(place) in {"then", "now"}:
        place += 1
    word = read.word(place)
    starts = word in NOMINATIVE or read.letters(place)[0] in "doX" or is_nominal(read, place)
    return starts and place not in read.verbs and tells(read, place, read.next_break(place))


def joins_clause(read: Read, place: int) -> bool:
    """As in: and she came."""
    return read.word(place) in JOINING and begins_clause(read, place + 1)


def joins_verb(read: Read, place: int) -> bool:
    """As in: and left. What comes before has its verb."""
    verb = read.verbs.get(place + 1)
    joined = verb is not None and verb.role != "under" and tells(read, 0, place)
    return joined and read.word(place) in JOINING


def is_fronted(read: Read, end: int) -> bool:
    """Whether what stands before `end` leads up to the clause, as in: when I met my aunt."""
    return end > 2 and read.word(0) in OPENING_A_PHRASE and not tells(read, 0, end)


def can_have_comma(read: Read, left: int, right: int) -> bool:
    """Whether what is left may have a comma where `left` ends and `right` begins."""
    if tells(read, 0, left):
        return joins_clause(read, right)
    starts = read.word(right) in NOMINATIVE or read.letters(right)[0] in "doX"
    return is_fronted(read, left) and starts and tells(read, right, read.end)


def is_pointed_at(read: Read, start: int, end: int) -> bool:
    """Whether what comes after `end` may mean something that is named only before it."""
    names = any(
        is_nominal(read, at)
        and (read.classes[at][0] in "nsX" or read.classes[at - 1][0] in _BEFORE_NOUNS)
        for at in range(start, end)
    )
    return names and any(read.words[at] in POINTING_BACK for at in range(end, read.end))


def goes_on(read: Read, start: int, end: int) -> bool:
    """Whether another clause may be joined on: and she came, and ask him."""
    return any(
        read.words[at] in JOINING
        and (read.word(at + 1) in NOMINATIVE or read.letters(at + 1)[0] == "B")
        for at in range(start, end)
    )


def matters(read: Read, start: int, end: int) -> bool:
    """Whether a negation or a number would go, on which the rest may hang."""
    words = read.words[start:end]
    return any(
        word in NEGATIONS or word in NUMBERS or any(map(str.isdigit, word)) for word in words
    )
