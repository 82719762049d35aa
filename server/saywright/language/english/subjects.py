"""Whom a verb is about: the head word of its subject, and the person."""

from collections.abc import Sequence

from saywright.language.facts import Person

_FIRST = frozenset(("i", "we", "me", "us", "im", "ive", "ill"))
_SECOND = frozenset(("you", "ya", "u", "ye", "thou", "y'all", "your", "youre"))
_SUBJECTS = frozenset(
    "i you he she it we they this that these those there who which what u ya ye y'all thou someone "
    "everyone nobody somebody everybody anyone anybody one something nothing everything anything "
    "none all both some many most".split()
)
_ALONE = frozenset("i you he she it we they who there".split())
_POINTING = frozenset("that this these those there".split())
_OBJECTS = frozenset("me him them us her myself himself herself themselves".split())
_BEFORE_ANOTHER = frozenset("and by of with from to".split())
_NOMINAL = "nscX"
_MARKS = frozenset(', ; : . ! ? - -- --- – — … ( ) " and or but'.split())


def person_at(words: Sequence[str], at: int) -> Person:
    """The person of a subject whose head is the word at `at`."""
    word = words[at]
    if word == "us" and at and words[at - 1] == "the":
        return "third"  # the country
    if word in _FIRST:
        return "first"
    return "second" if word in _SECOND else "third"


def _is_nominal(word: str, letters: str) -> bool:
    if word in _SUBJECTS or letters[0] == "X":
        return True
    if word in _OBJECTS:
        return False
    return (
        letters[0] in _NOMINAL
        or letters in {"un", "us"}
        or "n" in letters[1:3]
        or letters[0] == "p"
    )


def subject_before(
    words: Sequence[str], classes: Sequence[str], start: int, index: int
) -> int | None:
    """The head of the subject among the words from `start` to the verb at `index`."""
    at = index - 1
    while at >= start:
        word, letters = words[at], classes[at]
        if word in _SUBJECTS or (_is_nominal(word, letters) and letters[0] not in "ai"):
            return _head(words, classes, start, at)
        if word in {"and", "or", "but"}:
            return None
        at -= 1
    return _any_before(words, classes, start, index)


def joined_before(words: Sequence[str], classes: Sequence[str], index: int) -> int | None:
    """The noun of a sentence's first verb, at `index`, though an "and" or a word that is oftener
    a verb stands between: "the paint and wheels looked"."""
    for at in range(index - 1, -1, -1):
        if words[at] in _SUBJECTS or (words[at] not in _OBJECTS and classes[at][0] in "nscXuG"):
            return at
    return None


def _any_before(words: Sequence[str], classes: Sequence[str], start: int, index: int) -> int | None:
    """The word right before the verb if it may stand for a noun: "the poor", "the following"."""
    at = index - 1
    while at > start and (classes[at] == "a" or words[at] in _MARKS):
        at -= 1
    if at > start and classes[at][0] in "GjNDZBcup" and classes[at - 1][0] in "dojnsX":
        return at
    return None


def _head(words: Sequence[str], classes: Sequence[str], start: int, at: int) -> int:
    """The head of the phrase that ends at `at`: "lid" of "the lid of the salt box", the first of
    "Ines and Jonah"."""
    while True:
        if at > start and words[at - 1] in {"you", "we"} and words[at] not in _SUBJECTS:
            return at - 1
        another = at - 1 > start and words[at - 1] in _BEFORE_ANOTHER
        if words[at] in _ALONE and not another:
            return at
        first = at
        while first > start and _inside(words[first - 1], classes[first - 1]):
            first -= 1
        before = first - 1
        if before <= start:
            return at
        word, letters = words[before], classes[before]
        if not (letters == "i" or letters[0] == "i" or word == "and"):
            return at
        earlier = before - 1
        while earlier > start and (words[earlier] == "," or classes[earlier] == "a"):
            earlier -= 1
        if not _is_nominal(words[earlier], classes[earlier]) or words[earlier] in _MARKS:
            return at
        at = earlier


def _inside(word: str, letters: str) -> bool:
    """Whether a word may stand before the head inside its phrase."""
    if word in _MARKS or word in _SUBJECTS:
        return word in {"all", "some", "many", "most", "this", "that", "these", "those", "one"}
    return letters[0] in "dojnscXu'" or letters == "a"


def subject_after(words: Sequence[str], classes: Sequence[str], index: int) -> int | None:
    """The head of the subject after the verb at `index`, where it is turned about: "are you"."""
    at = index + 1
    limit = min(len(words), index + 8)
    while at < limit and (words[at] in {"n't", "not"} or classes[at] == "a"):
        at += 1
    if at >= limit:
        return None
    if words[at] in _SUBJECTS and classes[at][0] in "pe":
        return at
    if words[at] in _POINTING and (at + 1 == limit or classes[at + 1][0] not in "nsXjcu"):
        return at
    head = _phrase_head(words, classes, at, limit)
    return at if head is None and words[at] in _POINTING else head


def _phrase_head(words: Sequence[str], classes: Sequence[str], at: int, limit: int) -> int | None:
    """The head of the phrase that begins at `at`: its last noun, or the pronoun that it is."""
    head = None
    for place in range(at, limit):
        word, letters = words[place], classes[place]
        if word in _MARKS or letters[0] not in "dojnscXpuw" or (head and letters[0] == "p"):
            break
        if _is_nominal(word, letters):
            head = place
            if letters[0] == "p":
                break
        elif head is not None:
            break
    if head is None and at + 1 < limit and classes[at][0] == "d" and words[at + 1][0].isalnum():
        return at + 1
    return head
