"""What say.abnf can only say in prose, kept by the derived sentences; numbers are its list's.

While a sentence is derived, signs from the private use area stand where notes, spans and escapes
do; they are taken out at the end.
"""

import re
import unicodedata
from collections.abc import Callable, Mapping
from random import Random
from typing import NamedTuple

from abnf.parser import Alternation, Literal, Rule

from .derivation import Walker

NOTE, SPAN, ESCAPED, KEPT, CUT = "\ue000\ue001\ue002\ue003\ue004"
_SIGNS = re.compile("[\ue000-\ue004]")
_LISTED = "Ines"
_LEAD = r"[\s\ufeff\u200e\u200f\u061c\u202a-\u202e\u2066-\u2069]*"
_NO_SPEECH = re.compile(
    rf"{_LEAD}(?:#(?:\s|\Z)|-{{4}}|\Z"  # a note, a rule, blank
    rf"|{_LISTED}|[^:()]+:\s*(?:\(|\Z)|[a-z][\w-]*(?: [a-z]+)?\s*:)",  # a cue, a setting
    re.IGNORECASE,
)
_LONGER_RUN = re.compile(rf"([*_~]){SPAN}+\1")
_WEIGHTS = {
    "loose": 0.1,
    "lone": 0.1,
    "inner-mark": 0.1,
    "*": 0.1,
    "\\": 0.1,
    "breath": 0.5,
    "direction": 0.5,
    "note": 0.3,
    "far-letter": 0.2,
    "speaker": 3.0,
}
_MEASURE = re.compile(r"([0-9.,]+)\s*([a-z]*)", re.IGNORECASE)


class Sentence(NamedTuple):
    text: str
    spans: int
    notes: int
    rules: frozenset[str]


def sentence(grammar: type[Rule], random: Random) -> Sentence:
    """A file that conforms, and how many spans and notes were put in it."""
    while True:
        keys: set[str] = set()
        walker = Walker(random, _overrides(grammar, keys), _WEIGHTS, _drawable(grammar))
        text = walker.derive(grammar(random.choice(("file", "paragraph"))))
        if "cue" in walker.used and not keys and not text.startswith("\ufeff"):
            text = f"speaker: {_LISTED}\n\n{text}"  # 7
            keys.add("speaker")
        if "cue" not in walker.used or "speaker" in keys:
            spans, notes = text.count(SPAN) // 4, text.count(NOTE)
            return Sentence(_SIGNS.sub("", text), spans, notes, frozenset(walker.used))


def _overrides(grammar: type[Rule], keys: set[str]) -> Mapping[str, Callable[[Walker], str]]:
    def until(
        rule: str, suits: Callable[[str], bool], mark: Callable[[str], str] = str
    ) -> Callable[[Walker], str]:
        def derive(walker: Walker) -> str:
            while not suits(derived := mark(walker.defined(grammar(rule)))):
                pass
            return derived

        return derive

    def is_new(setting: str) -> bool:
        key = re.sub(rf"\A{_LEAD}", "", setting).partition(":")[0].strip().casefold()
        is_first = key not in keys
        keys.add(key)
        return is_first

    return {
        "paragraph": until("paragraph", _is_speech),
        "word": until("word", lambda word: not _has_longer_run(word)),  # 3
        "aside": until("aside", lambda aside: "----" not in aside),  # 1
        "label": until("label", lambda label: ";" not in label),  # 8
        "text": until("text", _is_rule_value),
        "pace-reader": until("pace-reader", _is_reader),  # 4
        "names": until("names", _is_rule_value, lambda names: f"{names},{_LISTED}"),  # 7
        "lead": lambda walker: _seldom(walker, grammar("lead"), ""),
        "space": lambda walker: _seldom(walker, grammar("space"), " "),
        "name": lambda _: _LISTED,
        "setting": until("setting", is_new),  # 9
        "slot": until("slot", _is_in_order),
        "DIGIT": lambda walker: walker.random.choice("123456789"),  # 9
        "note": until("note", bool, lambda note: NOTE + note),
        "stressed": until("stressed", _is_unlike_inside, lambda span: _signed(span, 1, "")),
        "kept": until("kept", _is_unlike_inside, lambda span: _signed(span, 2, KEPT)),
        "cut": until("cut", _is_unlike_inside, lambda span: _signed(span, 2, CUT)),
        "escaped-joint": until("escaped-joint", bool, lambda escape: escape + ESCAPED),
    }


def _seldom(walker: Walker, rule: Rule, mostly: str) -> str:
    return walker.defined(rule) if walker.random.random() < 0.1 else mostly


def _signed(span: str, width: int, kind: str) -> str:
    return f"{kind}{SPAN}{span[:width]}{SPAN}{span[width:-width]}{SPAN}{span[-width:]}{SPAN}"


def _is_unlike_inside(span: str) -> bool:
    """5: none of its own kind inside, none kept in one cut, and none cut in one kept."""
    mark = span.lstrip(f"{KEPT}{CUT}{SPAN}").partition(SPAN)[0]
    if mark == "*" and re.sub(rf"\\\*{ESCAPED}", "", span).count("*") > 2:
        return False
    return span.count(f"{SPAN}{mark}{SPAN}") == 2 and not (KEPT in span and CUT in span)


def _is_speech(paragraph: str) -> bool:
    """1: no line of speech looks like another kind of line; 3: no mark is part of a longer run."""
    lines = re.split(r"\r?\n", paragraph)
    spoken = (_SIGNS.sub("", line) for line in lines if not line.startswith(NOTE))
    return not _has_longer_run(paragraph) and not any(map(_NO_SPEECH.match, spoken))


def _has_longer_run(speech: str) -> bool:
    return _LONGER_RUN.search(re.sub(f"[{KEPT}{CUT}]", "", speech)) is not None


def _is_rule_value(value: str) -> bool:
    """8: no `;` that could split, and no colon that would be the key's."""
    return ";" not in value and not value.startswith(":")


def _is_reader(value: str) -> bool:
    return _is_rule_value(value) and not value[0].isdigit()


def _is_in_order(slot: str) -> bool:
    """9: a range's lower end comes first."""
    low, *high = re.split(r"\s*[-\u2010-\u2015\u2212]\s*", slot)
    unit = _MEASURE.findall(high[0])[-1][1] if high else ""
    return not high or _seconds(low, unit) <= _seconds(high[0], unit)


def _seconds(duration: str, unit: str) -> float:
    if ":" in duration:
        minutes, seconds = duration.split(":")
        return float(minutes) * 60 + float(seconds.replace(",", "."))
    return sum(
        float(number.replace(",", ".")) * (60 if (own or unit).lower().startswith("m") else 1)
        for number, own in _MEASURE.findall(duration)
    )


def _drawable(grammar: type[Rule]) -> Callable[[str], bool]:
    """4: a character that the grammar's ranges put in its Unicode class."""
    named = (*ranges(grammar, "far-letter"), *ranges(grammar, "far-opener"))

    def drawable(character: str) -> bool:
        if _SIGNS.match(character):
            return False
        if character.isascii() or any(first <= character <= last for first, last in named):
            return True
        return not (is_letter(character) or is_opener(character))

    return drawable


def ranges(grammar: type[Rule], name: str) -> list[tuple[str, str]]:
    """The characters that a rule of single characters and ranges names."""
    definition = grammar(name).definition
    assert isinstance(definition, Alternation)
    values = [each.value for each in definition.parsers if isinstance(each, Literal)]
    assert len(values) == len(definition.parsers)
    return [value if isinstance(value, tuple) else (value, value) for value in values]


def is_letter(character: str) -> bool:
    return character.isalnum()


def is_opener(character: str) -> bool:
    category = unicodedata.category(character)
    return category in {"Ps", "Pe", "Pi", "Pf", "Pd", "Cf"} or character in "\"'¿¡"
