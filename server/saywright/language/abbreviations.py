"""What a full stop may mean after a word, language by language."""

import tomllib
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from typing import Any


@dataclass(frozen=True, slots=True)
class StopHabits:
    """The word lists of one language; `abbreviations.toml` says what each is for.

    A language that has no table gets empty lists and `known` false.
    """

    known: bool
    never_last: frozenset[str]
    sometimes_last: frozenset[str]
    often_last: frozenset[str]
    before_figures: frozenset[str]
    openers: frozenset[str]
    leaning: frozenset[str]
    saying: frozenset[str]
    said: frozenset[str]
    ordinal_stop: bool

    def is_abbreviation(self, word: str) -> bool:
        """Whether `word`, without its final stop, stands in any list of abbreviations."""
        return any(
            listed(word, words)
            for words in (
                self.never_last,
                self.sometimes_last,
                self.often_last,
                self.before_figures,
            )
        )

    def opens(self, word: str) -> bool:
        """Whether `word` typically opens a sentence, bare, elided or contracted ("It's")."""
        word = word.replace("’", "'").lower()
        head, apostrophe, tail = word.partition("'")
        if not apostrophe:
            return word in self.openers
        negated = tail == "t" and head.endswith("n")
        return negated or not {word, head, head + apostrophe}.isdisjoint(self.openers)


def listed(word: str, words: frozenset[str]) -> bool:
    """Whether `word` is in `words` as it stands or, for an entry in small letters, in any case.

    A single letter counts only as it stands: "v" is versus, "V" an initial or a numeral.
    """
    return word in words or (len(word) > 1 and word.lower() in words)


@lru_cache(maxsize=1)
def _tables() -> dict[str, Any]:
    source = files("saywright.language").joinpath("abbreviations.toml")
    return tomllib.loads(source.read_text(encoding="utf-8"))


@lru_cache(maxsize=64)
def stop_habits(language: str) -> StopHabits:
    """The habits of a BCP 47 `language`, found by its primary subtag alone."""
    primary = language.replace("_", "-").partition("-")[0].lower()
    table = _tables().get(primary, {})

    def words(key: str) -> frozenset[str]:
        return frozenset(table.get(key, "").split())

    return StopHabits(
        known=bool(table),
        never_last=words("never_last"),
        sometimes_last=words("sometimes_last"),
        often_last=words("often_last"),
        before_figures=words("before_figures"),
        openers=frozenset(word.lower() for word in words("openers")),
        leaning=words("leaning"),
        saying=words("saying"),
        said=words("said"),
        ordinal_stop=bool(table.get("ordinal_stop", False)),
    )
