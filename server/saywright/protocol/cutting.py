"""What is offered of the piece that the cursor is in: plans that fit it into its slot, its cuts
restored or taken out, another version of it; and the kept lines of drafts, gathered.

What a plan costs to find is paid once for a version of the text. Plans are remembered, so that
the cuts of one that was chosen can be restored together: they are found again by their words.
"""

from collections import Counter, deque
from collections.abc import Callable, Iterator, Sequence
from functools import partial
from itertools import islice
from typing import TYPE_CHECKING
from weakref import ref

from saywright.analysis import Analysis
from saywright.checks.check import View
from saywright.cuts.planning.aim import aim_title
from saywright.cuts.restoring import (
    RESTORE_ALL,
    RESTORE_FILE,
    cut_texts,
    restore_all,
    restore_file,
    restore_these,
    texts_cut,
)
from saywright.cuts.taking_out import TITLE as TAKE_OUT
from saywright.cuts.taking_out import take_out
from saywright.cuts.versions import make_version, slots_near, version_title
from saywright.drafting.gathering import gather, new_lines, title
from saywright.drafting.kept_lines import kept_lines
from saywright.finding import Edit, Fix
from saywright.markup.tree import Part
from saywright.protocol.offers import REWRITE, Asked, Note, Offer, Source

if TYPE_CHECKING:
    from saywright.cuts.planning.plans import Plan, Planned

_PLAN = f"{REWRITE}.cut"
_RESTORE = f"{REWRITE}.restore"
_PART = f"{REWRITE}.part"
_GATHER = f"{REWRITE}.gather"

_PLANS = 3
_MOST_SENTENCES = 150  # of more a plan takes too long to be found before it is chosen
_MOST_WORDS = 8_000  # an hour's talk
_MOST_PIECES = 3
_MOST_REMEMBERED = 24
_MOST_ANALYSES = 4
_FLOW_LINES = 3
QUICKLY_GATHERED = 100_000
"""In a script of more code points the kept lines are not counted at every change (4 ms)."""


class Plans:
    """The plans of pieces, each found once for an analysis, and what they would have cut."""

    def __init__(self) -> None:
        self._found: deque[tuple[ref[Analysis], dict[int, Planned]]] = deque(maxlen=_MOST_ANALYSES)
        self._cuts: deque[tuple[str, ...]] = deque(maxlen=_MOST_REMEMBERED)

    def of(self, analysis: Analysis, view: View) -> "Planned":
        """The plans of an overlong piece."""
        # the planner is loaded when it is first asked: a server that starts has no use for it yet
        from saywright.cuts.planning.plans import plan  # noqa: PLC0415

        assert view.aim
        known = next((plans for each, plans in self._found if each() is analysis), None)
        if known is None:
            known = {}
            self._found.append((ref(analysis), known))
        if view.timeline.part.start not in known:
            planned = plan(analysis, view, view.aim.seconds, _PLANS)
            known[view.timeline.part.start] = planned
            for each in planned.plans:
                self._remember(cut_texts(analysis.text, each.edits))
        return known[view.timeline.part.start]

    def made(self, view: View) -> Iterator[tuple[str, ...]]:
        """The cuts of each plan all of whose cuts are in a piece; the latest plan first."""
        there = texts_cut(view)
        for texts in reversed(self._cuts):
            if not Counter(texts) - there:
                yield texts

    def _remember(self, texts: tuple[str, ...]) -> None:
        if texts in self._cuts:
            self._cuts.remove(texts)
        if texts:
            self._cuts.append(texts)


PLANS = Plans()


def is_overlong(view: View) -> bool:
    """Whether a piece runs over, and is not so long that planning would hold everything up."""
    runs_over = view.aim is not None and view.timeline.seconds > view.aim.seconds
    return runs_over and view.timeline.words <= _MOST_WORDS


def plan_title(view: View) -> str:
    """What is offered for an overlong piece as a whole."""
    assert view.aim
    return aim_title(view.aim.slot.high_seconds)


def titled_plans(analysis: Analysis, view: View) -> list[tuple[str, "Plan"]]:
    """The plans for an overlong piece that cut something, each with its title."""
    from saywright.cuts.planning.titles import plan_titles  # noqa: PLC0415

    assert view.aim
    planned = PLANS.of(analysis, view)
    titles = plan_titles(planned, view.aim.slot.high_seconds)
    return [each for each in zip(titles, planned.plans, strict=True) if each[1].cuts]


def plan_note(analysis: Analysis, view: View, each: "Plan") -> Note:
    """What an editor shows of a plan before it is made."""
    from saywright.cuts.planning.titles import told_words  # noqa: PLC0415

    return Note(plan_title(view), told_words(analysis, each))


class _Offered:
    """What was offered last of each part: it is the same wherever in the part the cursor is."""

    def __init__(self, of_part: Callable[[Analysis, Part], Iterator[Offer]]) -> None:
        self._of_part = of_part
        self._analysis: Analysis | None = None
        self._of_parts: dict[int, tuple[Offer, ...]] = {}

    def offers(self, asked: Asked) -> Iterator[Offer]:
        if asked.analysis is not self._analysis:
            self._analysis, self._of_parts = asked.analysis, {}
        parts = asked.analysis.parts
        for number, part in enumerate(parts):
            if part.start <= asked.where.start and (
                asked.where.start < part.end or number + 1 == len(parts)
            ):
                if number not in self._of_parts:
                    self._of_parts[number] = tuple(self._of_part(asked.analysis, part))
                yield from self._of_parts[number]


def _plans_of(analysis: Analysis, part: Part) -> Iterator[Offer]:
    view = _view_of(analysis, part) if part.kind == "piece" else None
    if view and is_overlong(view):
        yield from _planned(analysis, view)


def _best_plan_of(analysis: Analysis, part: Part) -> Iterator[Offer]:
    """The first plan, which is found when it is chosen."""
    view = _view_of(analysis, part) if part.kind == "piece" else None
    if view and is_overlong(view):
        yield Offer(plan_title(view), _PLAN, partial(_of_best_plan, analysis, view))


def _view_of(analysis: Analysis, piece: Part) -> View:
    return next(each for each in analysis.views if each.timeline.part is piece)


def _of_part(analysis: Analysis, part: Part) -> Iterator[Offer]:
    if part.kind == "piece":
        yield from _of_piece(analysis, _view_of(analysis, part))
        yield from _gathering(analysis, [part])
    elif part.kind == "draft":
        pieces = [each for each in analysis.parts if each.kind == "piece"]
        yield from _gathering(analysis, pieces[:_MOST_PIECES] or [None])


def _of_piece(analysis: Analysis, view: View) -> Iterator[Offer]:
    part = view.timeline.part
    if texts_cut(view):
        for texts in PLANS.made(view):
            count = f"{len(texts)} cuts" if len(texts) > 1 else "cut"
            name = f"Restore this plan’s {count}"
            yield Offer(name, _RESTORE, partial(_of_fix, restore_these, name, view, texts))
        yield Offer(RESTORE_ALL, _RESTORE, partial(_of_fix, restore_all, view))
        if sum(bool(texts_cut(each)) for each in analysis.views) > 1:
            yield Offer(RESTORE_FILE, _RESTORE, partial(_of_fix, restore_file, analysis))
        yield Offer(TAKE_OUT, _PART, partial(_of_fix, take_out, analysis, view))
    if view.timeline.words:
        seconds = view.aim.slot.high_seconds if view.aim else view.timeline.seconds
        for slot in slots_near(analysis, seconds):
            edits = partial(_of_fix, make_version, analysis, part, slot)
            yield Offer(version_title(slot), _PART, edits)


def _planned(analysis: Analysis, view: View) -> Iterator[Offer]:
    if _sentences(view) > _MOST_SENTENCES:
        yield Offer(plan_title(view), _PLAN, partial(_of_best_plan, analysis, view))
        return
    plans = titled_plans(analysis, view)
    for name, each in plans:
        note = plan_note(analysis, view, each)
        yield Offer(name, _PLAN, partial(_of_plan, each), note=note)
    if not plans:
        yield Offer(plan_title(view), _PLAN, disabled="No line of it can be cut.")


def _of_plan(each: "Plan") -> Sequence[Edit]:
    return each.edits


def _of_best_plan(analysis: Analysis, view: View) -> Sequence[Edit]:
    plans = PLANS.of(analysis, view).plans
    return plans[0].edits if plans else ()


def _sentences(view: View) -> int:
    part = view.timeline.part
    blocks = islice(view.timeline.blocks.items(part.first_block), part.end_block - part.first_block)
    return sum(len(each.timed.sentences) for each in blocks if each.timed)


def _gathering(analysis: Analysis, pieces: Sequence[Part | None]) -> Iterator[Offer]:
    if analysis.blocks.sum.length > QUICKLY_GATHERED:
        if next(kept_lines(analysis), None):
            edits = partial(_gathered, analysis, pieces[0], flow=False)
            yield Offer("Gather the kept lines", _GATHER, edits)
        return
    for part in pieces:
        count = len(new_lines(analysis, [part] if part else []))
        if not count:
            continue
        name = title(analysis, count, part)
        yield Offer(name, _GATHER, partial(_gathered, analysis, part, flow=False))
        if count >= _FLOW_LINES:
            name = f"{name}, in an order that flows"
            yield Offer(name, _GATHER, partial(_gathered, analysis, part, flow=True))


def _gathered(analysis: Analysis, part: Part | None, *, flow: bool) -> Sequence[Edit]:
    found = gather(analysis, part, flow=flow)
    return found.fix.edits if found else ()


def _of_fix(made: Callable[..., Fix | None], *of: object) -> Sequence[Edit]:
    fix = made(*of)
    return fix.edits if fix else ()


OF_PLANS = Source("plan", (_PLAN,), _Offered(_plans_of).offers, when="asked")
OF_BEST_PLAN = Source("best plan", (_PLAN,), _Offered(_best_plan_of).offers, when="moving")
OF_PIECES = Source("piece", (_RESTORE, _PART, _GATHER), _Offered(_of_part).offers)
