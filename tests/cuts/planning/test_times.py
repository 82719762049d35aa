"""The time of a plan is that of the script with the plan's marks in it."""

from collections.abc import Iterator
from itertools import groupby
from pathlib import Path
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saywright.analysis import Analysis, analyse
from saywright.checks.check import View
from saywright.cuts.marking import cut_together
from saywright.cuts.planning.piece import Piece, SpokenLine
from saywright.cuts.planning.problem import Kept
from saywright.cuts.planning.reading import piece_of
from saywright.cuts.planning.trimmed import with_trims
from saywright.files import nearest_project, read_script
from saywright.finding import Edit, applied
from saywright.speech.voice import voice_of
from tests.cuts.planning.random_pieces import script_of
from tests.strategies import scripts

SAMPLES = sorted((Path(__file__).parents[3] / "sample_scripts").glob("*.say"))
NEAR_SECONDS = 0.001  # 0.05 would do
TRIMS = """\
Well, you know, I weighed the salt, which my father had bought from the mainland in the spring.
My sister, a quiet woman with red hands, kept the lamp — I suppose — all winter.
I rowed home (beat).
You know, the ferry, the old one, was late again, I think, because of the fog.
But the inspector, who never once smiled, wrote it down: two kilos.
So, honestly, she left. She left a long, dark, empty room, you know, after that.
"""


def test_there_are_lines_with_several_trims() -> None:
    _, _, piece = next(pieces(analyse(TRIMS)))
    assert sum(bool(line.trims) for line in piece.lines) >= 2
    assert max(len(line.trims) for line in piece.lines) >= 2


def pieces(analysis: Analysis) -> Iterator[tuple[int, View, Piece]]:
    for number, view in enumerate(analysis.views):
        voice = voice_of(view.timeline.part.settings, analysis.project, view.timeline.calibration)
        yield number, view, with_trims(piece_of(view.timeline, voice))


def edits(piece: Piece, kept: Kept) -> list[Edit] | None:
    """The marks that cut and trim; None where they would not be read."""
    changed = [each for each in zip(piece.lines, kept, strict=True) if each[1] != 1]
    found: list[Edit] = []
    for at, group in groupby(changed, key=lambda each: each[0].at):
        own = list(group)
        places = [line.trims[stays - 2].places if stays else line.places for line, stays in own]
        fix = cut_together(own[0][0].paragraph, [each for each in places if each])
        if fix is None:
            return None
        found += fix.shifted(at).edits
    return found


def assert_times_agree(analysis: Analysis, random: Random) -> None:
    for number, view, piece in pieces(analysis):
        assert piece.seconds == pytest.approx(view.timeline.seconds, abs=1e-6)
        kept = [_chosen(line, random) for line in piece.lines]
        marks = edits(piece, kept)
        if marks is None:
            continue
        after = analyse(applied(analysis.text, marks), analysis.project).views[number].timeline
        if after.calibration.scale == view.timeline.calibration.scale:  # no take came to another
            assert piece.seconds_of(kept) == pytest.approx(after.seconds, abs=NEAR_SECONDS)


def _chosen(line: SpokenLine, random: Random) -> int:
    if line.places is None:
        return 1
    return random.randrange(len(line.trims) + 2)


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
        TRIMS,
        TRIMS.replace(". ", "."),
        TRIMS.replace("\n", " || "),
        f"form: verse\n\n{TRIMS}",
    ],
)
def test_what_pauses_depend_on(text: str) -> None:
    for seed in range(30):
        assert_times_agree(analyse(text), Random(seed))
