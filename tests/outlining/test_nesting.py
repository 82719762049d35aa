"""What a place is in: cases from `nesting.txt`, and what holds of any place of any text."""

import time
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given

from saywright.analysis import analyse
from saywright.outlining.nesting import Nesting
from tests.cases import Case, read_cases
from tests.strategies import texts

CASES = read_cases(Path(__file__).with_name("nesting.txt"))
PLACE = "‸"


@pytest.mark.parametrize("line_end", ["\n", "\r\n"], ids=["LF", "CRLF"])
@pytest.mark.parametrize("case", CASES, ids=str)
def test_nesting(case: Case, line_end: str) -> None:
    assert case.text.count(PLACE) == 1
    marked = f"{case.text}\n".replace("\n", line_end)
    text = marked.replace(PLACE, "")
    *around, whole = Nesting(analyse(text)).at(marked.index(PLACE))
    assert whole == (0, len(text))
    told = [text[start:end].replace(line_end, "⏎") for start, end in around]
    assert told == list(case.expected)


def test_an_empty_file_is_all_there_is() -> None:
    assert Nesting(analyse("")).at(0) == [(0, 0)]


@given(texts)
def test_any_place_of_any_text(text: str) -> None:
    nesting = Nesting(analyse(text))
    for offset in range(-1, len(text) + 2):
        around = nesting.at(offset)
        assert around[-1] == (0, len(text))
        assert all(start <= min(max(offset, 0), len(text)) <= end for start, end in around)
        assert all(start < end for start, end in around) or not text
        for inner, outer in pairwise(around):
            assert outer.start <= inner.start
            assert inner.end <= outer.end
            assert inner != outer


LONG = ("a" * 100_000, "I go. " * 9000, "a, " * 30_000, "__a" * 30_000, "a | ~~b~~ " * 9000)


@pytest.mark.slow
@pytest.mark.parametrize("text", LONG, ids=lambda text: text[:9])
def test_a_long_paragraph_takes_no_time(text: str) -> None:
    nesting = Nesting(analyse(text))
    start = time.process_time()
    for offset in (0, len(text) // 2, len(text) - 1):
        nesting.at(offset)
    assert time.process_time() - start < 5
