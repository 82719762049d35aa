"""A part of a sentence that can go while the rest still stands."""

from typing import Literal, NamedTuple

TrimKind = Literal["relative", "appositive", "doubled", "opening", "aside", "adjunct", "filler"]


class Trim(NamedTuple):
    """Half-open code points of the sentence's text, with the comma or the dashes that go along.

    What goes begins at the sentence's start or after a blank, since a mark of cut can open
    nowhere else; so the comma before it stays, and it is one that what is left can have. `why`
    says what goes, in a few plain words that the words themselves can follow: "the aside".
    """

    start: int
    end: int
    kind: TrimKind
    why: str
