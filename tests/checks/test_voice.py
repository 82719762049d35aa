"""The checks of the voice: a file of cases for each, with what that check finds and no other.

A line gives a finding as in findings.txt; `fix` lines the fixes of the finding before it, each
with the whole script that it makes (⏎ for a line end); `near` lines the other places it is about.
"""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

import saywright
from saywright.finding import Edit, applied
from tests.cases import Case, read_cases

FILES = sorted((Path(__file__).parent / "voice").glob("*.txt"))
CASES = [
    pytest.param(file.stem.replace("_", "-"), case, id=f"{file.stem}: {case}")
    for file in FILES
    for case in read_cases(file)
]


@pytest.mark.parametrize(("check", "case"), CASES)
def test_voice(check: str, case: Case) -> None:
    findings = saywright.inspect(case.text)["findings"]
    said = [
        line
        for finding in findings
        if finding["check"] == check
        for line in _told(case.text, finding)
    ]
    assert said == list(case.expected)


def _told(text: str, finding: dict[str, Any]) -> Iterator[str]:
    words = text[finding["start"] : finding["end"]]
    yield f"{finding['severity']} “{_one_line(words)}” – {finding['message']}"
    for near in finding["related"]:
        yield f"near “{_one_line(text[near['start'] : near['end']])}” – {near['message']}"
    for fix in finding["fixes"]:
        made = applied(text, [Edit(**edit) for edit in fix["edits"]])
        yield f"fix {fix['title']} → {_one_line(made)}"


def _one_line(text: str) -> str:
    return text.replace("\n", "⏎")
