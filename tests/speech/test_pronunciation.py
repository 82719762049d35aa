"""Syllables and consonants: hand-counted words, the dictionary, and the table that holds it."""

import hashlib
from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saywright.speech.letter_rules import Sounds
from saywright.speech.pronunciation import english_letter_rules, long_vowels, pronounce
from tests import rebuild_pronunciations as rebuild

LEAST_SHARE_HELD_OUT = 0.93


def _hand_counted() -> Iterator[tuple[str, str, int]]:
    text = Path(__file__).with_name("syllables.txt").read_text("utf-8")
    for line in text.splitlines():
        if line and not line.startswith("#"):
            language, *rest = line.split()
            for word, count in zip(rest[::2], rest[1::2], strict=True):
                yield language, word, int(count)


@pytest.mark.parametrize(("language", "word", "syllables"), list(_hand_counted()))
def test_hand_counted_syllables(language: str, word: str, syllables: int) -> None:
    assert pronounce(word, language).syllables == syllables


@lru_cache(maxsize=1)
def _entries() -> dict[str, tuple[str, ...]]:
    return rebuild.dictionary()


@lru_cache(maxsize=1)
def _examples() -> dict[str, list[Sounds]]:
    return rebuild.letter_sounds(_entries())


@pytest.mark.slow
def test_every_dictionary_entry_has_its_sounds() -> None:
    rules = english_letter_rules()
    added = rebuild.additions()
    wrong = [
        word
        for word, phones in _entries().items()
        if word not in added and rules.sounds(word) != rebuild.count_sounds(phones)
    ]
    assert not wrong


@pytest.mark.slow
def test_the_table_is_current() -> None:
    text = rebuild.table_text(rebuild.learn(_entries(), _examples()))
    assert rebuild.TABLE.read_text("utf-8") == text, "run python -m tests.rebuild_pronunciations"


@pytest.mark.slow
def test_syllables_of_entries_held_out_of_the_table() -> None:
    def held_out(word: str) -> bool:
        return int(hashlib.sha256(word.encode()).hexdigest(), 16) % 10 == 0

    known = {word: phones for word, phones in _entries().items() if not held_out(word)}
    learned = rebuild.learn(known, _examples())
    right = [
        learned.sounds(word).vowels == rebuild.count_sounds(phones).vowels
        for word, phones in _entries().items()
        if held_out(word)
    ]
    share = sum(right) / len(right)
    print(f"{share:.4f} of {len(right)} entries held out")
    assert share >= LEAST_SHARE_HELD_OUT


def test_every_addition_is_needed() -> None:
    rules = english_letter_rules()
    entries = _entries()
    for word, sounds in rebuild.additions().items():
        learned = rebuild.count_sounds(entries[word]) if word in entries else rules.by_letters(word)
        assert learned != sounds, word


@pytest.mark.parametrize(
    ("word", "counts"),
    [
        ("the", (0, 0, 1, 1)),
        ("boat", (1, 0, 0, 2)),
        ("ferry", (1, 0, 1, 2)),
        ("communication", (1, 1, 3, 7)),
        ("lamp-room", (2, 0, 0, 5)),
        ("x", (1, 0, 0, 2)),
        ("W", (1, 0, 2, 4)),
        ("…", (0, 0, 0, 0)),
    ],
)
def test_stress_and_consonants(word: str, counts: tuple[int, int, int, int]) -> None:
    assert tuple(pronounce(word)) == counts


def test_long_vowels() -> None:
    assert [long_vowels(word) for word in ("boat", "bat", "the", "lamp-room")] == [1, 0, 0, 1]


@given(st.text(), st.sampled_from(("en", "de", "fr", "es", "it", "pt", "nl", "ru", "")))
def test_anything_can_be_pronounced(word: str, language: str) -> None:
    sounds = pronounce(word, language)
    assert min(sounds) >= 0
    assert sounds.syllables == sounds.primary + sounds.secondary + sounds.unstressed


@given(st.text(st.sampled_from("abcdefghijklmnopqrstuvwxyz"), min_size=2))
def test_a_word_of_letters_has_a_syllable(word: str) -> None:
    assert pronounce(word).syllables >= 1


def test_no_word_is_too_long_for_its_sounds_to_be_counted() -> None:
    rules = english_letter_rules()
    short, long = rules.by_letters("salt" * 100), rules.by_letters("salt" * 12_800)
    assert long.vowels == pytest.approx(128 * short.vowels, rel=0.05)
    assert long.consonants == pytest.approx(128 * short.consonants, rel=0.05)
