"""Where a take is written, and that nothing else in the script changes."""

from typing import Any

import pytest
from hypothesis import assume, given

from saywright.analysis import analyse
from saywright.inspection import inspection
from saywright.recording.chosen_piece import NoPieceError, chosen_piece
from saywright.recording.take_line import with_take
from tests.strategies import scripts

LINE = "64.2s of 58.9s 2026-11-25 Ana"


@pytest.mark.parametrize(
    ("text", "label", "after"),
    [
        ("I go.", "", "I go.\n\n---- takes\n{}\n"),
        ("I go.\n", "", "I go.\n\n---- takes\n{}\n"),
        ("I go.\n\n\n", "", "I go.\n\n\n---- takes\n{}\n"),
        ("I go.\r\n", "", "I go.\r\n\r\n---- takes\r\n{}\r\n"),
        ("\ufeffI go.\n", "", "\ufeffI go.\n\n---- takes\n{}\n"),
        (
            "---- piece: a; slot 5s\nI go.\n",
            "a",
            "---- piece: a; slot 5s\nI go.\n\n---- takes: a\n{}\n",
        ),
        ("I go.\n---- takes\n3s\n", "", "I go.\n---- takes\n3s\n{}\n"),
        ("I go.\n---- takes\n3s", "", "I go.\n---- takes\n3s\n{}"),
        ("I go.\n---- takes", "", "I go.\n---- takes\n{}"),
        ("I go.\n---- takes\n\n---- notes\nx", "", "I go.\n---- takes\n{}\n\n---- notes\nx"),
        (
            "I go.\r\n---- takes\r\n3s\r\n# why?\r\n\r\n---- notes\r\n",
            "",
            "I go.\r\n---- takes\r\n3s\r\n# why?\r\n{}\r\n\r\n---- notes\r\n",
        ),
        (
            "---- piece: a\nI go.\n---- takes: b\n3s\n---- takes: A\n4s\n---- takes: b\n",
            "a",
            "---- piece: a\nI go.\n---- takes: b\n3s\n---- takes: A\n4s\n{}\n---- takes: b\n",
        ),
        ("I go.\n---- takes: a\n3s\n", "", "I go.\n---- takes: a\n3s\n\n---- takes\n{}\n"),
    ],
)
def test_where_it_is_written(text: str, label: str, after: str) -> None:
    assert with_take(analyse(text), label, LINE) == after.format(LINE)


@given(scripts)
def test_nothing_else_changes(text: str) -> None:
    before = analyse(text)
    pieces = list(before.pieces)
    assume(pieces)
    after_text = with_take(before, pieces[0].timeline.part.label, LINE)
    pairs = enumerate(zip(text, after_text, strict=False))
    at = next((index for index, (old, new) in pairs if old != new), len(text))
    assert after_text.endswith(text[at:])
    assert LINE in after_text[at : len(after_text) - len(text) + at]
    known, now = inspection(before), inspection(analyse(after_text))
    for part, same in zip(known["parts"], now["parts"], strict=False):
        assert (part["kind"], part["label"]) == (same["kind"], same["label"])
        assert _said(part) == _said(same)


def _said(part: dict[str, Any]) -> list[str]:
    return [each["text"] for each in part["sentences"]]


TWO = "---- piece: short\nI go.\n---- piece: Long one\nI go on.\n---- draft\nx\n"


@pytest.mark.parametrize(
    ("text", "label", "found"),
    [
        ("I go.", None, ""),
        ("I go.", "", ""),
        (TWO, "short", "short"),
        (TWO, " long  ONE", "Long one"),
        ("I go.\n---- piece: b\nI stay.", "", ""),
    ],
)
def test_the_piece_that_is_chosen(text: str, label: str | None, found: str) -> None:
    assert chosen_piece(analyse(text), label).part.label == found


@pytest.mark.parametrize(
    ("text", "label", "says"),
    [
        ("", None, "no piece"),
        ("slot: 5s\n\n---- draft\nI go.\n", None, "no piece"),
        (TWO, None, "short; Long one"),
        (TWO, "medium", "short; Long one"),
        ("I go.\n---- piece: b\nI stay.", None, r"\(no label\); b"),
        ("---- piece: a\nI go.\n---- piece: A\nI go.\n", "a", "2 pieces called"),
        ("---- piece: a\n(beat)\n", None, "Nothing is spoken"),
        ("---- piece: a\n~~I go.~~\n", "a", "Nothing is spoken"),
    ],
)
def test_no_piece_can_be_chosen(text: str, label: str | None, says: str) -> None:
    with pytest.raises(NoPieceError, match=says):
        chosen_piece(analyse(text), label)
