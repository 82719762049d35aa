"""One paragraph's text → its spoken words and its marks."""

import re
from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from saywright.finding import Finding
from saywright.markup.cues import cue_problems
from saywright.markup.lines import is_nearly_rule, is_note, is_rule_like, line_ranges
from saywright.markup.mark_problems import mark_problems
from saywright.markup.marks import Marks, read_marks
from saywright.markup.rule_problems import spoken_rule
from saywright.markup.silences import read_direction
from saywright.markup.tree import Direction, Paragraph, Range, Run, SpanKind

_LINE_END = re.compile(r"\r?\n\Z")
_BYTE_ORDER_MARK = "\ufeff"


def read_paragraph(text: str, speakers: tuple[str, ...] = ()) -> Paragraph:
    """`text`: whole lines of speech and notes, at least one of them speech."""
    lines = line_ranges(text)
    notes = tuple(line for line in lines if is_note(text[line.start : line.end]))
    noted = set(notes)
    speech = [line for line in lines if line not in noted]
    marks = read_marks(text, speech)
    runs, plain = _spoken(text, speech, marks)
    paragraph = Paragraph(
        text=text,
        problems=tuple(sorted(_problems(text, speech, marks, speakers))),
        plain=plain,
        runs=runs,
        spans=tuple(marks.spans),
        directions=tuple(_direction(text, where) for where in marks.directions),
        breaths=tuple(marks.breaths),
        notes=notes,
        breaks=tuple(run.plain for run in runs if text[run.source] in "\r\n"),
    )
    keeps = _spoken_ranges(paragraph, "keep")
    return replace(
        paragraph,
        cuts=tuple(_without(_spoken_ranges(paragraph, "cut"), keeps)),
        keeps=keeps,
        stresses=_spoken_ranges(paragraph, "stress"),
    )


def _problems(
    text: str, speech: Sequence[Range], marks: Marks, speakers: tuple[str, ...]
) -> Iterator[Finding]:
    yield from mark_problems(text, marks)
    yield from line_problems(text, speech, speakers)


def line_problems(
    text: str, speech: Sequence[Range], speakers: tuple[str, ...]
) -> Iterator[Finding]:
    """Lines of speech that look as if something else had been meant."""
    yield from cue_problems(text, speech, speakers)
    for start, end in speech:
        if is_rule_like(text[start:end]) or is_nearly_rule(text[start:end]):
            yield spoken_rule(text[start:end], start)


def _direction(text: str, where: Range) -> Direction:
    said = read_direction(text[where.start + 1 : where.end - 1])
    return Direction(*where, said.silence, said.bare)


def _spoken(text: str, speech: Sequence[Range], marks: Marks) -> tuple[tuple[Run, ...], str]:
    """The runs of speech between the marks, and the spoken text that they make."""
    runs: list[Run] = []
    plain: list[str] = []
    length = 0
    for start, end, is_break in _between_marks(text, speech, _mark_ranges(text, marks)):
        runs.append(Run(length, start, end))
        plain.append(" " if is_break else text[start:end])
        length += 1 if is_break else end - start
    return tuple(runs), "".join(plain)


def _mark_ranges(text: str, marks: Marks) -> list[Range]:
    ranges = [Range(escape, escape + 1) for escape in marks.escapes]
    ranges += marks.directions
    ranges += (Range(breath.start, breath.end) for breath in marks.breaths)
    for span in marks.spans:
        ranges += (Range(span.start, span.inner.start), Range(span.inner.end, span.end))
    if text.startswith(_BYTE_ORDER_MARK):
        ranges.append(Range(0, 1))
    return sorted(ranges)


def _between_marks(
    text: str, speech: Sequence[Range], marks: Sequence[Range]
) -> Iterator[tuple[int, int, bool]]:
    """Each stretch of speech as (start, end, whether it is a line break)."""
    following = iter(marks)
    mark = next(following, None)
    at = 0
    for line in speech:
        at = max(at, line.start)
        line_end = _LINE_END.search(text, max(line.end - 2, line.start), line.end)
        body_end = line_end.start() if line_end else line.end
        while mark and mark.start < body_end:
            if mark.start > at:
                yield at, mark.start, False
            at = max(at, mark.end)
            mark = next(following, None)
        if at < body_end:
            yield at, body_end, False
        if line_end and at <= body_end and line != speech[-1]:
            yield body_end, line.end, True


def _spoken_ranges(paragraph: Paragraph, kind: SpanKind) -> tuple[Range, ...]:
    """The stretches of the spoken text inside spans of `kind`, joined where they meet."""
    ranges: list[Range] = []
    for span in paragraph.spans:
        if span.kind != kind:
            continue
        start, end = (paragraph.plain_of(edge) for edge in span.inner)
        if ranges and start <= ranges[-1].end:
            ranges[-1] = Range(ranges[-1].start, max(end, ranges[-1].end))
        elif start < end:
            ranges.append(Range(start, end))
    return tuple(ranges)


def _without(ranges: Iterable[Range], holes: Sequence[Range]) -> Iterator[Range]:
    for start, end in ranges:
        at = start
        first = bisect_left(holes, start, key=lambda hole: hole.end)
        for index in range(first, len(holes)):
            hole = holes[index]
            if hole.start >= end:
                break
            if hole.start > at:
                yield Range(at, hole.start)
            at = max(at, hole.end)
        if at < end:
            yield Range(at, end)
