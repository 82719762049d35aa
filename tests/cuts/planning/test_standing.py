"""What the first plan leaves of a few monologues still stands: see monologues/needs.txt."""

from collections import defaultdict
from pathlib import Path

import pytest

from saywright.analysis import analyse
from saywright.cuts.planning.plans import plan
from saywright.finding import applied

FOLDER = Path(__file__).parent / "monologues"
SAMPLES = Path(__file__).parents[3] / "sample_scripts"


def needs() -> dict[str, list[tuple[str, str]]]:
    found: dict[str, list[tuple[str, str]]] = defaultdict(list)
    name = ""
    for line in (FOLDER / "needs.txt").read_text("utf-8").splitlines():
        if " <- " in line:
            late, early = line.split(" <- ")
            found[name].append((late, early))
        elif line and not line.startswith("#"):
            name = line
    return found


@pytest.mark.parametrize("share", [0.9, 0.85, 0.8, 0.75, 0.7, 0.65, 0.6, 0.5])
@pytest.mark.parametrize("name", sorted(needs()))
def test_what_is_left_stands(name: str, share: float) -> None:
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

    assert not [pair for pair in needs()[name] if stands(pair[0]) and not stands(pair[1])]
