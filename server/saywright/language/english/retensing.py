"""A sentence told in the other tense: the edits that take its verbs there, or nothing where the
outcome might not be good English.

The main verb and those joined to it go together, each with the clauses that hang under it. A
clause in the past that may tell of something earlier stays as it is: "the man who sold me the
lamp smiles".
"""

import re
from collections.abc import Collection, Iterator, Sequence
from typing import Literal, NamedTuple

from saywright.finding import Edit
from saywright.language.english.agreement import Agrees, agreement, subject_bearer
from saywright.language.english.verb_forms import readings_of
from saywright.language.english.verb_swaps import Edits, to_past, to_present
from saywright.language.facts import Facts, Person, Verb

MOST_VERBS = 40  # of a sentence; each is looked at among all the others

Target = Literal["past", "present"]

_PAST_ONLY = re.compile(
    r"\b(?:yesterday|ago|last (?:night|week|month|year|time|summer|winter|spring|autumn|fall"
    r"|\w+day)|back then|in those days|the other day|used to|in (?:19|20)\d\d"
    r"|for \w+ (?:months|years)|as a (?:child|boy|girl|kid)"
    r"|(?:the|my first|our first) (?:day|night|week|month|year|summer|winter|spring|autumn)"
    r" (?:I|we|he|she|they)"
    r"|when (?:I|we) (?:was|were) (?:a|young|little|small|\w+teen))\b",
    re.IGNORECASE,
)
_PRESENT_ONLY = re.compile(
    r"\b(?:tomorrow|nowadays|these days|right now|at the moment|tonight"
    r"|next (?:week|month|year))\b",
    re.IGNORECASE,
)
# What does not go with a change of tense: wishes, and "had better", "would rather".
_FIXED = re.compile(
    r"\b(?:wish(?:e[sd])?|as if|as though|if only|had better|['’]d (?:better|rather)|as it were"
    r"|were to|used to)\b",
    re.IGNORECASE,
)
# Asides that keep their tense: "I went in, you know, and sat down".
_ASIDES = {
    "i": frozenset(("mean", "guess", "suppose", "swear", "bet", "reckon", "think")),
    "you": frozenset(("know", "see", "understand")),
}
# A clause that begins with one of these happens along with what it hangs under.
_MEANWHILE = frozenset(
    (
        *("when", "while", "as", "until", "till", "before", "after", "whenever", "if", "unless"),
        *("where", "wherever", "once"),
    )
)
_STATES = frozenset(
    (
        *("be", "have", "stand", "sit", "lie", "hang", "live", "know", "want", "need", "love"),
        *("hate", "wear", "look", "seem", "hold", "belong", "feel", "smell", "sound", "mean"),
        *("own", "like", "think", "believe", "see", "hear", "contain", "matter", "cost", "weigh"),
    )
)
_TOLD_AFTER = frozenset(
    (
        *("know", "think", "say", "tell", "hope", "believe", "promise", "feel", "decide", "swear"),
        *("guess", "suppose", "expect", "imagine", "realise", "realize", "see", "ask", "wonder"),
    )
)
_JOINED = re.compile(
    r"\b(?:and|but|or)\s+(?:then\s+|just\s+|never\s+)?(\w+)(?=\s+(?:up|down|out|in|at|away|back|off|on|over"
    r"|round|around|to|for|into|my|your|his|her|its|our|their|the|an?|it|me|him|them|us|you"
    r"|no|nothing|home)\b)",
    re.IGNORECASE,
)
_WORD = re.compile(r"[^\W_]+")


class _Telling(NamedTuple):
    """A sentence, and what becomes of it. `person`: whose verbs they are that have no subject."""

    text: str
    facts: Facts
    tense: Target
    person: Person | None


def retensed(text: str, facts: Facts, tense: Target, person: Person | None = None) -> Edits | None:
    """The edits that put what a sentence tells into `tense`; offsets are those of `text`.

    `person` is whose verb it is where the sentence leaves its subject out. None where nothing is
    to be changed, or where the outcome is unsure.
    """
    if facts.is_question or len(facts.verbs) > MOST_VERBS or _is_fixed(text, tense):
        return None
    if _has_another(text, facts, tense):
        return None
    telling = _Telling(text, facts, tense, person)
    leaders = _leaders(text, facts, tense)
    moved = {index for index in leaders if facts.verbs[index].tense not in (tense, "imperative")}
    if not any(facts.verbs[index].tense in ("past", "present") for index in moved):
        return None
    edits: list[Edit] = []
    for index in _order(facts.verbs, leaders, moved):
        made = _moved(telling, index, index in leaders)
        if made is None:
            return None
        edits += made
    return tuple(sorted(edits)) or None


def _is_fixed(text: str, tense: Target) -> bool:
    cues = _PRESENT_ONLY if tense == "past" else _PAST_ONLY
    return bool(cues.search(text) or _FIXED.search(text))


def _has_another(text: str, facts: Facts, tense: Target) -> bool:
    return has_unknown_verb(text, facts, {"past"} if tense == "present" else {"base", "third"})


def has_unknown_verb(text: str, facts: Facts, forms: Collection[str]) -> bool:
    """Whether a word after "and" looks like one more verb in one of `forms`, which the facts do
    not have: left as it is it would spoil the rest, as in "I walked in and look up"."""
    known = {verb.start for verb in facts.verbs} | {verb.head[0] for verb in facts.verbs}
    return any(
        joined.start(1) not in known
        and any(each.form in forms for each in readings_of(joined.group(1)))
        for joined in _JOINED.finditer(text)
    )


def _leaders(text: str, facts: Facts, tense: Target) -> list[int]:
    """The main verb and those joined to it, without asides and what is quoted; where the main
    verb is an aside, what hangs under it leads."""
    told = [index for index, verb in enumerate(facts.verbs) if not verb.quoted]
    leading = [index for index in told if facts.verbs[index].role != "under"]
    left = [index for index in leading if not is_aside(text, facts.verbs[index])]
    only_asides = leading and not left
    if only_asides and tense == "past" and len(told) > len(leading):
        return [index for index in told if index not in leading][:1]
    return left or leading


def is_aside(text: str, verb: Verb) -> bool:
    """Whether it is a turn such as "you know" or "thank you", that tells nothing."""
    if verb.lemma == "thank":
        return verb.tense == "present"
    if verb.subject is None or verb.tense != "present" or verb.aspect != "simple":
        return False
    who = text[slice(*verb.subject)].lower()
    return verb.head == (verb.start, verb.end) and verb.lemma in _ASIDES.get(who, ())


def _order(verbs: Sequence[Verb], leaders: Sequence[int], moved: set[int]) -> Iterator[int]:
    """The verbs to move: `moved`, and each that hangs under one of them, the nearest leader
    before it or, where there is none, the first after it."""
    for index, verb in enumerate(verbs):
        if index in moved:
            yield index
        elif index not in leaders and verb.role == "under" and not verb.quoted and leaders:
            before = [leader for leader in leaders if leader < index]
            if (before[-1] if before else leaders[0]) in moved:
                yield index


def _moved(telling: _Telling, index: int, leads: bool) -> Edits | None:
    text, facts, tense, _ = telling
    verb = facts.verbs[index]
    if verb.aspect == "perfect" and verb.lemma != "get" and index == facts.main:
        return None
    if verb.tense in (tense, "imperative") or is_aside(text, verb):
        return ()
    if tense == "past":
        return to_past(text, verb)
    if verb.tense == "past":
        return _to_present(telling, index, leads)
    return _modal_to_present(text, facts, index, leads)


def _to_present(telling: _Telling, index: int, leads: bool) -> Edits | None:
    text, facts, _, person = telling
    if not leads and _tells_of_earlier(text, facts.verbs, index):
        return ()
    agrees = agreement(text, facts.verbs, index)
    if subject_bearer(facts.verbs, index) is None:
        agrees = _dropped(person)
    return to_present(text, facts.verbs[index], agrees)


def _dropped(person: Person | None) -> Agrees | None:
    return "I" if person == "first" else None


def _tells_of_earlier(text: str, verbs: Sequence[Verb], index: int) -> bool:
    """Whether a clause in the past may tell of what was before."""
    verb = verbs[index]
    opening = _opening(text, verbs, index)
    if "since" in opening:
        return True
    if _MEANWHILE & opening:
        return False
    return verb.aspect != "progressive" and verb.lemma not in _STATES


def _opening(text: str, verbs: Sequence[Verb], index: int) -> frozenset[str]:
    """The words between the verb before and the verb at `index`."""
    start = verbs[index - 1].end if index else 0
    return frozenset(word.lower() for word in _WORD.findall(text[start : verbs[index].start]))


def _modal_to_present(text: str, facts: Facts, index: int, leads: bool) -> Edits | None:
    """ "I knew he would come" can be told in the present; "then he would laugh" cannot."""
    verb = facts.verbs[index]
    stem = text[verb.start : verb.end].lower().replace("’", "'").removesuffix("n't")
    if stem == "could":
        return None if "if" in _opening(text, facts.verbs, index) else to_present(text, verb, None)
    if stem not in ("would", "'d"):
        return ()
    told = facts.main is not None and facts.verbs[facts.main].lemma in _TOLD_AFTER
    return None if leads or not told or stem == "'d" else to_present(text, verb, None)
