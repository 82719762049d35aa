"""What is said for a text: cases from `spoken_words.txt`, and what holds for any text."""

import re
import time
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saywright.speech.spoken import spoken_words

_LINES = Path(__file__).with_name("spoken_words.txt").read_text("utf-8").splitlines()
_CASE = re.compile(r"(?:\[(\w+)\] )?(.+) => (.+)")
CASES = [
    (match[1] or "en", match[2], match[3])
    for match in map(_CASE.fullmatch, _LINES)
    if match and not match[0].startswith("#")
]
LANGUAGES = ("en", "en-GB", "de", "fr", "es", "it", "pt", "nl", "fi", "tlh")
SIGNS = "aAIX1905½ .,:;/-–—'’$£%&°@#+=()\n\u0301😀\ufe0f\u20e3"


def test_every_line_of_the_table_is_a_case() -> None:
    assert len(CASES) == sum(bool(line) and not line.startswith("#") for line in _LINES)


@pytest.mark.parametrize(("language", "text", "expected"), CASES)
def test_said(language: str, text: str, expected: str) -> None:
    said = [" ".join(word.said) for word in spoken_words(text, language)]
    assert said == expected.split(" / ")


@given(st.one_of(st.text(), st.text(SIGNS)), st.sampled_from(LANGUAGES))
def test_written_words_stand_in_order_and_are_said(text: str, language: str) -> None:
    end = 0
    for word in spoken_words(text, language):
        assert end <= word.start < word.end <= len(text)
        assert text[word.start : word.end].strip() == text[word.start : word.end]
        assert word.said
        assert all(word.said)
        end = word.end


@given(st.lists(st.sampled_from(["salt", "Ines", "ferry", "lamp-room", "don't"]), min_size=1))
def test_plain_words_are_said_as_written(words: list[str]) -> None:
    said = [word.said for word in spoken_words(" ".join(words))]
    assert said == [(word.lower(),) for word in words]


@given(st.text(st.sampled_from("salt ferry 12 £5 p.m. \n")))
def test_a_line_break_is_read_as_a_space(text: str) -> None:
    spaced = text.replace("\n", " ")
    assert [each.said for each in spoken_words(text)] == [
        each.said for each in spoken_words(spaced)
    ]


@pytest.mark.parametrize("language", ["en", "de", "tlh"])
@pytest.mark.parametrize(
    "piece",
    [
        "1",
        "-1",
        "1,000,",
        "1.",
        "1/",
        "1st",
        "1:",
        "½",
        "£1",
        "a",
        "a.",
        "A.",
        "a-",
        "a/",
        ".",
        "'",
    ],
)
def test_the_time_taken_grows_with_the_text(piece: str, language: str) -> None:
    seconds = []
    for count in (2_000, 16_000):
        start = time.process_time()
        spoken_words(piece * count, language)
        seconds.append(time.process_time() - start)
    assert seconds[1] < 8 * 6 * max(seconds[0], 0.002)


def test_offsets_are_code_points_of_the_text() -> None:
    text = "🚤 Dr. Lowe paid £3.20."
    written = [text[word.start : word.end] for word in spoken_words(text)]
    assert written == ["Dr.", "Lowe", "paid", "£3.20"]


def test_british_numbers_take_and() -> None:
    assert spoken_words("105", "en-GB")[0].said == ("one", "hundred", "and", "five")
    assert spoken_words("105", "en-US")[0].said == ("one", "hundred", "five")


@pytest.mark.parametrize(
    ("language", "text", "expected"),
    [
        ("de", "25 Boote & 50 %", ["fünfundzwanzig", "boote", "und", "fünfzig Prozent"]),
        ("fr", "21 bateaux", ["vingt et un", "bateaux"]),
        ("es", "3,5 toneladas", ["tres coma cinco", "toneladas"]),
        ("it", "12.000 €", ["dodicimila euro"]),
        ("nl", "5€", ["vijf euro"]),
    ],
)
def test_figures_of_other_languages(language: str, text: str, expected: list[str]) -> None:
    said = [" ".join(word.said) for word in spoken_words(text, language)]
    assert said == expected
