"""Sentences put into the other tense, and into the mouth of the one they name."""

from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path
from typing import NamedTuple

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saywright.finding import applied
from saywright.language.english.first_person import first_person
from saywright.language.english.retensing import retensed
from saywright.language.facts import Facts
from saywright.language.sentence_facts import sentence_facts

TENSES = ("past", "present")


class Row(NamedTuple):
    into: str
    before: str
    after: str | None
    is_read_back: bool

    def __str__(self) -> str:
        return f"{self.into}: {self.before}"


def _rows() -> Iterator[Row]:
    for line in Path(__file__).with_name("retensing.txt").read_text("utf-8").splitlines():
        if not line.startswith("#"):
            into, before, after, *more = line.split(" | ")
            yield Row(into, before, None if after == "none" else after, not more)


ROWS = list(_rows())


def _facts(text: str) -> Facts:
    facts = sentence_facts(text)
    assert facts
    return facts


def _made(row: Row) -> str | None:
    facts = _facts(row.before)
    if row.into in TENSES:
        edits = retensed(row.before, facts, row.into)  # type: ignore[arg-type]
    else:
        edits = first_person(row.before, facts, row.into)
    return applied(row.before, edits) if edits else None


@pytest.mark.parametrize("row", ROWS, ids=str)
def test_what_is_offered(row: Row) -> None:
    assert _made(row) == row.after


@pytest.mark.parametrize("row", [row for row in ROWS if row.after and row.is_read_back], ids=str)
def test_what_is_offered_is_of_that_tense_or_person(row: Row) -> None:
    facts = _facts(_made(row) or "")
    if row.into in TENSES:
        assert facts.tense == row.into
    else:
        assert facts.person == "first"


def test_a_sentence_without_a_subject_is_of_the_person_that_is_given() -> None:
    text = "Walked home along the wall."
    facts = _facts(text)
    edits = retensed(text, facts, "present", "first")
    assert edits
    assert applied(text, edits) == "Walk home along the wall."
    assert retensed(text, facts, "present") is None


@given(st.text(), st.sampled_from(TENSES))
def test_any_text_can_be_asked(text: str, tense: str) -> None:
    facts = _facts(text)
    for edits in (
        retensed(text, facts, tense),  # type: ignore[arg-type]
        first_person(text, facts, "Ines"),
    ):
        starts = [edit.start for edit in edits or ()]
        assert starts == sorted(starts)
        assert all(0 <= edit.start <= edit.end <= len(text) for edit in edits or ())


@given(st.sampled_from([row for row in ROWS if row.into in TENSES]), st.text(max_size=8))
def test_edits_do_not_overlap_and_leave_what_follows(row: Row, more: str) -> None:
    text = row.before + " " + more
    edits = retensed(text, _facts(text), row.into) or ()  # type: ignore[arg-type]
    for one, other in pairwise(edits):
        assert one.end <= other.start
