"""`editors/vscode` finds the server, starts it, and tells what it tried where none starts."""

import json
import os
import shlex
import signal
import sys
import time
import zipfile
from pathlib import Path

from .vscode.desk import NEEDS_WORKBENCH, desk_at, packaged, plain_program, program, run, server

pytestmark = NEEDS_WORKBENCH

SPOKEN = "He says the new owners took it down"


def test_the_server_is_looked_for_in_order() -> None:
    packaged()
    run("npm", "test")


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
        desk.put_cursor_on(SPOKEN)
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
