"""Where a sentence stands in the source, with the marks that belong wholly to it."""

from collections.abc import Iterator, Sequence

from saywright.markup.tree import Paragraph, Range


def source_extents(paragraph: Paragraph, sentences: Sequence[Range]) -> Iterator[Range]:
    """For each range of the spoken text, the source from its first character to its last.

    Marks that touch an end are taken in where their partner is inside too, and a backslash with
    the character that it makes plain: what stands between the ends reads the same by itself.
    """
    if len(paragraph.runs) == 1 and not paragraph.spans and "\\" not in paragraph.text:
        shift = paragraph.runs[0].source - paragraph.runs[0].plain
        yield from (Range(start + shift, end + shift) for start, end in sentences)
        return
    opening = {span.inner.start: span for span in paragraph.spans}
    closing = {span.inner.end: span for span in paragraph.spans}
    for sentence in sentences:
        start, end = paragraph.source_range(*sentence)
        grown = True
        while grown:
            grown = False
            if start and paragraph.text[start - 1] == "\\" and _is_escape(paragraph, start - 1):
                start, grown = start - 1, True
            before, after = opening.get(start), closing.get(end)
            if before and before.inner.end <= end:
                start, grown = before.start, True
                end = max(end, before.end)
            elif after and after.start >= start:
                end, grown = after.end, True
        yield Range(start, end)


def _is_escape(paragraph: Paragraph, offset: int) -> bool:
    """Whether the backslash at `offset` is a mark, not a spoken character."""
    return paragraph.source_of(paragraph.plain_of(offset)) != offset
