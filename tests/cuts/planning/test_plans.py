"""Plans of whole scripts: they fit, differ, say why, and lose nothing."""

import re
from dataclasses import replace
from itertools import combinations, product
from math import prod
from pathlib import Path
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saywright.analysis import Analysis, analyse
from saywright.checks.check import View
from saywright.cuts import marking
from saywright.cuts.marking import Around
from saywright.cuts.planning.material import material_of
from saywright.cuts.planning.piece import Piece
from saywright.cuts.planning.plans import Plan, Planned, plan
from saywright.cuts.planning.problem import Kept
from saywright.cuts.planning.why import Choice, whys
from saywright.files import nearest_project, read_script
from saywright.finding import Edit, applied
from saywright.markup.tree import Range
from saywright.project import Project
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
        cuts = [{(cut.places, cut.trim) for cut in each.cuts} for each in found.plans]
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
def test_samples_in_a_slot_that_they_overrun_by_half(path: Path) -> None:
    """Each piece with a slot in which it would take 150%: every plan is inside the slot less its
    margin, and within 5% below, unless no choice of its sentences and trims is."""
    assert_reach(analyse(read_script(path), nearest_project(path)[0]))


@pytest.mark.parametrize("seed", range(12))
def test_pieces_in_a_slot_that_they_overrun_by_half(seed: int) -> None:
    random = Random(seed)
    text = script_of(random.randrange(9, 14) if seed % 2 else random.randrange(20, 60), random)
    seconds = analyse(text).views[0].timeline.seconds
    assert_reach(analyse(f"slot: {seconds / 1.5:.1f}s\nmargin: 1s\n{text}"))


def assert_reach(analysis: Analysis) -> None:
    for view in analysis.pieces:
        margin = view.aim.margin_seconds if view.aim else 0.0
        aim = view.timeline.seconds / 1.5 - margin
        found = plan(analysis, view, aim)
        if found.kept_seconds is not None:
            continue
        assert found.plans
        piece = material_of(analysis, view, aim).piece
        earlier: list[Kept] = []
        for each in found.plans:
            assert each.seconds <= aim
            assert each.seconds >= 0.95 * aim or not may_be_close(piece, aim, earlier)
            assert_is_sound(analysis, view, each)
            earlier.append(what_stays(piece, each))


def what_stays(piece: Piece, found: Plan) -> Kept:
    """What the plan leaves of each line."""
    kept = [1] * len(piece.lines)
    for index, line in enumerate(piece.lines):
        own = [cut for cut in found.cuts if cut.line == index]
        gone = {Range(start - line.at, end - line.at) for cut in own for start, end in cut.places}
        if own and not own[0].trim:
            kept[index] = 0
        elif own:
            kept[index] = 2 + [set(each.places.extents) for each in line.trims].index(gone)
    return kept


def may_be_close(piece: Piece, aim: float, earlier: list[Kept]) -> bool:
    """Whether some choice that differs enough from `earlier` is within 5% below `aim`."""
    choices = [range(not line.places, len(line.trims) + 2) for line in piece.lines]
    assert prod(map(len, choices)) <= 1 << 17, "too many to try every choice"
    for kept in product(*choices):
        is_new = any(kept) and all(differs(kept, other) for other in earlier)
        if is_new and 0.95 * aim <= piece.seconds_of(kept) <= aim:
            return True
    return False


def differs(kept: Kept, other: Kept) -> bool:
    changed = [index for index, stays in enumerate(other) if stays != 1]
    return 3 * sum(kept[index] != other[index] for index in changed) >= len(changed)


TRIMMED = """title: The Scale

I weighed the salt for thirty years, which my father never did. My mother lit the lamp at six.
Nobody rowed to the mainland. Well, you know, the inspector came on a wet Monday.
He counted nine wagons. I never once was wrong about a wagon.
"""


def test_a_trim_is_used_where_it_saves_a_whole_line() -> None:
    analysis, found = planned(TRIMMED, 0.95, 1)
    (only,) = found.plans
    assert only.cuts
    assert all(cut.trim for cut in only.cuts)
    after = analyse(applied(TRIMMED, only.edits)).views[0].timeline
    assert after.seconds == pytest.approx(only.seconds, abs=0.05)
    assert_is_sound(analysis, analysis.views[0], only)
    for cut in only.cuts:
        assert [TRIMMED[start:end].strip(" ,") for start, end in cut.places] == [cut.text]
        assert "the line stands without" in cut.why


def test_a_trim_that_later_lines_point_to_costs_more() -> None:
    text = "I sat on my bag, which Ada had packed. I slept. {}"

    def worth_of_trim(last: str) -> int:
        analysis = analyse(text.format(last))
        line = material_of(analysis, analysis.views[0], 1.0).problem.lines[0]
        return line.trims[0].worth

    assert worth_of_trim("She sings.") < worth_of_trim("I sing.")


@pytest.mark.parametrize(
    ("text", "gone", "line", "why"),
    [
        ("I row. I want to tell you something. I found a bell.", {1}, 1, "only announces"),
        ("I row. Who rang? Nobody did. She slept.", {1, 2}, 2, "answers a question that goes"),
        ("I row. Who rang? Nobody did. She slept.", {1, 2}, 1, "asks what the next line answers"),
        ("Ada came. I slept. She lit a lamp.", {0, 2}, 2, "who “she” is"),
        ("I found a bell. I slept. It was green.", {0, 2}, 2, "what “it” is"),
        ("I found a bell. I slept. Ada rang the bell.", {0, 2}, 2, "first says “bell”"),
        ("A brass bell hung. A brass bell rang.", {1}, 1, "like the line before"),
        ("The sack was wet. But I sang. I row.", {0, 1}, 1, "goes on from the line before"),
    ],
)
def test_why_a_line_goes(text: str, gone: set[int], line: int, why: str) -> None:
    analysis = analyse(text)
    material = material_of(analysis, analysis.views[0], 1.0)
    kept = [int(index not in gone) for index in range(len(material.piece.lines))]
    choice = Choice(
        material.problem,
        kept,
        material.piece.lines,
        material.worth,
        material.references,
        material.language,
    )
    assert why in whys(choice)[line]


def test_reasons_vary_and_quote_no_private_name() -> None:
    text = script_of(40, Random(3)).replace("Emeka", "Berit")
    project = replace(Project(), private_names=("Berit",))
    analysis = analyse(text, project)
    view = analysis.views[0]
    found = plan(analysis, view, view.timeline.seconds / 2)
    for each in found.plans:
        whole = [cut.why for cut in each.cuts if not cut.trim]
        assert len(set(whole)) >= 5
        assert max(map(whole.count, whole)) <= len(whole) / 2
        assert not any("Berit" in cut.why + cut.text for cut in each.cuts)
