"""What is told of a place: cases from `hover.txt`, and that it can be asked for anywhere."""

import re
import time
from pathlib import Path

import pytest
from hypothesis import given

from saywright.analysis import analyse
from saywright.explaining.parts import told_in_short
from saywright.explaining.place import explained_at
from saywright.project import NO_PROJECT, read_project
from tests.cases import Case, read_cases
from tests.strategies import texts

CASES = read_cases(Path(__file__).with_name("hover.txt"))
PLACE = "‸"


@pytest.mark.parametrize("case", CASES, ids=str)
def test_what_is_told(case: Case) -> None:
    assert case.text.count(PLACE) == 1
    text = case.text.replace(PLACE, "")
    told = explained_at(analyse(text), case.text.index(PLACE))
    if case.expected == ("-",):
        assert told is None
        return
    assert told
    lines = (f"“{text[told.start : told.end]}” {told.what}", *told.lines)
    assert len(lines) == len(case.expected), lines
    for line, expected in zip(lines, case.expected, strict=True):
        assert re.fullmatch(re.escape(expected).replace("…", r"[\d:.]+"), line), line


@given(texts)
def test_any_place_of_any_text(text: str) -> None:
    analysis = analyse(text)
    for offset in range(-1, len(text) + 2):
        told = explained_at(analysis, offset)
        if told:
            assert 0 <= told.start < told.end <= len(text)
            assert told.what
            assert not any("\n" in line for line in (told.what, *told.lines))


def test_words_of_the_projects_own() -> None:
    project = read_project('[words]\nAoife = "EE-fa"\nBrine-lowe = 3\n')
    analysis = analyse("Aoife’s boat left Brine-lowe.", project)
    boat = explained_at(analysis, 0)
    assert boat
    assert boat.what == "“Aoife’s” is said “EE-fa”: 2 syllables, by saywright.toml"
    place = explained_at(analysis, 20)
    assert place
    assert place.what == "“Brine-lowe”: 3 syllables, by saywright.toml"


def test_a_reader_whom_the_project_knows() -> None:
    project = read_project('[readers]\nAna = "142 wpm"\n')
    told = explained_at(analyse("pace: Ana\n\nI go.", project), 0)
    assert told
    assert told.lines[-1] == "Read as 142 words a minute of ordinary text."
    assert explained_at(analyse("pace: Ana\n\nI go.", NO_PROJECT), 0) == told._replace(
        lines=told.lines[:1]
    )


def test_takes_are_told_with_the_time_that_they_make() -> None:
    script = "---- piece: a; slot 5s\nI weigh the salt.\n---- takes: a\n2s of 1.8s\n"
    told = explained_at(analyse(script), 0)
    assert told
    assert re.match(r"0:0\d of 0:05, by 1 take", told.lines[0])


LONG = ("a" * 100_000, "I go. " * 9000, "((" * 30_000, "__a" * 30_000, "a | ~~b~~ " * 9000)


@pytest.mark.parametrize("text", LONG, ids=lambda text: text[:9])
def test_a_long_paragraph_is_told_of_in_no_time(text: str) -> None:
    analysis = analyse(text)
    start = time.perf_counter()
    for offset in (0, len(text) // 2, len(text) - 1):
        explained_at(analysis, offset)
    assert time.perf_counter() - start < 10


@pytest.mark.parametrize(
    ("script", "told"),
    [
        ("(3s)", r"No word is spoken yet, 0:03 of silence\."),
        ("I weigh the salt.", r"0:0\d, likely 0:0\d to 0:0\d\."),
        ("slot: 60-90s\n\nI go.", r"0:0\d of 1:00 to 1:30, .*\. 0:5\d too short\."),
    ],
)
def test_a_piece_is_told_of_in_short(script: str, told: str) -> None:
    (view,) = analyse(script).pieces
    assert re.fullmatch(told, told_in_short(view))


@pytest.mark.parametrize(
    "script",
    [
        "I weigh the ‸salt. (beat) I go.",
        "I weigh the ‸salt. (beat)\n\nI go.",
        "I go.\n\n(2s) I weigh the ‸salt, every sack of it.",
        "(3s)\nI weigh the ‸salt. I go.",
        "I weigh | the salt, || every ‸sack. I go.",
        "I go. I weigh the ‸salt – (pause 7s)",
        "~~I go. (beat)~~ I weigh the ‸salt. (beat) ~~I stay.~~ I go.",
    ],
)
def test_a_sentences_silences_add_what_the_piece_is_longer_by(script: str) -> None:
    at, text = script.index(PLACE), script.replace(PLACE, "")
    told = explained_at(analyse(text), at)
    assert told
    lasts = next(line for line in told.lines if "marked in it" in line or "silences last" in line)
    added = float(re.findall(r"(\d[\d.]*) s", lasts)[-1])
    kept = re.sub(r"~~.*?~~", lambda cut: "§" * len(cut[0]), text)
    spans = [match.span() for match in re.finditer(r"\(.*?\)|\|+", kept)]
    silent = "".join(c for i, c in enumerate(text) if not any(a <= i < b for a, b in spans))
    before, after = (next(analyse(each).pieces).timeline.seconds for each in (silent, text))
    assert added == pytest.approx(after - before, abs=0.1)
