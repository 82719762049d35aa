"""Text wrapped by the columns that it takes."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saywright.commands.wide_text import columns_of, wrapped


@pytest.mark.parametrize(
    ("text", "width", "lines"),
    [
        ("We row home.", 40, ["» We row home."]),
        ("We row home.", 10, ["» We row", "  home."]),
        ("我称盐。", 6, ["» 我称", "  盐。"]),
        ("é" * 3, 5, ["» ééé"]),
        ("abcdefgh", 6, ["» abcd", "  efgh"]),
        ("it runs 2.0\N{NO-BREAK SPACE}s", 12, ["» it runs", "  2.0 s"]),
        ("a\x1b[0m", 20, ["» a�[0m"]),
        ("", 20, ["» "]),
    ],
)
def test_wrapping(text: str, width: int, lines: list[str]) -> None:
    assert wrapped(text, width, "» ", "  ") == lines


@given(st.text(max_size=60), st.integers(6, 40))
def test_nothing_is_lost_and_no_line_is_too_wide(text: str, width: int) -> None:
    lines = wrapped(text, width, "- ", "  ")
    assert all(columns_of(line) <= width for line in lines)
    shown = "".join("".join(lines).split()).removeprefix("-")
    kept = [each for each in text if not each.isspace()]
    assert len(shown) == len(kept)
    assert all(
        one in (two, "\N{REPLACEMENT CHARACTER}") for one, two in zip(shown, kept, strict=True)
    )
