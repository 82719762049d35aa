"""All cuts of a piece restored at once."""

from pathlib import Path

import pytest

from saywright.analysis import analyse
from saywright.cuts.restoring import restore_all, restore_file
from saywright.finding import applied
from tests.cases import Case, read_cases

CASES = read_cases(Path(__file__).with_name("restoring.txt"))


@pytest.mark.parametrize("case", CASES, ids=str)
def test_restoring(case: Case) -> None:
    text = f"{case.text}\n"
    fix = restore_all(next(analyse(text).pieces))
    made = applied(text, fix.edits).replace("\n", "⏎") if fix else "nothing"
    assert [made] == list(case.expected)


def test_of_a_whole_script() -> None:
    text = "~~I go.~~\n---- draft\n~~I wake.~~\n---- notes\n~~x~~\n---- piece\n~~I sing.~~\n"
    fix = restore_file(analyse(text))
    assert fix
    assert applied(text, fix.edits) == (
        "I go.\n---- draft\nI wake.\n---- notes\n~~x~~\n---- piece\nI sing.\n"
    )
