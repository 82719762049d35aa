"""What a check is: a name, how much it matters, what it says, and how it finds it."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from saywright.checks.passage import Passage
from saywright.finding import Finding
from saywright.markup.tree import Block
from saywright.project import Project
from saywright.speech.slot import Aim
from saywright.speech.timeline import Timeline
from saywright.speech.timing import TimedParagraph


@dataclass(frozen=True, slots=True)
class View:
    """What a check of a part may look at: its times, and its slot (None where none is set).

    `heading` is the range of the file that stands for the part as a whole: its rule's line, or
    its first line.
    """

    timeline: Timeline
    aim: Aim | None
    heading: tuple[int, int]


@dataclass(frozen=True, slots=True)
class FileView:
    """What a check of a whole file may look at. `setting_lines`: the blocks that may hold
    settings, those that open the file and its rules, each with its file offset. `take_readers`:
    those whose takes are in the file."""

    setting_lines: Sequence[tuple[int, Block]]
    project: Project
    check_names: tuple[str, ...]
    take_readers: frozenset[str] = frozenset()


class Page(NamedTuple):
    """What `saywright explain` tells of a check: why it matters, a script that raises it, and
    what to do. `project_file` and `private_names`: what must stand beside the script for it."""

    why: str
    example: str
    to_do: str
    project_file: str = ""
    private_names: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Check:
    """`severity`: off, hint, information, warning or error, unless the project says otherwise.

    `find` looks at a piece, `find_in_file` at the file, `find_in_paragraph` at a paragraph of a
    piece, whose offsets it counts, `find_nearby` at a paragraph with what stands around it, and
    `find_in_block` at the text of any of a piece's blocks. All are None where reading the markup
    reports it. A check that does not look around sees no line but the paragraph's own, and is not
    asked again when a neighbour changes. `at_most`: so many are said in a part, if that is less
    than the project says. `fix_all`: the title, with a `{count}`, of a fix that makes the first
    fix of each.
    """

    name: str
    severity: str
    what: str
    find: Callable[[View], Iterator[Finding]] | None = None
    find_in_file: Callable[[FileView], Iterator[Finding]] | None = None
    find_in_paragraph: Callable[[TimedParagraph], Iterator[Finding]] | None = None
    find_nearby: Callable[[Passage], Iterator[Finding]] | None = None
    looks_around: bool = True
    find_in_block: Callable[[str, Project], Iterator[Finding]] | None = None
    at_most: int | None = None
    fix_all: str | None = None
    page: Page | None = None
