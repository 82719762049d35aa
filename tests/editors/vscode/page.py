"""A browser's page with a workbench in it, asked and told things from a test."""

import json
import subprocess
import time
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from typing import Any, NamedTuple, Self, TypeVar

from .workbench import HERE, chromium_program, driver_folder

T = TypeVar("T")
WAIT_SECONDS = 60.0
_LOOK_EVERY_SECONDS = 0.1


class Line(NamedTuple):
    """A line on the screen: its text, the time that stands in it if any, and where, in pixels."""

    text: str
    hint: str | None
    top: float
    left: float | None


class Page:
    """`profile` is a folder for the browser's own files."""

    def __init__(self, profile: Path) -> None:
        self._process = subprocess.Popen(
            [
                "node",
                str(HERE / "driver.mjs"),
                str(driver_folder()),
                str(chromium_program()),
                profile,
            ],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=(profile.parent / "driver.log").open("wb"),
            text=True,
            encoding="utf-8",
        )

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        assert self._process.stdin
        with suppress(BrokenPipeError):
            self._process.stdin.close()
        try:
            self._process.wait(10)
        except subprocess.TimeoutExpired:
            self._process.kill()

    def ask(self, what: str, **told: Any) -> Any:
        assert self._process.stdin
        assert self._process.stdout
        self._process.stdin.write(json.dumps({"do": what, **told}) + "\n")
        self._process.stdin.flush()
        line = self._process.stdout.readline()
        assert line, f"The browser's driver has ended while asked: {what}"
        answer = json.loads(line)
        assert "problem" not in answer, f"{what}: {answer['problem']}"
        return answer["told"]

    def lines(self) -> list[Line]:
        return [Line(**each) for each in self.ask("lines")]

    def hints(self) -> list[str]:
        return [line.hint for line in self.lines() if line.hint]

    def text(self) -> str:
        """What the lines on the screen say, as one, so that wrapping does not matter."""
        return "".join(line.text for line in self.lines())

    def lenses(self) -> list[str]:
        return [plain(text) for text in self.ask("lenses")]

    def status(self) -> str:
        return plain(" ".join(self.ask("status")))

    def choices(self) -> list[str]:
        """What the list at the top offers, if one is open."""
        rows = self.ask("texts", selector=".quick-input-widget .monaco-list-row:visible")
        return [plain(text) for text in rows]

    def outline(self) -> list[str]:
        """The rows of the view at the side, each a name and right behind it what is told of it."""
        return [plain(row) for row in self.ask("texts", selector=".outline-tree .monaco-list-row")]

    def notices(self) -> list[str]:
        return [plain(text) for text in self.ask("notices")]

    def wait_for(self, what: str, read: Callable[[], T], holds: Callable[[T], Any]) -> T:
        """What `read` gives, once `holds` of it is true."""
        until = time.monotonic() + WAIT_SECONDS
        while True:
            value = read()
            if holds(value):
                return value
            assert time.monotonic() < until, f"Waited in vain for {what}; now it is {value!r}"
            time.sleep(_LOOK_EVERY_SECONDS)


def plain(text: str) -> str:
    return " ".join(text.replace("\u200b", "").split())
