"""Where a breath may stand in an English sentence, and how well."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saywright.language.english.phrase_boundaries import Boundary, boundary_before

CASES = [
    line
    for line in Path(__file__).with_name("phrase_boundaries.txt").read_text("utf-8").splitlines()
    if not line.startswith("#")
]
SIGNS = {Boundary.NONE: "", Boundary.PHRASE: "/ ", Boundary.CLAUSE: "| "}


@pytest.mark.parametrize("line", CASES)
def test_by_hand(line: str) -> None:
    words = [word for word in line.split() if word not in ("/", "|")]
    signed = [f"{SIGNS[boundary_before(words, at)]}{words[at]}" for at in range(1, len(words))]
    assert " ".join((words[0], *signed)) == line


@given(st.lists(st.text(max_size=8), min_size=2, max_size=8))
def test_any_words(words: list[str]) -> None:
    assert all(boundary_before(words, at) in Boundary for at in range(1, len(words)))
