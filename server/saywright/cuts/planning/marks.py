"""The marks of many cuts in one paragraph, as `marking.cut_together` makes them, found without
reading the paragraph again where it is plain to see that they would be read as meant."""

from collections.abc import Iterable, Iterator, Sequence

from saywright.cuts.marking import Places, cut_together
from saywright.finding import Edit
from saywright.markup.tree import SPAN_MARKS, Paragraph, Range

_CUT = SPAN_MARKS["cut"]
_UNCLEAR = (_CUT[0], "\\")
_MOST_READ, _FEWEST_READINGS = 1_000_000, 12  # code points in all, readings of a paragraph
_BEFORE, _AFTER, _LAST = " \n", " \r\n.,;:!?…", ".,;:!?…)|"


def cut_marks(paragraph: Paragraph, places: Sequence[Places]) -> tuple[Edit, ...]:
    """The edits of the paragraph that cut all of `places`, in order; none where not all of their
    marks would be read."""
    if is_plain(paragraph, places):
        extents = (extent for each in places for extent in each.extents)
        return tuple(Edit(at, at, _CUT) for extent in extents for at in extent)
    fix = cut_together(paragraph, places)
    return fix.edits if fix else ()


def markable(paragraph: Paragraph, places: Sequence[Places]) -> list[bool]:
    """Which of `places` can be cut beside each other, found by halves.

    A reading of the paragraph is made for each half that fails, but no more than of so much text in
    all: in a long paragraph in which marks are left open everywhere, what is not found by then is
    told to be not markable.
    """
    return _Halving(paragraph, places).found()


class _Halving:
    def __init__(self, paragraph: Paragraph, places: Sequence[Places]) -> None:
        self._paragraph, self._places = paragraph, places
        self._left = max(_MOST_READ // max(len(paragraph.text), 1), _FEWEST_READINGS)

    def found(self) -> list[bool]:
        together: list[int] = []
        for group in self._groups(0, len(self._places)):
            if not together or self._are_read([*together, *group]):
                together += group
        chosen = set(together)
        return [index in chosen for index in range(len(self._places))]

    def _groups(self, start: int, end: int) -> Iterator[range]:
        """Ranges that are read, each as a whole."""
        if start == end or self._left <= 0:
            return
        if self._are_read(range(start, end)):
            yield range(start, end)
        elif end - start > 1:
            middle = (start + end) // 2
            yield from self._groups(start, middle)
            yield from self._groups(middle, end)

    def _are_read(self, indices: Sequence[int]) -> bool:
        self._left -= 1
        return bool(cut_marks(self._paragraph, [self._places[index] for index in indices]))


def is_plain(paragraph: Paragraph, places: Iterable[Places]) -> bool:
    """Whether each mark would stand between a blank and a word, none of them inside or beside
    another mark, so that no reading is needed to know that it is read."""
    if any(each in paragraph.text for each in _UNCLEAR):
        return False
    others = [Range(each.start, each.end) for each in paragraph.spans]
    others += [Range(each.start, each.end) for each in paragraph.directions]
    end = -1
    for extent in (extent for each in places for extent in each.extents):
        if extent.start <= end or not _is_plain(paragraph.text, extent):
            return False
        end = extent.end
        if any(_is_parted(other.start, other.end, extent) for other in others):
            return False
    return end >= 0


def _is_plain(text: str, extent: Range) -> bool:
    start, end = extent
    return (
        end > start
        and (start == 0 or text[start - 1] in _BEFORE)
        and text[start].isalnum()
        and (text[end - 1].isalnum() or text[end - 1] in _LAST)
        and (end == len(text) or text[end] in _AFTER)
    )


def _is_parted(start: int, end: int, extent: Range) -> bool:
    """Whether an edge of the extent stands within `start` to `end`."""
    return start < extent.start < end or start < extent.end < end
