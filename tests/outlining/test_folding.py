"""What can be folded away: cases from `folding.txt`, and what holds of any text."""

import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saywright.analysis import analyse
from saywright.outlining.folding import folds
from tests.cases import Case, read_cases
from tests.strategies import texts

CASES = read_cases(Path(__file__).with_name("folding.txt"))


def told(text: str) -> Iterator[str]:
    for kind, start, end, is_whole in folds(analyse(text)):
        hidden = text[start:end].replace("\r\n", "⏎").replace("\n", "⏎")
        yield f"{kind} {hidden}{'' if is_whole else '↦'}"


@pytest.mark.parametrize("line_end", ["\n", "\r\n"], ids=["LF", "CRLF"])
@pytest.mark.parametrize("case", CASES, ids=str)
def test_folding(case: Case, line_end: str) -> None:
    wanted = [] if case.expected == ("(nothing)",) else list(case.expected)
    assert list(told(case.text.replace("\n", line_end))) == wanted


@given(texts, st.integers(-1, 6))
def test_any_text(text: str, most: int) -> None:
    analysis = analyse(text)
    found = folds(analysis)
    for fold in found:
        assert 0 <= fold.start < fold.end <= len(text)
        assert set("\r\n") & set(text[fold.start : fold.end])
        assert not text[fold.end - 1].isspace()
    assert found == sorted(found, key=lambda fold: fold.start)
    fewer = folds(analysis, most)
    assert len(fewer) == min(max(most, 0), len(found))
    assert set(fewer) <= set(found)


def test_what_matters_most_is_left() -> None:
    text = "---- piece\n~~a\nb.~~\n\n# u\n# v\nc (d\ne) f.\n---- draft\nI go.\nHome.\nSo.\n"
    kinds = [[fold.kind for fold in folds(analyse(text), most)] for most in range(6)]
    assert kinds == [
        [],
        ["part"],
        ["part", "part"],
        ["part", "unit", "part"],
        ["part", "unit", "notes", "part"],
        ["part", "cut", "unit", "notes", "part"],
    ]
    assert folds(analyse(text), 1)[0].start == len("---- piece")  # the longer part


LONG = (
    "~~a\nb~~\n" * 9000,
    "(a\n" * 20_000,
    "# a\n" * 20_000,
    "~~a\n\n" * 9000,
    "\n" * 99_999,
    "a ~~b~~ " * 9000,
)


@pytest.mark.slow
@pytest.mark.parametrize("text", LONG, ids=lambda text: repr(text[:9]))
def test_a_long_text_takes_no_time(text: str) -> None:
    analysis = analyse(text)
    start = time.process_time()
    folds(analysis)
    assert time.process_time() - start < 2
