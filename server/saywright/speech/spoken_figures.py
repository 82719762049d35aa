"""Written words that hold digits, as the English words said for them.

A written word is tried against `_FORMS` from the first on; the last takes anything.
"""

import re
from collections.abc import Callable
from functools import lru_cache
from typing import NamedTuple

from saywright.speech import numbers
from saywright.speech.spoken_shortenings import is_said_by_letters, letters, shortenings

Words = tuple[str, ...]

_FRACTIONS = {
    "½": (1, 2), "⅓": (1, 3), "⅔": (2, 3), "¼": (1, 4), "¾": (3, 4), "⅕": (1, 5), "⅖": (2, 5),
    "⅗": (3, 5), "⅘": (4, 5), "⅙": (1, 6), "⅚": (5, 6), "⅐": (1, 7), "⅛": (1, 8), "⅜": (3, 8),
    "⅝": (5, 8), "⅞": (7, 8), "⅑": (1, 9), "⅒": (1, 10),
}  # fmt: skip
VULGAR = "".join(_FRACTIONS)
CURRENCY_SIGNS = "$£€¥₹"
_MONTH_NAMES = (
    "january", "february", "march", "april", "may", "june", "july", "august", "september",
    "october", "november", "december",
)  # fmt: skip
_MONTHS = {
    *_MONTH_NAMES,
    "jan", "feb", "mar", "apr", "jun", "jul", "aug", "sept", "oct", "nov", "dec",
}  # fmt: skip
_SAID_DIGIT_BY_DIGIT_AFTER = {"box", "code", "extension", "pin", "zip"}
_SCALE_AFTER = re.compile(r"(?:hundred|thousand|million|billion|trillion|bn)\b")
# In a range "90s" is a time, no decade.
_SECONDS_AFTER_RANGE = re.compile(r"^(\d+)s$")
_VOWEL = re.compile(r"[^\W\d_b-df-hj-np-tv-xzB-DF-HJ-NP-TV-XZ]")
_NOON = re.compile(r"[ap]\.?m\b", re.IGNORECASE)
_NUMBER = r"(?:\d{1,3}(?:,\d{3})+|\d+)(?:\.\d+)?|\.\d+"
_LONGEST_SAID_AS_NUMBER = 6
_LONGEST_NAMED = 21


class Place(NamedTuple):
    """Where a written word stands: the word before it and the text after, space taken off."""

    before: str
    rest: str
    with_and: bool = False


def integer(text: str, place: Place) -> Words:
    """Digits, perhaps with thousands separated, that are no year."""
    plain = text.replace(",", "")
    if len(plain) > _LONGEST_NAMED or (len(plain) > 1 and plain.startswith("0")):
        return numbers.digits(plain)
    return numbers.cardinal(int(plain), with_and=place.with_and)


def number(text: str, place: Place) -> Words:
    """ "four point eight" for 4.8."""
    whole, point, decimals = text.partition(".")
    if not point:
        return integer(whole, place)
    head = integer(whole, place) if whole else ()
    return (*head, "point", *numbers.digits(decimals))


def _sign(match: re.Match[str], place: Place) -> Words:
    word = {"+": "plus", "±": "plus or minus"}.get(match[1], "minus")
    return (*word.split(), *figure(match[2], place))


def _currency(match: re.Match[str], place: Place) -> Words:
    sign, amount, short = match.groups()
    one, several, cent, cents = shortenings().currencies[sign]
    scale = {"k": "thousand", "m": "million", "bn": "billion", "b": "billion"}.get(short.lower())
    if scale:
        return (*number(amount, place), scale, several)
    if _SCALE_AFTER.match(place.rest):
        return number(amount, place)
    whole, _, hundredths = amount.partition(".")
    if len(hundredths) != 2:
        return (*number(amount, place), one if amount == "1" else several)
    units = integer(whole or "0", place)
    part = int(hundredths)
    head = (*units, one if whole == "1" else several) if int(whole.replace(",", "") or 0) else ()
    tail = (*numbers.cardinal(part), cent if part == 1 else cents) if part else ()
    return (*head, *tail) or (*units, several)


def _currency_after(match: re.Match[str], place: Place) -> Words:
    return figure(match[2] + match[1], place)


def owed_currency(written: str, rest: str) -> Words:
    """ "dollars" where a scale word follows "$1.5": it is said after that word."""
    sign = next((each for each in written if each in CURRENCY_SIGNS), "")
    if sign and _SCALE_AFTER.match(rest):
        return (shortenings().currencies[sign][1],)
    return ()


def _percent(match: re.Match[str], place: Place) -> Words:
    return (*figure(match[1], place), "percent")


def _clock(match: re.Match[str], place: Place) -> Words:
    hour, minute, second, half = match.groups()
    head = integer(str(int(hour)), place)
    minutes = int(minute)
    if minutes >= 10:
        head = (*head, *numbers.cardinal(minutes))
    elif minutes:
        head = (*head, "oh", *numbers.cardinal(minutes))
    elif not half and not second and not _NOON.match(place.rest):
        head = (*head, "o'clock") if int(hour) <= 12 else (*head, "hundred")
    seconds = numbers.cardinal(int(second)) if second else ()
    return (*head, *seconds, *letters(half or ""))


def _iso_date(match: re.Match[str], place: Place) -> Words:
    year, month, day = (int(each) for each in match.groups())
    if not 1 <= month <= 12 or not day:
        return _digit_groups(match, place)
    return (_MONTH_NAMES[month - 1], *numbers.ordinal(day), *_year_or_number(year))


def _short_date(match: re.Match[str], _place: Place) -> Words:
    first, second, year = (int(each) for each in match.groups())
    return (*numbers.cardinal(first), *numbers.cardinal(second), *_year_or_number(year))


def _year_or_number(value: int) -> Words:
    return numbers.year(value) if value >= 100 else numbers.cardinal(value)


def fraction(over: int, under: int) -> Words:
    """ "three quarters"; "one half"."""
    if not under:
        return (*numbers.cardinal(over), "over", "zero")
    if under == 2:
        name: Words = ("half",) if over == 1 else ("halves",)
        return (*numbers.cardinal(over), *name)
    name = ("quarter",) if under == 4 else numbers.ordinal(under)
    return (*numbers.cardinal(over), *(name if over == 1 else numbers.plural(name)))


def _fraction(match: re.Match[str], place: Place) -> Words:
    over, under = int(match[1]), int(match[2])
    if over == 24 and under == 7:
        return ("twenty-four", "seven")
    said = fraction(over, under)
    return ("and", *said) if place.before.isdecimal() else said


def _vulgar_fraction(match: re.Match[str], place: Place) -> Words:
    whole, sign = match.groups()
    said = fraction(*_FRACTIONS[sign])
    if whole:
        return (*integer(whole, place), "and", *(("a", "half") if sign == "½" else said))
    return ("and", *said) if place.before.isdecimal() else said


def _ordinal(match: re.Match[str], place: Place) -> Words:
    plain = match[1].replace(",", "")
    if not 0 < len(plain) <= _LONGEST_NAMED:
        return numbers.digits(plain)
    return numbers.ordinal(int(plain), with_and=place.with_and)


def _decade(match: re.Match[str], _place: Place) -> Words:
    value = int(match[1])
    return numbers.plural(numbers.year(value) if value >= 100 else numbers.cardinal(value))


def _short_year(match: re.Match[str], _place: Place) -> Words:
    value = int(match[1])
    return (*(("oh",) if value < 10 else ()), *numbers.cardinal(value))


def _digit_groups(match: re.Match[str], _place: Place) -> Words:
    return numbers.digits(match[0])


def _range(match: re.Match[str], place: Place) -> Words:
    alone = Place("", "", place.with_and)
    first = figure(match[1], Place(place.before, "", place.with_and))
    tail = _SECONDS_AFTER_RANGE.sub(r"\1 seconds", match[2]).split(" ")
    return (*first, "to", *figure(tail[0], alone), *tail[1:])


def _with_unit(match: re.Match[str], place: Place) -> Words:
    amount, unit = match.groups()
    said = figure(amount, place._replace(rest=""))
    names = shortenings().units.get(unit.lower())
    if names and not (unit.isupper() and len(unit) == 1):
        return (*said, *names[0 if amount == "1" else 1])
    return (*said, *_piece(unit, place))


def _dotted(match: re.Match[str], place: Place) -> Words:
    groups = [integer(group, place) for group in match[0].split(".")]
    return tuple(word for group in groups for word in ("point", *group))[1:]


def _compound(match: re.Match[str], place: Place) -> Words:
    """ "twelve gauge" for 12-gauge."""
    first, *others = re.split(r"[-‐‑–/]", match[0])
    alone = Place("", "", place.with_and)
    said = [*figure(first, alone)] if first else []
    for part in others:
        said.extend(figure(part, alone) if any(map(str.isdecimal, part)) else _piece(part, place))
    return tuple(said)


def _integer(match: re.Match[str], place: Place) -> Words:
    text = match[0]
    before = place.before.lower().rstrip(".")
    if "," in text:
        return integer(text, place)
    if before in _SAID_DIGIT_BY_DIGIT_AFTER and len(text) > 3:
        return numbers.digits(text)
    if len(text) > _LONGEST_SAID_AS_NUMBER or (len(text) > 1 and text[0] == "0"):
        return numbers.digits(text)
    value = int(text)
    if 1 <= value <= 31 and before in _MONTHS and place.before[0].isupper():
        return numbers.ordinal(value)
    if 1 <= value <= 31 and _MONTH_AFTER.match(place.rest) and before != "the":
        return ("the", *numbers.ordinal(value), "of")
    is_year = 1100 <= value < 2100 or (value >= 100 and _ERA_AFTER.match(place.rest))
    return numbers.year(value) if is_year else integer(text, place)


_MONTH_AFTER = re.compile(rf"(?:{'|'.join(name.title() for name in sorted(_MONTHS))})\b")
_ERA_AFTER = re.compile(r"(?:B\.?\s?C|A\.?\s?D|B\.?C\.?E|C\.?E)\b")


def _number(match: re.Match[str], place: Place) -> Words:
    return number(match[0], place)


def _calibre(match: re.Match[str], _place: Place) -> Words:
    return numbers.cardinal(int(match[1]))


def _mixed(match: re.Match[str], place: Place) -> Words:
    """A serial number: short figures as numbers, longer ones digit by digit, letters by name."""
    said: list[str] = []
    for run in re.findall(r"\d+|[^\W\d_]+", match[0]):
        if not run[0].isdecimal():
            said.extend(_piece(run, place))
        elif len(run) <= 2:
            said.extend(integer(run, place))
        else:
            said.extend(numbers.digits(run))
    return tuple(said)


def _piece(text: str, _place: Place) -> Words:
    """A run of letters in a figure: by name where no one could say it as a word ("mp3")."""
    by_letters = len(text) == 1 or not _VOWEL.search(text)
    if by_letters or (text.isupper() and is_said_by_letters(text)):
        return letters(text)
    return (text.lower(),) if text else ()


Form = Callable[[re.Match[str], Place], Words]

_FORMS: tuple[tuple[str, Form], ...] = (
    (r"\d{1,6}|\d{1,3}(?:,\d{3})+|\d+", _integer),
    (r"([-−+±])(.*\d.*)", _sign),
    (rf"([{CURRENCY_SIGNS}])({_NUMBER})(|[kKmMbB]|bn)", _currency),
    (rf"({_NUMBER})\s?([{CURRENCY_SIGNS}])", _currency_after),
    (r"(\S+)\s?%", _percent),
    (r"(\d{1,2}):([0-5]\d)(?::([0-5]\d))?([ap]m)?", _clock),
    (r"(\d{4})-(\d{1,2})-(\d{1,2})", _iso_date),
    (r"(\d{1,2})[/.](\d{1,2})[/.](\d{2}|\d{4})", _short_date),
    (r"(\d{1,6})[/⁄](\d{1,4})", _fraction),
    (rf"(\d*)([{VULGAR}])", _vulgar_fraction),
    (r"([\d,]+)(?:st|nd|rd|th)", _ordinal),
    (r"['’]?(\d{0,3}0)['’]?s", _decade),
    (r"['’](\d\d)", _short_year),
    (r"\d{3}-\d{4}|\d{3}-\d{3}-\d{4}|\d+(?:-\d+){2,}", _digit_groups),
    (rf"([{CURRENCY_SIGNS}]?(?:{_NUMBER}))[-‐‑–:]((?:{_NUMBER})[a-z]*)", _range),
    (r"\.(\d\d)", _calibre),
    (_NUMBER, _number),
    (r"\d+(?:\.\d+){2,}", _dotted),
    (rf"({_NUMBER})\s?(°[CF]?|[^\W\d_]+)", _with_unit),
    (r"[^-‐‑–/]*(?:[-‐‑–/][^-‐‑–/]*)+", _compound),
    (r"(?s:.*)", _mixed),
)


@lru_cache(maxsize=1)
def _forms() -> tuple[tuple[re.Pattern[str], Form], ...]:
    return tuple((re.compile(pattern), form) for pattern, form in _FORMS)


def figure(written: str, place: Place) -> Words:
    """The words said for a written word with a digit; none where it holds nothing sayable."""
    for pattern, form in _forms():
        match = pattern.fullmatch(written)
        if match:
            return form(match, place)
    return ()
