"""The time of a plan is that of the script with the plan's marks in it."""

from collections.abc import Iterator, Sequence
from itertools import groupby
from pathlib import Path
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saywright.analysis import Analysis, analyse
from saywright.checks.check import View
from saywright.cuts.marking import Places, cut_together
from saywright.cuts.planning.piece import Piece
from saywright.cuts.planning.reading import piece_of
from saywright.files import nearest_project, read_script
from saywright.finding import Edit, applied
from saywright.speech.voice import voice_of
from tests.cuts.planning.random_pieces import script_of
from tests.strategies import scripts

SAMPLES = sorted((Path(__file__).parents[3] / "sample_scripts").glob("*.say"))
NEAR_SECONDS = 0.001  # 0.05 would do


def pieces(analysis: Analysis) -> Iterator[tuple[int, View, Piece]]:
    for number, view in enumerate(analysis.views):
        voice = voice_of(view.timeline.part.settings, analysis.project, view.timeline.calibration)
        yield number, view, piece_of(view.timeline, voice)


def edits(piece: Piece, kept: Sequence[bool]) -> list[Edit] | None:
    """The marks that cut all but the lines kept; None where they would not be read."""
    gone = [line for line, stays in zip(piece.lines, kept, strict=True) if not stays]
    found: list[Edit] = []
    for at, lines in groupby(gone, key=lambda line: line.at):
        own = list(lines)
        places: list[Places] = [line.places for line in own if line.places]
        fix = cut_together(own[0].paragraph, places)
        if fix is None:
            return None
        found += fix.shifted(at).edits
    return found


def assert_times_agree(analysis: Analysis, random: Random) -> None:
    for number, view, piece in pieces(analysis):
        assert piece.seconds == pytest.approx(view.timeline.seconds, abs=1e-6)
        kept = [line.places is None or random.random() < 0.5 for line in piece.lines]
        marks = edits(piece, kept)
        if marks is None:
            continue
        after = analyse(applied(analysis.text, marks), analysis.project).views[number].timeline
        if after.calibration.scale == view.timeline.calibration.scale:  # no take came to another
            assert piece.seconds_of(kept) == pytest.approx(after.seconds, abs=NEAR_SECONDS)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_samples(path: Path) -> None:
    analysis = analyse(read_script(path), nearest_project(path)[0])
    for seed in range(10):
        assert_times_agree(analysis, Random(seed))


@pytest.mark.parametrize("seed", range(20))
def test_pieces_at_random(seed: int) -> None:
    random = Random(seed)
    assert_times_agree(analyse(script_of(random.randrange(2, 30), random, marked=0.3)), random)


@given(scripts, st.integers(0, 2**32))
def test_any_script(text: str, seed: int) -> None:
    assert_times_agree(analyse(text), Random(seed))


@pytest.mark.parametrize(
    "text",
    [
        "I go ~~and stay.~~ She waits. (beat) He counts.",
        "(beat) I go.\n(she sits, 3s)\n\nShe stays || and waits.\n\n(2s) He counts.",
        "form: verse\n\nI draw it thin,\nI draw it white\nand dry. I rake.\nI stop.",
        "speaker: Ines, Tom\n\nInes: (2s)\nI go. I stay.\n\nTom:\nShe waits. (pause) No.",
        "I go … She stays: “no?” He waits! (silence) *I* stop.",
    ],
)
def test_what_pauses_depend_on(text: str) -> None:
    for seed in range(30):
        assert_times_agree(analyse(text), Random(seed))
