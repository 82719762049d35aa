"""Whom a verb agrees with: I, he or they. Where that cannot be told, nothing is said."""

import re
from collections.abc import Sequence
from typing import Literal

from saywright.language.facts import Verb

Agrees = Literal["I", "he", "they"]

_WORD = re.compile(r"[^\W_]+(?:['’][^\W_]+)*")
_PRONOUNS: dict[str, Agrees] = {
    "i": "I",
    **dict.fromkeys(("you", "we", "they", "these", "those", "both"), "they"),
    **dict.fromkeys(
        (
            *("he", "she", "it", "this", "that", "what", "one", "each", "another", "either"),
            *("everyone", "everybody", "everything", "someone", "somebody", "something"),
            *("anyone", "anybody", "anything", "nobody", "nothing", "news"),
        ),
        "he",
    ),
}
_ONE = frozenset(("a", "an", "this", "that", "each", "every", "another", "one"))
_MANY = frozenset(
    (
        *("these", "those", "both", "many", "few", "several", "two", "three", "four", "five"),
        *("six", "seven", "eight", "nine", "ten", "twelve", "twenty"),
    )
)
_PLURALS = frozenset(("people", "men", "women", "children", "police", "feet", "teeth", "folk"))
# Now one, now many, or too rarely a subject to say.
_UNSURE = frozenset(
    (
        *("lot", "lots", "rest", "half", "most", "some", "any", "none", "all", "more", "couple"),
        *("number", "majority", "bunch", "group", "crew", "family", "team", "company", "staff"),
        *("audience", "crowd", "public", "cattle", "sheep", "fish", "series", "means", "there"),
        *("here", "who", "which", "neither", "old", "young", "rich", "poor", "dead", "other"),
        *("first", "last", "plenty", "pair", "dozen", "part", "committee", "band", "choir"),
    )
)
# Before the noun of a phrase that may belong to the true subject: "the keeper of the lamps".
_LESSER = re.compile(
    r"\b(?:of|or|nor|with|in|on|at|from|by|for|near|under|behind|beside|over)\s+"
    r"(?:(?:the|an?|my|your|his|her|its|our|their|this|that|these|those)\s+)?(?:\w+\s+)?\Z",
    re.IGNORECASE,
)
_RELATIVES = frozenset(("who", "which", "that"))
_LINKS = frozenset(("and", "but", "so", "then", "or", "yet"))


def agreement(text: str, verbs: Sequence[Verb], index: int) -> Agrees | None:
    """What the verb at `index` of a sentence's verbs, in order, agrees with."""
    verb = subject_bearer(verbs, index)
    if verb is None or verb.subject is None:
        return None
    start, end = verb.subject
    word = text[start:end].lower()
    links = _links(text, verbs, verb)
    if links is not None:
        return links or None
    if word in _RELATIVES and verb.role == "under":
        return _of_relative(text, verbs, verb, word)
    return _PRONOUNS.get(word) or _of_noun(text, verbs, start, end)


def subject_bearer(verbs: Sequence[Verb], index: int) -> Verb | None:
    """The verb itself, or, of one joined to another under one subject, that other."""
    verb = verbs[index]
    while not has_own_subject(verb) and verb.role == "joined" and index:
        index -= 1
        if verbs[index].role != "under":
            verb = verbs[index]
    return verb if verb.subject else None


def has_own_subject(verb: Verb) -> bool:
    """Whether a verb has a subject beside that of the verb before it: what stands after a joined
    verb is rather its object, as "the sack" in "and weighed the sack"."""
    if verb.subject is None:
        return False
    return verb.role != "joined" or verb.subject[0] < verb.start


def _links(text: str, verbs: Sequence[Verb], verb: Verb) -> Agrees | Literal[""] | None:
    """What a subject of two joined by "and" takes, "" for an unsure one, None for neither."""
    assert verb.subject
    start, end = verb.subject
    between = range(end, verb.start)
    after = _words(text[end : verb.start])
    if not any(other.start in between for other in verbs):
        if "or" in after or "nor" in after:
            return ""
        if "and" in after:
            return _of_two(text, verbs, verb)
    is_pronoun = text[start:end].lower() in _PRONOUNS
    if re.search(r"\bof\s+\Z", text[:start]):  # "half of it"
        return ""
    if not is_pronoun and (_hangs(text, verbs, start) or _LESSER.search(text, 0, start)):
        return ""
    before = text[_clause_start(text, verbs, start) : start]
    words = _words(before)
    if "and" in words[1:] and words[-1] != "of" and not set(words[:1]) & _LINKS:
        return "they"
    return None


def _of_two(text: str, verbs: Sequence[Verb], verb: Verb) -> Agrees | Literal[""]:
    """Of "my sister and I went"; but of "I came back and she left" and "he shut the door, and she
    left" the last alone, and where that is no pronoun, one cannot tell."""
    assert verb.subject
    start, end = verb.subject
    last = max((other.end for other in verbs if other.end <= start), default=None)
    has_comma = bool(re.search(r"[,;:–—]", text[end : verb.start]))
    if not has_comma and (last is None or re.search(r"[,;:–—]", text[last:start])):
        return "they"
    final = _words(text[end : verb.start].rpartition("and ")[2])[:1]
    return _PRONOUNS.get(final[0], "") if final else ""


def _hangs(text: str, verbs: Sequence[Verb], start: int) -> bool:
    """Whether the word at `start` may be part of another clause: "the man who sold me lamps"."""
    before = [verb for verb in verbs if verb.start < start]
    if not before or before[-1].role != "under":
        return False
    return not re.search(r"[,;:–—]", text[before[-1].head[1] : start])


def _clause_start(text: str, verbs: Sequence[Verb], start: int) -> int:
    """Where the words may begin that belong to the subject at `start`."""
    last = max((other.head[1] for other in verbs if other.start < start), default=0)
    last = max((*(other.end for other in verbs if other.start < start), last))
    comma = max(text.rfind(mark, 0, start) for mark in ",;:–—-") + 1
    if comma > last:
        return comma
    return start if last else 0


def _of_relative(text: str, verbs: Sequence[Verb], verb: Verb, word: str) -> Agrees | None:
    assert verb.subject
    before = list(_WORD.finditer(text, 0, verb.subject[0]))
    if not before:
        return "he" if word == "that" else None
    antecedent = before[-1]
    if any(other.head[0] <= antecedent.start() < other.head[1] for other in verbs):
        return "he" if word == "that" else None
    known = _PRONOUNS.get(antecedent.group().lower())
    return known or _of_noun(text, verbs, antecedent.start(), antecedent.end())


def _of_noun(text: str, verbs: Sequence[Verb], start: int, end: int) -> Agrees | None:
    word = text[start:end].lower()
    if word in _PLURALS or word in _MANY:
        return "they"
    if word in _UNSURE or not word[-1:].isalpha():
        return None
    opens = not _words(text[:start])
    since = max((other.end for other in verbs if other.end <= start), default=0)
    before = set(_words(text[since:start])[-3:])
    if before & _ONE:
        return "he"
    looks_plural = word.endswith("s") and not word.endswith(("ss", "us", "is", "'s", "’s"))
    if before & _MANY:
        return "they" if looks_plural else None
    if not looks_plural:
        return "he"
    named = text[start].isupper()
    return None if opens or (named and "the" in before) else "he" if named else "they"


def _words(text: str) -> list[str]:
    return [word.lower() for word in _WORD.findall(text)]
