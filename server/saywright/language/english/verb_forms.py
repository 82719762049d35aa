"""The forms of English verbs: what a word may be a form of, and how a verb is put into each form.

Regular verbs follow the spelling rules here; `verb_forms.txt` (built from lemminflect by
`tests/rebuild_verb_forms.py`) names them, and holds the verbs that do otherwise.
"""

import re
from collections import defaultdict
from collections.abc import Iterator, Mapping
from functools import lru_cache
from importlib.resources import files
from typing import Literal, NamedTuple

Form = Literal["base", "third", "past", "participle", "gerund"]


class Reading(NamedTuple):
    """What a word may be. The present of all but "he" is the base; so "am" and "are" are too."""

    lemma: str
    form: Form


class Forms(NamedTuple):
    """A verb's forms in lower case; of several, the usual one. Of "be" the base is "be" and the
    past "was": who agrees with what is the caller's to know."""

    base: str
    third: str
    past: str
    participle: str
    gerund: str


class Spellings(NamedTuple):
    """All spellings of each form, the usual one first."""

    third: tuple[str, ...]
    past: tuple[str, ...]
    participle: tuple[str, ...]
    gerund: tuple[str, ...]


_ONE_SYLLABLE_DOUBLES = re.compile(r"(?:[^aeiouy]*|[^aeiouy]*qu)[aeiouy][^aeiouwxy]")
_CONSONANT_Y = re.compile(r".*[^aeiou]y")
_HISSING = re.compile(r".*(?:s|x|z|ch|sh|[^aeiou]o)")
_BE = Spellings(("is",), ("was", "were"), ("been",), ("being",))
# A British spelling is that of a listed American verb: organise, analyse, favour.
_AMERICAN = ((re.compile(r"(.{3,}[iy])s(e)"), r"\1z\2"), (re.compile(r"(.{2,}o)u(r)"), r"\1\2"))


def by_rule(lemma: str, doubled: bool | None = None) -> Spellings:
    """The regular forms; `doubled` says whether the last letter is doubled, if not by the rule."""
    if doubled is None:
        doubled = bool(_ONE_SYLLABLE_DOUBLES.fullmatch(lemma))
    stem = lemma + lemma[-1] if doubled else lemma
    past, gerund = stem + "ed", stem + "ing"
    if _CONSONANT_Y.fullmatch(lemma):
        past = lemma[:-1] + "ied"
    elif lemma.endswith("e"):
        past = lemma + "d"
        if lemma.endswith("ie"):
            gerund = lemma[:-2] + "ying"
        elif not lemma.endswith(("ee", "oe", "ye")):
            gerund = lemma[:-1] + "ing"
    return Spellings((_third_by_rule(lemma),), (past,), (past,), (gerund,))


def _third_by_rule(lemma: str) -> str:
    if _CONSONANT_Y.fullmatch(lemma):
        return lemma[:-1] + "ies"
    return lemma + ("es" if _HISSING.fullmatch(lemma) else "s")


def either_way(lemma: str) -> Spellings:
    """The forms of a verb that may double its last letter: "travelled" before "traveled", but
    "focused" before "focussed"."""
    doubled, single = by_rule(lemma, True), by_rule(lemma, False)
    first, second = (doubled, single) if lemma[-1] in "lp" else (single, doubled)
    return Spellings(
        first.third,
        first.past + second.past,
        first.participle + second.participle,
        first.gerund + second.gerund,
    )


class Table(NamedTuple):
    """`spellings` of the verbs that the rules do not give; `regular`: those that they do."""

    spellings: Mapping[str, Spellings]
    regular: frozenset[str]
    readings: Mapping[str, tuple[Reading, ...]]


def read_table(text: str) -> Table:
    """The table from its text: sections in square brackets, of words that share the two letters
    that stand first in their line, or, of irregular verbs, the verb, its past, participle,
    gerund and third person, `/` between spellings and `-` for what the rules give."""
    spellings: dict[str, Spellings] = {"be": _BE}
    regular: set[str] = set()
    section = ""
    for line in text.splitlines():
        if line.startswith("#"):
            continue
        if line.startswith("["):
            section = line
        elif section == "[irregular]":
            lemma, *fields = line.split(" ")
            spellings[lemma] = _irregular(lemma, fields)
        else:
            start, *rests = line.split(" ")
            lemmas = [start + rest for rest in rests]
            if section == "[regular]":
                regular.update(lemmas)
            else:
                spell = either_way if section == "[either way]" else _doubled
                spellings.update((lemma, spell(lemma)) for lemma in lemmas)
    return Table(spellings, frozenset(regular), _readings(spellings))


def _doubled(lemma: str) -> Spellings:
    return by_rule(lemma, True)


def _irregular(lemma: str, fields: list[str]) -> Spellings:
    past, participle, gerund, third = (
        tuple(field.split("/")) if field != "-" else None for field in fields
    )
    rule = by_rule(lemma)
    past = past or rule.past
    return Spellings(third or rule.third, past, participle or past, gerund or rule.gerund)


def _readings(spellings: Mapping[str, Spellings]) -> dict[str, tuple[Reading, ...]]:
    readings: defaultdict[str, list[Reading]] = defaultdict(list)
    for lemma, forms in spellings.items():
        for past in forms.past:
            readings[past].append(Reading(lemma, "past"))
        for participle in forms.participle:
            readings[participle].append(Reading(lemma, "participle"))
        for gerund in forms.gerund:
            readings[gerund].append(Reading(lemma, "gerund"))
        for third in forms.third:
            readings[third].append(Reading(lemma, "third"))
    for word in ("am", "are"):
        readings[word].append(Reading("be", "base"))
    return {word: tuple(found) for word, found in readings.items()}


@lru_cache(maxsize=1)
def _table() -> Table:
    return read_table(files(__package__).joinpath("verb_forms.txt").read_text(encoding="utf-8"))


def is_verb(lemma: str) -> bool:
    """Whether `lemma`, in lower case, is the base of a known verb (many are nouns as well)."""
    table = _table()
    return any(
        each in table.regular or each in table.spellings for each in (lemma, _american(lemma))
    )


def _american(lemma: str) -> str:
    for british, american in _AMERICAN:
        if british.fullmatch(lemma):
            return british.sub(american, lemma)
    return lemma


@lru_cache(maxsize=8192)
def readings_of(word: str) -> tuple[Reading, ...]:
    """What `word` may be of the known verbs, in any case; () where it is none of them.

    >>> readings_of("left")
    (Reading(lemma='leave', form='past'), Reading(lemma='leave', form='participle'))
    """
    word = word.lower()
    found = list(_table().readings.get(word, ()))
    if is_verb(word):
        found.append(Reading(word, "base"))
    for lemma in _regular_lemmas(word):
        rule = by_rule(lemma)
        for form, spelling in zip(("third", "past", "participle", "gerund"), rule, strict=True):
            if spelling == (word,):
                found.append(Reading(lemma, form))  # type: ignore[arg-type]
    return tuple(found)


def _regular_lemmas(word: str) -> Iterator[str]:
    """The regular verbs that `word` may be an inflected form of."""
    for lemma in _stems(word):
        if is_verb(lemma) and lemma not in _table().spellings:
            yield lemma


def _stems(word: str) -> Iterator[str]:
    if word.endswith("s"):
        yield word[:-1]
        if word.endswith("es"):
            yield word[:-2]
        if word.endswith("ies"):
            yield word[:-3] + "y"
        return
    stem = word.removesuffix("ed")
    if word.endswith("ied"):
        yield word[:-3] + "y"
    elif word.endswith("ing"):
        stem = word[:-3]
        if stem.endswith("y"):
            yield stem[:-1] + "ie"
    if stem and stem != word:
        yield from (stem, stem + "e")
        if stem[-2:-1] == stem[-1]:
            yield stem[:-1]


@lru_cache(maxsize=2048)
def spellings_of(lemma: str) -> Spellings:
    """All spellings of a verb's forms, known verb or not."""
    return _table().spellings.get(lemma) or by_rule(lemma)


def forms_of(lemma: str) -> Forms:
    """The forms of a verb, known or not, in its usual spelling.

    >>> forms_of("go")
    Forms(base='go', third='goes', past='went', participle='gone', gerund='going')
    """
    return Forms(lemma, *(spellings[0] for spellings in spellings_of(lemma)))
