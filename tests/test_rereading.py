"""After any edits the analysis is that of the final text, and an edit reads only what it must."""

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from saywright import rereading
from saywright.analysis import Analysis, analyse
from saywright.finding import Edit
from saywright.inspection import inspection
from saywright.markup.reader import BlockReader
from saywright.project import Project, read_project
from tests.strategies import PIECES, scripts

PROJECTS = (
    read_project('margin = "1s"\npace = "120 wpm"\n'),
    read_project('pace = "Bo"\n[readers]\nAna = "140 wpm"\n[words]\nwrong = "raw-ong"\n'),
    replace(read_project("at-most = 2"), private_names=("Tom",)),
    read_project(""),
)

typed = st.lists(st.sampled_from(PIECES), max_size=3).map("".join)
edits = st.lists(st.tuples(st.floats(0, 1), st.integers(0, 8), typed), min_size=1, max_size=6)


def known(analysis: Analysis) -> tuple[Any, ...]:
    blocks = [
        (each.block, each.timed, each.findings, each.findings_nearby)
        for each in analysis.blocks.items()
    ]
    paces = dict(analysis.calibrations)
    return analysis.text, analysis.settings, analysis.opening, paces, blocks, inspection(analysis)


def check(text: str, changes: list[tuple[float, int, str]], project: Project) -> None:
    analysis = analyse(text, project)
    for where, length, insert in changes:
        start = round(where * len(text))
        edit = Edit(start, min(start + length, len(text)), insert)
        text = text[: edit.start] + edit.text + text[edit.end :]
        analysis = rereading.edited(analysis, edit)
        assert known(analysis) == known(analyse(text, project))


@given(scripts, edits, st.sampled_from(PROJECTS))
def test_edits(text: str, changes: list[tuple[float, int, str]], project: Project) -> None:
    check(text, changes, project)


with_takes = st.lists(st.sampled_from(PIECES), max_size=9).map("".join)


@given(with_takes, with_takes, edits, st.sampled_from(PROJECTS))
def test_edits_where_takes_set_the_pace(
    before: str, after: str, changes: list[tuple[float, int, str]], project: Project
) -> None:
    text = f"{before}\n---- piece: a\nI go. (beat) I come.\n---- takes\n2s of 3s\n2s\n{after}"
    check(text, changes, project)


@pytest.mark.slow
@pytest.mark.parametrize("project", PROJECTS)  # a share for each, so that no core waits
@settings(max_examples=50_000 // len(PROJECTS))
@given(text=scripts, changes=edits)
def test_fifty_thousand_sequences_of_edits(
    text: str, changes: list[tuple[float, int, str]], project: Project
) -> None:
    check(text, changes, project)


PARAGRAPHS = "".join(f"I weigh sack {number}. I never cheat.\n\n" for number in range(400))
SCRIPTS = {
    "with settings": "speaker: Ines\nslot: 60s\n\n" + PARAGRAPHS,
    "without": PARAGRAPHS,
    "with parts": "---- draft\n" + PARAGRAPHS + "---- piece\n" + PARAGRAPHS,
    "with takes": PARAGRAPHS + "---- takes\n2000s of 1800s\n",
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
