"""What is told to happen in an English line: its verbs, each with the little word that makes it
another verb, as in "pulled him out", "let go"."""

import re
from collections.abc import Sequence
from functools import lru_cache
from typing import NamedTuple

from saywright.language.english.classed import classed
from saywright.language.english.tag import is_english
from saywright.language.english.verb_forms import readings_of
from saywright.language.sentence_facts import sentence_facts

_PARTICLES = frozenset(
    "up down out off away back on over round in through along aside apart across go".split()
)
_NO_EVENT = frozenset(
    """
    be have do can will shall may must say tell think know want seem feel like love hate need mean
    look stand sit lie hope believe suppose own call keep live last
    """.split()
)
_OFTEN = re.compile(r"\b(?:every|always|often|usually|sometimes|each)\b", re.IGNORECASE)
_AUXILIARY = frozenset("be have do can could will would shall should may might must".split())
_BEFORE_VERBS = frozenset("do does did let lets make makes made help helps helped".split())
_DOERS = frozenset("i we you he she it they".split())
_PASSED_OVER = frozenset(
    "still never always often also only just not n't even already soon".split()
)


class _Told(NamedTuple):
    """What `doers` and `predicates` tell, which are found together."""

    doers: dict[str, str]
    predicates: frozenset[str]


def doers(text: str, language: str) -> dict[str, str]:
    """For each verb that is told, by its dictionary form, the pronoun that does it; empty where it
    is a noun, or far from its verb."""
    return _told(text, language).doers


def predicates(text: str, language: str) -> frozenset[str]:
    """The verbs that are told, by their dictionary forms: "turn round", "laugh". No "be"."""
    return _told(text, language).predicates


@lru_cache(maxsize=4096)
def _told(text: str, language: str) -> _Told:
    if not is_english(language):
        return _Told({}, frozenset())
    _, words, classes = classed(text)
    doing: dict[str, str] = {}
    found: set[str] = set()
    for index, word in enumerate(words):
        if not _is_verb(words, classes, index):
            continue
        lemma = next((each.lemma for each in readings_of(word)), word)
        doing[lemma] = _doer(words, classes, index - 1)
        belongs = index and word == "go" and words[index - 1] in ("let", "lets", "letting")
        if lemma not in _AUXILIARY and not belongs:
            found.add(f"{lemma} {_particle(words, classes, index + 1)}".strip())
    return _Told(doing, frozenset(found))


def _doer(words: Sequence[str], classes: Sequence[str], at: int) -> str:
    """The pronoun at or before `at` that does it, if one does."""
    while at >= 0 and (_is_verb(words, classes, at) or words[at] in _PASSED_OVER):
        at -= 1
    return words[at] if at >= 0 and words[at] in _DOERS else ""


def _is_verb(words: Sequence[str], classes: Sequence[str], index: int) -> bool:
    """Whether it is one most likely; not the "count" of "I lost count"."""
    letters = classes[index].removeprefix("u")
    if letters[:1] == "B" and "n" in letters and index:
        return classes[index - 1][:1] not in ("D", "N", "Z") or words[index - 1] in _BEFORE_VERBS
    return letters[:1] in ("B", "Z", "D", "N", "G")


def _particle(words: list[str], classes: list[str], at: int) -> str:
    if at < len(words) and classes[at][:1] == "p":
        at += 1
    return words[at] if at < len(words) and words[at] in _PARTICLES else ""


@lru_cache(maxsize=4096)
def events(text: str, language: str) -> int:
    """How often somebody is told to have done something, once."""
    if _OFTEN.search(text):
        return 0
    facts = sentence_facts(text, language)
    if facts is None:
        return 0
    return sum(
        verb.tense == "past"
        and verb.aspect == "simple"
        and not verb.quoted
        and verb.lemma not in _NO_EVENT
        for verb in facts.verbs
    )
