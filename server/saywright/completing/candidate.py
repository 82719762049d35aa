"""What may be completed to, before anyone knows how it is shown."""

from collections.abc import Iterable
from typing import Literal, NamedTuple

Sort = Literal["key", "value", "kind", "name", "silence", "take"]


class Candidate(NamedTuple):
    """`text` stands for what is written from `start` to `end`; the cursor is in that range or at
    its edge. `snippet` is the same for who takes snippets, None where it is the text as it is.

    `label` is what is listed and matched with what has been typed, `what` a line on what it is
    for. `check`: the check that it names, on which there is more to tell.
    """

    label: str
    text: str
    start: int
    end: int
    sort: Sort
    what: str = ""
    snippet: str | None = None
    check: str | None = None

    def shifted(self, by: int) -> "Candidate":
        """The same, its range `by` further on."""
        return self._replace(start=self.start + by, end=self.end + by)


class Line(NamedTuple):
    """The line in which the cursor stands, without its line end, and the cursor's offset in it."""

    text: str
    cursor: int

    @property
    def before(self) -> str:
        return self.text[: self.cursor]

    @property
    def after(self) -> str:
        return self.text[self.cursor :]


def literal(text: str) -> str:
    """`text` inside a snippet, where some characters mean something."""
    return _escaped(text, "\\$}")


def field(number: int, text: str) -> str:
    """A place of a snippet to type in, which holds `text` until then."""
    return f"${{{number}:{literal(text)}}}"


def choice(number: int, texts: Iterable[str]) -> str:
    """A place of a snippet to choose in."""
    return f"${{{number}|{','.join(_escaped(text, chr(92) + ',|') for text in texts)}|}}"


def _escaped(text: str, special: str) -> str:
    return "".join(f"\\{each}" if each in special else each for each in text)
