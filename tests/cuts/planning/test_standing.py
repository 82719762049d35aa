"""What the first plan leaves of a few monologues still stands: see monologues/needs.txt."""

from collections import defaultdict
from pathlib import Path

import pytest

from saywright.analysis import analyse
from saywright.cuts.planning.plans import plan
from saywright.finding import applied

FOLDER = Path(__file__).parent / "monologues"
SAMPLES = Path(__file__).parents[3] / "sample_scripts"


SHARES = (0.9, 0.85, 0.8, 0.75, 0.7, 0.65, 0.6, 0.5)


def needs() -> dict[tuple[str, float], list[tuple[str, str]]]:
    """By the name of a piece and the least share of its time in which they hold."""
    found: dict[tuple[str, float], list[tuple[str, str]]] = defaultdict(list)
    name = "", 0.0
    for line in (FOLDER / "needs.txt").read_text("utf-8").splitlines():
        if " <- " in line:
            late, early = line.split(" <- ")
            found[name].append((late, early))
        elif line and not line.startswith("#"):
            piece, _, least = line.partition(" ")
            name = piece, float(least or 0)
    return found


CASES = [(*key, share) for key in sorted(needs()) for share in SHARES if share >= key[1]]


@pytest.mark.parametrize(("name", "least", "share"), CASES)
def test_what_is_left_stands(name: str, least: float, share: float) -> None:
    own, sample = FOLDER / f"{name}.say", SAMPLES / f"{name}.say"
    text = (own if own.exists() else sample).read_text("utf-8")
    analysis = analyse(text)
    view = analysis.views[0]
    (first,) = plan(analysis, view, view.timeline.seconds * share, 1).plans
    after = analyse(applied(text, first.edits)).views[0].timeline
    stays = {placed.sentence.text: not placed.sentence.cut for placed in after.sentences}

    def stands(opening: str) -> bool:
        (found,) = [stay for line, stay in stays.items() if line.startswith(opening)]
        return found

    assert not [pair for pair in needs()[name, least] if stands(pair[0]) and not stands(pair[1])]
