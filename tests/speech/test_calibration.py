"""A reader's pace from takes: the arithmetic, which takes count, and what the ranges do."""

import math
from operator import mul
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

import saywright
from saywright.project import NO_PROJECT, Project, read_project
from saywright.speech.calibration import (
    Calibration,
    TimedTake,
    after_takes,
    before_takes,
)
from saywright.speech.model import coefficients
from tests.strategies import scripts

UNKNOWN = before_takes(1.0, stated=False, language="en")


def _take(usual_seconds: float, factor: float) -> TimedTake:
    return TimedTake(usual_seconds * factor, usual_seconds, 0.0)


factors = st.floats(0.7, 1.4)
takes = st.lists(st.builds(_take, st.floats(5, 300), factors), min_size=1, max_size=6)
takes_of_one_length = st.builds(
    lambda seconds, several: [_take(seconds, factor) for factor in several],
    st.floats(5, 300),
    st.lists(factors, min_size=1, max_size=6),
)


def _numerically(before: Calibration, timed: list[TimedTake]) -> tuple[float, float]:
    """Mean and variance of the factor at the reading after `timed`, from its density on a grid."""
    spread = coefficients().spread
    grid = [step / 100 for step in range(-120, 121)]
    beyond = [0.0] * 25
    drifts = [_normal(step / 100, spread["drift"]) for step in range(-25, 26)]
    density = [_normal(each - before.mean, before.variance**0.5) for each in grid]
    for take in timed:
        minutes = take.usual_seconds / 60
        noise = spread["reading_of_a_minute"] * minutes ** -spread["length_power"]
        seen = math.log(take.seconds / take.usual_seconds)
        likely = [_normal(seen - each, noise) for each in grid]
        known = [*beyond, *map(mul, density, likely), *beyond]
        density = [sum(map(mul, drifts, known[at : at + len(drifts)])) for at in range(len(grid))]
        total = sum(density)
        density = [each / total for each in density]
    total = sum(density)
    mean = sum(map(mul, density, grid)) / total
    return mean, sum(d * (each - mean) ** 2 for d, each in zip(density, grid, strict=True)) / total


def _normal(off: float, deviation: float) -> float:
    return math.exp(-((off / deviation) ** 2) / 2)


@given(takes_of_one_length)
def test_the_posterior_is_that_of_bayes(timed: list[TimedTake]) -> None:
    after = after_takes(UNKNOWN, timed)
    mean, variance = _numerically(UNKNOWN, timed)
    other_day = coefficients().spread["other_day"] ** 2
    assert after.takes == len(timed)
    assert after.mean == pytest.approx(mean, abs=1e-5)
    assert after.variance == pytest.approx(min(variance + other_day, UNKNOWN.variance), abs=1e-6)


def test_the_latest_take_counts_most() -> None:
    quick, slow = _take(60, 0.9), _take(60, 1.2)
    assert after_takes(UNKNOWN, [quick, slow]).mean > after_takes(UNKNOWN, [slow, quick]).mean


@given(takes)
def test_each_take_narrows_the_range(timed: list[TimedTake]) -> None:
    variances = [after_takes(UNKNOWN, timed[:count]).variance for count in range(len(timed) + 1)]
    assert variances == sorted(variances, reverse=True)
    assert variances[-1] >= coefficients().spread["other_day"] ** 2


def test_many_takes_are_believed() -> None:
    after = after_takes(UNKNOWN, [TimedTake(72, 60, 0)] * 50)
    assert after.scale == pytest.approx(1.2, rel=0.01)
    assert 1 < after_takes(UNKNOWN, [TimedTake(72, 60, 0)]).scale < 1.2


def test_a_longer_take_weighs_more() -> None:
    short, long = (after_takes(UNKNOWN, [TimedTake(1.2 * s, s, 0)]).mean for s in (20.0, 200.0))
    assert 0 < short < long


@pytest.mark.parametrize(
    "take", [TimedTake(20, 60, 0), TimedTake(150, 60, 0), TimedTake(9, 60, 10), TimedTake(9, 5, 7)]
)
def test_a_take_of_another_text_does_not_count(take: TimedTake) -> None:
    assert after_takes(UNKNOWN, [take]) == UNKNOWN


def test_marked_silences_are_certain_and_do_not_scale() -> None:
    assert Calibration(0.2, 0.02).range_of(0.0, 7.0) == (7.0, 7.0)
    low, high = UNKNOWN.range_of(60.0, 0.0)
    assert UNKNOWN.range_of(60.0, 7.0) == pytest.approx((low + 7, high + 7))
    held = after_takes(UNKNOWN, [TimedTake(72 + 20, 60 + 20, 20)])
    assert held == after_takes(UNKNOWN, [TimedTake(72, 60, 0)])


def test_a_language_that_is_less_sure_has_a_wider_range() -> None:
    variances = [
        before_takes(1.0, stated=False, language=tag).variance for tag in ("en", "de", "nl", "sv")
    ]
    assert variances == sorted(variances)
    assert len(set(variances)) == len(variances)


SENTENCE = "I weigh the salt, every sack of it, and I never cheat by a lot."
PIECE = f"{SENTENCE} (pause 2s) " * 4 + "I go home."


def part(script: str, project: Project = NO_PROJECT) -> dict[str, Any]:
    analysis = saywright.inspect(script, project)
    return next(each for each in analysis["parts"] if each["kind"] == "piece")


def script(lines: str, *, settings: str = "", label: str = "", of: str = "") -> str:
    rule = f"---- piece{': ' + label if label else ''}{settings}"
    return f"{rule}\n{PIECE}\n\n---- takes{': ' + of if of else ''}\n{lines}\n"


USUAL = part(script(""))
SLOWER = f"{1.3 * USUAL['seconds']:.2f}s"
ANA = read_project('[readers]\nAna = "120 wpm"\n')


@pytest.mark.parametrize(
    ("text", "counts"),
    [
        (script(SLOWER), True),
        (script(f"{SLOWER} of {USUAL['seconds']:.2f}s"), True),
        (script(f"{SLOWER} of 10s"), False),
        (script(f"{SLOWER} or so"), True),
        (script("a while"), False),
        (script(SLOWER, label="The  short one", of="the short one"), True),
        (script(SLOWER, label="short", of="long"), False),
        (script(SLOWER, label="short"), True),
        (script(SLOWER, of="short"), False),
        (script(SLOWER, settings="; pace Ana"), False),
        (script(f"{SLOWER} Ana", settings="; pace Ana"), True),
        (script(f"{SLOWER} 2026-11-25 ana", settings="; pace Ana"), True),
        (script(f"{SLOWER} Bo", settings="; pace Ana"), False),
        (script(SLOWER, settings="; pace 155 wpm"), False),
        (script(SLOWER, settings="; pace 4 syl/s"), False),
    ],
)
def test_which_takes_count(text: str, counts: bool) -> None:
    without = text[: text.index("---- takes")]
    assert (part(text)["seconds"] > part(without)["seconds"]) == counts
    assert (part(text) == {**part(without), "end": part(text)["end"]}) != counts


def test_a_named_readers_pace_is_where_her_takes_start_from() -> None:
    stated = part(script("", settings="; pace Ana"), ANA)["seconds"]
    quicker = part(script(f"{USUAL['seconds']:.1f}s Ana", settings="; pace Ana"), ANA)["seconds"]
    assert USUAL["seconds"] < quicker < stated


def test_the_projects_pace_wins_over_takes() -> None:
    project = read_project('pace = "155 wpm"\n')
    assert part(script(SLOWER), project)["seconds"] == part(script(""), project)["seconds"]


def test_takes_move_the_estimate_and_narrow_its_range() -> None:
    parts = [part(script(f"{SLOWER}\n" * count)) for count in range(5)]
    seconds = [each["seconds"] for each in parts]
    widths = [math.log(each["seconds_high"] / each["seconds_low"]) for each in parts]
    assert seconds == sorted(seconds)
    assert widths == sorted(widths, reverse=True)
    assert parts[4]["seconds"] < 1.3 * USUAL["seconds"] < parts[4]["seconds_high"]


def test_marked_silences_stay_when_takes_slow_the_rest() -> None:
    slower = part(script(SLOWER))
    pauses = [each["pause_seconds"] for each in slower["sentences"]]
    assert pauses == [2.0, 2.0, 2.0, 2.0, 0.0]
    for before, after in zip(USUAL["sentences"], slower["sentences"], strict=True):
        assert before["speech_seconds"] < after["speech_seconds"]


@given(scripts)
def test_a_range_holds_its_estimate(text: str) -> None:
    for each in saywright.inspect(text)["parts"]:
        assert 0 <= each["seconds_low"] <= each["seconds"] <= each["seconds_high"]
