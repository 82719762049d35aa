"""After any edits the analysis is that of the final text, and an edit reads only what it must."""

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from saywright import rereading
from saywright.analysis import Analysis, analyse
from saywright.finding import Edit
from saywright.inspection import inspection
from saywright.markup.reader import BlockReader
from saywright.project import read_project
from tests.strategies import PIECES, scripts

PROJECT = read_project('margin = "1s"\npace = "120 wpm"\n')

typed = st.lists(st.sampled_from(PIECES), max_size=3).map("".join)
edits = st.lists(st.tuples(st.floats(0, 1), st.integers(0, 8), typed), min_size=1, max_size=6)


def known(analysis: Analysis) -> tuple[Any, ...]:
    blocks = [(each.block, each.timed, each.findings) for each in analysis.blocks.items()]
    return analysis.text, analysis.settings, analysis.opening, blocks, inspection(analysis)


def check(text: str, changes: list[tuple[float, int, str]]) -> None:
    analysis = analyse(text, PROJECT)
    for where, length, insert in changes:
        start = round(where * len(text))
        edit = Edit(start, min(start + length, len(text)), insert)
        text = text[: edit.start] + edit.text + text[edit.end :]
        analysis = rereading.edited(analysis, edit)
        assert known(analysis) == known(analyse(text, PROJECT))


@given(scripts, edits)
def test_edits(text: str, changes: list[tuple[float, int, str]]) -> None:
    check(text, changes)


@pytest.mark.slow
@settings(max_examples=50_000)
@given(scripts, edits)
def test_fifty_thousand_sequences_of_edits(
    text: str, changes: list[tuple[float, int, str]]
) -> None:
    check(text, changes)


PARAGRAPHS = "".join(f"I weigh sack {number}. I never cheat.\n\n" for number in range(400))
SCRIPTS = {
    "with settings": "speaker: Ines\nslot: 60s\n\n" + PARAGRAPHS,
    "without": PARAGRAPHS,
    "with parts": "---- draft\n" + PARAGRAPHS + "---- piece\n" + PARAGRAPHS,
}


@pytest.mark.parametrize("text", SCRIPTS.values(), ids=SCRIPTS)
@pytest.mark.parametrize("place", [0.2, 0.5, 0.99])
@pytest.mark.parametrize("insert", ["a", "\n\n", "~~", "Ines:\n"])
def test_a_keystroke_reads_a_handful_of_lines(
    text: str, place: float, insert: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    analysis = analyse(text)
    at = text.index("\n", int(len(text) * place)) + 1
    lines: list[str] = []
    read = BlockReader.read

    def counted(reader: BlockReader, line: str) -> None:
        lines.append(line)
        read(reader, line)

    monkeypatch.setattr(BlockReader, "read", counted)
    rereading.edited(analysis, Edit(at, at, insert))
    assert 0 < len(lines) <= 8
