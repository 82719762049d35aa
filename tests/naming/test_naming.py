"""A name and all its places; another in its stead, and back."""

from collections.abc import Iterator
from pathlib import Path

import pytest
import regex
from hypothesis import assume, given
from hypothesis import strategies as st

from saywright.analysis import analyse
from saywright.finding import Edit, applied
from saywright.markup.reader import read
from saywright.markup.values import Pace
from saywright.naming.at_place import name_at
from saywright.naming.places import places
from saywright.naming.renaming import Refused, renamed
from saywright.naming.spelling import Name
from saywright.project import NO_PROJECT, Project
from tests.cases import Case, read_cases
from tests.strategies import PIECES

FOLDER = Path(__file__).parent
RENAMING = read_cases(FOLDER / "renaming.txt")
PLACES = read_cases(FOLDER / "places.txt")


def at_cursor(case: Case) -> tuple[str, int]:
    return case.text.replace("‸", ""), case.text.index("‸")


def project_of(case: Case) -> Project:
    def told(key: str) -> list[str]:
        return [each.split(" ", 1)[1] for each in case.expected if each.startswith(key)]

    readers = {reader: Pace(words_per_minute=150) for reader in told("reader ")}
    return Project(private_names=tuple(told("private ")), readers=readers)


@pytest.mark.parametrize("case", RENAMING, ids=str)
def test_renaming(case: Case) -> None:
    text, offset = at_cursor(case)
    analysis = analyse(text, project_of(case))
    what, *wanted = (e for e in case.expected if not e.startswith(("private ", "reader ")))
    found = name_at(analysis, offset)
    assert (found.name.text if found else "no name") == what
    for line in wanted:
        assert found
        assert found.start <= offset <= found.end
        arrow = "→" if " → " in line else "✗"
        new, _, outcome = line.rpartition(arrow) if arrow == "✗" else line.partition(arrow)
        try:
            edits = renamed(analysis, found.name, new.strip().replace("⏎", "\n"))
            came_out = ("→", applied(text, edits).replace("\n", "⏎"))
        except Refused as refused:
            came_out = ("✗", str(refused))
        assert came_out == (arrow, outcome.strip())


@pytest.mark.parametrize("case", PLACES, ids=str)
def test_places(case: Case) -> None:
    text, offset = at_cursor(case)
    analysis = analyse(text)
    found = name_at(analysis, offset)
    edits = [
        edit
        for place in (places(analysis, found.name) if found else ())
        for edit in (Edit(place.start, place.start, "⟨"), Edit(place.end, place.end, "⟩"))
    ]
    assert [applied(text, edits).replace("\n", "⏎")] == list(case.expected)


NAMES = ("Ines", "Joss", "Zoë", "Ann-Marie", "Will", "Maren Holt", "the Rake", "Rose")
FRESH = ("Quillon", "Örjan", "Quillis", "Otto-Quill")
PHRASES = (
    *PIECES,
    *NAMES,
    *(f"{name}:\n" for name in NAMES),
    *(f"{name.upper()}'S oar, " for name in NAMES),
    *(f" (to {name}, 2s) " for name in NAMES),
    *(f"---- draft: {name}\n" for name in NAMES),
    "Joss' lamp",
    "Rosemary, a rose, the rake. ",
    "speaker: Ines, Maren Holt, the Rake\n",
    "title: The Will of Ines\n",
    "pace: Joss\n",
    "3s of 2s Joss\n",
    "’s ",
    "-like ",
    ", ",
)
scripts = st.lists(st.sampled_from(PHRASES), max_size=24).map("".join)
PRIVATE = Project(private_names=("Maren Holt", "Rose"))


def words_apart_from(text: str, found: list[tuple[int, int]]) -> str:
    """The text with every place of a name left out, and the s that owners get or lose."""
    rest = applied(text, [Edit(start, end, "·") for start, end in found])
    return str(regex.sub(r"·(['’])(?:s(?!\p{L})|S(?!\p{L}))?", r"·\1", rest))


def names_in(text: str, project: Project) -> Iterator[tuple[int, str]]:
    analysis = analyse(text, project)
    for word in regex.finditer(r"\p{Lu}\p{L}+", text):
        if place := name_at(analysis, word.start()):
            yield word.start(), place.name.text


@given(scripts, st.sampled_from((NO_PROJECT, PRIVATE)), st.sampled_from(FRESH), st.data())
def test_a_fresh_name_and_back_gives_the_same_bytes_and_changes_no_other_word(
    text: str, project: Project, fresh: str, data: st.DataObject
) -> None:
    candidates = list(names_in(text, project))
    assume(candidates)
    offset, _ = data.draw(st.sampled_from(candidates))
    analysis = analyse(text, project)
    found = name_at(analysis, offset)
    assert found
    before = [place[1:3] for place in places(analysis, found.name)]
    assert (found.start, found.end) in before
    if " " in found.name.text:
        fresh = f"{fresh} Aro"  # what blanks stood between its words would be forgotten
    try:
        edits = renamed(analysis, found.name, fresh)
    except Refused:
        return
    changed = applied(text, edits)
    assert len(edits) == len(before)
    assert [type(block) for block in read(changed).blocks] == [
        type(block) for block in read(text).blocks
    ]
    again = analyse(changed, project)
    back = Name(fresh, found.name.is_private)
    after = [place[1:3] for place in places(again, back)]
    assert words_apart_from(changed, after) == words_apart_from(text, before)
    restored = applied(changed, renamed(again, back, found.name.text))
    if "Joss' lamp" not in text:  # there the s is a choice, and a new name may have to make it
        assert restored == text


@given(scripts)
def test_renaming_is_the_way_out_of_a_name_from_life(text: str) -> None:
    for fresh in ("Quillon", "Tindra"):  # one for each name on the list
        analysis = analyse(text, PRIVATE)
        warned = [e.finding for e in analysis.reported if e.finding.check == "name-from-life"]
        if not warned:
            return
        place = name_at(analysis, warned[0].start)
        assert place
        assert (place.start, place.end) == (warned[0].start, warned[0].end)
        try:
            text = applied(text, renamed(analysis, place.name, fresh))
        except Refused:
            return
    reported = analyse(text, PRIVATE).reported
    assert not [each for each in reported if each.finding.check == "name-from-life"]
