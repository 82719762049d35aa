"""Marks that are found without reading the paragraph again are those that are read."""

from random import Random
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saywright.analysis import Analysis, analyse
from saywright.cuts.marking import Places, cut_together, places_to_cut
from saywright.cuts.planning import marks
from saywright.cuts.planning.marks import cut_marks, is_plain
from saywright.cuts.trimming import possible_trims
from saywright.finding import Edit
from tests.cuts.planning.random_pieces import script_of
from tests.strategies import scripts


def assert_same_marks(analysis: Analysis, random: Random) -> int:
    """How many of the choices tried were plain."""
    plain = 0
    for view in analysis.views:
        for placed in view.timeline.paragraphs():
            paragraph = placed.timed.paragraph
            chosen: list[Places] = []
            for sentence in placed.timed.sentences:
                whole = places_to_cut(paragraph, sentence)
                trims = possible_trims(paragraph, sentence)
                if trims and random.random() < 0.5:
                    chosen.append(trims[0].places)
                elif whole and random.random() < 0.5:
                    chosen.append(whole)
            fix = cut_together(paragraph, chosen) if chosen else None
            assert cut_marks(paragraph, chosen) == (fix.edits if fix else ())
            plain += bool(chosen) and is_plain(paragraph, chosen)
    return plain


@given(scripts, st.integers(0, 2**32))
def test_any_script(text: str, seed: int) -> None:
    random = Random(seed)
    for _ in range(3):
        assert_same_marks(analyse(text), random)


def test_most_paragraphs_of_a_piece_are_plain() -> None:
    analysis = analyse(script_of(60, Random(1), marked=0.0))
    assert assert_same_marks(analysis, Random(1)) >= 8


def test_marks_left_open_on_every_line_are_not_read_over_and_over(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    text = "".join(f"~~I weighed sack {number} and slept.\n" for number in range(600))
    (placed,) = analyse(text).views[0].timeline.paragraphs()
    paragraph, sentences = placed.timed.paragraph, placed.timed.sentences
    places = [found for each in sentences if (found := places_to_cut(paragraph, each))]
    read = 0

    def counting(*arguments: Any) -> tuple[Edit, ...]:
        nonlocal read
        read += 1
        return cut_marks(*arguments)

    monkeypatch.setattr(marks, "cut_marks", counting)
    assert len(places) == 600
    marks.markable(paragraph, places)
    assert read < 80


def test_one_mark_left_open_spoils_no_other_line() -> None:
    lines = [f"I weighed sack {number} and slept." for number in range(40)]
    lines[17] = f"~~{lines[17]}"
    (placed,) = analyse("\n".join(lines)).views[0].timeline.paragraphs()
    paragraph = placed.timed.paragraph
    places = [places_to_cut(paragraph, each) for each in placed.timed.sentences]
    found = marks.markable(paragraph, [each for each in places if each])
    assert [index for index, read in enumerate(found) if not read] == [17]
