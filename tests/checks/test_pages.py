"""What `saywright explain` tells: every check has a page, and its own example raises it."""

import pytest

from saywright.checks.catalogue import CHECKS
from saywright.checks.check import Check
from saywright.commands.explain import example_findings, page_lines

CHECKS_BY_NAME = pytest.mark.parametrize("check", CHECKS, ids=lambda check: str(check.name))


@CHECKS_BY_NAME
def test_the_example_raises_the_check(check: Check) -> None:
    assert check.page
    assert list(example_findings(check, check.page))


@CHECKS_BY_NAME
def test_the_page_fits_a_narrow_screen_and_says_how_to_silence_it(check: Check) -> None:
    page = "\n".join(page_lines(check))
    assert max(map(len, page.split("\n"))) <= 80
    assert f"leave-out: {check.name}" in page
    assert f'{check.name} = "off"' in page
