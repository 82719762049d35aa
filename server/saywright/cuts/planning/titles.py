"""What a plan is called where it is chosen, and what it would cut, in a line."""

from collections.abc import Sequence

from saywright.analysis import Analysis
from saywright.cuts.planning.aim import aim_title
from saywright.cuts.planning.plans import Cut, Plan, Planned
from saywright.cuts.trimming import shortened, veiled
from saywright.speech.slot import clock

_MOST_QUOTED = 4


def plan_titles(planned: Planned, seconds: float) -> list[str]:
    """A title for each plan for a piece that may run for `seconds`, no two the same."""
    titles: list[str] = []
    for plan in planned.plans:
        over = " at best" if planned.kept_seconds is not None else ""
        title = f"{aim_title(seconds)}: {clock(plan.seconds)}{over}, {told_cuts(plan.cuts)}"
        same = sum(each.startswith(title) for each in titles)
        titles.append(f"{title} (plan {len(titles) + 1})" if same else title)
    return titles


def told_cuts(cuts: Sequence[Cut]) -> str:
    trims = sum(cut.trim for cut in cuts)
    lines = len(cuts) - trims
    told = [f"cuts {lines} line{'s' * (lines != 1)}"] if lines else []
    told += [f"trims {trims}"] if trims else []
    return " and ".join(told)


def told_words(analysis: Analysis, plan: Plan) -> str:
    """What a plan would cut, in the first words of its lines, without names that are private."""
    quoted = [
        f"“{shortened(veiled(' '.join(cut.text.split()), analysis))}”"
        for cut in plan.cuts[:_MOST_QUOTED]
    ]
    more = len(plan.cuts) - len(quoted)
    return ", ".join(quoted) + (f" and {more} more" if more else "")
