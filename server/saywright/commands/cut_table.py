"""Plans for a cut side by side, as text that needs no colour and fits a narrow terminal."""

import math
import re
import textwrap
from bisect import bisect_right
from collections.abc import Iterator, Sequence

from saywright.analysis import Analysis
from saywright.checks.check import View
from saywright.cuts.planning.plans import Cut, Plan, Planned
from saywright.cuts.trimming import veiled
from saywright.markup.tree import Paragraph, Range
from saywright.speech.paragraph_words import inside
from saywright.speech.slot import clock, told_between, told_seconds
from saywright.speech.timing import Sentence

_NARROWEST, _WIDEST = 40, 80
_COLUMN = 5
_CLOSING = frozenset(",.;:!?")
_FIGURE = re.compile(r"(?<=\d) s\b")  # a figure and its unit stay on one line


def told_plans(
    name: str, analysis: Analysis, view: View, planned: Planned, columns: int
) -> list[str]:
    """The lines to print about the plans for a piece, `columns` wide at most; only the sentences
    are wider than is good to read."""
    width = min(max(columns, _NARROWEST), _WIDEST)
    label = view.timeline.part.label
    title = f"{name}, {label}" if label else name
    lines = _wrapped(f"{title}: {_standing(planned)}", width)
    if any(plan.cuts for plan in planned.plans):
        lines += ["", *_table(planned.plans, _Texts(analysis, view), width, max(columns, width))]
        lines += ["", *_wrapped("--apply N marks the cuts of a plan, --plan N shows them.", width)]
    return lines


def _standing(planned: Planned) -> str:
    runs, aim = clock(planned.seconds), told_seconds(planned.aim_seconds)
    if planned.is_inside:
        return f"it runs {runs} and so is inside {aim}. There is nothing to cut."
    if clock(planned.aim_seconds) == runs:  # over by less than whole seconds can show
        runs, aim = _told_apart(planned.seconds, planned.aim_seconds)
    standing = f"it runs {runs} and should be inside {aim}."
    if planned.kept_seconds is not None:
        return f"{standing} {_what_stays(planned, planned.kept_seconds)}"
    return standing if planned.plans else f"{standing} No line of it is short enough."


def _told_apart(seconds: float, aim_seconds: float) -> tuple[str, str]:
    """Both in tenths of a second, or hundredths where they would read alike."""
    for digits in (1, 2):
        parts = 10.0**digits
        runs, aim = math.ceil(seconds * parts) / parts, round(aim_seconds, digits)
        if runs > aim:
            break
    return f"{runs:.{digits}f} s", f"{aim:.{digits}f} s"


def _what_stays(planned: Planned, seconds: float) -> str:
    over = told_between(planned.aim_seconds, seconds)
    what = "The lines that cannot go" if planned.unmarkable else "The kept lines"
    told = f"{what} alone run {clock(seconds)}, {over} too long. "
    if planned.unmarkable:
        told += "Some of them cannot be marked: a mark near them is left open. "
    return told + ("This plan comes nearest." if planned.plans[0].cuts else "Nothing else can go.")


def _table(plans: Sequence[Plan], texts: "_Texts", width: int, columns: int) -> Iterator[str]:
    """A line for each sentence that a plan cuts, a column for each plan, and under it why."""
    indent = _COLUMN * len(plans) + 2
    yield _row("plan", [str(number) for number in range(1, len(plans) + 1)])
    yield _row("cuts", [str(len(each.cuts)) for each in plans])
    yield _row("runs", [clock(each.seconds) for each in plans])
    by_place = {(cut.places, cut.trim): cut for each in reversed(plans) for cut in each.cuts}
    for (places, _), cut in sorted(by_place.items()):
        cuts = [any(each.places == places for each in plan.cuts) for plan in plans]
        yield ""
        yield _row(
            _shortened(texts.of(cut), columns - indent), ["x" if each else "·" for each in cuts]
        )
        reasons = _reasons(plans, cut)
        yield from _wrapped(f"{reasons} ({_lost(cut)})", width, " " * (indent + 2))


def _reasons(plans: Sequence[Plan], cut: Cut) -> str:
    """Why it goes: of each plan that cuts it what holds there, once where that is the same."""
    numbers: dict[str, list[str]] = {}
    for number, plan in enumerate(plans, 1):
        for each in plan.cuts:
            if (each.places, each.trim) == (cut.places, cut.trim):
                numbers.setdefault(each.why, []).append(str(number))
    if len(numbers) == 1:
        return cut.why
    return "; ".join(f"{' and '.join(own)}: {why}" for why, own in numbers.items())


def _lost(cut: Cut) -> str:
    """The seconds by which the piece is shorter without it, and what of them was silence."""
    if round(cut.silence_seconds, 1) <= 0:
        return f"{cut.seconds:.1f} s"
    return f"{cut.seconds:.1f} s with {cut.silence_seconds:.1f} s of silence"


def _row(text: str, values: Sequence[str]) -> str:
    return "".join(f"{value:>{_COLUMN}}" for value in values) + f"  {text}"


class _Texts:
    """What is shown of what is cut."""

    def __init__(self, analysis: Analysis, view: View) -> None:
        self._analysis = analysis
        self._verse = view.timeline.part.settings.form == "verse"
        self._ends: list[int] = []
        self._sentences: list[tuple[Paragraph, Sentence]] = []
        for start, timed, *_ in view.timeline.paragraphs():
            self._ends += (start + sentence.end for sentence in timed.sentences)
            self._sentences += ((timed.paragraph, sentence) for sentence in timed.sentences)

    def of(self, cut: Cut) -> str:
        """Its words; of a whole sentence the ends of its verse lines too."""
        if cut.trim:
            return f"… {cut.text}"
        index = bisect_right(self._ends, cut.places[0][0])
        if index < len(self._sentences):
            paragraph, sentence = self._sentences[index]
            if veiled(sentence.text, self._analysis) == cut.text:
                return veiled(_as_written(paragraph, sentence.plain, self._verse), self._analysis)
        return cut.text


def _as_written(paragraph: Paragraph, where: Range, verse: bool) -> str:
    """What is spoken there, with no blank where a mark was before a comma or a stop, and a stroke
    at the ends of verse lines."""
    plain, offsets = paragraph.plain, range(*where)
    breaks = set(paragraph.breaks) if verse else set()
    marked = {run.plain for run in paragraph.runs}
    shown = [
        " / " if at in breaks else plain[at]
        for at, cut in zip(offsets, inside(paragraph.cuts, offsets), strict=True)
        if not cut and not (plain[at] == " " and at + 1 in marked and plain[at + 1] in _CLOSING)
    ]
    return "".join(shown).strip(" /")


def _shortened(text: str, width: int) -> str:
    return textwrap.shorten(text, max(width, 12), placeholder=" …")


def _wrapped(text: str, width: int, indent: str = "") -> list[str]:
    lines = textwrap.wrap(
        _FIGURE.sub("\N{NO-BREAK SPACE}s", text),
        width,
        initial_indent=indent,
        subsequent_indent=indent,
        break_on_hyphens=False,
    )
    return [line.replace("\N{NO-BREAK SPACE}", " ") for line in lines]
