"""Where findings stand, so that those at a place are found without looking at all of them."""

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence

from saywright.markup.tree import Range
from saywright.reporting import Reported

_LONG = 1000  # code points; few findings are longer, and those are looked at one by one


class FindingPlaces:
    """`reported` is in order of the starts."""

    def __init__(self, reported: Sequence[Reported]) -> None:
        self._reported = reported
        self._starts = [each.finding.start for each in reported]
        self._long = [
            index
            for index, each in enumerate(reported)
            if each.finding.end - each.finding.start > _LONG
        ]

    def at(self, where: Range, lines: Range) -> Iterator[Reported]:
        """Those that meet or touch `where`; and for a bare cursor also those with fixes that
        start on its line, whose sign stands at the line's start. (What is over time is fixed
        sentence by sentence.)"""
        first = bisect_left(self._starts, min(lines.start, where.start - _LONG))
        last = bisect_right(self._starts, max(lines.end, where.end))
        early = (index for index in self._long if index < first)
        for index in (*early, *range(first, last)):
            each = self._reported[index]
            if _concerns(each, where, lines):
                yield each


def _concerns(reported: Reported, where: Range, lines: Range) -> bool:
    finding = reported.finding
    if finding.start <= where.end and where.start <= finding.end:
        return True
    if where.start != where.end or finding.check == "over-time" or not finding.fixes:
        return False
    return lines.start <= finding.start <= lines.end
