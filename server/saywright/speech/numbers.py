"""English numbers as the words that say them, without "and" unless asked ("one hundred five").

An own cardinal, since spelling one number must cost microseconds; the tests compare it with
num2words, which serves the other languages.
"""

from functools import lru_cache

Words = tuple[str, ...]

_SMALL = (
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
    "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen",
    "nineteen",
)  # fmt: skip
_TENS = (
    "zero", "ten", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety",
)  # fmt: skip
_SCALES = ("", "thousand", "million", "billion", "trillion", "quadrillion", "quintillion")
_ORDINALS = {
    "one": "first",
    "two": "second",
    "three": "third",
    "five": "fifth",
    "eight": "eighth",
    "nine": "ninth",
    "twelve": "twelfth",
}
_ROMAN_VALUES = {"I": 1, "V": 5, "X": 10, "L": 50, "C": 100, "D": 500, "M": 1000}
_LARGEST_CARDINAL_DIGITS = 3 * len(_SCALES)


def _below_hundred(number: int) -> str:
    if number < 20:
        return _SMALL[number]
    tens, ones = divmod(number, 10)
    return _TENS[tens] + (f"-{_SMALL[ones]}" if ones else "")


def _below_thousand(number: int, join: Words) -> Words:
    hundreds, rest = divmod(number, 100)
    if not hundreds:
        return (_below_hundred(rest),)
    head = (_SMALL[hundreds], "hundred")
    return (*head, *join, _below_hundred(rest)) if rest else head


@lru_cache(maxsize=4096)
def cardinal(number: int, *, with_and: bool = False) -> Words:
    """The words of a number from zero up; `with_and` gives the British "one hundred and five".

    Numbers too long to have a name here are said digit by digit.
    """
    if len(str(number)) > _LARGEST_CARDINAL_DIGITS:
        return digits(str(number))
    if number == 0:
        return ("zero",)
    join = ("and",) if with_and else ()
    words: Words = ()
    scale = 0
    rest = number
    while rest:
        rest, group = divmod(rest, 1000)
        if group:
            name = (_SCALES[scale],) if scale else ()
            ends_below_hundred = not scale and group < 100 and rest > 0
            lead = join if ends_below_hundred else ()
            words = (*lead, *_below_thousand(group, join), *name, *words)
        scale += 1
    return words


def ordinal(number: int, *, with_and: bool = False) -> Words:
    """ "twenty-second" for 22."""
    *head, last = cardinal(number, with_and=with_and)
    stem, hyphen, final = last.rpartition("-")
    return (*head, stem + hyphen + _ordinal_of(final))


def _ordinal_of(word: str) -> str:
    if word in _ORDINALS:
        return _ORDINALS[word]
    return f"{word[:-1]}ieth" if word.endswith("y") else f"{word}th"


def plural(words: Words) -> Words:
    """ "seventies" for "seventy", "thirds" for "third"."""
    last = words[-1]
    return (*words[:-1], f"{last[:-1]}ies" if last.endswith("y") else f"{last}s")


def digits(text: str) -> Words:
    """Digit by digit; anything in `text` that is no digit is skipped."""
    return tuple(_SMALL[int(each)] for each in text if each.isdecimal())


def year(number: int) -> Words:
    """A year of three or four digits: "eighteen oh five", "two thousand four", "five sixty-two"."""
    hundreds, rest = divmod(number, 100)
    if hundreds % 10 == 0 and rest < 10:
        return cardinal(number)
    if not rest:
        return (_below_hundred(hundreds), "hundred")
    tail: Words = ("oh", _SMALL[rest]) if rest < 10 else (_below_hundred(rest),)
    return (_below_hundred(hundreds), *tail)


def roman(text: str) -> int:
    """The value of a Roman numeral in capitals, or 0 where `text` is none."""
    total = 0
    for here, after in zip(text, f"{text[1:]} "[: len(text)], strict=True):
        value = _ROMAN_VALUES.get(here, 0)
        total += -value if value < _ROMAN_VALUES.get(after, 0) else value
    return total if total > 0 and _as_roman(total) == text else 0


def _as_roman(number: int) -> str:
    parts = []
    for value, letters in (
        (1000, "M"), (900, "CM"), (500, "D"), (400, "CD"), (100, "C"), (90, "XC"), (50, "L"),
        (40, "XL"), (10, "X"), (9, "IX"), (5, "V"), (4, "IV"), (1, "I"),
    ):  # fmt: skip
        count, number = divmod(number, value)
        parts.append(letters * count)
    return "".join(parts)
