"""`editors/vscode` in VS Code's own workbench: the packaged extension, installed as users do, in a
page in which a script is timed, cut, planned and restored.

`SAYWRIGHT_VSCODE` names the releases to test with, `SAYWRIGHT_VSCODE_CACHE` the folder where they
are kept, `SAYWRIGHT_VSCODE_PICTURES` one for pictures of the page.
"""

import json
import os
import re
import shlex
import signal
import subprocess
import sys
import time
import zipfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, NamedTuple

import pytest

from .vscode.page import Page
from .vscode.workbench import Workbench, alone, missing

pytestmark = [
    pytest.mark.slow,
    pytest.mark.skipif(
        bool(missing()) and not os.environ.get("CI"), reason=f"not installed: {missing()}"
    ),
]

ROOT = Path(__file__).parents[2]
EXTENSION = ROOT / "editors/vscode"
SAMPLE = ROOT / "sample_scripts/ferry-mate.say"
RELEASES = os.environ.get("SAYWRIGHT_VSCODE", "1.100 1.139").split()
PICTURES = os.environ.get("SAYWRIGHT_VSCODE_PICTURES")
STANDING_SECONDS = 5.0  # in which a window that was opened comes to rest
CROSSING = "He says the new owners took it down"  # the sentence that runs past the slot
PACKED = {
    "[Content_Types].xml",
    "extension.vsixmanifest",
    "extension/LICENSE.txt",
    "extension/dist/extension.js",
    "extension/dist/language-configuration.json",
    "extension/dist/licences-of-libraries.txt",
    "extension/dist/say.tmLanguage.json",
    "extension/package.json",
    "extension/readme.md",
    "extension/screenshots/opened.png",
    "extension/screenshots/planned.png",
}


def are_plans(choices: list[str]) -> bool:
    """Whether there are plans to choose from, each with its time and what it cuts."""
    plan = re.compile(r"\d+:\d\d, (cuts|trims) \d+")
    return bool(choices) and all(map(plan.match, choices))


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
    """A workbench, its page, and the folder of scripts that is open in it."""

    workbench: Workbench
    page: Page
    scripts: Path

    @property
    def script(self) -> Path:
        return self.scripts / SAMPLE.name

    def open(self) -> None:
        self.page.ask("open", url=self.workbench.url(self.scripts, self.script))

    def set(self, settings: dict[str, Any]) -> None:
        """The folder's settings, as a writer changes them while the page is open."""
        file = self.scripts / ".vscode/settings.json"
        file.parent.mkdir(exist_ok=True)
        file.write_text(json.dumps(settings), encoding="utf-8")

    def put_cursor_on(self, words: str) -> None:
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
    home: Path, settings: dict[str, Any], release: str = RELEASES[0], beside: tuple[Path, ...] = ()
) -> Iterator[Desk]:
    """A desk with the extension and the writer's settings, before the script is opened; and with
    other extensions' archives `beside`."""
    assert not missing(), f"not installed: {missing()}"
    scripts = home / "scripts"
    scripts.mkdir()
    (scripts / SAMPLE.name).write_bytes(SAMPLE.read_bytes())
    (home / "profile").mkdir()
    workbench = Workbench(release, home)
    for archive in (packaged(), *beside):
        workbench.install(archive)
    try:
        workbench.start({"security.workspace.trust.enabled": False} | settings)
        with Page(home / "profile") as page:
            desk = Desk(workbench, page, scripts)
            try:
                yield desk
            except AssertionError:
                desk.picture("failed")
                raise
            assert page.ask("outside") == []
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


def test_the_archive_holds_what_it_should_and_no_more() -> None:
    with zipfile.ZipFile(packaged()) as archive:
        assert set(archive.namelist()) == PACKED
        manifest = json.loads(archive.read("extension/package.json"))
        for name in archive.namelist():
            assert str(ROOT).encode() not in archive.read(name), name
    lock = json.loads((EXTENSION / "package-lock.json").read_text(encoding="utf-8"))
    fetched = [each["resolved"] for each in lock["packages"].values() if "resolved" in each]
    assert all(url.startswith("https://registry.npmjs.org/") for url in fetched)
    for standard in ("say.tmLanguage.json", "language-configuration.json"):
        assert f"./dist/{standard}" in json.dumps(manifest["contributes"])


def test_the_server_is_looked_for_in_order() -> None:
    packaged()
    run("npm", "test")


@pytest.mark.parametrize("release", RELEASES)
def test_the_first_hint_comes_soon(
    tmp_path: Path, release: str, capsys: pytest.CaptureFixture[str]
) -> None:
    started = tmp_path / "started"
    path = program(tmp_path / "bin/saywright", f"date +%s%3N >{shlex.quote(str(started))}")
    with desk_at(tmp_path, server(path), release) as desk:
        page = desk.page
        compiling = [sys.executable, "-P", "-c", "import saywright.protocol.server"]
        subprocess.run(compiling, env=desk.workbench.environment(), check=True)
        page.ask("openFolder", url=desk.workbench.url(desk.scripts))
        time.sleep(STANDING_SECONDS)
        page.ask("openFile", name=SAMPLE.name)
        took = page.wait_for("the first hint", lambda: page.ask("firstHint"), bool)
        seconds = (took - int(started.read_text())) / 1000
    with capsys.disabled():
        at_work = f"{os.getloadavg()[0]:.1f} at work on {os.cpu_count()} cores"
        print(f"\n[VS Code {release}: {seconds:.2f} s to the first hint, {at_work}]")
    assert seconds < 10  # one on a machine that does nothing else


@pytest.mark.parametrize("release", RELEASES)
def test_a_script_is_timed_cut_and_restored(tmp_path: Path, release: str) -> None:
    with desk_at(tmp_path, server(sys.executable), release) as desk:
        page = desk.page
        desk.open()
        page.wait_for("the hints", page.hints, lambda hints: len(hints) >= 15)
        hints, seconds, text = page.hints(), desk.total(), page.text()
        assert [hint.startswith("+") for hint in hints] == [False] * 10 + [True] * 5
        page.wait_for("the squiggle", lambda: page.ask("squiggles"), bool)
        desk.picture(f"opened-{release}")

        desk.put_cursor_on(CROSSING)
        page.wait_for("the bulb", lambda: page.ask("texts", selector="[class*=lightbulb]"), bool)
        assert page.ask("texts", selector="[class*=wordHighlight]") == []  # “He” is no name
        desk.choose("Cut this sentence", picture=f"menu-{release}")
        page.wait_for("the marks", page.text, lambda shown: f"~~{CROSSING}" in shown)
        page.wait_for("the total to fall", desk.total, seconds.__gt__)
        desk.picture(f"cut-{release}")

        desk.choose("Restore what is cut here")
        page.wait_for("the first text", page.text, text.__eq__)
        page.wait_for("the first total", desk.total, seconds.__eq__)
        page.wait_for("the first hints", page.hints, hints.__eq__)
        page.ask("press", keys="Control+s")
        page.wait_for("the save", lambda: page.ask("texts", selector=".tab.dirty"), [].__eq__)
        assert desk.script.read_bytes() == SAMPLE.read_bytes()
        assert page.notices() == []


def test_typing_moves_no_hint_of_another_line_and_covers_no_words(
    tmp_path: Path,
) -> None:
    with desk_at(tmp_path, server(sys.executable)) as desk:
        page = desk.page
        desk.open()
        page.wait_for("the hints", page.hints, lambda hints: len(hints) >= 15)
        seconds = desk.total()
        desk.put_cursor_on("So I could stay home.")
        page.ask("press", keys="End")
        page.ask("type", text="\nAnd", delay=0)
        page.wait_for("a time beside it", page.hints, lambda hints: len(hints) == 16)
        page.ask("watch", typed="And")
        page.ask("type", text=" her soup’s always cold, and I always eat her soup.", delay=60)
        page.wait_for("the total to rise", desk.total, (seconds + 2).__lt__)
        seen = page.ask("watched")
        assert seen["frames"] > 60
        assert (seen["moved"], seen["covered"]) == ([], [])


def test_a_plan_is_applied_and_restored(tmp_path: Path) -> None:
    with desk_at(tmp_path, server(sys.executable)) as desk:
        page = desk.page
        desk.open()
        page.wait_for("the lens", page.lenses, lambda lenses: "Plan a cut" in " ".join(lenses))
        seconds, text = desk.total(), page.text()
        page.ask("click", selector=".codelens-decoration a", text="Plan a cut to 1:00")
        page.wait_for("the plans", page.choices, are_plans)
        desk.picture("plans")
        page.ask("press", keys="Enter")
        page.wait_for("the marks", page.text, lambda shown: shown.count("~~") > 4)
        page.wait_for("the total to fall", desk.total, lambda now: 50 < now <= 60 < seconds)
        assert not [hint for hint in page.hints() if hint.startswith("+")]
        desk.picture("planned")

        desk.put_cursor_on(CROSSING)
        desk.choose("Restore this plan", picture="restoring")
        page.wait_for("the first text", page.text, text.__eq__)
        page.wait_for("the first total", desk.total, seconds.__eq__)
        page.ask("press", keys="Control+z")
        page.wait_for("the plan, as one step", page.text, lambda shown: shown.count("~~") > 4)
        page.ask("press", keys="Control+z")
        page.wait_for("the first text again", page.text, text.__eq__)

        page.wait_for(
            "the lens again", page.lenses, lambda lenses: "Plan a cut" in " ".join(lenses)
        )
        page.ask("command", title="Saywright: Plan a Cut")
        page.wait_for("the plans", page.choices, are_plans)
        page.ask("press", keys="ArrowDown")
        page.ask("press", keys="Enter")
        page.wait_for("the second plan", desk.total, lambda now: 50 < now <= 60)
        page.ask("press", keys="Control+z")
        page.wait_for("the first text again", page.text, text.__eq__)
        desk.put_cursor_on(CROSSING)
        desk.choose("Plan a cut to 1:00")
        page.wait_for("the plan from the menu", desk.total, lambda now: 50 < now <= 60)


def test_enter_goes_on_with_a_list(tmp_path: Path) -> None:
    with desk_at(tmp_path, server(sys.executable)) as desk:
        page = desk.page
        desk.open()
        page.wait_for("the hints", page.hints, bool)
        page.ask("press", keys="Control+End")
        for line in ("", "---- notes", "- a rope", "a whistle"):
            page.ask("type", text=line, delay=20)
            page.ask("press", keys="Escape")  # whatever is offered
            page.ask("press", keys="Enter")
            time.sleep(0.5)
        page.wait_for(
            "an item for each line",
            lambda: [line.text.strip() for line in page.lines()][-3:],
            ["- a rope", "- a whistle", "-"].__eq__,
        )


def test_settings_and_the_project_file_change_what_is_shown(tmp_path: Path) -> None:
    with desk_at(tmp_path, server(sys.executable)) as desk:
        page = desk.page
        desk.open()
        page.wait_for("the hints", page.hints, lambda hints: len(hints) == 15)
        seconds = desk.total()
        desk.set({"saywright.runningTime": "paragraphs"})
        page.wait_for("a hint for each paragraph", page.hints, lambda hints: 3 <= len(hints) < 8)
        desk.set({"saywright.runningTime": "off"})
        page.wait_for("no hint", page.hints, [].__eq__)
        desk.set({})
        page.wait_for("the usual", page.hints, lambda hints: len(hints) == 15)
        (desk.scripts / "saywright.toml").write_text('pace = "120 wpm"\n', encoding="utf-8")
        page.wait_for("a slower reader's total", desk.total, (seconds + 10).__lt__)


def test_what_was_tried_is_told_when_no_server_starts(tmp_path: Path) -> None:
    lost = tmp_path / "lost/saywright"
    with desk_at(tmp_path, server(lost)) as desk:
        page = desk.page
        desk.open()
        (notice,) = page.wait_for("the notice", page.notices, bool)
        assert f"{lost} serve" in notice
        page.wait_for("the status", page.status, lambda status: "not running" in status)
        assert page.hints() == []
        desk.picture("not-running")
        page.ask("click", selector=".notification-list-item a", text="Open the settings")
        page.wait_for("the settings", lambda: page.ask("texts", selector=".settings-editor"), bool)
        page.ask("press", keys="Control+w")
        program(lost, "")
        page.ask("click", selector='.statusbar-item[id^="saywright"] a')
        page.wait_for("the hints", page.hints, bool)
        desk.total()


def test_a_program_that_is_no_server_is_told_and_another_tried(tmp_path: Path) -> None:
    silent = plain_program(tmp_path / "bin/silent", "sleep 600")
    failing = plain_program(tmp_path / "bin/failing", "exit 3")
    with desk_at(tmp_path, server(silent)) as desk:
        page = desk.page
        desk.open()
        time.sleep(2)  # it is waited for, and nothing is wrong yet
        assert (page.notices(), page.hints()) == ([], [])
        desk.set(server(failing))
        page.wait_for("the notice", page.notices, bool)
        page.wait_for("the status", page.status, lambda status: "not running" in status)
        (notice,) = page.notices()
        assert f"{failing} serve" in notice
        desk.set(server(sys.executable))
        page.wait_for("the hints", page.hints, bool)
        desk.total()


def test_a_server_that_ends_is_started_again(tmp_path: Path) -> None:
    ids = tmp_path / "ids"
    path = program(tmp_path / "bin/saywright", f"echo $$ >>{shlex.quote(str(ids))}")
    with desk_at(tmp_path, server(path)) as desk:
        page = desk.page
        desk.open()
        page.wait_for("the hints", page.hints, bool)
        os.kill(int(ids.read_text().split()[-1]), signal.SIGKILL)
        page.wait_for("another server", lambda: len(ids.read_text().split()), (2).__eq__)
        desk.put_cursor_on(CROSSING)
        seconds = desk.total()
        desk.choose("Cut this sentence")
        page.wait_for("the total to fall", desk.total, seconds.__gt__)
        assert page.notices() == []


def test_in_a_folder_that_is_not_trusted_nothing_of_it_is_run(tmp_path: Path) -> None:
    ran = tmp_path / "ran"
    with desk_at(tmp_path, {"security.workspace.trust.enabled": True}) as desk:
        page = desk.page
        own = program(desk.scripts / ".venv/bin/saywright", f"touch {shlex.quote(str(ran))}")
        desk.set(server(own) | {"saywright.server.runWith": "uvx"})
        desk.open()
        page.wait_for("a notice, or a time", lambda: page.notices() or page.hints(), bool)
        assert not ran.exists()


def test_the_folder_s_own_environment_is_found(tmp_path: Path) -> None:
    ran = tmp_path / "ran"
    with desk_at(tmp_path, {}) as desk:
        program(desk.scripts / ".venv/bin/saywright", f"touch {shlex.quote(str(ran))}")
        desk.open()
        desk.page.wait_for("the hints", desk.page.hints, bool)
        assert ran.exists()


def test_the_environment_that_is_chosen_in_the_python_extension_is_found(tmp_path: Path) -> None:
    ran = tmp_path / "ran"
    program(tmp_path / "salt/bin/saywright", f"touch {shlex.quote(str(ran))}")
    python = python_extension(tmp_path, chosen=tmp_path / "salt/bin/python")
    with desk_at(tmp_path, {}, beside=(python,)) as desk:
        desk.open()
        desk.page.wait_for("the hints", desk.page.hints, bool)
        assert ran.exists()


def python_extension(folder: Path, chosen: Path) -> Path:
    """An archive with no more in it than what is asked of the Python extension."""
    manifest = {
        **{"name": "python", "publisher": "ms-python", "version": "2099.1.0"},
        **{"engines": {"vscode": "^1.50.0"}, "main": "./main.js"},
        "activationEvents": ["onLanguage:python"],
    }
    environments = f"getActiveEnvironmentPath: () => ({{ path: {json.dumps(str(chosen))} }})"
    archive = folder / "python.vsix"
    with zipfile.ZipFile(archive, "w") as packed:
        packed.writestr("extension/package.json", json.dumps(manifest))
        main = f"exports.activate = () => ({{ environments: {{ {environments} }} }});"
        packed.writestr("extension/main.js", main)
    return archive
