"""How long three plans take, for pieces of 60 and of 400 sentences made up at random.

    python -m tests.benchmarks.planner

A piece is read, timed and checked beforehand, as it is in an editor; its aim is two thirds of its
time. Printed are milliseconds of the processor (the least of some runs of each piece) and their
ratio to a floor, one pass of a plain word-finding expression over the same scripts, measured in the
same run; then how far the plans may be from the best, each from the best of those that differ as
it must, and how close below the aim they end.
"""

import re
import time
from collections.abc import Callable
from functools import partial
from random import Random
from statistics import median

from saywright.analysis import Analysis, analyse
from saywright.cuts.planning.plans import Planned, plan
from tests.cuts.planning.random_pieces import script_of

PIECES = ((60, 200, 4), (100, 20, 3), (400, 10, 2))
_WORD = re.compile(r"[^\W_]+")


def least_seconds(run: Callable[[], object], runs: int) -> float:
    least = float("inf")
    for _ in range(runs):
        started = time.process_time()
        run()
        least = min(least, time.process_time() - started)
    return least


def planned(analysis: Analysis) -> Planned:
    view = analysis.views[0]
    return plan(analysis, view, view.timeline.seconds / 1.5)


def main() -> None:
    for sentences, pieces, runs in PIECES:
        analyses = [analyse(script_of(sentences, Random(seed))) for seed in range(pieces)]
        seconds = []
        floors = []
        for analysis in analyses:
            assert analysis.reported is not None  # found once, and kept
            seconds.append(least_seconds(partial(planned, analysis), runs))
            floors.append(least_seconds(partial(_WORD.findall, analysis.text), 50))
        found = [planned(analysis) for analysis in analyses]
        plans = [each for one in found for each in one.plans]
        shares = [each.seconds / one.aim_seconds for one in found for each in one.plans]
        first = max(one.plans[0].gap for one in found)
        print(
            f"{sentences} sentences, {pieces} pieces, {len(plans)} plans: "
            f"median {median(seconds) * 1e3:.0f} ms, nine in ten at most "
            f"{sorted(seconds)[len(seconds) * 9 // 10] * 1e3:.0f} ms, "
            f"all at most {max(seconds) * 1e3:.0f} ms, "
            f"{median(seconds) / median(floors):.0f}x a plain pass; first plans at most "
            f"{first:.2%} below the bound, others at most "
            f"{max(each.gap for each in plans):.2%}; "
            f"{min(shares):.3f} to {max(shares):.3f} of the aim"
        )


if __name__ == "__main__":
    main()
