"""Enter in a list: cases from `lists.txt`, and that it never changes a word."""

import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saywright.analysis import analyse
from saywright.completing.next_item import after_enter
from saywright.finding import applied
from tests.cases import Case, read_cases
from tests.strategies import texts

CASES = read_cases(Path(__file__).with_name("lists.txt"))
PLACE = "‸"


def after(script: str) -> str | None:
    """The script after the edits; the cursor is pushed on by what is put in at its place."""
    offset, text = script.index(PLACE), script.replace(PLACE, "")
    edits = after_enter(analyse(text), offset)
    if not edits:
        return None
    before = [each for each in edits if each.end <= offset]
    cursor = offset + sum(len(each.text) - (each.end - each.start) for each in before)
    changed = applied(text, edits)
    return changed[:cursor] + PLACE + changed[cursor:]


@pytest.mark.parametrize("case", CASES, ids=str)
@pytest.mark.parametrize("line_end", ["\n", "\r\n"])
def test_what_enter_makes(case: Case, line_end: str) -> None:
    made = after(case.text.replace("\n", line_end))
    expected = [line.strip() for line in case.expected]
    assert (
        [line.strip() for line in made.split(line_end)] == expected if made else expected == ["-"]
    )


def test_the_signs_and_their_indent_to_the_letter() -> None:
    assert after("---- notes\n\t•  a\n‸") == "---- notes\n\t•  a\n\t•  ‸"
    assert after("---- notes\n  9. a\n‸\n") == "---- notes\n  9. a\n  10. ‸\n"


ITEMS = st.lists(
    st.sampled_from(
        ("- ", "1. ", "2. ", "3) ", "a pencil", "\n", "\n", "---- draft\n", "  ", "\r\n")
    )
).map("".join)


@given(ITEMS | texts, st.data())
def test_it_never_changes_a_word(text: str, data: st.DataObject) -> None:
    offset = data.draw(st.integers(0, len(text)))
    edits = after_enter(analyse(text), offset)
    changed = applied(text, edits)
    words = re.compile(r"[^\W\d]+")
    assert words.findall(changed) == words.findall(text)
    assert all(0 <= each.start <= each.end <= len(text) for each in edits)
