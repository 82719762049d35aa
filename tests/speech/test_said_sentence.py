"""Sentences spelled out as they are spoken: cases from `said_sentences.txt`, and any text."""

import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saywright.speech.said_sentence import said_sentence, spelled_out
from saywright.speech.spoken import spoken_words

_LINES = Path(__file__).with_name("said_sentences.txt").read_text("utf-8").splitlines()
CASES = [tuple(line.split(" => ")) for line in _LINES if line and not line.startswith("#")]


@pytest.mark.parametrize(("written", "expected"), CASES, ids=[written for written, _ in CASES])
def test_said(written: str, expected: str) -> None:
    tagged = re.fullmatch(r"(?:\[(\w+)\] )?(.*)", written)
    assert tagged
    said = said_sentence(tagged[2], tagged[1] or "en")
    assert said == (None if expected == "-" else expected)


@given(
    st.text(st.sampled_from("aAI salt 19½.,:-’£%&\n\u0301😀")), st.sampled_from(["en", "de", "tlh"])
)
def test_it_differs_where_a_word_does(text: str, language: str) -> None:
    words = spoken_words(text, language)
    differing = list(spelled_out(text, language))
    assert {(start, end) for start, end, _ in differing} <= {(w.start, w.end) for w in words}
    said = said_sentence(text, language)
    assert (said is None) == (not differing)
    if said:
        assert all(word.said.casefold() in said.casefold() for word in differing)
