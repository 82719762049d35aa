"""What can go of a sentence: each case of `trims.txt`, and what holds of any text."""

from pathlib import Path
from typing import NamedTuple, get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saywright.language.trim import TrimKind
from saywright.language.trims import trims
from tests.strategies import texts

FILE = Path(__file__).with_name("trims.txt")
SAYINGS = (
    "I rang my aunt, who was asleep",
    ", which was late",
    ", the old keeper,",
    ", of course,",
    ", I suppose",
    "Well, you know, ",
    " – it was late – ",
    " and she came",
    ", counting the coins",
    "the long, cold night",
    "very, very ",
    "I asked Tom",
    ", because it rained",
    "“",
    "”",
    ".",
    "!",
    "?",
    " ",
    ", ",
    "forty",
    "not",
    "it",
    "İ",
    "😀",
)
sentences = st.lists(st.sampled_from(SAYINGS), max_size=9).map("".join)


class Case(NamedTuple):
    """A sentence, and where its brackets stood."""

    kind: str
    marked: str
    text: str
    ranges: frozenset[tuple[int, int]]

    def __str__(self) -> str:
        return self.marked


def read_trim_cases() -> list[Case]:
    cases: list[Case] = []
    for section in FILE.read_text("utf-8").split("=== ")[1:]:
        kind, _, lines = section.partition("\n")
        cases += (_case(kind, line) for line in lines.split("\n") if line)
    return cases


def _case(kind: str, marked: str) -> Case:
    text, opened, ranges = "", [], set()
    for letter in marked:
        if letter == "[":
            opened.append(len(text))
        elif letter == "]":
            ranges.add((opened.pop(), len(text)))
        else:
            text += letter
    return Case(kind, marked, text, frozenset(ranges))


CASES = read_trim_cases()


@pytest.mark.parametrize("case", CASES, ids=str)
def test_trims(case: Case) -> None:
    found = trims(case.text)
    assert {(trim.start, trim.end) for trim in found} == case.ranges
    if len(found) == 1 and case.kind in get_args(TrimKind):
        assert found[0].kind == case.kind or case.kind in ALSO.get(found[0].kind, ())


ALSO = {"adjunct": ("relative",), "aside": ("appositive",)}


def test_more_than_half_of_the_cases_are_left_alone() -> None:
    alone = [case for case in CASES if not case.ranges]
    assert len(CASES) >= 120
    assert 2 * len(alone) > len(CASES)


@given(st.one_of(sentences, texts))
def test_any_text_is_trimmed_apart_or_one_within_another(text: str) -> None:
    found = trims(text)
    assert list(found) == sorted(found)
    for trim in found:
        gone = text[trim.start : trim.end]
        assert gone == gone.strip()
        assert gone
        assert not trim.start or text[trim.start - 1].isspace()
        assert any(map(str.isalnum, text[: trim.start] + text[trim.end :]))
    for one in found:
        for other in found:
            apart = one.end < other.start or other.end < one.start
            within = (one.start <= other.start and other.end <= one.end) or (
                other.start <= one.start and one.end <= other.end
            )
            assert apart or within


@given(sentences)
def test_nothing_quoted_denied_or_counted_goes(text: str) -> None:
    for trim in trims(text):
        assert not {"forty", "not", "“", "”"} & {*text[trim.start : trim.end].split()}


def test_other_languages_are_left_alone() -> None:
    text = "I rang my aunt, who was asleep."
    assert trims(text, "en-GB")
    assert trims(text, "de") == ()


def test_what_goes_on_too_long_to_be_a_sentence_is_left_alone() -> None:
    sentence = "I rang my aunt, who was asleep."
    assert trims(f"{'My, ' * 200}{sentence}")
    assert trims(f"{'My, ' * 300}{sentence}") == ()
