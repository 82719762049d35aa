"""Leaving a check out where a finding stands: the finding goes, and nothing else does."""

from hypothesis import given

from saywright.analysis import analyse
from saywright.finding import applied
from saywright.leaving_out import leave_out
from tests.strategies import scripts


def changed(text: str, check: str) -> str:
    analysis = analyse(text)
    finding = next(each.finding for each in analysis.reported if each.finding.check == check)
    fix = leave_out(analysis, finding)
    assert fix
    return applied(text, fix.edits)


def test_in_a_file_without_settings() -> None:
    assert changed("I go.", "running-time") == "leave-out: running-time\n\nI go."


def test_after_the_settings_of_a_file() -> None:
    before = "slot: 9s\r\n\r\nI go."
    assert changed(before, "running-time") == "slot: 9s\r\nleave-out: running-time\r\n\r\nI go."


def test_beside_those_that_a_file_leaves_out_already() -> None:
    before = "leave-out: under-time\nslot: 5-9s\n\nI go."
    after = "leave-out: running-time, under-time\nslot: 5-9s\n\nI go."
    assert changed(before, "running-time") == after


def test_on_a_rule() -> None:
    before = "---- piece: short; slot 5-9s\nI go."
    after = "---- piece: short; slot 5-9s; leave-out running-time\nI go."
    assert changed(before, "running-time") == after


def test_a_rule_says_again_what_the_file_leaves_out() -> None:
    before = "leave-out: under-time\nslot: 5-9s\n\n---- piece\nI go."
    after = "leave-out: under-time\nslot: 5-9s\n\n---- piece; leave-out running-time, under-time\n"
    assert changed(before, "running-time") == after + "I go."


@given(scripts)
def test_any_finding_goes(text: str) -> None:
    analysis = analyse(text)
    for reported in analysis.reported:
        finding = reported.finding
        if not (fix := leave_out(analysis, finding)):
            continue
        after = applied(text, fix.edits)
        moved = finding.start + sum(
            len(edit.text) - (edit.end - edit.start)
            for edit in fix.edits
            if edit.end <= finding.start
        )
        names = [
            each.finding.check for each in analyse(after).reported if each.finding.start == moved
        ]
        assert finding.check not in names
        assert after != text
