"""What is wrong with a paragraph's marks, and how to mend it."""

from bisect import bisect_right
from collections.abc import Iterable, Iterator

from saywright.finding import Edit, Finding, Fix
from saywright.markup.marks import Marks, Open
from saywright.markup.silences import read_direction, turned_silence, uncounted_time
from saywright.markup.tree import Range, Span


def mark_problems(text: str, marks: Marks) -> Iterator[Finding]:
    yield from (_left_open(text, mark) for mark in marks.open)
    yield from _kept_and_cut(marks.spans)
    yield from _unclear_times(text, marks.directions)


def _left_open(text: str, mark: Open) -> Finding:
    written = text[mark.start : mark.end]
    if mark.opening:
        closing = ")" if written == "(" else written
        message = (
            f"Nothing closes this {written} before the paragraph ends, so it is spoken. "
            f"Add {closing} where it should end, or take this one out."
        )
    else:
        message = (
            f"Nothing before this {written} opens it, so it is spoken. "
            f"Add {written} where it should begin, or take this one out."
        )
    escaped = "".join(f"\\{character}" for character in written)
    fixes = (
        Fix(f"Take {written} out", (Edit(mark.start, mark.end, ""),)),
        Fix(f"Mean it as plain text: {escaped}", (Edit(mark.start, mark.end, escaped),)),
    )
    return Finding("open-mark", mark.start, mark.end, message, fixes)


def _kept_and_cut(spans: Iterable[Span]) -> Iterator[Finding]:
    keeps: list[Span] = []  # the outermost ones, so in order and apart
    cuts: list[Span] = []
    for span in spans:
        if span.kind == "cut":
            cuts.append(span)
        elif span.kind == "keep" and (not keeps or span.start >= keeps[-1].end):
            keeps.append(span)
    for cut in cuts:
        index = bisect_right(keeps, cut.start, key=lambda keep: keep.end)
        if index < len(keeps) and keeps[index].start < cut.end:
            yield _clash(cut, keeps[index])


def _clash(cut: Span, keep: Span) -> Finding:
    return Finding(
        "kept-and-cut",
        cut.start,
        cut.end,
        "Some of these words are both kept and cut. What is kept stays: the cut stops there.",
        (
            Fix("Keep them: take the cut's marks off", marks_off(cut)),
            Fix("Cut them: take the keep's marks off", marks_off(keep)),
        ),
    )


def marks_off(span: Span) -> tuple[Edit, ...]:
    """The edits that take a span's two marks out and leave its words."""
    return (Edit(span.start, span.inner.start, ""), Edit(span.inner.end, span.end, ""))


def _unclear_times(text: str, directions: Iterable[Range]) -> Iterator[Finding]:
    for start, end in directions:
        words = text[start + 1 : end - 1]
        if meant := turned_silence(words) or uncounted_time(words):
            yield Finding(
                "duration",
                start,
                end,
                "A time counts after a comma, or right after a silence. This one does not: write "
                f"({meant}).",
                (Fix(f"Write ({meant})", (Edit(start + 1, end - 1, meant),)),),
            )
        if where := read_direction(words).unitless:
            first, last = start + 1 + where[0], start + 1 + where[1]
            number = text[first:last]
            yield Finding(
                "duration",
                first,
                last,
                f"{number} of what? A time needs its unit, as in {number}s or {number} min.",
                (Fix(f"Write {number}s", (Edit(last, last, "s"),)),),
            )
