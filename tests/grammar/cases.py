"""The corpus's files: read into cases, and written again with other expectations.

The format is described in grammar/corpus/README.md, for readers in any language.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from .escapes import unescaped

FOLDER = Path(__file__).parents[2] / "grammar" / "corpus"
HEADING = "== "
_TEXT_END = "\\u{end}"
_PROBLEM = re.compile(r"(?P<sign>[!?]) (?P<problem>\S.*)")


@dataclass(frozen=True, slots=True)
class Case:
    """`tree` and `problems` are lines; a problem's sign says whether the ABNF rules it out."""

    file: str
    name: str
    text: str
    tree: tuple[str, ...]
    problems: tuple[str, ...]
    signs: tuple[str, ...]


def read_cases() -> Iterator[Case]:
    for path in sorted(FOLDER.glob("*.txt")):
        for section in _sections(path)[1:]:
            yield _case(path.stem, section)


def _sections(path: Path) -> list[list[str]]:
    """The lines before the first heading, then those of each case with its heading."""
    sections: list[list[str]] = [[]]
    for line in path.read_text(encoding="utf-8").split("\n"):
        if line.startswith(HEADING):
            sections.append([])
        sections[-1].append(line)
    return sections


def _case(file: str, section: Sequence[str]) -> Case:
    heading, *lines = (line for line in section if line)
    text = "".join(_text_line(line) for line in lines if line.startswith(">"))
    problems = [match for line in lines if (match := _PROBLEM.fullmatch(line))]
    tree = [line for line in lines if not line.startswith((">", "!", "?"))]
    return Case(
        file,
        heading.removeprefix(HEADING),
        text,
        tuple(tree),
        tuple(match["problem"] for match in problems),
        tuple(match["sign"] for match in problems),
    )


def _text_line(line: str) -> str:
    content = line[2:] if line.startswith("> ") else line[1:]
    without_end = content.endswith(_TEXT_END)
    return unescaped(content.removesuffix(_TEXT_END)) + ("" if without_end else "\n")


def rewrite(case: Case, tree: Sequence[str], problems: Sequence[str]) -> None:
    """Puts other expectations in the case's place; known problems keep their signs."""
    path = FOLDER / f"{case.file}.txt"
    signs = dict(zip(case.problems, case.signs, strict=True))
    sections = _sections(path)
    for section in sections[1:]:
        if section[0] == HEADING + case.name:
            kept = [line for line in section if line.startswith((HEADING, ">"))]
            told = [f"{signs.get(problem, '!')} {problem}" for problem in problems]
            section[:] = [*kept, *tree, *told, ""]
    path.write_text("\n".join(line for section in sections for line in section), encoding="utf-8")
