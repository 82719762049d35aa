"""What is told of a place, before anyone knows whether it is shown as Markdown or as it is."""

from typing import NamedTuple


class Explained(NamedTuple):
    """The range of the file that it is told of, what it is in a few words, and more, a line each.

    All of it is plain text, which may hold any character.
    """

    start: int
    end: int
    what: str
    lines: tuple[str, ...] = ()

    def shifted(self, by: int) -> "Explained":
        """The same, its range `by` further on."""
        return self._replace(start=self.start + by, end=self.end + by)


def told_length(seconds: float) -> str:
    """A length as `0.4 s`, `12 s`, and from a minute on as `1:05`."""
    if seconds >= 60:
        whole = round(seconds)
        return f"{whole // 60}:{whole % 60:02d}"
    return f"{round(seconds, 1):g} s"


def counted(number: int, what: str) -> str:
    """`1 word`, `2 words`."""
    return f"{number} {what}" if number == 1 else f"{number} {what}s"
