"""A sentence about the one who speaks it, by name, told by "I" instead."""

import re

from saywright.finding import Edit
from saywright.language.english.retensing import MOST_VERBS, has_unknown_verb
from saywright.language.english.verb_swaps import Edits, to_first
from saywright.language.facts import Facts, Verb

_HERS = re.compile(r"\b(?:she|her|hers|herself)\b", re.IGNORECASE)
_HIS = re.compile(r"\b(?:he|him|his|himself)\b", re.IGNORECASE)
# Another who could be meant by "she" or "he".
_ANOTHER = re.compile(
    r"\b(?:man|woman|mother|father|mum|dad|sister|brother|aunt|uncle|girl|boy|wife|husband|lady"
    r"|daughter|son|friend|captain|mate|teacher|doctor|nurse|inspector|boss)\b"
)
_CAPITAL = re.compile(r"(?<=[^.!?“\"‘'(\s]\s)[A-Z][\w’']+")
# After "her" as the object; after any other word it is hers.
_NO_NOUN = re.compile(
    r"\s+(?:in|on|at|to|for|from|by|and|but|or|when|as|because|again|off|up|down|out|back|away"
    r"|over|with|go|come|leave|that|what|who|if|the|a|an|\w+ly|\w+ing)\b|\W*$|\s*[,.;:!?…–—]",
    re.IGNORECASE,
)
_REFLEXIVE = frozenset(("herself", "himself"))
_OPENINGS = frozenset(("and", "but", "so", "then", "now", "yet", "still", "tonight", "today", "or"))
_BEFORE_A_SUBJECT = _OPENINGS - {"and", "or"} | frozenset(
    "when if because while as until till before after that where why how since though although"
    " perhaps maybe again tomorrow once every time night day morning evening year".split()
)
_WORD_RIGHT_BEFORE = re.compile(r"([\w’']+)\s+\Z")
_SUBJECTS = frozenset(("she", "he"))


def first_person(text: str, facts: Facts, name: str) -> Edits | None:
    """The edits that put "I" for `name` as the main subject, its verbs and what is its own along
    with it. None where `name` is not that subject, or where the outcome is unsure."""
    main = facts.verbs[facts.main] if facts.main is not None else None
    if main is None or main.subject is None or facts.is_question:
        return None
    if len(facts.verbs) > MOST_VERBS or not stands_alone(text, main, name):
        return None
    pronouns = _pronouns(text, name)
    if pronouns is None or has_unknown_verb(text, facts, {"third"}):
        return None
    edits = [Edit(*main.subject, "I")]
    for index, verb in enumerate(facts.verbs):
        if not verb.quoted and _shares(text, facts, index, main):
            made = to_first(text, verb)
            if made is None:
                return None
            edits += made
    for pronoun in pronouns:
        own = _own(text, facts, pronoun)
        if own is None:
            return None
        edits.append(own)
    return tuple(sorted(edits))


def stands_alone(text: str, main: Verb, name: str) -> bool:
    """Whether `name` alone is the subject: no "Ana and Ines", "Aunt Ines", "good old Ines", nor
    "Ines, who"."""
    assert main.subject
    start, end = main.subject
    before = _WORD_RIGHT_BEFORE.search(text[:start])
    linked = before is not None and before[1].lower() not in _BEFORE_A_SUBJECT
    opens = text[:start].strip(" ,").lower() in _OPENINGS
    after = text[end : main.start]
    plain = re.fullmatch(r"\s*(?:\w+ly |never |always |just |still |also |then |only )?", after)
    return text[start:end] == name and (not linked or opens) and plain is not None


def _pronouns(text: str, name: str) -> list[re.Match[str]] | None:
    """The words that are about `name`; None where they may be about another: whether it is "she"
    or "he" is not known, but where one looks at herself."""
    hers, his = list(_HERS.finditer(text)), list(_HIS.finditer(text))
    found = hers or his
    if not found:
        return []
    reflexive = any(each.group().lower() in _REFLEXIVE for each in found)
    others = [word for word in _CAPITAL.findall(text) if word not in (name, "I")]
    alone = not (hers and his) and not others
    return found if reflexive and alone and not _ANOTHER.search(text) else None


def _shares(text: str, facts: Facts, index: int, main: Verb) -> bool:
    """Whether the verb at `index` has the main verb's subject, or "she" for it."""
    verb = facts.verbs[index]
    if verb.subject is None or verb.subject > (verb.start, verb.end):  # "takes her hat"
        return verb.role == "joined" and all(
            each.subject in (None, main.subject) or each.role == "under"
            for each in facts.verbs[:index]
        )
    return verb.subject == main.subject or text[slice(*verb.subject)].lower() in _SUBJECTS


def _own(text: str, facts: Facts, pronoun: re.Match[str]) -> Edit | None:
    word = pronoun.group().lower()
    start, end = pronoun.span()
    if word in _SUBJECTS:
        subjects = {verb.subject for verb in facts.verbs}
        return Edit(start, end, "I") if (start, end) in subjects else None
    if word in _REFLEXIVE:
        return Edit(start, end, "myself")
    if word == "hers" or (word in ("her", "his", "him") and _NO_NOUN.match(text, end)):
        return None
    return None if word == "him" else Edit(start, end, "my")
