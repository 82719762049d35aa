"""What is told to happen in an English line: its verbs, each with the little word that makes it
another verb, as in "pulled him out", "let go"."""

from functools import lru_cache

from saywright.language.english.tag import is_english
from saywright.language.english.tokens import tokens
from saywright.language.english.verb_forms import readings_of
from saywright.language.english.weights import weights
from saywright.language.english.word_classes import classes_of
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
_AUXILIARY = frozenset("be have do can could will would shall should may might must".split())


@lru_cache(maxsize=4096)
def predicates(text: str, language: str) -> frozenset[str]:
    """The verbs that are told, by their dictionary forms: "turn round", "laugh". No "be"."""
    if not is_english(language):
        return frozenset()
    spans, words = tokens(text)
    classes = classes_of(text, spans, words, weights().classes)
    found: set[str] = set()
    for index, word in enumerate(words):
        if classes[index].removeprefix("u")[:1] not in tuple("BZDNG"):
            continue
        lemma = next((each.lemma for each in readings_of(word)), word)
        belongs = index and word == "go" and words[index - 1] in ("let", "lets", "letting")
        if lemma not in _AUXILIARY and not belongs:
            found.add(f"{lemma} {_particle(words, classes, index + 1)}".strip())
    return frozenset(found)


def _particle(words: list[str], classes: list[str], at: int) -> str:
    if at < len(words) and classes[at][:1] == "p":
        at += 1
    return words[at] if at < len(words) and words[at] in _PARTICLES else ""


@lru_cache(maxsize=4096)
def events(text: str, language: str) -> int:
    """How often somebody is told to have done something, once."""
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
