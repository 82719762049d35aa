"""An entry of an outline: what stands somewhere in a script, by its name and its time."""

from dataclasses import dataclass
from typing import Literal

EntryKind = Literal[
    "piece", "draft", "notes", "takes", "unit", "turn", "paragraph", "take", "title"
]
"""A `unit` is a unit of action, which a note names; a `turn` is what a speaker says in one go."""


@dataclass(frozen=True, slots=True)
class Entry:
    """`start` to `end` is all that it takes up in the file, `head_start` to `head_end` (inside)
    what stands for it. `is_cut`: none of its words is spoken. Its children lie in it, in order."""

    kind: EntryKind
    name: str
    detail: str
    start: int
    end: int
    head_start: int
    head_end: int
    is_cut: bool = False
    children: tuple["Entry", ...] = ()
