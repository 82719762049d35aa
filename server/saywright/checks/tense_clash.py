"""Two tenses under one subject in one sentence: "I walk in and looked"."""

import re
from collections.abc import Iterator
from typing import NamedTuple

from saywright.checks.tense_runs import Told
from saywright.language.english.agreement import has_own_subject
from saywright.language.english.verb_forms import readings_of
from saywright.language.facts import Verb

_JOINT = re.compile(r"(?:\W|^)(?:and|or|but|then)\s+(?:(?:then|just|never|only|\w+ly)\s+)?$|,\s+$")
_APART = re.compile(
    r"\b(?:now|then|today|yesterday|once|when|later|before|after|still|always|since|last|ago"
    r"|used|was|were|that|which|who|because|if|as|so)\b",
    re.IGNORECASE,
)
_TENSES = {"past", "present"}
_PRONOUNS = frozenset(("i", "we", "he", "she", "they"))


class Clash(NamedTuple):
    """The verbs of a sentence that disagree, by their index, the earlier first. `shared`: they
    have one subject, that is said once; else it is said again: "I walked in and I look"."""

    earlier: int
    later: int
    shared: bool


def clash(told: Told) -> Clash | None:
    """The first two verbs of one subject, one after the other, of which one is in the past and
    the other in the present, where neither could be read otherwise."""
    facts = told.facts
    if facts is None or facts.is_question or facts.tense not in _TENSES:
        return None
    return next((pair for pair in _pairs(told, facts.verbs) if _clashes(told, pair)), None)


def _pairs(told: Told, verbs: tuple[Verb, ...]) -> Iterator[Clash]:
    """Each verb with the next, where that is joined to it under the same subject."""
    for index in range(1, len(verbs)):
        before, verb = verbs[index - 1], verbs[index]
        if verb.role == "joined" and before.role != "under":
            if verb.subject == before.subject or not has_own_subject(verb):
                yield Clash(index - 1, index, True)
            elif before.subject and verb.subject and _is_same(told.text, before, verb):
                yield Clash(index - 1, index, False)


def _is_same(text: str, before: Verb, verb: Verb) -> bool:
    assert before.subject and verb.subject
    names = [text[slice(*each)].lower() for each in (before.subject, verb.subject)]
    return names[0] == names[1] and names[0] in _PRONOUNS


def _clashes(told: Told, pair: Clash) -> bool:
    assert told.facts
    earlier, later = told.facts.verbs[pair.earlier], told.facts.verbs[pair.later]
    between = told.text[earlier.head[1] : _start(later, pair)]
    return (
        {earlier.tense, later.tense} == _TENSES
        and not (earlier.quoted or later.quoted)
        and all(verb.aspect in ("simple", "progressive") for verb in (earlier, later))
        and bool(_JOINT.search(between))
        and not _is_inserted(told.text, earlier)
        and not _APART.search(between)
        and all(_is_plain(told.text, verb) for verb in (earlier, later))
    )


def _is_inserted(text: str, verb: Verb) -> bool:
    """Whether a verb stands between commas with its own subject: "Joss, they said, sleeps"."""
    return verb.subject is not None and text[: verb.subject[0]].rstrip().endswith(",")


def _start(verb: Verb, pair: Clash) -> int:
    return verb.start if pair.shared or verb.subject is None else verb.subject[0]


def _is_plain(text: str, verb: Verb) -> bool:
    """Whether the word is of one tense only: "put" and "read" are of both, and after "is" and
    "has" a word in -ed need not be of the past."""
    if verb.lemma in ("be", "have") and verb.tense == "present":
        return False
    forms = {each.form for each in readings_of(text[verb.start : verb.end])}
    return not {"base", "past"} <= forms
