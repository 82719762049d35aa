"""What can be offered where the cursor is, before it is put into the protocol's words.

A feature that offers edits is a `Source`: a function from `Asked` to `Offer`s, named in
`code_actions.SOURCES`. Offsets are the file's.
"""

from collections.abc import Callable, Iterator, Sequence
from typing import Literal, NamedTuple

from saywright.analysis import Analysis
from saywright.finding import Edit
from saywright.markup.tree import Range
from saywright.reporting import Reported

QUICK_FIX = "quickfix"
REWRITE = "refactor.rewrite"
FIX_ALL = "source.fixAll.saywright"


class Note(NamedTuple):
    """What an editor shows beside an edit that it lists before it makes it: a few words, and
    what the edit comes to. With `needs_confirmation` it asks before it makes it."""

    label: str
    description: str = ""
    needs_confirmation: bool = False


class Offer(NamedTuple):
    """One thing that can be done. `title` says what, as a command to the editor.

    `kind` is one of the protocol's kinds of code actions, or one below. `edits` are those of this
    analysis, or a function that finds them where that costs more than a cursor move may (2 ms);
    it gives none where nothing can be done. `answers` is the finding that the offer puts right,
    `preferred` where it is the one obvious way. `disabled` says why it cannot be done here, for
    what a writer would look for in vain.
    """

    title: str
    kind: str
    edits: Sequence[Edit] | Callable[[], Sequence[Edit]] = ()
    answers: Reported | None = None
    preferred: bool = False
    disabled: str | None = None
    note: Note | None = None


class Asked(NamedTuple):
    """Where something is asked for: a range, empty for a bare cursor; the line or lines that it
    is on, without the last line end; and the findings that it concerns, in the file's order."""

    analysis: Analysis
    where: Range
    lines: Range
    findings: tuple[Reported, ...]


class Source(NamedTuple):
    """Where offers come from. `name` is its own among all; `kinds` are all the kinds that its
    offers have. One that is not `unbidden` offers only to a client that names a kind of it. One
    that takes longer than a cursor move may offers only `when` the writer asks, and another may
    stand in for it while the cursor moves."""

    name: str
    kinds: tuple[str, ...]
    offers: Callable[[Asked], Iterator[Offer]]
    unbidden: bool = True
    when: Literal["always", "asked", "moving"] = "always"


def is_kind(kind: str, asked: str) -> bool:
    """Whether `kind` is `asked` or below it; all kinds are below the empty one."""
    return not asked or kind == asked or kind.startswith(asked + ".")
