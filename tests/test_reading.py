"""Invariants of reading any text: it never fails, loses nothing, and points inside the file."""

from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given, settings

import saywright
from saywright.analysis import analyse
from saywright.finding import Edit, applied
from saywright.markup.reader import read
from tests.strategies import texts


def check(text: str) -> None:
    assert read(text).text == text
    analysis = analyse(text)
    assert analysis.text == text
    inspected = saywright.inspect(text)
    for finding in inspected["findings"]:
        assert 0 <= finding["start"] <= finding["end"] <= len(text)
        for fix in finding["fixes"]:
            check_edits(text, [Edit(**edit) for edit in fix["edits"]])
    for part in inspected["parts"]:
        check_part(text, part)


def check_edits(text: str, edits: list[Edit]) -> None:
    assert edits
    for edit in edits:
        assert 0 <= edit.start <= edit.end <= len(text)
    for before, after in pairwise(sorted(edits)):
        assert before.end <= after.start
    read(applied(text, edits))


def check_part(text: str, part: dict[str, Any]) -> None:
    assert 0 <= part["start"] <= part["end"] <= len(text)
    sentences = part["sentences"]
    live = [each for each in sentences if not each["cut"]]
    total = part["lead_seconds"] + sum(
        each["speech_seconds"] + each["pause_seconds"] for each in live
    )
    assert part["seconds"] == pytest.approx(total, abs=1e-9)
    assert part["words"] == sum(each["words"] for each in live)
    for sentence in sentences:
        assert part["start"] <= sentence["start"] < sentence["end"] <= part["end"]
        assert sentence["speech_seconds"] >= 0 <= sentence["pause_seconds"]
    for before, after in pairwise(sentences):
        assert before["end"] <= after["start"]


@given(texts)
def test_any_text_is_read(text: str) -> None:
    check(text)


@pytest.mark.slow
@settings(max_examples=10_000)
@given(texts)
def test_any_text_is_read_ten_thousand_times(text: str) -> None:
    check(text)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "\ufeff",
        "\0" * 50,
        "\r",
        "\r\n",
        "~~" * 999,
        "(" * 300,
        "\n".join("__a (b ~~c" for _ in range(40)),
        "*" + "a" * 5000,
        "slot: " + "9" * 400 + "s\n\nI go.",
        "---- piece; slot " + "1:30-" * 50,
        "I go. 😀\n\n😀",
        "\u202e" + "I go.",
    ],
    ids=range(13),
)
def test_odd_texts(text: str) -> None:
    check(text)
