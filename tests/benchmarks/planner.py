"""How long three plans take, for pieces of 60 and of 400 sentences made up at random.

    python -m tests.benchmarks.planner

A piece is read, timed and checked beforehand, as it is in an editor; its aim is two thirds of its
time. Printed are milliseconds of the processor, where a piece is planned for the first time, and
where its sentences were met before, as in most plans that an editor asks for (the least of some
runs of each piece); their ratio to a floor, one pass of a plain word-finding expression over the
same scripts, measured in the same run; then how far the plans may be from the best, each from the
best of those that differ as it must, and how close below the aim they end.
"""

import gc
import re
import time
from collections.abc import Callable, Sequence
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


def told(seconds: Sequence[float]) -> str:
    """Their median, what nine in ten are at most, and the most."""
    in_order = sorted(seconds)
    nine_in_ten, most = in_order[len(in_order) * 9 // 10], in_order[-1]
    return (
        f"median {median(in_order) * 1e3:.0f} ms, nine in ten at most {nine_in_ten * 1e3:.0f} ms, "
        f"all at most {most * 1e3:.0f} ms"
    )


def main() -> None:
    for sentences, pieces, runs in PIECES:
        for_the_first_time, again, floors, found = [], [], [], []
        for seed in range(pieces):
            analysis = analyse(script_of(sentences, Random(seed)))
            assert analysis.reported is not None  # found once, and kept
            gc.collect()
            gc.freeze()  # an editor does not hold so many scripts at once
            run = partial(planned, analysis)
            for_the_first_time.append(least_seconds(run, 1))
            again.append(least_seconds(run, runs))
            floors.append(least_seconds(partial(_WORD.findall, analysis.text), 50))
            found.append(run())
        plans = [each for one in found for each in one.plans]
        shares = [each.seconds / one.aim_seconds for one in found for each in one.plans]
        first = max(one.plans[0].gap for one in found)
        print(f"{sentences} sentences, {pieces} pieces, {len(plans)} plans:")
        print(f"  for the first time: {told(for_the_first_time)}")
        print(f"  again: {told(again)}, {median(again) / median(floors):.0f}x a plain pass")
        print(
            f"  first plans at most {first:.2%} below the bound, others at most "
            f"{max(each.gap for each in plans):.2%}; "
            f"{min(shares):.3f} to {max(shares):.3f} of the aim"
        )


if __name__ == "__main__":
    main()
