"""A comparison of two pieces as text that needs no colour and fits a narrow terminal."""

from collections.abc import Iterator, Sequence
from itertools import groupby

from saywright.commands.wide_text import wrapped
from saywright.comparing.changes import Change, Kind
from saywright.comparing.comparison import Comparison, Side
from saywright.comparing.lines import Line
from saywright.comparing.words import How, WordChange
from saywright.markup.tree import SPAN_MARKS
from saywright.speech.slot import clock, told_between, told_seconds

NARROWEST, _WIDEST = 40, 80
_TIMES = 14  # columns of the two times before each line
_TEXT, _NARROW_TEXT = 14, 6
_ENOUGH = 60
_NOWHERE = "–"

WORDS: dict[Kind, str] = {
    "unchanged": "as before",
    "cut": "cut",
    "restored": "restored",
    "trimmed": "trimmed",
    "partly restored": "partly restored",
    "added": "added",
    "taken out": "taken out",
    "reworded": "reworded",
    "split": "split in two",
    "joined": "joined",
    "punctuation": "punctuation",
    "moved": "moved",
    "kept": "now kept",
    "released": "no longer kept",
    "silences": "silence",
}
"""The kinds as they are told."""

_TOLD_ONCE: tuple[Kind, ...] = (
    "cut",
    "restored",
    "trimmed",
    "moved",
    "kept",
    "released",
    "silences",
)


def told_comparison(names: tuple[str, str], comparison: Comparison, columns: int) -> list[str]:
    """The lines to print, `columns` wide at most; `names` are those of the two versions."""
    width = min(max(columns, NARROWEST), _WIDEST)
    lines: list[str] = []
    for word, name, side in (
        ("before", names[0], comparison.before),
        ("now", names[1], comparison.after),
    ):
        lines += wrapped(f"{name}: {_standing(side)}", width, f"{word:<8}", " " * 8)
    if all(change.kind == "unchanged" for change in comparison.changes):
        lines += ["", "Every line is as it was."]
        return [*lines, *_totals(comparison, width)] if round(comparison.seconds, 1) else lines
    return [
        *lines,
        "",
        "before    now",
        *_table(comparison, width),
        "",
        *_totals(comparison, width),
    ]


def _standing(side: Side) -> str:
    aim = side.view.aim
    runs = f"runs {clock(side.seconds)}"
    if aim is None:
        return runs
    inside = told_seconds(aim.seconds)
    if side.seconds > aim.seconds:
        return f"{runs}, {told_between(aim.seconds, side.seconds)} over {inside}"
    return f"{runs}, inside {inside}"


def _table(comparison: Comparison, width: int) -> Iterator[str]:
    for unchanged, group in groupby(comparison.changes, lambda each: each.kind == "unchanged"):
        found = list(group)
        if unchanged:
            heard = [change for change in found if any(line.heard for line in change.before)]
            told = _as_before(len(heard), len(found) - len(heard))
            yield from wrapped(told, width, _times((heard or found)[0]), " " * _TIMES)
        else:
            for change in found:
                yield from wrapped(_what(change), width, _times(change), " " * _TIMES)
                yield from _texts(change, width)


def _as_before(heard: int, cut: int) -> str:
    if not heard:
        return f"cut as before: {_lines(cut)}"
    return f"as before: {_lines(heard)}" + (f", and {cut} cut" if cut else "")


def _lines(count: int) -> str:
    return f"{count} line{'s' * (count != 1)}"


def _times(change: Change) -> str:
    return f"{_time(change.before):>6}  {_time(change.after):>5} ".ljust(_TIMES)


def _time(lines: Sequence[Line]) -> str:
    heard = [line.first_seconds for line in lines if line.heard]
    return clock(heard[0]) if heard else _NOWHERE


def _what(change: Change) -> str:
    kinds: tuple[Kind, ...] = (change.kind, *change.also)
    told = [WORDS[kind] for kind in kinds]
    if "silences" in kinds:
        told[kinds.index("silences")] = _silence(change)
    if round(change.seconds, 1):
        told.append(_signed(change.seconds))
    return ", ".join(told)


def _silence(change: Change) -> str:
    was, now = (
        sum(sum(line.silences) for line in lines) for lines in (change.before, change.after)
    )
    if not was or not now:
        return f"silence {_seconds(was or now)} {'added' if now else 'gone'}"
    return f"silence {_seconds(was)}, now {_seconds(now)}"


def _seconds(seconds: float) -> str:
    return f"{seconds:.1f}\N{NO-BREAK SPACE}s"


def _signed(seconds: float) -> str:
    return f"{'−' if seconds < 0 else '+'}{_seconds(abs(seconds))}"


def _texts(change: Change, width: int) -> Iterator[str]:
    indent = " " * (_TEXT if width >= _ENOUGH else _NARROW_TEXT)
    after = shown(change.after, change.words, "new")
    before = shown(change.before, change.words, "gone")
    if not after or not before or {change.kind, *change.also} <= set(_TOLD_ONCE):
        yield from wrapped(after or before, width, indent, indent)
    else:
        yield from wrapped(before, width, f"{indent}was: ", f"{indent}     ")
        yield from wrapped(after, width, f"{indent}now: ", f"{indent}     ")


def shown(lines: Sequence[Line], words: Sequence[WordChange], how: How) -> str:
    """The sentences with their cut words between the marks of a cut, save where all are cut, and
    the words that are gone or new in square brackets."""
    shown: list[str] = []
    for number, line in enumerate(lines):
        marks: list[tuple[int, str]] = []
        for run in _cut_runs(line) if line.heard else ():
            marks += [(at, SPAN_MARKS["cut"]) for at in run]
        for word in words:
            if word.how == how and word.line == number:
                marks += [(word.plain.start, "["), (word.plain.end, "]")]
        text = line.text
        for at, mark in sorted(marks, reverse=True):
            text = f"{text[:at]}{mark}{text[at:]}"
        shown.append(text)
    return " ".join(shown)


def _cut_runs(line: Line) -> Iterator[tuple[int, int]]:
    for cut, run in groupby(line.tokens, lambda token: token.cut):
        tokens = list(run)
        if cut:
            yield tokens[0].start, tokens[-1].end


def _totals(comparison: Comparison, width: int) -> Iterator[str]:
    around = comparison.opening_seconds
    for kind, total in comparison.totals.items():
        if kind == "unchanged":
            around += total.seconds
            continue
        yield _row(f"{WORDS[kind]}: {_lines(total.lines)}", total.seconds, width)
    if round(around, 1):
        yield _row("the lines as before, with the pauses at the seams", around, width)
    yield _row("together", comparison.seconds, width)


def _row(text: str, seconds: float, width: int) -> str:
    figure = _signed(seconds).replace("\N{NO-BREAK SPACE}", " ") if round(seconds, 1) else "0.0 s"
    *lines, last = wrapped(text, width - 12, rest="  ")
    return "\n".join([*lines, f"{last:<{min(width, _ENOUGH) - 12}}{figure:>12}"])
