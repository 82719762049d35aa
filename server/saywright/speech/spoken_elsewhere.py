"""Figures of languages other than English, as the words said for them.

Cardinals and ordinals are spelled by num2words; dates, years, clock times and prices are put
together here for German, Dutch, French, Italian, Portuguese and Spanish. In a language that
num2words lacks a figure has the length of the English words.
"""

import re
from functools import lru_cache
from typing import NamedTuple

from saywright.speech import spoken_figures
from saywright.speech.spoken_ordinals import german_ending, german_ordinal, ordinal
from saywright.speech.spoken_shortenings import shortenings

Words = tuple[str, ...]

_LONGEST = 12
# "12 000", though not after the four digits of a year or a telephone number.
THOUSANDS_SPACE = r"(?<=\d)(?<!\d{4})[ \u00a0\u202f](?=\d{3}(?!\d))"
_PART = re.compile(r"\d+(?:[.,]\d+)*|[^\W\d_]+|[^\w\s]")
_RANGE = re.compile(r"(\d{1,4})[-‐‑–](\d{1,4})")
_ORDINAL = re.compile(r"(\d{1,9})\.?([^\W\d_]+)")
_CLOCK = re.compile(r"(\d{1,2})(?::|\s?h\s?)([0-5]\d)(?:\s?(?:Uhr|uur|h))?")
_STOPPED_CLOCK = re.compile(r"(\d{1,2})(?:\.([0-5]\d))?\s(?:Uhr|uur)")
_HOURS = re.compile(r"(\d{1,2})\s?h")
_DATE = re.compile(r"(\d{1,2})\.(\d{1,2})\.(\d{4}|\d\d)")
_DAY_AND_MONTH = re.compile(r"(0?[1-9]|[12]\d|3[01])\.(0?[1-9]|1[0-2])")
_PRICE = re.compile(r"([€$£])?\s?(\d[\d.]*)(?:,(\d\d))?\s?([€$£])?")
_BEFORE_A_DAY = frozenset({"am", "vom", "zum"})
_YEAR = re.compile(r"1[1-9]\d\d")
_COUNTED = re.compile(r"[A-ZÄÖÜ]|[kcm]?[mg]\b|[lt]\b|[%€$£]")
_MONTH = (
    r"(?:Jan(?:uar)?|Jänner|Feb(?:ruar)?|März|Apr(?:il)?|Mai|Juni?|Juli?|Aug(?:ust)?|"
    r"Sept?(?:ember)?|Okt(?:ober)?|Nov(?:ember)?|Dez(?:ember)?)\b"
)
_GERMAN_DAY = re.compile(rf"\.\s*(?:(?:und|bis|oder)\s+\d{{1,2}}\.\s*)?{_MONTH}")
_GERMAN_NOUN = re.compile(r"\.\s+[^\W\d_]")


class _Clock(NamedTuple):
    """The words of a clock time: one hour, the word for several, what joins the minutes.

    `hours` is said for "h" with no minutes after it.
    """

    one: str
    several: str
    join: str
    hours: str


_CLOCKS = {
    "de": _Clock("ein Uhr", "Uhr", "", "Stunden"),
    "nl": _Clock("één uur", "uur", "", "uur"),
    "fr": _Clock("une heure", "heures", "", "heures"),
    "it": _Clock("una", "", "e", "ore"),
    "es": _Clock("una", "", "y", "horas"),
    "pt": _Clock("uma", "", "e", "horas"),
}
_POINTS = {
    "de": "Komma", "nl": "komma", "fr": "virgule", "it": "virgola", "es": "coma", "pt": "vírgula",
}  # fmt: skip
_PRICE_JOINS = {"de": "", "nl": "", "fr": "", "it": "e", "es": "con", "pt": "e"}
_ONE_OF = {
    "de": {"€": "ein Euro", "$": "ein Dollar", "£": "ein Pfund"},
    "nl": {"€": "één euro", "$": "één dollar", "£": "één pond"},
    "fr": {"€": "un euro", "$": "un dollar", "£": "une livre"},
    "it": {"€": "un euro", "$": "un dollaro", "£": "una sterlina"},
    "es": {"€": "un euro", "$": "un dólar", "£": "una libra"},
    "pt": {"€": "um euro", "$": "um dólar", "£": "uma libra"},
}


def signs(tag: str) -> dict[str, str]:
    """The signs that are said in a language, with the words for each."""
    return shortenings().symbols_elsewhere.get(tag, {})


def takes_stop(written: str, before: str, rest: str, tag: str) -> bool:
    """Whether the stop after a German figure makes it an ordinal ("am 14. März").

    `before` is the written word before, `rest` the text after the figure. A day of the month does;
    any other number does only after a word such as "der", since a stop may end the sentence.
    """
    if tag != "de" or not rest.startswith("."):
        return False
    if _DAY_AND_MONTH.fullmatch(written):
        return german_ending(before) is not None
    if not written.isdecimal() or len(written) > 3:
        return False
    if before.lower() in _BEFORE_A_DAY and 1 <= int(written) <= 31:
        return True
    return bool(
        _GERMAN_DAY.match(rest) or (german_ending(before) is not None and _GERMAN_NOUN.match(rest))
    )


def figure_elsewhere(written: str, before: str, rest: str, tag: str) -> Words:
    """The words said for a written word with a digit; `before` and `rest` as in `takes_stop`."""
    if takes_stop(written, before, rest, tag):
        return tuple(german_ordinal(part, before) for part in written.split("."))
    written = re.sub(THOUSANDS_SPACE, "", written)
    return (
        _range(written, before, rest, tag)
        or _date(written, before, tag)
        or _clock(written, tag)
        or _price(written, tag)
        or _ordinal(written, tag)
        or _year(written, before, rest, tag)
        or _parts(written, tag)
    )


def _range(written: str, before: str, rest: str, tag: str) -> Words:
    match = _RANGE.fullmatch(written)
    if not match or int(match[1]) >= int(match[2]):
        return ()
    first = figure_elsewhere(match[1], before, rest.lstrip("."), tag)
    return (*first, *signs(tag).get("–", "").split(), *figure_elsewhere(match[2], "", rest, tag))


def _date(written: str, before: str, tag: str) -> Words:
    match = _DATE.fullmatch(written)
    if not match:
        return ()
    day, month, year = match.groups()
    said = _year(year, "", "", tag) or _number(year, tag)
    if tag == "de":
        return (german_ordinal(day, before), german_ordinal(month, before).capitalize(), *said)
    return (*_number(day, tag), *_number(month, tag), *said)


def _clock(written: str, tag: str) -> Words:
    names = _CLOCKS.get(tag)
    if not names:
        return ()
    hours = _HOURS.fullmatch(written)
    if hours and hours[1] != "1":
        return (*_feminine(_number(hours[1], tag), tag), *names.hours.split())
    match = hours or _CLOCK.fullmatch(written) or _STOPPED_CLOCK.fullmatch(written)
    if not match:
        return ()
    minute = 0 if hours else int(match[2] or 0)
    if int(match[1]) == 1:
        said = tuple(names.one.split())
    else:
        said = (*_feminine(_number(str(int(match[1])), tag), tag), *names.several.split())
    return (*said, *names.join.split(), *_number(str(minute), tag)) if minute else said


def _feminine(said: Words, tag: str) -> Words:
    """Hours are feminine: "vingt et une heures", "duas e trinta"."""
    last = {
        ("fr", "un"): "une",
        ("pt", "um"): "uma",
        ("pt", "dois"): "duas",
        ("es", "veintiuno"): "veintiuna",
    }
    return (*said[:-1], last.get((tag, said[-1]), said[-1]))


def _price(written: str, tag: str) -> Words:
    match = _PRICE.fullmatch(written)
    if not match or tag not in _ONE_OF:
        return ()
    sign = match[1] or match[4]
    if not sign:
        return ()
    whole = match[2]
    if whole == "1":
        said = tuple(_ONE_OF[tag][sign].split())
    else:
        said = (*_number(whole, tag), *signs(tag)[sign].split())
    cents = int(match[3] or 0)
    return (*said, *_PRICE_JOINS[tag].split(), *_number(str(cents), tag)) if cents else said


def _ordinal(written: str, tag: str) -> Words:
    match = _ORDINAL.fullmatch(written)
    return ordinal(int(match[1]), match[2].lower(), tag) if match else ()


def _year(written: str, before: str, rest: str, tag: str) -> Words:
    """ "neunzehnhundert..." for 1962: in German where nothing is counted, in Dutch anywhere."""
    if tag not in ("de", "nl") or not _YEAR.fullmatch(written):
        return ()
    named_month = tag == "de" and re.match(_MONTH, before)
    if tag == "de" and not named_month and _COUNTED.match(rest):
        return ()
    hundreds, under = written[:2], int(written[2:])
    said = _number(hundreds, tag)[0] + ("honderd" if tag == "nl" else "hundert")
    tail = "".join(_number(str(under), tag)) if under else ""
    if tag == "nl":
        return (said, tail) if tail else (said,)
    return (said + tail,)


def _parts(written: str, tag: str) -> Words:
    said: list[str] = []
    for part in _PART.findall(written):
        if part[0].isdecimal():
            said.extend(_number(part, tag))
        elif part.isalpha():
            said.append(part.lower())
        else:
            said.extend(signs(tag).get(part, "").split())
    return tuple(said)


@lru_cache(maxsize=1024)
def _number(text: str, tag: str) -> Words:
    """Digits with stops or commas: thousands in threes, the rest a decimal; none is left out."""
    whole, *groups = re.split(r"[.,]", text)
    while groups and len(groups[0]) == 3 and whole != "0":
        whole += groups.pop(0)
    if len(groups) == 1 and len(whole) <= _LONGEST:
        return _decimal(whole, groups[0], tag, "," in text)
    return tuple(word for group in (whole, *groups) for word in _cardinal(group, tag))


def _decimal(whole: str, decimals: str, tag: str, comma: bool) -> Words:
    if tag not in _POINTS:
        number = f"{whole}.{decimals}"
        alone = spoken_figures.Place("", "")
        return _spelled(float(number), tag) or spoken_figures.figure(number, alone)
    point = "punto" if tag == "es" and not comma else _POINTS[tag]
    as_number = tag != "de" and len(decimals) == 2 and decimals[0] != "0"
    groups = (decimals,) if as_number else tuple(decimals)
    said = (word for group in groups for word in _cardinal(group, tag))
    return (*_cardinal(whole, tag), point, *said)


@lru_cache(maxsize=1024)
def _cardinal(digits: str, tag: str) -> Words:
    if len(digits) > _LONGEST:
        return tuple(word for each in digits for word in _cardinal(each, tag))
    return _spelled(int(digits), tag) or spoken_figures.figure(digits, spoken_figures.Place("", ""))


def _spelled(value: float, tag: str) -> Words:
    from num2words import num2words  # noqa: PLC0415 - slow to load, seldom needed

    try:
        return tuple(str(num2words(value, lang=tag)).split())
    except (NotImplementedError, OverflowError, ValueError, LookupError):
        return ()
