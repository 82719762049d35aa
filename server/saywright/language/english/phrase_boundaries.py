"""Where a speaker of English may take a breath though nothing is written there.

Read off the words around a gap, without a parse: before a clause, else before a phrase, and
never between words that belong closely together (an article and its noun, a verb and its
particle, the words of a name). Where that cannot be told, there is no boundary.
"""

import re
from collections.abc import Sequence
from enum import IntEnum

from saywright.language.english.verb_forms import readings_of


class Boundary(IntEnum):
    NONE = 0
    PHRASE = 1
    CLAUSE = 2


_SUBJECTS = frozenset(
    "i he she we they you it there this these nobody everybody somebody everyone someone"
    " i'm i've i'd i'll he's he'd he'll she's she'd she'll we're we've we'd we'll they're they've"
    " they'd they'll you're you've you'd you'll it's it'd it'll there's that's".split()
)
_OMITTED_THAT = frozenset("i he she we they i'd i've he'd she'd we'd we've they'd they've".split())
_DETERMINERS = frozenset(
    "a an the my your his her its our their this that these those no every each some any"
    " all both another either neither whose".split()
)
_BEFORE_A_NOUN = frozenset("a an the my your his her its our their this these every each".split())
_COORDINATORS = frozenset(("and", "but", "or", "nor", "yet", "so"))
_SUBORDINATORS = frozenset(
    "because although though unless until till while whereas if when whenever where wherever"
    " which who whom whose whether since".split()
)
_SAYING = frozenset(
    "say says said know knows knew known think thinks thought believe believes believed hope"
    " hopes hoped feel feels felt find finds found hear hears heard mean means meant promise"
    " promises promised swear swears swore show shows showed indicate indicates indicated"
    " explain explains explained insist insists insisted".split()
)
_AUXILIARIES = frozenset(
    "is are was were has have had will would can could should shall may might must does did"
    " isn't aren't wasn't weren't hasn't haven't hadn't won't wouldn't can't couldn't shouldn't"
    " doesn't didn't don't never".split()
)
_FEWEST_WORDS_OF_A_SUBJECT = 5
_TIMES = frozenset("day week month year hour minute moment time night second long".split())
_OPENS = _SUBORDINATORS | _COORDINATORS | {"that", "than"}
_MAY_OPEN_A_CLAUSE = frozenset(("before", "after", "as", "so", "once"))
_PREPOSITIONS = frozenset(
    "with without from before after during until till through under beneath beside between"
    " behind against among across above below near towards toward into onto inside outside"
    " at in on for by to since despite throughout within".split()
)
_CLOSELY_BOUND = frozenset(
    "of to in on at for from with by about into over under up out off down than as like not"
    " am is are was were be been being have has had do does did will would shall should can"
    " could may might must very so too quite more most less least just only even still never"
    " always ever also and but or nor yet if because that when while where which who whom whose"
    " what how why whether such same me him us them it you i we they he she there here then now"
    " away back around through across along apart together forward ahead"
    " able ready likely keen glad sure afraid free slow quick enough due according next close far"
    " prior instead".split()
)
_QUALITY = re.compile(r".+(?:ous|able|ible|ive|ful|ing|ent|ant|y)$")  # “anxious to”
_LONGEST_WORD = 24


def boundary_before(words: Sequence[str], index: int) -> Boundary:
    """How well a breath stands between `words[index - 1]` and `words[index]`, 0 < `index`.

    `words` are a sentence's, as they are written, without what stands around them.
    """
    if _in_name(words, index):
        return Boundary.NONE
    lower = [_plain(each) for each in words[max(index - 3, 0) : index + 3]]
    at = min(index, 3)
    found = _judged(lower, at)
    if found or index < _FEWEST_WORDS_OF_A_SUBJECT or lower[at] not in _AUXILIARIES:
        return found
    near = lower[:at]
    short_subject = not _OPENS.isdisjoint(near)
    return Boundary.NONE if short_subject or _binds(lower, at - 1) else Boundary.PHRASE


def _in_name(words: Sequence[str], index: int) -> bool:
    """Whether a name may go on across the gap: “Parties to the Treaty”, “the Salt and Ferry”."""
    if index < 2 or not words[index - 1][:1].isupper() or words[index - 1] == "I":
        return False
    if words[index] == "to":
        return True
    if words[index][:1].isupper():
        return words[index] != "I"
    small = words[index] in _PREPOSITIONS or words[index] == "and"
    return small and any(
        word[:1].isupper() and word != "I" for word in words[index + 1 : index + 3]
    )


def _plain(word: str) -> str:
    return word[:_LONGEST_WORD].lower().replace("’", "'")


def _judged(words: Sequence[str], at: int) -> Boundary:
    """`words` in lower case: up to three before the gap at `at`, and up to three after it."""
    before, word = words[at - 1], words[at]
    after = words[at + 1] if at + 1 < len(words) else ""
    if before in _DETERMINERS or not after:
        return Boundary.NONE
    if word in _COORDINATORS:
        return _before_coordinator(words, at)
    if word == "that":
        return Boundary.PHRASE if _that_opens_clause(before, after) else Boundary.NONE
    if _opens_clause(words, at):
        return Boundary.CLAUSE
    if word in _OMITTED_THAT:
        return Boundary.NONE if _binds(words, at - 1) else Boundary.PHRASE
    bound = word not in _PREPOSITIONS or _binds(words, at - 1)
    return Boundary.NONE if bound or (word == "to" and _QUALITY.match(before)) else Boundary.PHRASE


def _before_coordinator(words: Sequence[str], at: int) -> Boundary:
    word, after = words[at], words[at + 1]
    if word in ("so", "yet"):
        return Boundary.CLAUSE if after in _SUBJECTS or after == "that" else Boundary.NONE
    if after in _SUBJECTS or after in _SUBORDINATORS or after in ("then", "that"):
        return Boundary.CLAUSE
    if after in _AUXILIARIES or _has_form(after, "past", "third"):
        return Boundary.CLAUSE
    opens = after in _PREPOSITIONS or after in _DETERMINERS or _has_form(after, "gerund")
    return Boundary.PHRASE if word == "but" or opens else Boundary.NONE


def _opens_clause(words: Sequence[str], at: int) -> bool:
    before, word, after = words[at - 1 : at + 2]
    if word in _MAY_OPEN_A_CLAUSE:
        return after in _SUBJECTS and before not in _CLOSELY_BOUND
    if word not in _SUBORDINATORS or before in _CLOSELY_BOUND or before in _PREPOSITIONS:
        return False
    return word not in ("who", "whom", "where", "if", "whether") or not _is_verb(words, at - 1)


def _that_opens_clause(before: str, after: str) -> bool:
    if before in _CLOSELY_BOUND:
        return False
    follows = after in _SUBJECTS or after in _DETERMINERS or after in _SUBORDINATORS
    goes_on = after in _AUXILIARIES or after.endswith("ly") or _has_form(after, "past", "third")
    return follows or goes_on or before in _SAYING


def _has_form(word: str, *forms: str) -> bool:
    return any(reading.form in forms for reading in readings_of(word))


def _binds(words: Sequence[str], at: int) -> bool:
    """Whether the word at `at` may hold fast to a preposition or particle that follows it."""
    word = words[at]
    return (
        word in _CLOSELY_BOUND
        or word in _DETERMINERS
        or word.endswith("ly")
        or word.removesuffix("s") in _TIMES
        or _is_verb(words, at)
    )


def _is_verb(words: Sequence[str], at: int) -> bool:
    """Whether the word at `at` may be a verb where it stands."""
    noun = at > 0 and words[at - 1] in _BEFORE_A_NOUN
    return not noun and bool(readings_of(words[at]))
