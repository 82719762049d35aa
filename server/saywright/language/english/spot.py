"""A phrase with what stands at once before and after it."""

import re
from typing import NamedTuple

_REACH = 48  # code points: further off no rule looks, so that long words cost nothing
_WORD = r"'?\w[\w'-]*"
_BEFORE = re.compile(rf"(?:(?P<second>{_WORD})\s+)?(?P<word>{_WORD})(?P<gap>[^\w']*)\Z")
_AFTER = re.compile(rf"(?P<gap>[^\w']*)(?P<word>{_WORD})?(?:\s+(?P<second>{_WORD}))?")


class Spot(NamedTuple):
    """`text` is a sentence in lower case with plain apostrophes, the phrase `text[start:end]`.

    `before` and `after` are the words next to it, `before2` and `after2` those beyond that are
    parted from them by blanks only; each empty where there is none. `gap_before` and `gap_after`
    are what stands between. `names_before` and `names_after`: the word before or after has a
    capital.
    """

    text: str
    start: int
    end: int
    before2: str
    before: str
    gap_before: str
    gap_after: str
    after: str
    after2: str
    names_before: bool
    names_after: bool

    @property
    def phrase(self) -> str:
        return self.text[self.start : self.end]

    @property
    def opens(self) -> bool:
        """No word comes before."""
        return not self.before and self.start - len(self.gap_before) == 0

    @property
    def ends(self) -> bool:
        """No word comes after."""
        return not self.after and self.end + len(self.gap_after) == len(self.text)

    @property
    def parted_before(self) -> bool:
        """A comma, a dash or the like stands before it."""
        return bool(self.gap_before.strip())

    @property
    def parted_after(self) -> bool:
        return bool(self.gap_after.strip())


def lowered(text: str) -> str:
    """`text` in lower case, with plain apostrophes and blanks, offset by offset; empty where a
    letter is two in lower case."""
    plain = text.replace("’", "'").replace("\n", " ").replace("\t", " ").lower()
    return plain if len(plain) == len(text) else ""


def spot(text: str, start: int, end: int, written: str) -> Spot:
    """`written` is the same sentence with its capitals."""
    left = _BEFORE.search(text[max(start - _REACH, 0) : start])
    right = _AFTER.match(text, end, end + _REACH)
    before2 = before = ""
    gap_before = text[max(start - _REACH, 0) : start]
    names_before = False
    if left:
        before2, before, gap_before = left["second"] or "", left["word"], left["gap"]
        names_before = written[start - len(gap_before) - len(before)].isupper()
    assert right  # every part of it may be empty
    return Spot(
        *(text, start, end, before2, before, gap_before),
        *(right["gap"], right["word"] or "", right["second"] or ""),
        names_before,
        written[right.start("word")].isupper() if right["word"] else False,
    )
