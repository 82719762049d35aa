"""The words of a line that carry something, and how a later line says them again."""

import re
from functools import lru_cache
from typing import NamedTuple

from saywright.language.english.tag import is_english

_WORD = re.compile(r"[^\W_]+(?:['’][^\W_]+)*")
_OPENING = re.compile(r"(?:^|[.!?…:]\s+|[\"“”‘(]\s*)$")
_LIGHT = frozenset(
    """
    a about above after again ago all almost along already also always am an and another any
    anybody anyone anything are aren't around as ask asked at away back be because been before
    behind being below beside between both but by came can can't cannot come comes could
    couldn't did didn't do does doesn't doing don't done down each either else enough even ever
    every everybody everyone everything far few first for from gave get gets getting give gives
    go goes going gone gonna got had hadn't has hasn't have haven't having he he'd he'll he's
    her here here's hers herself him himself his how i i'd i'll i'm i've if in into is isn't it
    it'd it'll it's its itself just kept knew know known knows last let let's like little look
    looked lot made make makes many may maybe me mean might mine more most much must my myself
    near never next no nobody none nor not nothing now of off often oh on once one ones only
    onto or other others ought our ours out over own perhaps put quite rather really round said
    same saw say says see seem seemed seems seen shall she she'd she'll she's should shouldn't
    since so some somebody someone something sometimes somewhere soon still such take takes tell
    than that that'll that's the their theirs them themselves then there there's these they
    they'd they'll they're they've thing things think this those though thought through till to
    told too took toward towards under until up upon us use used very want wanted wants was
    wasn't way we we'd we'll we're we've well went were weren't what what's whatever when
    whenever where wherever whether which while who who'd who'll who's whoever whole whom whose
    why will with within without won't would wouldn't yes yet you you'd you'll you're you've
    your yours yourself
    """.split()
)
_ABSTRACT = re.compile(r".{3,}(?:tion|sion|ness|ment|ity|ism|ance|ence|ency|ship|hood|ility)s?")
_SHORTEST_LETTERS = 3


class Word(NamedTuple):
    """A word that carries something: a base that its forms share, how it is written, and what it
    is."""

    base: str
    written: str
    name: bool
    number: bool
    abstract: bool


@lru_cache(maxsize=4096)
def words_of(text: str, language: str) -> tuple[Word, ...]:
    """The words of `text` that carry something, in order."""
    english = is_english(language)
    found: list[Word] = []
    for match in _WORD.finditer(text):
        written = match[0].replace("’", "'")
        low = written.lower()
        if english and (low in _LIGHT or low.removesuffix("'s") in _LIGHT):
            continue
        if len(low) < _SHORTEST_LETTERS and not low.isdigit():
            continue
        # nouns have capitals in German
        name = english and written[0].isupper() and not _OPENING.search(text[: match.start()][-4:])
        number = written[0].isdigit()
        found.append(Word(_base(low), match[0], name, number, bool(_ABSTRACT.fullmatch(low))))
    return tuple(found)


def _base(word: str) -> str:
    """A stem that the usual forms of a word share; it need be no word itself."""
    word = word.removesuffix("'s").removesuffix("'")
    for ending in ("ies", "ing", "ied", "es", "ed", "s", "e", "y"):
        if word.endswith(ending) and len(word) - len(ending) >= _SHORTEST_LETTERS:
            if ending == "s" and word.endswith("ss"):
                break
            word = word.removesuffix(ending)
            break
    return word[:-1] if len(word) > _SHORTEST_LETTERS and word[-1] == word[-2:-1] else word
