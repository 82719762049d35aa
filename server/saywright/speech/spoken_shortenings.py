"""Abbreviations, initialisms and Roman numerals of English as the words said for them."""

import re
import tomllib
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files

from saywright.speech import numbers

Words = tuple[str, ...]

_CODAS = re.compile(r"(?:[lnrm]?(?:[bcdfgkmnpstxz]|ch|ck|sh|th|st|ct|ft|pt|ff|ll|ss)?s?|w|l|r|y)")
_SHAPE = re.compile(r"([^aeiouy]*)([aeiouy].*?)([^aeiouy]*)")
_LETTERS_THEN_S = re.compile(r"([A-Z]{2,})(?:['’]?(s))?")
_FIGURE_AHEAD = re.compile(r"[A-Z]{0,2}\d")
_REGNAL = re.compile(r"[IVX]{2,}|V")


@dataclass(frozen=True, slots=True)
class Shortenings:
    """The tables of shortenings.toml; see there."""

    titles: dict[str, Words]
    dotted: dict[str, Words]
    dotted_capital: dict[str, Words]
    before_figure: dict[str, Words]
    bare: dict[str, Words]
    units: dict[str, tuple[Words, Words]]
    currencies: dict[str, tuple[str, ...]]
    symbols: dict[str, Words]
    symbols_elsewhere: dict[str, dict[str, str]]
    lists: dict[str, frozenset[str]]


@lru_cache(maxsize=1)
def shortenings() -> Shortenings:
    """The tables, read once."""
    path = files(__package__).joinpath("shortenings.toml")
    table = tomllib.loads(path.read_text(encoding="utf-8"))

    def said(name: str) -> dict[str, Words]:
        return {key: tuple(value.split()) for key, value in table[name].items()}

    return Shortenings(
        titles=said("titles"),
        dotted=said("dotted"),
        dotted_capital=said("dotted_capital"),
        before_figure=said("before_figure"),
        bare=said("bare"),
        units={
            key: (tuple(one.split()), tuple(several.split()))
            for key, (one, several) in table["units"].items()
        },
        currencies={key: tuple(names) for key, names in table["currencies"].items()},
        symbols=said("symbols"),
        symbols_elsewhere=table["symbols_elsewhere"],
        lists={key: frozenset(words.split()) for key, words in table["words"].items()},
    )


def letters(text: str) -> Words:
    """Letter by letter, each as a capital: the name of the letter."""
    return tuple(each.upper() for each in text if each.isalpha())


def is_short_without_stop(word: str) -> bool:
    """Whether `word` can be an abbreviation that no stop follows."""
    key = word.lower()
    return key in shortenings().bare or key in shortenings().titles


def abbreviation(word: str, *, dotted: bool, rest: str) -> Words | None:
    """What an abbreviation stands for, or None where `word` is none.

    `word` is without its last stop, which `dotted` tells of; `rest` is the text after it.
    """
    tables = shortenings()
    key = word.lower()
    capital = word[:1].isupper()
    if dotted and _FIGURE_AHEAD.match(rest) and key in tables.before_figure:
        return tables.before_figure[key]
    if capital and key in tables.titles and rest[:1].isupper():
        return tables.titles[key]
    if dotted:
        found = tables.dotted.get(key)
        return found or (tables.dotted_capital.get(key) if capital else None)
    return tables.bare.get(key)


def is_said_by_letters(capitals: str) -> bool:
    """Whether a word in capitals is an initialism ("FBI") and no word or acronym ("NATO").

    What is listed is as listed. Otherwise letters that begin or end as no English word does are
    said one by one; the rest is a word, since in a script capitals are often a word cried out.
    """
    lists = shortenings().lists
    if capitals in lists["initialisms"]:
        return True
    if capitals in lists["acronyms"] or len(capitals) > 5:
        return False
    shape = _SHAPE.fullmatch(capitals.lower())
    if not shape:
        return True
    onset, _, coda = shape.groups()
    return (onset not in lists["onsets"] and bool(onset)) or not _CODAS.fullmatch(coda)


def initialism(word: str) -> Words | None:
    """The letters of "FBI", "TVs", "BBC's"; None for any other word."""
    match = _LETTERS_THEN_S.fullmatch(word)
    if not match or not is_said_by_letters(match[1]):
        return None
    names = letters(match[1])
    return (*names[:-1], f"{names[-1]}'s") if match[2] else names


def roman_numeral(word: str, before: str, rest: str) -> Words | None:
    """ "the eighth" after a name, "four" after a word such as "Chapter"; None for no numeral.

    `before` is the written word before, `rest` the text after.
    """
    value = numbers.roman(word) if before[:1].isupper() else 0
    if not value:
        return None
    name = before.lower()
    lists = shortenings().lists
    if name in lists["chapters"]:
        return numbers.cardinal(value)
    if _REGNAL.fullmatch(word) or (
        name in lists["monarchs"] and word == "I" and not rest[:1].isalpha()
    ):
        return ("the", *numbers.ordinal(value))
    return None
