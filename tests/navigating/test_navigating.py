"""What places lead to: cases from `places.txt`, and that any place can be asked about."""

import time
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saywright.analysis import Analysis, analyse
from saywright.finding import applied
from saywright.markup.tree import Range
from saywright.naming.at_place import name_at
from saywright.naming.renaming import Refused, renamed
from saywright.navigating.at_place import linked_at
from saywright.navigating.linked import Linked
from saywright.navigating.project_file import reader_in
from saywright.project import read_project
from tests.cases import Case, read_cases
from tests.strategies import texts

CASES = read_cases(Path(__file__).with_name("places.txt"))
PLACE = "‸"
PROJECT = read_project('[readers]\nAna = "142 wpm"\n')


def told(text: str, found: Linked | None) -> list[str]:
    if found is None:
        return ["-"]

    def line(place: Range) -> int:
        return text.count("\n", 0, place.start) + 1

    lines = [text[slice(*found.pointed)]]
    lines += [f"→ {line(each.place)} {text[slice(*each.place)]}" for each in found.targets]
    places = [
        f"({line(place)})" if place in found.home else str(line(place))
        for place in found.everywhere
    ]
    lines.append(" ".join(("*", *places)))
    return [*lines, f"@ {found.reader}"] if found.reader else lines


@pytest.mark.parametrize("case", CASES, ids=str)
def test_what_a_place_leads_to(case: Case) -> None:
    assert case.text.count(PLACE) == 1
    text = case.text.replace(PLACE, "")
    found = linked_at(analyse(text, PROJECT), case.text.index(PLACE))
    assert told(text, found) == list(case.expected)


@given(texts, st.data())
def test_any_place_of_any_text(text: str, data: st.DataObject) -> None:
    analysis = analyse(text, PROJECT)
    found = linked_at(analysis, data.draw(st.integers(-1, len(text) + 1)))
    if found:
        places = [found.pointed, *found.everywhere, *(each.place for each in found.targets)]
        assert all(0 <= each.start <= each.end <= len(text) for each in places)
        assert all(one < other for one, other in pairwise(found.everywhere))
        assert len(set(found.targets)) == len(found.targets)


NAMED = (
    "speaker: Ines, Joss\nto: Ines's mother\n\nInes:\nJoss saw INES. Joss and Ines’s rope.\n",
    "speaker: Ines\n\nInes:\nI go.\n---- piece: Ines; speaker Ines, Ada\nAda:\nWhere is Ines?\n",
    "Maren left. I saw Maren, and Maren's boat.\n# Maren again\n---- notes\nAsk Maren.\n",
)


@pytest.mark.parametrize("text", NAMED)
def test_a_name_stands_where_a_rename_changes_it(text: str) -> None:
    analysis = analyse(text)
    asked = 0
    for offset in range(len(text)):
        found, named = linked_at(analysis, offset), name_at(analysis, offset)
        if found and named and found.everywhere != () and _is_name(analysis, found):
            edits = renamed(analysis, named.name, "Tove")
            assert tuple(Range(each.start, each.end) for each in edits) == found.everywhere
            asked += 1
    assert asked > 5


def _is_name(analysis: Analysis, found: Linked) -> bool:
    return " " not in analysis.text[slice(*found.pointed)]


def test_a_rename_leaves_every_place_where_it_was() -> None:
    text = NAMED[0]
    analysis = analyse(text)
    named = name_at(analysis, text.index("Joss:") if "Joss:" in text else text.index("Joss"))
    assert named
    try:
        after = applied(text, renamed(analysis, named.name, "Tove"))
    except Refused as refused:  # pragma: no cover - it is not
        pytest.fail(str(refused))
    before = linked_at(analysis, text.index("Joss"))
    found = linked_at(analyse(after), after.index("Tove"))
    assert before
    assert found
    assert len(found.everywhere) == len(before.everywhere) == 3


@pytest.mark.parametrize(
    ("text", "reader", "line"),
    [
        ('[readers]\nAna = "142 wpm"\n', "Ana", 1),
        ('pace = "Ana"\n\n[ readers ]\n  "Ana" = "142 wpm"\n', "Ana", 3),
        ('[checks]\ncue = "off"\n[readers] # ours\nAnabel = "1 wpm"\nAna="142 wpm"\n', "Ana", 4),
        ('readers.Ana = "142 wpm"\n', "Ana", 0),
        ('readers = { Bo = "100 wpm", Ana = "142 wpm" }\n', "Ana", 0),
        ("[readers]\r\n'Ana B.' = \"142 wpm\"\r\n", "Ana B.", 1),
    ],
)
def test_a_reader_in_the_project_file(text: str, reader: str, line: int) -> None:
    assert reader in read_project(text).readers
    start, end = reader_in(text, reader)
    assert text[start:end] == reader
    assert text.count("\n", 0, start) == line


def test_a_reader_that_is_not_found_leads_to_the_files_start() -> None:
    assert reader_in('[words]\nAna = "ah-na"\n', "Ana") == (0, 0)
    assert reader_in("", "Ana") == (0, 0)


LONG = {
    "speech": "I weigh the salt. " * 5000,
    "names": "I saw Maren there. " * 5000,
    "pieces": "".join(f"---- piece: {n}\n# from “{n - 1}”\n\nI go.\n" for n in range(500)),
    "kept": "---- draft\n" + "__I never cheat.__ So.\n\n" * 500 + "---- piece\nI never cheat.\n",
    "takes": "---- takes\n" + "3s Ana\n" * 5000,
}


@pytest.mark.slow
@pytest.mark.parametrize("name", LONG)
def test_a_long_file_is_answered(name: str) -> None:
    text = LONG[name]
    analysis = analyse(text, PROJECT)
    start = time.perf_counter()
    for offset in (0, len(text) // 2, len(text) - 3):
        linked_at(analysis, offset)
    assert time.perf_counter() - start < 10
