"""What may be written at a place: cases from `completions.txt`, and any place of any text."""

import re
import time
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saywright.analysis import analyse
from saywright.completing.at_place import completions_at
from saywright.completing.candidate import Candidate, choice, field, literal
from saywright.completing.values import values_of
from saywright.markup.settings import RULE_KEYS
from saywright.markup.tree import Cue, Paragraph, Rule, Take
from saywright.project import read_project
from tests.cases import Case, read_cases
from tests.strategies import texts

CASES = read_cases(Path(__file__).with_name("completions.txt"))
PLACE, TODAY = "‸", "2026-11-25"
PROJECT = read_project('[readers]\nAna = "142 wpm"\nEmeka = "4 syl/s"\n')


def completions(script: str) -> tuple[str, tuple[Candidate, ...]]:
    text = script.replace(PLACE, "")
    return text, completions_at(analyse(text, PROJECT), script.index(PLACE), TODAY)


def line_after(text: str, candidate: Candidate) -> str:
    written = text[: candidate.start] + candidate.text + PLACE + text[candidate.end :]
    return next(line for line in written.split("\n") if PLACE in line)


@pytest.mark.parametrize("case", CASES, ids=str)
@pytest.mark.parametrize("line_end", ["\n", "\r\n"])
def test_what_may_be_written(case: Case, line_end: str) -> None:
    assert case.text.count(PLACE) == 1
    text, found = completions(case.text.replace("\n", line_end))
    told = [f"{each.label} → {line_after(text, each)}".rstrip("\r") for each in found] or ["-"]
    expected = list(case.expected)
    if expected[-1] == "…":
        assert len(told) >= len(expected)
        expected.pop()
        told = told[: len(expected)]
    assert told == expected


def test_every_value_that_is_offered_can_be_read() -> None:
    analysis = analyse("Joss:\nI had it.", PROJECT)
    offered = {key: list(values_of(key, analysis)) for key in RULE_KEYS}
    for key, values in offered.items():
        for value in values:
            RULE_KEYS[key].read(value.text)
    assert {key for key in offered if not offered[key]} == {
        *("title", "by", "to", "rights", "content", "alphabet"),
    }


@pytest.mark.parametrize(
    ("script", "kind"),
    [
        ("I weigh it. (‸", Paragraph),
        ("I weigh it. (‸ and go.", Paragraph),
        ("speaker: Ines, Joss\n\n‸", Cue),
        ("I go.\n---- ‸", Rule),
        ("I go.\n---- takes\n3s ‸", Take),
        ("---- piece: a\nI go.\n---- takes: ‸", Rule),
    ],
)
def test_what_is_chosen_is_read_as_it_was_meant(script: str, kind: type) -> None:
    text, found = completions(script)
    assert found
    for each in found:
        after = text[: each.start] + each.text + text[each.end :]
        analysis = analyse(after, PROJECT)
        start = analysis.blocks.find(lambda sum, at=each.start: sum.length > at)  # type: ignore[misc]
        assert start
        assert isinstance(start.item.block, kind)
        assert start.item.block.problems == ()
        if isinstance(start.item.block, Paragraph):
            assert [direction.bare for direction in start.item.block.directions] == [True]


def test_keys_and_values_tell_what_they_are_for() -> None:
    _, found = completions(PLACE)
    assert all(each.what for each in found)
    _, found = completions(f"leave-out: {PLACE}")
    assert all(each.what and each.check == each.label for each in found)


def test_how_long_a_silence_lasts_is_the_projects_word() -> None:
    project = read_project('[silences]\nbeat = "1.2s"\n')
    found = completions_at(analyse("I go. (bea", project), 10, TODAY)
    assert [(each.label, each.what) for each in found] == [("beat", "1.2 s")]


@pytest.mark.parametrize(
    ("script", "label", "snippet"),
    [
        ("te‸", "tense", "tense: ${1|present,past,free|}"),
        ("‸", "speaker", "speaker: ${1:name}"),
        ("‸", "title", "title: $0"),
        ("---- draft; ti‸", "timer", "timer ${1|5 min,10 min,15 min|}"),
        ("I go. (pa‸", "pause 2s", "pause ${1:2s})"),
        ("I go. (pa‸)", "pause", None),
        ("slot: ‸", "60s", None),
    ],
)
def test_snippets(script: str, label: str, snippet: str | None) -> None:
    _, found = completions(script)
    assert {each.label: each.snippet for each in found}[label] == snippet


def test_what_means_something_in_a_snippet_is_escaped() -> None:
    assert literal("a$b}c\\d") == "a\\$b\\}c\\\\d"
    assert field(1, "2}s") == "${1:2\\}s}"
    assert choice(2, ("a,b", "c|d")) == "${2|a\\,b,c\\|d|}"


@given(texts, st.data())
def test_any_place_of_any_text(text: str, data: st.DataObject) -> None:
    offset = data.draw(st.integers(0, len(text)))
    for each in completions_at(analyse(text, PROJECT), offset, TODAY):
        assert 0 <= each.start <= offset <= each.end <= len(text)
        assert "\n" not in text[each.start : each.end]
        assert each.label.strip() == each.label != ""
        assert each.text.strip() == each.text.strip("\r\n\t ")


@given(
    st.lists(st.sampled_from(("I weigh ", "the salt", ". ", ", ", "\n", "\n\n", "…")), max_size=30)
)
def test_in_plain_speech_nothing_is_offered(words: list[str]) -> None:
    text = "I go. " + "".join(words)
    analysis = analyse(text, PROJECT)
    assert all(not completions_at(analysis, at, TODAY) for at in range(len(text) + 1))


LONG = (
    "I weigh the salt. " * 5000,
    "(" * 50_000,
    "slot: 60s\n" * 5000,
    "Joss:\n\n" * 5000,
    "title: x\n" + "a" * 50_000,
    "---- draft; " + "a" * 50_000,
    "---- piece" + ";" * 50_000,
    "---- takes\n3s" + " " * 50_000 + "x y",
    "leave-out: " + "cue, " * 10_000,
)


@pytest.mark.slow
@pytest.mark.parametrize("text", LONG, ids=lambda text: re.sub(r"\W+", "-", text[:9]))
def test_a_long_file_is_no_slower(text: str) -> None:
    analysis = analyse(text, PROJECT)
    analysis.parts  # noqa: B018 - kept for each version of a document
    start = time.perf_counter()
    for offset in range(0, len(text), len(text) // 20):
        completions_at(analysis, offset, TODAY)
    assert time.perf_counter() - start < 5
