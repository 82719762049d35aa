"""Seconds of words and gaps: what must hold whatever the coefficients are."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saywright.speech.common_words import COMMON, OTHER_WORDS, rarity
from saywright.speech.model import (
    NOMINAL_SYLLABLES_PER_SECOND,
    NOMINAL_WORDS_PER_MINUTE,
    coefficients,
    is_stumble,
    pause_seconds,
    word_seconds,
    word_sounds,
)
from saywright.speech.spoken import spoken_words


def _seconds(text: str, language: str = "en") -> float:
    return sum(word_seconds(word.said, language) for word in spoken_words(text, language))


@pytest.mark.parametrize(
    ("shorter", "longer"),
    [
        ("salt", "saltworks"),
        ("the", "thee"),
        ("bat", "boat"),
        ("a", "strength"),
        ("7", "77"),
        ("$5", "$5.25"),
        ("Dr. Lowe", "Lowe"[::-1] + " Finch Penrose"),
    ],
)
def test_more_sound_takes_longer(shorter: str, longer: str) -> None:
    assert 0 < _seconds(shorter) < _seconds(longer)


def test_a_figure_takes_as_long_as_its_words() -> None:
    assert _seconds("1942") == pytest.approx(_seconds("nineteen forty-two"))


def test_a_word_is_the_sum_of_its_sounds() -> None:
    stressed, long, other, _, consonant, _, rare, _ = coefficients().sounds
    sounds = stressed + long + other + 5 * consonant
    assert word_seconds(("boatyard",)) == pytest.approx(sounds + 2 * rare * rarity("boatyard"))


@pytest.mark.parametrize(
    ("commoner", "rarer"),
    [("boat", "moat"), ("salt", "malt"), ("sent", "tent"), ("one", "won")],
)
def test_a_rarer_word_of_as_many_sounds_takes_longer(commoner: str, rarer: str) -> None:
    assert word_sounds((commoner,))[:5] == word_sounds((rarer.lower(),))[:5]
    assert _seconds(commoner) < _seconds(rarer)


def test_a_word_is_as_rare_with_its_endings_of_belonging_and_in_a_compound() -> None:
    assert rarity("keeper's") == rarity("keeper") > rarity("mother") > rarity("the") == 0
    assert _seconds("mother-ship") == pytest.approx(_seconds("mother ship"))
    assert rarity("zzyx") == COMMON - OTHER_WORDS


def test_a_hesitation_is_drawn_out() -> None:
    assert _seconds("um") > 1.5 * _seconds("them")


@pytest.mark.parametrize(
    ("before", "after", "expected"),
    [
        ("the", "the", True),
        ("The", "the", True),
        ("um", "salt", True),
        ("salt", "Uh", True),
        ("no", "no", False),  # in earnest
        ("very", "very", False),
        ("the", "a", False),
        ("salt", "salt", False),
    ],
)
def test_a_comma_that_one_stumbles_over_is_no_pause(
    before: str, after: str, expected: bool
) -> None:
    stumbles = is_stumble(before, after)
    assert stumbles == expected
    pause = pause_seconds(", ", words_before=3, stumbles=stumbles)
    assert (pause == 0) == expected
    stop = pause_seconds(". ", words_before=3)
    assert pause_seconds(". ", words_before=3, stumbles=stumbles) == stop
    assert not is_stumble(before, after, "de")


def test_a_stressed_word_is_drawn_out() -> None:
    factor = word_seconds(("fine",), stressed=True) / word_seconds(("fine",))
    assert factor == pytest.approx(coefficients().other["marked_stress_factor"])
    assert factor > 1


@given(st.text(), st.integers(0, 60), st.booleans(), st.booleans())
def test_a_pause_is_never_negative(gap: str, words: int, paragraph: bool, line: bool) -> None:
    pause = pause_seconds(gap, words_before=words, paragraph=paragraph, line_break=line)
    assert 0 <= pause < 3
    assert pause >= pause_seconds(gap, words_before=words)


@pytest.mark.parametrize(
    ("weaker", "stronger"),
    [
        (" ", ", "),
        (", ", "; "),
        (", ", " — "),
        (" ", " - "),
        ("’ ", '," '),
        (",", '." "'),
    ],
)
def test_stronger_punctuation_pauses_at_least_as_long(weaker: str, stronger: str) -> None:
    assert pause_seconds(weaker, words_before=20) <= pause_seconds(stronger, words_before=20)


def test_the_strongest_mark_in_a_gap_decides() -> None:
    assert pause_seconds('!" — ', words_before=8) == pause_seconds(". ", words_before=8)


def test_plain_space_and_a_hyphen_or_apostrophe_make_no_pause() -> None:
    assert [pause_seconds(gap, words_before=3) for gap in (" ", "\n", "-", "’ ")] == [0.0] * 4


@given(st.integers(0, 60), st.integers(0, 60))
def test_a_longer_sentence_is_followed_by_a_longer_pause(one: int, other: int) -> None:
    short, long = sorted((one, other))
    assert pause_seconds(". ", words_before=short) <= pause_seconds(". ", words_before=long)


def test_a_line_of_verse_and_a_paragraph() -> None:
    assert pause_seconds("\n", words_before=4, line_break=True) > 0
    sentence = pause_seconds(".\n", words_before=9)
    assert pause_seconds(".\n\n", words_before=9, paragraph=True) > sentence


def test_other_languages_go_by_their_syllable_rate() -> None:
    rates = coefficients().syllables_per_second
    three = word_seconds(("marinas",), "es") / word_seconds(("laternen",), "de")
    assert three == pytest.approx(rates["de"] / rates["es"])


def test_nominal_rates_are_those_of_speech() -> None:
    assert 140 <= NOMINAL_WORDS_PER_MINUTE <= 170
    assert 3.5 <= NOMINAL_SYLLABLES_PER_SECOND <= 4.5
