"""How much of what is found is said."""

import pytest

import saywright
from saywright.analysis import analyse
from saywright.checks.catalogue import CHECKS
from saywright.checks.check import Check
from saywright.finding import Edit, Finding, Fix, applied
from saywright.markup.settings import Settings
from saywright.project import NO_PROJECT, Project, read_project
from saywright.reporting import Found, reported

LOOKING = [check for check in CHECKS if check.page]


def brackets(count: int) -> str:
    return " ".join(f"I weighed it ({number} times) twice." for number in range(count))


def said(text: str, project: Project = NO_PROJECT) -> list[str]:
    findings = saywright.inspect(text, project)["findings"]
    return [each["message"] for each in findings if each["check"] == "unspoken-words"]


@pytest.mark.parametrize(("count", "told"), [(1, 1), (8, 8), (9, 9), (10, 9), (30, 9)])
def test_so_many_and_then_how_many_more(count: int, told: int) -> None:
    messages = said(brackets(count))
    assert len(messages) == told
    assert messages[-1].startswith(f"{count - 8} more like this") is (count > 9)


def test_each_part_by_itself() -> None:
    assert len(said(brackets(20) + "\n\n---- piece: another\n" + brackets(20))) == 18


def test_the_project_says_how_many() -> None:
    assert len(said(brackets(20), read_project("at-most = 2\n"))) == 3


@pytest.mark.parametrize("line", ["at-most = 0", "at-most = true", 'at-most = "2"'])
def test_a_number_that_is_none_is_reported(line: str) -> None:
    project = read_project(line)
    assert project.problems
    assert project.at_most == NO_PROJECT.at_most


@pytest.mark.parametrize("check", LOOKING, ids=lambda check: str(check.name))
@pytest.mark.parametrize("severity", ["off", "hint", "information", "warning", "error"])
def test_any_check_can_matter_more_or_less(check: Check, severity: str) -> None:
    finding = Finding(check.name, 0, 1, "m", severity="warning")
    project = read_project(f'[checks]\n{check.name} = "{severity}"\n')
    told = reported([Found(finding, Settings(), 0)], project)
    assert [each.severity for each in told] == ([] if severity == "off" else [severity])


def test_a_finding_may_matter_otherwise_than_its_check() -> None:
    finding = Finding("under-time", 0, 1, "m", severity="warning")
    [told] = reported([Found(finding, Settings(), 0)], NO_PROJECT)
    assert told.severity == "warning"


def test_all_at_once_takes_the_first_fix_of_each(monkeypatch: pytest.MonkeyPatch) -> None:
    check = Check("cue", "hint", "", fix_all="Drop all {count}")
    monkeypatch.setattr("saywright.reporting._BY_NAME", {"cue": check})
    drops = [Fix("Drop", (Edit(at, at + 1, ""),)) for at in (0, 2, 2, 4)]
    found = [
        Found(Finding("cue", fix.edits[0].start, 9, "m", (fix,)), Settings(), 0) for fix in drops
    ]
    told = reported(found, NO_PROJECT)
    assert {each.finding.fixes[-1].title for each in told} == {"Drop all 3"}
    assert applied("abcdef", told[0].finding.fixes[-1].edits) == "bdf"


def test_what_is_left_out_on_a_rule_is_left_out_there_alone() -> None:
    text = f"---- piece; leave-out unspoken-words\n{brackets(1)}\n---- piece\n{brackets(1)}"
    assert len(said(text)) == 1
    assert analyse(text).parts[0].settings.leave_out == {"unspoken-words"}
