"""Edits that take the marks of many cuts off at once: of a piece, of a script, of a plan."""

import re
from bisect import bisect_right
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from itertools import islice

from saywright.analysis import Analysis
from saywright.checks.check import View
from saywright.cuts.marking import Around, around, stays_speech
from saywright.finding import Edit, Fix, applied
from saywright.markup.lines import line_ranges
from saywright.markup.mark_problems import marks_off
from saywright.markup.paragraphs import read_paragraph
from saywright.markup.reader import split_lines
from saywright.markup.tree import Paragraph, Span

RESTORE_ALL = "Restore all cuts in this piece"
RESTORE_FILE = "Restore all cuts in this script"

_BLANKS = re.compile(r"\s+")
_MARKS = re.compile(r"~~")
_MOST_ONE_BY_ONE = 20


def restore_all(view: View) -> Fix | None:
    """Takes the marks of all cuts of a part off. None where nothing is cut."""
    return _fix(RESTORE_ALL, _edits(view, None))


def restore_file(analysis: Analysis) -> Fix | None:
    """The same for every piece and draft of a script."""
    edits = [edit for view in analysis.views for edit in _edits(view, None)]
    return _fix(RESTORE_FILE, edits)


def restore_these(title: str, view: View, texts: Sequence[str]) -> Fix | None:
    """Takes off the marks of the cuts that hold `texts`, as `cut_texts` tells them, so many of
    each. None where one of them is not found, or cannot be restored by itself."""
    wanted = Counter(texts)
    edits = list(_edits(view, wanted))
    return None if wanted.total() else _fix(title, edits)


def cut_texts(text: str, edits: Sequence[Edit]) -> tuple[str, ...]:
    """What the marks that `edits` put into `text` will hold, blanks and marks of cuts aside."""
    marks = [edit for edit in sorted(edits) if edit.text == "~~"]
    pairs = zip(marks[::2], marks[1::2], strict=False)
    return tuple(_said(text[opening.start : closing.start]) for opening, closing in pairs)


def texts_cut(view: View) -> Counter[str]:
    """What the cuts of a part hold, told likewise, and how often."""
    part = view.timeline.part
    blocks = islice(view.timeline.blocks.items(part.first_block), part.end_block - part.first_block)
    return Counter(
        _said(_inner(each.block, span))
        for each in blocks
        if isinstance(each.block, Paragraph)
        for span in each.block.spans
        if span.kind == "cut"
    )


def _fix(title: str, edits: Iterable[Edit]) -> Fix | None:
    made = tuple(edits)
    return Fix(title, made) if made else None


def _edits(view: View, wanted: Counter[str] | None) -> Iterator[Edit]:
    """The edits for all cuts of a part, or for those that are `wanted`, which loses them."""
    for placed in view.timeline.paragraphs():
        paragraph = placed.timed.paragraph
        spans = [span for span in paragraph.spans if span.kind == "cut"]
        if wanted is not None:
            spans = [span for span in spans if _takes(wanted, _said(_inner(paragraph, span)))]
        if spans:
            context = around(view.timeline.part, placed)
            edits, left = _marks_off(paragraph, spans, context)
            yield from (edit.shifted(placed.start) for edit in edits)
            if wanted is not None:
                wanted.update(_said(_inner(paragraph, span)) for span in left)


def _marks_off(
    paragraph: Paragraph, spans: Sequence[Span], context: Around
) -> tuple[Sequence[Edit], Sequence[Span]]:
    """The edits for all spans at once; where the text would then be read otherwise, for as many
    as can go, and those that cannot."""
    edits = _all_off(spans)
    if _reads_the_same(paragraph, edits, context):
        return edits, ()
    free = _on_good_lines(paragraph, spans, context)
    if free and _reads_the_same(paragraph, _all_off(free), context):
        return _all_off(free), [span for span in spans if span not in free]
    edits, left = [], []
    for index, span in enumerate(spans):
        more = sorted((*edits, *marks_off(span)))
        if index < _MOST_ONE_BY_ONE and _reads_the_same(paragraph, more, context):
            edits = more
        else:
            left.append(span)
    return edits, left


def _all_off(spans: Iterable[Span]) -> list[Edit]:
    return sorted(edit for span in spans for edit in marks_off(span))


def _on_good_lines(paragraph: Paragraph, spans: Sequence[Span], context: Around) -> list[Span]:
    """Those of the spans that let loose no line which would be read as anything but speech."""
    ends = [end for _, end in line_ranges(paragraph.text)]
    after = split_lines(applied(paragraph.text, _all_off(spans)))
    bad = {
        number
        for number, (old, new) in enumerate(zip(split_lines(paragraph.text), after, strict=True))
        if not stays_speech(
            old, new, context._replace(opens_file=context.opens_file and not number)
        )
    }
    return [
        span
        for span in spans
        if not bad & {bisect_right(ends, span.start), bisect_right(ends, span.inner.end)}
    ]


def _reads_the_same(paragraph: Paragraph, edits: Sequence[Edit], context: Around) -> bool:
    text = applied(paragraph.text, edits)
    return read_paragraph(text).plain == paragraph.plain and stays_speech(
        paragraph.text, text, context
    )


def _takes(wanted: Counter[str], text: str) -> bool:
    if not wanted[text]:
        return False
    wanted[text] -= 1
    return True


def _inner(paragraph: Paragraph, span: Span) -> str:
    return paragraph.text[span.inner.start : span.inner.end]


def _said(text: str) -> str:
    return _BLANKS.sub(" ", _MARKS.sub("", text)).strip()
