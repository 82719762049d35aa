"""A writer's desk: VS Code's own workbench with the packaged extension in it, installed as users
do, and scripts that are open.

`SAYWRIGHT_VSCODE` names the releases to test with, `SAYWRIGHT_VSCODE_CACHE` the folder where they
are kept, `SAYWRIGHT_VSCODE_PICTURES` one for pictures of the page.
"""

import json
import os
import re
import shlex
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, NamedTuple

import pytest

from .page import Page
from .workbench import Workbench, alone, missing

NEEDS_WORKBENCH = [
    pytest.mark.slow,
    pytest.mark.skipif(
        bool(missing()) and not os.environ.get("CI"), reason=f"not installed: {missing()}"
    ),
]
ROOT = Path(__file__).parents[3]
EXTENSION = ROOT / "editors/vscode"
SAMPLE = ROOT / "sample_scripts/ferry-mate.say"
RELEASES = os.environ.get("SAYWRIGHT_VSCODE", "1.100 1.139").split()
PICTURES = os.environ.get("SAYWRIGHT_VSCODE_PICTURES")


def packaged() -> Path:
    """The extension's archive, made anew where a source is younger."""
    archive = EXTENSION / "dist/saywright.vsix"
    with alone("vsix"):
        if not (EXTENSION / "node_modules/.package-lock.json").exists():
            run("npm", "ci")
        sources = [
            *EXTENSION.glob("*.json"),
            *(EXTENSION / name for name in ("README.md", ".vscodeignore")),
            *(
                file
                for folder in ("src", "scripts", "screenshots")
                for file in (EXTENSION / folder).iterdir()
            ),
            *(ROOT / "grammar").glob("*.json"),
        ]
        made = archive.stat().st_mtime if archive.exists() else 0
        if any(source.stat().st_mtime > made for source in sources):
            run("npm", "run", "package")
    return archive


def run(*command: str) -> str:
    done = subprocess.run(command, cwd=EXTENSION, capture_output=True, text=True, check=False)
    assert done.returncode == 0, f"{shlex.join(command)}\n{done.stdout}\n{done.stderr}"
    return done.stdout


class Desk(NamedTuple):
    """A workbench, its page, and the script that is opened in it."""

    workbench: Workbench
    page: Page
    script: Path

    @property
    def scripts(self) -> Path:
        """The folder that is open."""
        return self.script.parent

    def open(self) -> None:
        self.page.ask("open", url=self.workbench.url(self.scripts, self.script))

    def set(self, settings: dict[str, Any]) -> None:
        """The folder's settings, as a writer changes them while the page is open."""
        file = self.scripts / ".vscode/settings.json"
        file.parent.mkdir(exist_ok=True)
        file.write_text(json.dumps(settings), encoding="utf-8")

    def put_cursor_on(self, words: str) -> None:
        """After the first letter of the words where they first stand in what has been saved."""
        before = self.script.read_text(encoding="utf-8").partition(words)[0]
        line = before.count("\n") + 1
        self.page.ask("place", line=line, column=len(before) - before.rfind("\n") + 2)

    def picture(self, name: str) -> None:
        if PICTURES:
            self.page.ask("picture", path=str(Path(PICTURES).absolute() / f"{name}.png"))

    def choose(self, title: str, picture: str = "") -> None:
        """Take the first action at the cursor whose title begins so."""
        offered = self.page.ask("actions")
        found = next((each for each in offered if each.startswith(title)), None)
        assert found, f"{title} is not among {offered}"
        if picture:
            self.picture(picture)
        self.page.ask("choose", title=found)

    def total(self) -> int:
        """The piece's seconds, as lens and status bar agree on them."""
        lens, status = self.page.wait_for(
            "lens and status bar to agree",
            lambda: (next(iter(self.page.lenses()), ""), self.page.status()),
            lambda shown: shown[1] and shown[0].startswith(shown[1]),
        )
        clock = re.fullmatch(r"(\d+):(\d\d) of 1:00", status)
        assert clock, (lens, status)
        return int(clock[1]) * 60 + int(clock[2])


@contextmanager
def desk_at(
    home: Path,
    settings: dict[str, Any],
    release: str = RELEASES[0],
    beside: tuple[Path, ...] = (),
    sample: Path = SAMPLE,
) -> Iterator[Desk]:
    """A desk with the extension and the writer's settings, before a copy of the sample is opened;
    and with other extensions' archives `beside`."""
    assert not missing(), f"not installed: {missing()}"
    script = home / "scripts" / sample.name
    script.parent.mkdir()
    script.write_bytes(sample.read_bytes())
    (home / "profile").mkdir()
    workbench = Workbench(release, home)
    for archive in (packaged(), *beside):
        workbench.install(archive)
    try:
        workbench.start({"security.workspace.trust.enabled": False} | settings)
        with Page(home / "profile") as page:
            desk = Desk(workbench, page, script)
            try:
                yield desk
            except AssertionError:
                desk.picture("failed")
                raise
            outside = page.ask("outside")
            assert outside == [], f"The page asked for {outside}"
    finally:
        workbench.stop()


def program(file: Path, first: str) -> Path:
    """A program that starts the server, after a line of shell."""
    return plain_program(file, first, f'exec {shlex.quote(sys.executable)} -m saywright "$@"')


def plain_program(file: Path, *lines: str) -> Path:
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text("\n".join(("#!/bin/sh", *lines, "")), encoding="utf-8")
    file.chmod(0o755)
    return file


def server(path: Path | str) -> dict[str, Any]:
    return {"saywright.server.path": str(path)}
