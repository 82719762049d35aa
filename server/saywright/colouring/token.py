"""A stretch of a block that is to be seen as something else than plain speech."""

from typing import Literal, NamedTuple

TokenKind = Literal[
    "rule",
    "label",
    "key",
    "text",
    "number",
    "choice",
    "listed",
    "speaker",
    "reader",
    "note",
    "direction",
    "silence",
    "stress",
    "kept",
    "cut",
]
"""`choice`: one of a few words that a setting knows. `listed`: a name where speakers are listed,
`speaker` where one speaks. `silence`: a mark, or a direction that is nothing else."""


class Token(NamedTuple):
    """Half-open code points of the block, on one line."""

    kind: TokenKind
    start: int
    end: int
