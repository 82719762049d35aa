"""Sentence boundaries: cases from `sentences.txt`, what holds for any text, and linear time."""

import re
import time
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uniseg.sentencebreak import sentences as reference_sentences

from saywright.language.sentences import sentence_spans

BOUNDARY = "‖"
LANGUAGES = ("en", "de", "fr", "es", "it", "pt", "nl")


class Case(NamedTuple):
    language: str
    name: str
    text: str
    sentences: list[str]


def read_cases() -> Iterator[Case]:
    language = ""
    lines = Path(__file__).with_name("sentences.txt").read_text(encoding="utf-8").split("\n")
    for line in lines:
        if line.startswith("["):
            language = line.strip("[]")
        elif line and not line.startswith("#"):
            name, _, marked = line.partition(" = ")
            marked = re.sub(r"\\(?:[nrt]|u[0-9a-f]{4})", unescaped, marked)
            text = marked.replace(f" {BOUNDARY} ", " ").replace(BOUNDARY, "")
            sentences = [part.strip() for part in marked.split(BOUNDARY)]
            yield Case(language, name, text, [part for part in sentences if part])


def unescaped(escape: re.Match[str]) -> str:
    return escape[0].encode("ascii").decode("unicode_escape")


CASES = tuple(read_cases())


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case.language}: {case.name}")
def test_case(case: Case) -> None:
    spans = sentence_spans(case.text, case.language)
    assert [case.text[start:end] for start, end in spans] == case.sentences


def test_there_are_cases_for_every_language() -> None:
    assert len(CASES) >= 90
    assert len({(case.language, case.name) for case in CASES}) == len(CASES)
    for language in LANGUAGES:
        assert sum(case.language == language for case in CASES) >= 6


@pytest.mark.parametrize("tag", ["en-GB", "EN", "en_IE", "en-Latn-GB"])
def test_language_is_found_by_its_primary_subtag(tag: str) -> None:
    text = "I asked Mr. Tull. We left."
    assert sentence_spans(text, tag) == ((0, 17), (18, 26))
    assert sentence_spans(text, "und") == ((0, 11), (12, 17), (18, 26))


# What a stop can meet, often enough to be met together.
MARKS = """. ? ! … ... , : ; — -- - ( ) " ' “ ” « » ¿ 。 、 * _ # :-) ’s"""
STRINGS = "I A the Ines Mr St etc e.g U.S a.m No 1 2 3 3.5 ² oh Oh said 走 й É ß ǅ"
SPACES = (" ", "  ", "\n", "\r\n", "\u2028", "\x1c", "\u00a0", "\u200f", "\u0301")
PIECES = st.sampled_from([*MARKS.split(), *STRINGS.split(), *SPACES])
TEXTS = st.one_of(st.text(), st.lists(PIECES).map("".join), st.lists(PIECES).map(" ".join))
TAGS = st.one_of(st.sampled_from((*LANGUAGES, "und", "")), st.text(max_size=8))


@given(TEXTS, TAGS)
def test_spans_are_ordered_and_leave_only_white_space(text: str, language: str) -> None:
    outside, before = [], 0
    for start, end in sentence_spans(text, language):
        assert before <= start < end <= len(text)
        assert not text[start].isspace()
        assert not text[end - 1].isspace()
        outside.append(text[before:start])
        before = end
    assert not "".join([*outside, text[before:]]).strip()


@given(TEXTS, TAGS)
def test_every_sentence_has_a_word_where_the_text_has_one(text: str, language: str) -> None:
    sentences = [text[start:end] for start, end in sentence_spans(text, language)]
    if any(map(str.isalnum, text)):
        assert all(any(map(str.isalnum, sentence)) for sentence in sentences)
    else:
        assert len(sentences) == bool(text.strip())


@given(TEXTS.filter(lambda text: not any(map(str.isnumeric, text))), TAGS)
def test_line_breaks_are_spaces(text: str, language: str) -> None:
    """Save before a figure, which a line break can show to number an item."""
    in_one_line = re.sub(r"[\n\r\x85\u2028\u2029]", " ", text)
    assert sentence_spans(text, language) == sentence_spans(in_one_line, language)


@given(TEXTS, TAGS, st.integers(0, 5), st.integers(0, 5))
def test_spaces_around_only_shift(text: str, language: str, before: int, after: int) -> None:
    padded = " " * before + text + " " * after
    shifted = [(start + before, end + before) for start, end in sentence_spans(text, language)]
    assert sentence_spans(padded, language) == tuple(shifted)


# Plain sentences, to which no correction of the standard's rules applies.
WORDS = "lamp ferry, salt pans; 3.5 12 1,000 ποτέ соль étang האי वह 'tide' “rope” (wet) sea-wall"
FIRST_WORDS = "Lamp Ferry Then Ποτέ Соль Étang “Rope” (Wet) הים नमक"
STOPS = st.sampled_from([".", "!", "?", "?!", '."', "!)", ".”", "?'", "।", "؟"])
SENTENCES = st.builds(
    lambda first, words, stop: " ".join([first, *words, "harbour"]) + stop,
    st.sampled_from(FIRST_WORDS.split()),
    st.lists(st.sampled_from(WORDS.split()), max_size=6),
    STOPS,
)


@given(st.lists(SENTENCES, min_size=1, max_size=6), st.sampled_from((*LANGUAGES, "und")))
def test_plain_sentences_agree_with_the_standard(sentences: list[str], language: str) -> None:
    text = "  ".join(sentences)
    found = [text[start:end] for start, end in sentence_spans(text, language)]
    assert found == [sentence.strip() for sentence in reference_sentences(text)]


UNITS = ". ? ! … \" ' ” » « ( ) [ - — , : # _ * A I a 1 。 走。 .( .) .\u0301"
SPACED_UNITS = (
    " ",
    ". ",
    "A. ",
    "I. ",
    "1. ",
    "U.S. ",
    'A!" ',
    "x! ",
    "a… B",
    ". »",
    "\n1. ",
    ". —",
)
ODD_UNITS = (". #.", ". [", ". :", '. "', ".\n", "Go. ", "z. ", "'s ", "\u2024 #", "\u3002 ,")
STRESSES = (*UNITS.split(), *SPACED_UNITS, *ODD_UNITS)


def seconds_for(text: str) -> float:
    start = time.process_time()
    sentence_spans(text)
    return time.process_time() - start


def assert_linear(start: str, unit: str, characters: int) -> None:
    """Eight times the text takes about eight times as long; quadratic work would take 64."""
    units = characters // len(unit)
    clock_grain_seconds = 0.002
    for _ in range(3):
        short = seconds_for(start + unit * units + " B")
        long = seconds_for(start + unit * units * 8 + " B")
        if long < 20 * short + clock_grain_seconds:
            return
    pytest.fail(f"{characters} characters: {short} s, eight times as many: {long} s")


@pytest.mark.parametrize("start", ["", "Go. ", "Go.", 'Go!" '])
@pytest.mark.parametrize("unit", STRESSES)
def test_time_is_linear(start: str, unit: str) -> None:
    assert_linear(start, unit, 4_000)


@pytest.mark.slow
@pytest.mark.parametrize("unit", [".", '"', "A", " ", ". ", ". »", "\u2024 #"])
def test_time_is_linear_to_megabytes(unit: str) -> None:
    assert_linear("Go. ", unit, 5_000_000 // 8)
