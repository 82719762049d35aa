"""Plans of whole scripts: they fit, differ, say why, and lose nothing."""

import re
from itertools import combinations
from pathlib import Path
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saywright.analysis import Analysis, analyse
from saywright.checks.check import View
from saywright.cuts import marking
from saywright.cuts.marking import Around
from saywright.cuts.planning.plans import Plan, Planned, plan
from saywright.cuts.planning.reading import piece_of
from saywright.files import nearest_project, read_script
from saywright.finding import Edit, applied
from saywright.markup.tree import Range
from saywright.speech.voice import voice_of
from tests.cuts.planning.random_pieces import script_of
from tests.strategies import scripts

SAMPLES = sorted((Path(__file__).parents[3] / "sample_scripts").glob("*.say"))
PIECE = """slot: 20s
margin: 2s

__I was never once wrong.__ I want to tell you something. I weighed the salt for thirty years.
I weighed it in the rain. The lamp was mine too, and the whistle on its nail.

Once a man brought me a fish to say sorry. I weighed the fish. It was two kilos.
So when the inspector asks, I tell him two kilos. (beat) He never asks about the fish.
"""


def planned(text: str, share: float | None = None, count: int = 3) -> tuple[Analysis, Planned]:
    analysis = analyse(text)
    view = analysis.views[0]
    aim = view.aim.seconds if view.aim and share is None else view.timeline.seconds * (share or 1)
    return analysis, plan(analysis, view, aim, count)


def restored(text: str) -> str:
    """`text` with the marks of every cut taken off, each by the editor's own edit."""
    found: list[Edit] = []
    for view in analyse(text).views:
        for placed in view.timeline.paragraphs():
            paragraph = placed.timed.paragraph
            fix = marking.restore(paragraph, Range(0, len(paragraph.text)), Around())
            if fix:
                found += fix.shifted(placed.start).edits
    return applied(text, found)


def test_a_piece_is_brought_inside_its_slot_less_its_margin() -> None:
    analysis, found = planned(PIECE)
    assert found.aim_seconds == 18
    assert len(found.plans) == 3
    for each in found.plans:
        after = analyse(applied(PIECE, each.edits)).views[0].timeline
        assert each.seconds == pytest.approx(after.seconds, abs=0.05)
        assert 0.95 * 18 <= after.seconds <= 18
        assert "I was never once wrong." not in {cut.text for cut in each.cuts}
    assert any(cut.why == "only announces what comes" for cut in found.plans[0].cuts)
    assert analysis.text == PIECE


def test_plans_leave_a_third_of_what_others_cut() -> None:
    for seed in range(6):
        _, found = planned(script_of(30, Random(seed)), 0.65)
        assert len(found.plans) == 3
        cuts = [{cut.line for cut in each.cuts} for each in found.plans]
        for one, other in combinations(cuts, 2):
            assert 3 * len(one - other) >= len(one)


def test_a_piece_inside_its_time_has_no_plan() -> None:
    _, found = planned(PIECE, 1.0)
    assert found.is_inside
    assert found.plans == ()


def test_kept_lines_that_overrun_are_told_with_the_nearest_plan() -> None:
    text = "__I was never once wrong about the salt.__ I sang. __I never slept.__ We rowed home."
    _, found = planned(text, 0.2)
    assert [cut.text for cut in found.plans[0].cuts] == ["I sang.", "We rowed home."]
    assert found.kept_seconds == found.plans[0].seconds
    after = analyse(applied(text, found.plans[0].edits)).views[0].timeline
    assert after.seconds == pytest.approx(found.kept_seconds)


def test_no_plan_cuts_everything() -> None:
    _, found = planned("I weighed the salt for thirty years. She never asked me why.", 0.1)
    assert found.plans == ()
    assert found.kept_seconds is None


@given(scripts, st.floats(0.1, 0.99))
def test_plans_of_any_script_fit_and_are_undone_to_the_byte(text: str, share: float) -> None:
    analysis = analyse(text)
    for number, view in enumerate(analysis.views):
        aim = view.timeline.seconds * share
        found = plan(analysis, view, aim)
        for each in found.plans:
            assert_is_sound(analysis, view, each)
            after = analyse(applied(text, each.edits)).views[number].timeline
            if after.calibration.scale == view.timeline.calibration.scale:
                assert after.seconds == pytest.approx(each.seconds, abs=0.05)
            assert found.kept_seconds is not None or each.seconds <= aim


def assert_is_sound(analysis: Analysis, view: View, each: Plan) -> None:
    text = analysis.text
    marked = applied(text, each.edits)
    assert {edit.text for edit in each.edits} <= {"~~"}
    if "~~" not in text:
        assert restored(marked) == text
    assert re.sub("~~", "", marked) == re.sub("~~", "", text)
    kept = [placed for placed in view.timeline.sentences if placed.sentence.kept]
    for cut in each.cuts:
        for start, end in cut.places:
            assert not any(start < keep.end and keep.start < end for keep in kept)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_samples_at_half_as_much_again_as_their_slot(path: Path) -> None:
    """Each piece with a slot in which it would take 150%: every plan is inside, and within 5%
    below, unless no choice of its sentences is."""
    analysis = analyse(read_script(path), nearest_project(path)[0])
    for view in analysis.pieces:
        margin = view.aim.margin_seconds if view.aim else 0.0
        aim = view.timeline.seconds / 1.5 - margin
        found = plan(analysis, view, aim)
        if found.kept_seconds is not None:
            continue
        assert found.plans
        cuts: list[frozenset[int]] = []
        for each in found.plans:
            assert each.seconds <= aim
            assert each.seconds >= 0.95 * aim or not may_be_close(analysis, view, aim, cuts)
            assert_is_sound(analysis, view, each)
            cuts.append(frozenset(cut.line for cut in each.cuts))


def may_be_close(analysis: Analysis, view: View, aim: float, cuts: list[frozenset[int]]) -> bool:
    """Whether some choice of sentences that differs enough from `cuts` is within 5% below `aim`."""
    voice = voice_of(view.timeline.part.settings, analysis.project, view.timeline.calibration)
    piece = piece_of(view.timeline, voice)
    count = len(piece.lines)
    assert count <= 16, "too long to try every choice"
    for bits in range(1, 1 << count):
        kept = [bool(bits >> index & 1) for index in range(count)]
        if all(stays or line.places for line, stays in zip(piece.lines, kept, strict=True)):
            varied = all(3 * sum(kept[line] for line in cut) >= len(cut) for cut in cuts)
            if varied and 0.95 * aim <= piece.seconds_of(kept) <= aim:
                return True
    return False
