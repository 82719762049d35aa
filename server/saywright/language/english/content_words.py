"""Which words of English carry the weight of a sentence, and which are forms of one word."""

import re
from functools import lru_cache
from importlib.resources import files

from saywright.language.english.verb_forms import readings_of

_BEFORE_A_VERB = frozenset(
    "to i you he she it we they who and or then will would can could should may might must shall"
    " did do does don't didn't doesn't won't can't couldn't wouldn't shouldn't let let's not never"
    " i'd i'll you'll he'd he'll she'd she'll we'd we'll they'd they'll".split()
)
_OF_QUALITY = re.compile(
    r".*(?:ful|ous|ive|able|ible|ic|ish|less|al|ant|ent|ary|some|liar|ular|thy|msy|bby|ggy|cky"
    r"|oomy|eepy|eedy|[aiu]sty|id)"
)
_QUALITIES = frozenset(
    "absurd awkward bitter bizarre brave clever clumsy cruel distant eager fierce foreign fragile"
    " frozen gentle golden greasy grotesque hollow hostile humble immense intense mature meagre"
    " mellow modern narrow naked noble obscure perfect pompous profound proper remote rotten rough"
    " savage secure severe shabby shallow sincere sober solemn sombre stern stiff stubborn subtle"
    " sullen swollen tender tough ugly vague violent wicked wooden wretched".split()
)
_DEGREES = frozenset("very so too most more quite rather less least as utterly almost".split())
_THINGS = re.compile(r".*(?:[aiou]nce|ment|music|fabric|signal|metal|arrival|moment|parent)")
_SHORTEST = 5
_LONGEST = 24
_PLURALS = (("ies", "y"), ("ches", "ch"), ("shes", "sh"), ("sses", "ss"), ("xes", "x"), ("s", ""))


@lru_cache(maxsize=1)
def _everyday_words() -> frozenset[str]:
    text = files(__package__).joinpath("everyday_words.txt").read_text(encoding="utf-8")
    lines = text.splitlines()
    return frozenset(word for line in lines if not line.startswith("#") for word in line.split())


@lru_cache(maxsize=16384)
def striking_word(word: str) -> str | None:
    """What `word` is a form of, in lower case, where it is a word that a listener notices.

    None for short and everyday words, and for what is no plain word.

    >>> striking_word("Needles")
    'needle'
    """
    word = word.lower()
    if not _SHORTEST <= len(word) <= _LONGEST or not (word.isascii() and word.isalpha()):
        return None
    everyday = _everyday_words()
    verbs = {reading.lemma for reading in readings_of(word)}
    base = verbs.pop() if len(verbs) == 1 else _singular(word)
    if len(base) < _SHORTEST or not everyday.isdisjoint((word, base, *verbs)):
        return None
    return None if word.endswith("ly") and _without_ly(word) in everyday else base


def _singular(word: str) -> str:
    if word.endswith("s") and not word.endswith(("ss", "us", "is")):
        for ending, singular in _PLURALS:
            if word.endswith(ending):
                return word.removesuffix(ending) + singular
    return word


def _without_ly(word: str) -> str:
    stem = word.removesuffix("ly")
    return f"{stem[:-1]}y" if stem.endswith("i") else stem


@lru_cache(maxsize=8192)
def names_a_thing(word: str, before: str) -> bool:
    """Whether `word`, a striking one, is a noun where it stands after `before` ("" for nothing).

    A guess from its ending and the word before it. What is neither an adverb, a verb nor an
    adjective by these is a noun.
    """
    word, before = word.lower(), before.lower()
    if word.endswith("ly") or word in _QUALITIES or before in _DEGREES:
        return False
    readings = readings_of(word)
    if any(reading.form not in ("base", "third") for reading in readings):
        return False
    if readings and before in _BEFORE_A_VERB:
        return False
    if readings and not before:
        return all(reading.form == "third" for reading in readings)
    return bool(readings) or not _OF_QUALITY.fullmatch(word) or bool(_THINGS.fullmatch(word))
