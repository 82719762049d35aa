"""Words and phrases that carry nothing where they stand."""

import re
from collections.abc import Iterator

from saywright.language.english import filler_rules as rules
from saywright.language.english.filler_rules import Rule
from saywright.language.english.spot import lowered, spot

_ASIDES = (
    "to be honest with you|to be honest|to be fair|to be frank|to tell you the truth"
    "|to tell the truth|truth be told|if i'm honest|if i'm being honest|if you ask me"
    "|when all is said and done|needless to say|in a manner of speaking|as a matter of fact"
    "|for what it's worth|as far as i'm concerned|let's face it"
    "|let's be honest"
)
_RULES: tuple[tuple[str, Rule], ...] = (
    ("umm?|uhm|uhh?|erm?", rules.hesitation),
    ("if you know what i mean|you know what i mean|you know what i'm saying", rules.tag),
    ("you know", rules.you_know),
    ("i mean", rules.i_mean),
    ("like", rules.like),
    ("just", rules.just),
    ("actually", rules.actually),
    ("basically|essentially", rules.basically),
    ("literally", rules.literally),
    ("totally", rules.totally),
    (_ASIDES, rules.aside),
    ("you see", rules.you_see),
    ("honestly|frankly|obviously", rules.opening_aside),
    ("at the end of the day", rules.end_of_the_day),
    ("well", rules.well),
    ("so,? yeah", rules.so_yeah),
    ("right", rules.right),
    ("okay|ok", rules.okay),
    ("anyways?", rules.anyway),
    ("sort of|kind of|sorta|kinda", rules.kind_of),
    ("or something like that|or something|or whatever|or anything like that", rules.or_something),
    ("and stuff like that|and things like that|and stuff", rules.or_something),
    ("i guess|i suppose", rules.i_guess),
)
_PHRASE = re.compile(
    r"\b(?=[abefhijklnorstuvwy])(?:"
    + "|".join(f"(?P<r{number}>{phrase})" for number, (phrase, _) in enumerate(_RULES))
    + r")(?!\w)"
)
_RULE_OF = {f"r{number}": rule for number, (_, rule) in enumerate(_RULES)}
_NOT_SPEECH = frozenset(("ER", "UM"))
_IN_ONE_WORD = re.compile(r"\w-\Z"), re.compile(r"-\w")
_BETWEEN = re.compile(r"[\s,–—-]*\Z")


def fillers(text: str) -> Iterator[tuple[int, int]]:
    """The offsets of the fillers of a sentence, in order; those that adjoin are one."""
    start = end = -1
    for found in _single(text):
        if end >= 0 and found[0] - end < 8 and _BETWEEN.match(text[end : found[0]]):
            end = found[1]
            continue
        if end >= 0:
            yield start, end
        start, end = found
    if end >= 0:
        yield start, end


def _single(text: str) -> Iterator[tuple[int, int]]:
    plain = lowered(text)
    for found in _PHRASE.finditer(plain):
        assert found.lastgroup
        start, end = found.span()
        if text[start:end] in _NOT_SPEECH or _is_part_of_a_word(plain, start, end):
            continue
        if _RULE_OF[found.lastgroup](spot(plain, start, end, text)):
            yield start, end


def _is_part_of_a_word(plain: str, start: int, end: int) -> bool:
    """As in: like-for-like."""
    before, after = _IN_ONE_WORD
    if plain[start - 1 : start] == "'" or after.match(plain, end):
        return True
    return before.search(plain[max(start - 2, 0) : start]) is not None
