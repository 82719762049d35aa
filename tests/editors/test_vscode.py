"""`editors/vscode` in VS Code's own workbench, in a page in which a script is timed, cut, planned
and restored."""

import json
import os
import re
import shlex
import subprocess
import sys
import time
import zipfile
from pathlib import Path

import pytest

from .vscode.desk import (
    EXTENSION,
    NEEDS_WORKBENCH,
    RELEASES,
    ROOT,
    SAMPLE,
    desk_at,
    packaged,
    program,
    server,
)

pytestmark = NEEDS_WORKBENCH

STANDING_SECONDS = 5.0  # in which a window that was opened comes to rest
ASKED_AGAIN_SECONDS = 2.0  # after hints have come, which shifts what is on the page
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


@pytest.mark.parametrize("release", RELEASES)
def test_typing_moves_no_hint_of_another_line_cuts_none_and_covers_no_words(
    tmp_path: Path, release: str
) -> None:
    with desk_at(tmp_path, server(sys.executable), release) as desk:
        page = desk.page
        desk.open()
        page.wait_for("the hints", page.hints, lambda hints: len(hints) >= 15)
        seconds = desk.total()
        desk.put_cursor_on("So I could stay home.")
        page.ask("press", keys="End")
        page.ask("type", text="\nAnd", delay=0)
        page.wait_for("a time beside it", page.hints, lambda hints: len(hints) == 16)
        time.sleep(ASKED_AGAIN_SECONDS)
        page.ask("watch", typed="And")
        page.ask("type", text=" her soup’s always cold, and I always eat her soup.", delay=60)
        page.wait_for("the total to rise", desk.total, (seconds + 2).__lt__)
        seen = page.ask("watched")
        assert seen["frames"] > 60
        assert (seen["moved"], seen["cut"], seen["covered"]) == ([], [], [])


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
