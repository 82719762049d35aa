"""What the tool says about a stretch of text, and the edits that would answer it.

All offsets are half-open code points of one text: the file's, or a block's own where a
docstring says so. `shifted` takes the second to the first.
"""

from collections.abc import Iterable
from typing import NamedTuple


class Edit(NamedTuple):
    """Replace the code points from `start` to `end` by `text`."""

    start: int
    end: int
    text: str

    def shifted(self, by: int) -> "Edit":
        return Edit(self.start + by, self.end + by, self.text)


class Fix(NamedTuple):
    """One way to answer a finding: a title that says what happens, and its edits in order."""

    title: str
    edits: tuple[Edit, ...]

    def shifted(self, by: int) -> "Fix":
        return Fix(self.title, tuple(edit.shifted(by) for edit in self.edits))


class Related(NamedTuple):
    """Another place that a finding is about, and what it has to do with it."""

    start: int
    end: int
    message: str

    def shifted(self, by: int) -> "Related":
        return Related(self.start + by, self.end + by, self.message)


class Finding(NamedTuple):
    """What `check` says of the text from `start` to `end`.

    `severity` is given where this one matters more or less than its check does; the project has
    the last word on both.
    """

    check: str
    start: int
    end: int
    message: str
    fixes: tuple[Fix, ...] = ()
    related: tuple[Related, ...] = ()
    severity: str | None = None

    def shifted(self, by: int) -> "Finding":
        if not by:
            return self
        return self._replace(
            start=self.start + by,
            end=self.end + by,
            fixes=tuple(fix.shifted(by) for fix in self.fixes),
            related=tuple(each.shifted(by) for each in self.related),
        )


def applied(text: str, edits: Iterable[Edit]) -> str:
    """`text` with all of `edits` made at once; their offsets are those of `text`.

    Edits may touch but not overlap; of two insertions at one offset the earlier in the list
    comes first.
    """
    pieces: list[str] = []
    done = 0
    for edit in sorted(edits, key=lambda edit: (edit.start, edit.end)):
        pieces += (text[done : edit.start], edit.text)
        done = edit.end
    pieces.append(text[done:])
    return "".join(pieces)
