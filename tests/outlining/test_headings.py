"""Titles and parts, and how they are found by a few letters."""

import pytest
from hypothesis import given

from saywright.analysis import analyse
from saywright.outlining.headings import headings, headings_in
from saywright.outlining.search import closeness
from tests.strategies import texts


@given(texts)
def test_a_text_tells_the_same_as_its_analysis(text: str) -> None:
    analysis = analyse(text)
    found = list(headings_in(text))
    assert found == list(headings(analysis))
    titles = [each for each in found if each.kind == "title"]
    assert [each.name for each in titles] == [analysis.settings.title] * len(titles)
    assert bool(titles) == (analysis.settings.title is not None)
    parts = [part for part in analysis.parts if part.has_rule]
    assert [each.kind for each in found if each.kind != "title"] == [part.kind for part in parts]


def test_a_title_and_parts() -> None:
    text = (
        "# so\n\ntitle: Nine\n# a note\ntitle: Salt  \r\nslot: 5s\n\n---- draft: a\n  ----\n---x\n"
    )
    told = [(kind, name, text[start:end]) for kind, name, start, end in headings_in(text)]
    assert told == [
        ("title", "Salt", "Salt"),
        ("draft", "draft “a”", "---- draft: a"),
        ("draft", "draft", "----"),
    ]


@pytest.mark.parametrize(
    ("query", "name", "far"),
    [
        ("", "The Last Crossing", 0),
        ("the l", "The Last Crossing", 0),
        ("lastc", "The Last Crossing", 1),
        ("rossing", "The Last Crossing", 2),
        ("tlc", "The Last Crossing", 3),
        ("ct", "The Last Crossing", None),
        ("fahr", "Der Fährmann", 1),
        ("Fähr", "Der Fa\u0308hrmann", 1),
        ("short", "piece “the short version”", 1),
        ("xx", "x", None),
    ],
)
def test_what_is_meant_by_a_few_letters(query: str, name: str, far: int | None) -> None:
    assert closeness(query, name) == far
