"""The first words of a text, which stand for it in an outline."""

from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

import regex

from saywright.markup.tree import Paragraph, Range

_MOST = 32
_FEWEST = 16
_READ_AT_MOST = 4 * _MOST
_SHORT = regex.compile(rf"\X{{1,{_MOST}}}+")  # never within a character of several code points
_LAST_WORD = regex.compile(r"(?r)\s+\S*+\Z")


class FirstWords(NamedTuple):
    """The words, and the range of the source from the first of them to its line's end."""

    words: str
    where: Range


def first_words(paragraph: Paragraph) -> FirstWords:
    """What is spoken first; of a paragraph that is wholly cut or silent, what stands there."""
    spoken, start = "", 0
    for start, end in (*_live(paragraph), Range(0, len(paragraph.plain))):
        spoken = paragraph.plain[start : min(end, start + _READ_AT_MOST)]
        if any(map(str.isalnum, spoken)):
            break
    else:
        return _as_written(paragraph)
    at = paragraph.source_of(start + len(spoken) - len(spoken.lstrip()))
    return FirstWords(shortened(_gathered(paragraph, start)), _to_line_end(paragraph.text, at))


def shortened(text: str) -> str:
    """`text` on one line, and where it is long, its first words and `…`."""
    text = text.strip()
    line = " ".join(text[:_READ_AT_MOST].split())
    short = line[:_MOST] if line.isascii() else "".join(_SHORT.findall(line)[:1])
    if short == line and len(text) <= _READ_AT_MOST:
        return line
    whole = _LAST_WORD.sub("", short) if line[len(short) :][:1] != " " else short
    return f"{(whole if len(whole) >= _FEWEST else short).rstrip(' ,;:–—-')}…"


def _live(paragraph: Paragraph) -> Iterator[Range]:
    """The stretches of the spoken text that are not cut."""
    edges = [0, *(edge for cut in paragraph.cuts for edge in cut), len(paragraph.plain)]
    for start, end in list(pairwise(edges))[::2]:
        if start < end:
            yield Range(start, end)


def _gathered(paragraph: Paragraph, start: int) -> str:
    """What is spoken from `start` on, as much as may be shown."""
    cut = any(first <= start < end for first, end in paragraph.cuts)
    pieces: list[str] = []
    for first, end in [Range(start, len(paragraph.plain))] if cut else _live(paragraph):
        if end > start:
            pieces.append(paragraph.plain[max(first, start) : end][: 2 * _READ_AT_MOST])
            if sum(map(len, pieces)) > _READ_AT_MOST:
                break
    return "".join(pieces)


def _as_written(paragraph: Paragraph) -> FirstWords:
    """The first line that is no note, or else the first."""
    noted = {note.start for note in paragraph.notes}
    start = 0
    while start in noted and "\n" in paragraph.text[start:]:
        start = paragraph.text.index("\n", start) + 1
    where = _to_line_end(paragraph.text, start)
    return FirstWords(shortened(paragraph.text[where.start : where.end]), where)


def _to_line_end(text: str, start: int) -> Range:
    end = text.find("\n", start)
    line = text[start : end if end >= 0 else len(text)]
    return Range(start, start + len(line.rstrip()))
