"""New parts made out of a piece: without its cuts, or for another slot."""

from pathlib import Path

import pytest

from saywright.analysis import analyse
from saywright.cuts.taking_out import take_out
from saywright.cuts.versions import make_version, origin_of, slots_near, versions_of
from saywright.finding import applied
from tests.cases import Case, read_cases

CASES = read_cases(Path(__file__).with_name("new_parts.txt"))


@pytest.mark.parametrize("case", CASES, ids=str)
def test_new_parts(case: Case) -> None:
    analysis = analyse(f"{case.text}\n")
    view = next(analysis.pieces)
    what, _, slot = case.name.partition(":")[0].partition(" ")
    fix = take_out(analysis, view) if what == "clean" else None
    if what == "version":
        fix = make_version(analysis, view.timeline.part, slot)
    made = fix.edits[0].text.replace("\n", "⏎") if fix else "nothing"
    assert [made] == list(case.expected)


def test_a_new_part_ends_its_lines_as_the_file_does() -> None:
    text = "---- piece: a\r\nI go. ~~I sleep.~~"
    analysis = analyse(text)
    fix = take_out(analysis, next(analysis.pieces))
    assert fix
    after = applied(text, fix.edits)
    assert after.startswith(f"{text}\r\n\r\n---- piece: a, clean\r\n")
    assert after.endswith("\r\n\r\nI go.\r\n")


def test_from_version_to_version() -> None:
    text = (
        "I go.\n---- piece: b\n# from the piece\n\nI go.\n---- piece: c\n# from “B”\n\nI go.\n"
        "---- piece: d\n# from “e”\n\nI go.\n---- piece: e\nI go.\n# from “b”\n"
    )
    analysis = analyse(text.replace("the piece", "piece 1"))
    opening, b, c, d, e = analysis.parts
    assert [origin_of(analysis, part) for part in analysis.parts] == [None, opening, b, e, None]
    assert versions_of(analysis, opening) == (b,)
    assert versions_of(analysis, b) == (c,)
    assert versions_of(analysis, e) == (d,)
    assert versions_of(analysis, c) == ()


@pytest.mark.parametrize(
    ("slots", "seconds", "near"),
    [
        ("60s", 60, ("30s", "90s")),
        ("30s 90s", 90, ("60s", "2min")),
        ("60s", 20, ("30s",)),
        ("60s", 900, ("3min",)),
        ("30s 60s 90s 2min 3min", 60, ()),
    ],
)
def test_the_slots_next_to_a_length(slots: str, seconds: float, near: tuple[str, ...]) -> None:
    text = "".join(f"---- piece: {slot}; slot {slot}\nI go.\n" for slot in slots.split())
    assert slots_near(analyse(text), seconds) == near
