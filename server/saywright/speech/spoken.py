"""Text into written words, and each into the words that are said for it.

A written word is a run of letters and digits with the marks inside it (apostrophes, hyphens,
the stops of an abbreviation, the signs of a figure), or a sign that is said ("&"). Anything else,
emoji too, is silent. Figures and abbreviations are spelled out for English; for other languages
figures are, and the rest is taken as written.
"""

import re
from abc import ABC, abstractmethod
from functools import lru_cache
from typing import NamedTuple

from saywright.speech.spoken_elsewhere import (
    THOUSANDS_SPACE,
    figure_elsewhere,
    signs,
    takes_stop,
)
from saywright.speech.spoken_figures import (
    CURRENCY_SIGNS,
    VULGAR,
    Place,
    figure,
    owed_currency,
)
from saywright.speech.spoken_shortenings import (
    abbreviation,
    initialism,
    is_short_without_stop,
    letters,
    roman_numeral,
    shortenings,
)

Words = tuple[str, ...]


class SpokenWord(NamedTuple):
    """A written word: half-open code points of the text given, and the words said for it.

    A plain word is said as itself in lower case; a capital alone is the name of a letter.
    """

    start: int
    end: int
    said: Words


# Combining marks of the scripts likeliest to be met; `re` does not count them as letters.
_MARKS = (
    "\u0300-\u036f\u0591-\u05c7\u0610-\u061a\u064b-\u065f\u0900-\u0903\u093a-\u094f\u0e31-\u0e4e"
)
_LETTER = rf"[^\W\d_][{_MARKS}]*"
_SIGN = (
    rf"(?:[-−+±](?=[{CURRENCY_SIGNS}]?\.?\d))?"
    rf"(?:[{CURRENCY_SIGNS}](?=\.?\d)|['’](?=\d\d\b|\d0s\b))?"
)
_FIGURE_INSIDE = (
    rf"[\d{VULGAR}]|[.:/⁄](?=\d)|[-‐‑](?=[^\W_])|–(?=[{CURRENCY_SIGNS}]?\d)|['’](?=[^\W\d_])|"
    rf"{_LETTER}|(?<=\d)°[CF]?"
)
_THOUSANDS_COMMA = r",(?=\d{3}(?!\d))"
_ANY_COMMA = r",(?=\d)"
# Elsewhere "€ 5" is one written word, and so are "3.º", "18 h 30" and "14:30 Uhr".
_LEAD_ELSEWHERE = r"(?:[€$£]\s(?=\d))?"
_TAIL_ELSEWHERE = (
    r"(?:\.(?:[ºª]|er[oa]?\b)|(?<=\d)\s(?:Uhr|uur)\b|(?<=\d)\sh(?:\s[0-5]\d)?(?![^\W_])|"
    r"(?<=\dh)\s[0-5]\d(?!\d))?"
)


@lru_cache(maxsize=2)
def _token(comma: str, lead: str, tail: str) -> re.Pattern[str]:
    # `plain` is a `word` like most: tried first, with the space after it, for speed.
    return re.compile(
        rf"""
    (?P<plain>[a-z]{{2,}}(?=[\ ,;!?\n]))\ ?
  | (?P<silent>[\d\#*]\ufe0f?\u20e3)
  | (?P<address>
      (?:https?://|www\.)[^\s<>"”]*[^\s<>"”.,;:!?)\]'’]
    | (?<![\w.+-])[\w.+-]+@[\w-]+(?:\.[\w-]+)+
    | (?<![\w.@-])[A-Za-z0-9-]+(?:\.[a-z0-9-]+)*\.(?:com|org|net|edu|gov|io|co\.uk)\b
      (?:/[\w/.-]*[\w/])?
    )
  | (?P<figure>(?<![^\W_]){lead}{_SIGN}(?:\.?\d|[{VULGAR}])(?:{_FIGURE_INSIDE}|{comma})*
      (?:\s?(?:%|[{CURRENCY_SIGNS}](?!\.?\d)))?{tail})
  | (?P<dotted>(?<![^\W_])(?:[^\W\d_]\.){{1,}}[^\W\d_]?(?![^\W_]))
  | (?P<word>{_LETTER}(?:[^\W_][{_MARKS}]*|['’ʼ‐‑/&-](?={_LETTER})|['’ʼ-](?=\d))*)
  | (?P<sign>[&+=%@×÷§])
    """,
        re.VERBOSE,
    )


_HAS_DIGIT = re.compile(r"\d")
_CLOSERS = " \t\r\n\"'”’»)]}"
_WITH_AND = frozenset({"gb", "uk", "ie", "au", "nz", "za", "in"})
_ADDRESS_SIGNS = {"@": "at", ".": "dot", "/": "slash", "-": "dash", "_": "underscore"}
_SPELT_UP_TO = 2


def spoken_words(text: str, language: str = "en") -> tuple[SpokenWord, ...]:
    """Every written word of `text` in order, with what is said for it.

    `text` is plain text, its marks taken off; a line break in it is a space. `language` is a
    BCP 47 tag. No text fails.
    """
    return _spoken_words(text, language)


@lru_cache(maxsize=8192)
def _spoken_words(text: str, language: str) -> tuple[SpokenWord, ...]:
    tag, _, region = language.lower().partition("-")
    reader = _English(text, region in _WITH_AND) if tag == "en" else _Foreign(text, tag)
    return reader.read()


class _Reader(ABC):
    """Reads a text token by token; each kind of token has a method that gives what is said."""

    comma = rf"{_ANY_COMMA}|{THOUSANDS_SPACE}"
    lead = ""
    tail = ""

    def __init__(self, text: str) -> None:
        self.text = text
        self.before = ""

    def read(self) -> tuple[SpokenWord, ...]:
        words: list[SpokenWord] = []
        as_written = True
        for match in _token(self.comma, self.lead, self.tail).finditer(self.text):
            kind = match.lastgroup or ""
            written = match[kind]
            start, end = match.span(kind)
            if as_written and kind == "plain" and written not in _MAYBE_SHORT:
                self.before = written
                words.append(SpokenWord(start, end, (written,)))
                continue
            said, end = self._said(kind, written, start, end)
            if said:
                words.append(SpokenWord(start, end, said))
                self.before = self.text[start:end]
                as_written = self.reads_on_as_written()
        return tuple(words)

    def reads_on_as_written(self) -> bool:
        """Whether what stands before leaves a plain word after it as it is written."""
        return True

    def _said(self, kind: str, written: str, start: int, end: int) -> tuple[Words, int]:
        if kind == "plain" or (kind == "word" and not _HAS_DIGIT.search(written)):
            return self.word(written, start, end)
        if kind == "dotted":
            return self.dotted(written, start, end)
        if kind == "sign":
            return self.sign(written), end
        if kind == "address":
            return _address(written), end
        if kind == "silent":
            return (), end
        written = written.rstrip()
        return self.figure(written, start + len(written))

    def word(self, written: str, _start: int, end: int) -> tuple[Words, int]:
        return (written.lower(),), end

    def dotted(self, written: str, _start: int, end: int) -> tuple[Words, int]:
        kept = written.rstrip(".")
        return (kept.lower(),), end - len(written) + len(kept)

    def sign(self, written: str) -> Words:
        return (written,)

    @abstractmethod
    def figure(self, written: str, end: int) -> tuple[Words, int]:
        """What is said for a figure that ends at `end`, and where what is said for it ends."""

    def after(self, end: int) -> str:
        """The next few characters, space taken off: enough for any word looked for."""
        return self.text[end : end + 24].lstrip()


class _English(_Reader):
    comma = _THOUSANDS_COMMA

    def __init__(self, text: str, with_and: bool) -> None:
        super().__init__(text)
        self.with_and = with_and
        self.owed: Words = ()

    def figure(self, written: str, end: int) -> tuple[Words, int]:
        rest = self.after(end)
        self.owed = owed_currency(written, rest)
        return figure(written, Place(self.before, rest, self.with_and)), end

    def sign(self, written: str) -> Words:
        return shortenings().symbols[written]

    def reads_on_as_written(self) -> bool:
        return not (self.owed or self.before[-1].isdecimal())

    def word(self, written: str, _start: int, end: int) -> tuple[Words, int]:
        dotted = self.text.startswith(".", end)
        if dotted or written in _MAYBE_SHORT or not written.islower():
            special, end = self._special(written, end, dotted)
            if special:
                return special, end
        elif self.before and self.before[-1].isdecimal() and written != "in":
            unit = self._unit(written)
            if unit:
                return unit, end
        said = _plain(written)
        if self.owed:
            said, self.owed = (*said, *self.owed), ()
        return said, end

    def _special(self, written: str, end: int, dotted: bool) -> tuple[Words | None, int]:
        after_figure = bool(self.before) and self.before[-1].isdecimal()
        after_name = self.before[:1].isupper()
        if not (dotted or after_figure or after_name or is_short_without_stop(written)):
            return None, end
        unit = self._unit(written) if after_figure and (dotted or written != "in") else None
        rest = self.after(end + dotted)
        said = unit or abbreviation(written, dotted=dotted, rest=rest)
        if said:
            return said, end + (dotted and not self._ends_text(end + 1))
        return roman_numeral(written, self.before, rest if not dotted else "."), end

    def _unit(self, written: str) -> Words | None:
        names = shortenings().units.get(written.lower())
        return names[0 if self.before == "1" else 1] if names else None

    def _ends_text(self, end: int) -> bool:
        return not self.text[end:].strip(_CLOSERS)

    def dotted(self, written: str, start: int, end: int) -> tuple[Words, int]:
        """Letters with stops: "p.m.", "U.S.", an initial; the stop that ends a text is left."""
        stem = written.rstrip(".")
        last_stop = written.endswith(".")
        rest = self.after(end)
        kept = end - (last_stop and self._ends_text(end))
        if len(stem) == 1:
            return self._initial(stem, start, kept, rest)
        said = abbreviation(stem, dotted=last_stop, rest=rest)
        return said or letters(stem), kept

    def _initial(self, letter: str, start: int, end: int, rest: str) -> tuple[Words, int]:
        found = abbreviation(letter, dotted=True, rest=rest)
        if found:
            return found, end
        numeral = roman_numeral(letter, self.before, ".")
        if numeral:
            return numeral, start + 1
        is_initial = letter.isupper() and letter != "I" and rest[:1].isupper()
        return (letters(letter) if is_initial else _plain(letter)), end if is_initial else start + 1


_MAYBE_SHORT = frozenset({"etc", "vs", "ok"})


@lru_cache(maxsize=16384)
def _plain(written: str) -> Words:
    """What is said for a word that is no abbreviation."""
    if len(written) == 1:
        return (written.lower(),) if written in "aAiI" else letters(written) or (written,)
    if "/" in written or "&" in written:
        parts = re.split(r"([/&])", written)
        said = (("and",) if part == "&" else _plain(part) for part in parts if part not in "/")
        return tuple(word for words in said for word in words)
    return initialism(written) or (written.lower(),)


def _address(written: str) -> Words:
    said: list[str] = []
    for part in re.findall(r"\d|[^\W\d_]+|[@./_-]", re.sub(r"^https?://", "", written)):
        if part in _ADDRESS_SIGNS:
            said.append(_ADDRESS_SIGNS[part])
        elif part.isdecimal():
            said.extend(figure(part, Place("", "")))
        else:
            short = part == "www" or len(part) <= _SPELT_UP_TO
            said.extend(letters(part) if short else (part.lower(),))
    return tuple(said)


class _Foreign(_Reader):
    lead = _LEAD_ELSEWHERE
    tail = _TAIL_ELSEWHERE

    def __init__(self, text: str, tag: str) -> None:
        super().__init__(text)
        self.tag = tag

    def sign(self, written: str) -> Words:
        return tuple(signs(self.tag).get(written, written).split())

    def figure(self, written: str, end: int) -> tuple[Words, int]:
        rest = self.after(end)
        said = figure_elsewhere(written, self.before, rest, self.tag)
        has_stop = self.text.startswith(".", end) and bool(self.after(end + 1).strip(_CLOSERS))
        return said, end + (has_stop and takes_stop(written, self.before, rest, self.tag))
