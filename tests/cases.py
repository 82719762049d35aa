"""Reading test cases that are kept as text: a script, and beside it what is expected of it.

A file holds cases one after another:

    === a name
    the script, as it stands
    ==> what is expected, a line each

A script's last line end is left out, unless the last line before `==>` is empty.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True)
class Case:
    name: str
    text: str
    expected: tuple[str, ...]

    def __str__(self) -> str:
        return self.name


def read_cases(path: Path) -> list[Case]:
    """The cases of one file, in order."""
    return list(_cases(path.read_text("utf-8")))


def _cases(content: str) -> Iterator[Case]:
    for block in content.split("=== ")[1:]:
        name, _, rest = block.partition("\n")
        script: list[str] = []
        expected: list[str] = []
        for line in rest.split("\n"):
            if line.startswith("==>"):
                expected.append(line[3:].strip())
            elif not expected:
                script.append(line)
        yield Case(name.strip(), "\n".join(script), tuple(each for each in expected if each))
