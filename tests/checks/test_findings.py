"""Every check: scripts with the findings that they raise, and the text that each fix makes."""

import re
from pathlib import Path

import pytest

import saywright
from saywright.finding import Edit, applied
from tests.cases import Case, read_cases

CASES = read_cases(Path(__file__).with_name("findings.txt"))
EXPECTED = re.compile(r"(?P<severity>\w+) (?P<check>[\w-]+) “(?P<words>.*)” – (?P<message>.*)")


@pytest.mark.parametrize("case", CASES, ids=str)
def test_findings(case: Case) -> None:
    findings = saywright.inspect(case.text)["findings"]
    wanted = [line for line in case.expected if not line.startswith("fix ")]
    assert len(findings) == len(wanted), [finding["message"] for finding in findings]
    for finding, line in zip(findings, wanted, strict=True):
        expected = EXPECTED.fullmatch(line)
        assert expected, line
        assert finding["severity"] == expected["severity"]
        assert finding["check"] == expected["check"]
        assert case.text[finding["start"] : finding["end"]] == expected["words"]
        assert expected["message"] in finding["message"]


@pytest.mark.parametrize("case", CASES, ids=str)
def test_fixes(case: Case) -> None:
    made = [
        f"{fix['title']} → {applied(case.text, [Edit(**edit) for edit in fix['edits']])}"
        for finding in saywright.inspect(case.text)["findings"]
        for fix in finding["fixes"]
    ]
    wanted = [line.removeprefix("fix ") for line in case.expected if line.startswith("fix ")]
    assert [each.replace("\n", "⏎") for each in made] == wanted
