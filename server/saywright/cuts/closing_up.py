"""Text from which stretches were taken out, with the gaps closed up."""

import re
from collections.abc import Iterator, Sequence

from saywright.finding import Edit, applied
from saywright.markup.reader import split_lines
from saywright.markup.tree import Range

_LETTER = re.compile(r"[^\W\d_]")
_NO_BREAK = re.compile(r"[^\r\n]+|\r(?!\n)")

# signs of where something was taken out, and of where that began with a capital
_GAP, _BEGINNING = "\ue000", "\ue001"
_G = rf"[{_GAP}{_BEGINNING}]"
_RUN_STARTS = rf"(?<![ \t{_GAP}{_BEGINNING}])"  # so that a long run is gone through once
_EMPTY = re.compile(_G)
_SAME_POINT = re.compile(rf"([,;:–—-])(?:[ \t]*{_G}+[ \t]*\1)+")
_POINT_BEFORE_STOP = re.compile(rf"[,;:–—][ \t]*{_G}+[ \t]*(?=[.!?…;:])")
_POINT_AFTER_STOP = re.compile(rf"([.!?…])([ \t]*{_G}+)[ \t]*[,;:.]+")
_POINT_ON_NEXT_LINE = re.compile(rf"(?<=[\w\"'”’)\]*])[ \t]*(\r?\n)([ \t]*{_G}+[ \t]*)([,;:.!?…]+)")
_POINT_ALONE = re.compile(rf"(\A|\n)([ \t]*{_G}+)[ \t]*[,;:.!?…–—]+(?=\s|\Z)")
_SENTENCE = re.compile(
    rf"((?:\A|[.!?…][\"'”’»)\]]*(?=[\s{_GAP}{_BEGINNING}]*\s))[\s{_GAP}]*{_BEGINNING}"
    rf"[\s{_GAP}{_BEGINNING}]*(?:[\"'“‘«(\[*]|__)*)([^\W\d_])"
)
_AT_START = re.compile(rf"(?m)^[ \t]*{_G}[ \t{_GAP}{_BEGINNING}]*")
_AT_END = re.compile(rf"{_RUN_STARTS}[ \t{_GAP}{_BEGINNING}]*{_G}[ \t]*(?=\r?\n|\Z)")
_BETWEEN = re.compile(rf"{_RUN_STARTS}[ \t{_GAP}{_BEGINNING}]*{_G}[ \t]*(?P<after>[,;:.!?…)]?)")


def closed_up(text: str, gone: Sequence[Range]) -> Iterator[str]:
    """`text` without the stretches `gone`, from the best mended to the bare rest.

    Mended are blanks, points that meet or would stand alone, the lines of which nothing is left,
    and the first letter of a sentence that had another beginning. None for a text that has the
    signs in it which are used meanwhile.
    """
    if _EMPTY.search(text):
        return
    text = applied(text, [_gap_edit(text, where) for where in gone])
    closed = _without_empty_lines(text)
    pointed = _without_empty_lines(_with_points_mended(closed))
    yield _without_gaps(_with_capitals(pointed))
    yield _without_gaps(pointed)
    yield _without_gaps(_with_capitals(closed))
    yield _without_gaps(closed)
    yield _EMPTY.sub("", closed)


def _gap_edit(text: str, where: Range) -> Edit:
    """The stretch gives way to a sign of where it was, on each of its lines."""
    gone = text[where.start : where.end]
    letter = _LETTER.search(gone)
    sign = _BEGINNING if letter and letter[0].isupper() else _GAP
    return Edit(*where, _NO_BREAK.sub(sign, gone))


def _without_empty_lines(text: str) -> str:
    return "".join(
        line
        for line in split_lines(text)
        if not _EMPTY.search(line) or _EMPTY.sub("", line).strip()
    )


def _with_points_mended(text: str) -> str:
    """Points that meet over a gap as the one that they come to, and none before the first word."""
    text = _SAME_POINT.sub(rf"\1{_GAP}", text)
    text = _POINT_BEFORE_STOP.sub(_GAP, text)
    text = _POINT_AFTER_STOP.sub(r"\1\2", text)
    text = _POINT_ON_NEXT_LINE.sub(r"\3\1\2", text)
    return _POINT_ALONE.sub(r"\1\2", text)


def _with_capitals(text: str) -> str:
    """A letter that now begins a sentence, since what began it is gone, as a capital."""
    return _SENTENCE.sub(lambda found: found[1] + found[2].upper(), text)


def _without_gaps(text: str) -> str:
    """The text with each gap closed up to one blank, or to none at a line's edge and before
    points."""
    text = _AT_END.sub("", _AT_START.sub("", text))
    return _BETWEEN.sub(
        lambda found: found["after"] or (" " if _EMPTY.sub("", found[0]) else ""), text
    )
