"""The word at an offset of any text, as Unicode Standard Annex #29 has it."""

import regex

from saywright.markup.tree import Range

_AROUND = 200
_SEGMENT = regex.compile(r"(?:\b|\A)(?s:.)+?(?=\b|\Z)", regex.WORD)


def word_at(text: str, offset: int) -> Range | None:
    """The word that holds or touches the offset, else the sign that does; None in white space.

    No further than some two hundred code points are looked at.
    """
    first = max(offset - _AROUND, 0)
    near = text[first : offset + _AROUND]
    at = offset - first
    touching = [
        Range(*found.span())
        for found in _SEGMENT.finditer(near)
        if found.start() <= at <= found.end()
    ]
    for is_wanted in (_is_word, _is_sign):
        for where in reversed(touching):
            if is_wanted(near[where.start : where.end]):
                return Range(first + where.start, first + where.end)
    return None


def _is_word(segment: str) -> bool:
    return any(map(str.isalnum, segment))


def _is_sign(segment: str) -> bool:
    return bool(segment.strip())
