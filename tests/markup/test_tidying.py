"""Tidying: what it makes of a script, and that it never changes what is said or how long."""

from pathlib import Path

import pytest
from hypothesis import given

import saywright
from saywright.finding import applied
from saywright.markup.reader import read
from saywright.markup.tidying import tidied, tidying_edits
from saywright.markup.tree import Paragraph
from tests.cases import Case, read_cases
from tests.strategies import texts


@pytest.mark.parametrize("case", read_cases(Path(__file__).with_name("tidying.txt")), ids=str)
def test_tidying(case: Case) -> None:
    made = tidied(case.text).replace("\n", "⏎")
    assert made == case.expected[0].replace("·", " ")


@given(texts)
def test_it_says_the_same_for_as_long_and_is_done_in_one_go(text: str) -> None:
    tidy = tidied(text)
    assert spoken(tidy) == spoken(text)
    assert seconds(tidy) == pytest.approx(seconds(text))
    assert tidied(tidy) == tidy
    assert applied(text, tidying_edits(text)) == tidy


@given(texts)
def test_it_sets_the_same(text: str) -> None:
    script, tidy = read(text), read(tidied(text))
    assert tidy.settings == script.settings
    assert [(p.kind, p.label, p.settings) for p in tidy.parts] == [
        (p.kind, p.label, p.settings) for p in script.parts
    ]


def spoken(text: str) -> list[list[str]]:
    return [block.plain.split() for block in read(text).blocks if isinstance(block, Paragraph)]


def seconds(text: str) -> list[float]:
    return [part["seconds"] for part in saywright.inspect(text)["parts"]]
