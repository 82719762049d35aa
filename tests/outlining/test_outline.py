"""The outline of a script: cases from `outline.txt`, and what holds of any text."""

import re
import time
from collections.abc import Iterator, Sequence
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given

from saywright.analysis import analyse
from saywright.outlining.entry import Entry
from saywright.outlining.first_words import shortened
from saywright.outlining.outline import outline
from saywright.project import Project
from tests.cases import Case, read_cases
from tests.strategies import texts

CASES = read_cases(Path(__file__).with_name("outline.txt"))


def told(entries: Sequence[Entry], text: str, depth: int = 0) -> Iterator[str]:
    for entry in entries:
        cut = " (cut)" if entry.is_cut else ""
        head = text[entry.head_start : entry.head_end]
        yield f"{'- ' * depth}{entry.kind}{cut} {entry.name} [{entry.detail}] «{head}»"
        yield from told(entry.children, text, depth + 1)


@pytest.mark.parametrize("line_end", ["\n", "\r\n"], ids=["LF", "CRLF"])
@pytest.mark.parametrize("case", CASES, ids=str)
def test_outline(case: Case, line_end: str) -> None:
    text = case.text.replace("\n", line_end)
    lines = list(told(outline(analyse(text)), text))
    wanted = () if case.expected == ("(nothing)",) else case.expected
    assert len(lines) == len(wanted), lines
    for line, expected in zip(lines, wanted, strict=True):
        times = re.escape(expected).replace(r"\[…", r"\[[\d:.]+").replace("0:…", r"0:\d\d")
        assert re.fullmatch(times, line), line


def within(entry: Entry) -> Iterator[Entry]:
    yield entry
    for child in entry.children:
        yield from within(child)


@given(texts)
def test_any_text(text: str) -> None:
    analysis = analyse(text)
    entries = outline(analysis)
    assert len(entries) == len(analysis.parts)
    for entry in (each for part in entries for each in within(part)):
        assert entry.name.strip()
        assert "\n" not in entry.name
        assert 0 <= entry.start <= entry.head_start <= entry.head_end <= entry.end <= len(text)
        assert all(entry.start <= child.start for child in entry.children)
        assert all(child.end <= entry.end for child in entry.children)
        for one, other in pairwise(entry.children):
            assert one.end <= other.start


def seconds(detail: str) -> int:
    minutes, _, rest = detail.split(" ", maxsplit=1)[0].rpartition(":")
    return int(minutes) * 60 + int(rest)


@given(texts)
def test_the_times_of_what_is_in_a_piece_add_up_to_its_own(text: str) -> None:
    for piece in outline(analyse(text)):
        if piece.kind == "piece" and piece.children:
            assert seconds(piece.detail) == sum(seconds(each.detail) for each in piece.children)


@pytest.mark.parametrize(
    ("text", "short"),
    [
        ("  I go\n home.  ", "I go home."),
        ("x" * 32, "x" * 32),
        ("x" * 33, "x" * 32 + "…"),
        ("é" * 33, "é" * 32 + "…"),
        ("e\u0301" * 33, "e\u0301" * 32 + "…"),
        ("I " + "x" * 60, "I " + "x" * 30 + "…"),
        (
            "I weigh it, every sack of it, as I have always,  weighed it",
            "I weigh it, every sack of it, as…",
        ),
        (" " * 1000 + "x" + " " * 1000, "x"),
    ],
)
def test_long_names_are_shortened(text: str, short: str) -> None:
    assert shortened(text) == short


def test_no_private_name_is_shown() -> None:
    project = Project(private_names=("Maren Holt",))
    text = "---- piece: Maren Holt; slot 5s\n# Maren Holt goes\nI told Maren Holt.\n\nSo.\n"
    names = [each.name for part in outline(analyse(text, project)) for each in within(part)]
    assert names == ["piece “…”", "… goes", "I told ….", "So."]


LONG = ("a" * 100_000, "I go. " * 9000, "__a" * 30_000, "~~a~~ b " * 9000, "\n\n# a\nb" * 9000)


@pytest.mark.slow
@pytest.mark.parametrize("text", LONG, ids=lambda text: text[:9])
def test_a_long_text_takes_no_time(text: str) -> None:
    analysis = analyse(text)
    start = time.process_time()
    outline(analysis)
    assert time.process_time() - start < 5
