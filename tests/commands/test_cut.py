"""`saywright cut` as a shell runs it."""

import json
import os
import re
import stat
import subprocess
import sys
from pathlib import Path

import pytest

from saywright.analysis import analyse
from saywright.commands.main import main

ROOT = os.name == "posix" and os.geteuid() == 0
PIECE = (
    "slot: 20s\nmargin: 2s\n\n__I was never once wrong.__ I want to tell you something. I weighed "
    "the salt for thirty years.\nI weighed it in the rain. The lamp was mine too, and the whistle "
    "on its nail.\n\nOnce a man brought me a fish to say sorry. I weighed the fish. It was two "
    "kilos.\nSo when the inspector asks, I tell him two kilos. (beat) He never asks about it.\n"
)
SILENT = (
    "slot: 14s\nmargin: 1s\n\n__I was never once wrong.__ I want to tell you something. (4s) I "
    "weighed the salt for years. (long pause) I weighed it in the rain. The lamp was mine too. (3s)"
    "\n\nA man brought me a fish. (long pause) I weighed the fish. (beat) It was two kilos.\n"
)
PAUSE_SECONDS = 0.8  # where two that stand together go, they share one
FIGURE = re.compile(r"(?P<cut>(?:[x·] ){3}).*\((?P<seconds>\d+\.\d) s[^()]*\)\Z")
TWO = (
    "---- piece: short; slot 2s\nI weighed the salt. She hid the lamp. We rowed.\n"
    "---- piece: long; slot 3s\nI weighed the salt. She hid the lamp. We rowed home at ten.\n"
)


def cut(*arguments: str | Path, columns: int = 80) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "saywright", "cut", *map(str, arguments)]
    environment = {**os.environ, "COLUMNS": str(columns)}
    return subprocess.run(
        command, capture_output=True, timeout=60, check=False, encoding="utf-8", env=environment
    )


def write(folder: Path, content: str | bytes) -> Path:
    path = folder / "a.say"
    path.write_bytes(content if isinstance(content, bytes) else content.encode())
    return path


def plans(script: Path, *arguments: str) -> dict[str, object]:
    found: dict[str, object] = json.loads(cut(script, "--json", *arguments).stdout)
    return found


@pytest.mark.parametrize("columns", [80, 60, 40])
def test_plans_stand_side_by_side(tmp_path: Path, columns: int) -> None:
    script = write(tmp_path, PIECE)
    done = cut(script, columns=columns)
    lines = done.stdout.splitlines()
    assert done.returncode == 0
    assert done.stderr == ""
    assert all(len(line) <= columns for line in lines)
    assert any(line.split() == ["1", "2", "3", "plan"] for line in lines)
    assert [word for line in lines if line.endswith(" runs") for word in line.split()][-1] == "runs"
    assert script.read_bytes() == PIECE.encode()


def test_json_has_what_is_to_be_marked(tmp_path: Path) -> None:
    script = write(tmp_path, "\ufeff" + PIECE.replace("salt", "😀 salt"))
    text = script.read_bytes().decode()
    found = plans(script)
    assert list(found) == ["part", "slot_seconds", "aim_seconds", "seconds", "plans"]
    assert (found["part"], found["slot_seconds"], found["aim_seconds"]) == ("", 20.0, 18.0)
    assert isinstance(found["plans"], list)
    assert len(found["plans"]) == 3
    for number, each in enumerate(found["plans"], 1):
        assert list(each) == ["seconds", "cuts"]
        assert each["seconds"] <= 18
        marked = text
        for place in reversed(each["cuts"]):
            assert list(place) == ["start", "end", "why"]
            start, end = place["start"], place["end"]
            marked = f"{marked[:start]}~~{marked[start:end]}~~{marked[end:]}"
        script.write_bytes(text.encode())
        assert cut(script, "--apply", str(number)).returncode == 0
        assert script.read_bytes().decode() == marked
        assert analyse(marked).views[0].timeline.seconds == pytest.approx(each["seconds"], abs=0.05)


def test_apply_keeps_line_ends_permissions_and_the_rest(tmp_path: Path) -> None:
    before = PIECE.replace("\n", "\r\n").encode()
    script = write(tmp_path, before)
    script.chmod(0o640)
    done = cut(script, "--apply", "2")
    after = script.read_bytes()
    assert done.returncode == 0
    assert "plan 2" in done.stdout
    assert after != before
    assert after.replace(b"~~", b"") == before
    if os.name == "posix":
        assert stat.S_IMODE(script.stat().st_mode) == 0o640
    assert list(tmp_path.iterdir()) == [script]
    assert "nothing to cut" in cut(script).stdout


def test_a_diff_is_one_that_patch_knows(tmp_path: Path) -> None:
    script = write(tmp_path, PIECE.rstrip("\n"))
    done = cut(script, "--diff")
    assert done.returncode == 0
    assert done.stdout.startswith(f"--- {script}\n+++ {script}\n@@ ")
    assert script.read_bytes() == PIECE.rstrip("\n").encode()
    assert cut("--diff", script).stdout == done.stdout
    assert cut("--plan", "1", script).stdout == done.stdout
    second = cut("--diff", script, "--plan", "2")
    assert second.returncode == 0
    assert second.stdout.startswith("--- ")
    assert second.stdout != done.stdout
    assert script.read_bytes() == PIECE.rstrip("\n").encode()
    assert cut(script, "--apply", "1").returncode == 0
    removed, added = (
        [line[1:] for line in done.stdout.split("\n")[2:] if line[:1] == sign] for sign in "-+"
    )
    assert set(added) <= set(script.read_text("utf-8").split("\n"))
    assert set(removed) <= set(PIECE.split("\n"))


def test_a_diff_of_what_is_applied(tmp_path: Path) -> None:
    script = write(tmp_path, PIECE)
    second = cut(script, "--plan", "2").stdout
    assert cut("--apply", "2", "--diff", script).stdout == second
    assert "~~" in script.read_text("utf-8")
    assert cut(script, "--plan", "1", "--apply", "2").returncode == 2


def test_as_many_plans_as_are_asked_for(tmp_path: Path) -> None:
    script = write(tmp_path, PIECE)
    assert cut(script, "--plan", "4", "--plans", "4").stdout.startswith("--- ")
    refused = cut(script, "--apply", "4")
    assert refused.returncode == 2
    assert "only 3 plans. --plans 4 asks for more." in refused.stderr
    assert "asks for more" not in cut(script, "--plan", "9", "--plans", "9").stderr
    assert script.read_bytes() == PIECE.encode()


def test_figures_add_up_to_what_the_piece_loses(tmp_path: Path) -> None:
    script = write(tmp_path, SILENT)
    blocks = [" ".join(block.split()) for block in cut(script).stdout.split("\n\n")]
    rows = [row for block in blocks if (row := FIGURE.match(block))]
    found = plans(script)
    assert isinstance(found["plans"], list)
    assert len(found["plans"]) == 3
    assert any("with 4.0 s of silence" in row[0] for row in rows)
    for number, each in enumerate(found["plans"]):
        figures = [float(row["seconds"]) for row in rows if row["cut"].split()[number] == "x"]
        assert len(figures) == len(each["cuts"])
        assert sum(figures) == pytest.approx(found["seconds"] - each["seconds"], abs=PAUSE_SECONDS)


def test_no_figure_is_parted_from_its_unit(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    script = write(tmp_path, SILENT)
    for columns in range(40, 81):
        monkeypatch.setenv("COLUMNS", str(columns))
        assert main(["cut", str(script)]) == 0
        table = capsys.readouterr().out
        assert " s of" in table
        assert not re.search(r"\d\n +s\b", table)
        assert max(map(len, table.splitlines())) <= columns


def test_another_time_than_the_slot(tmp_path: Path) -> None:
    script = write(tmp_path, PIECE)
    found = plans(script, "--to", "12s", "--plans", "1")
    assert (found["slot_seconds"], found["aim_seconds"]) == (20.0, 12.0)
    assert isinstance(found["plans"], list)
    assert len(found["plans"]) == 1
    assert found["plans"][0]["seconds"] <= 12
    assert plans(script, "--to", "2min")["plans"] == []
    assert cut(script, "--to", "60").returncode == 2
    assert "60s" in cut(script, "--to", "60").stderr


def test_kept_lines_alone_that_overrun(tmp_path: Path) -> None:
    script = write(tmp_path, "slot: 2s\n\n__I was never once wrong about the salt.__ I sang.\n")
    done = cut(script)
    assert done.returncode == 1
    assert "kept lines alone run" in " ".join(done.stdout.split())
    assert cut(script, "--apply", "1").returncode == 1
    assert "~~I sang.~~" in script.read_text("utf-8")


@pytest.mark.parametrize(
    ("content", "arguments", "code", "says"),
    [
        (TWO, (), 2, "Name one with --part: short; long"),
        (TWO, ("--part", "Short"), 0, ""),
        (TWO, ("--part", "middle"), 2, "There are: short; long"),
        ("I go. I stay.", (), 2, "--to 60s"),
        ("---- draft\nI go.", (), 2, "no piece"),
        ("slot: 60s\n\nI go.", ("--apply", "1"), 0, "inside its time already"),
        ("slot: 1s\n\n__I weighed the salt.__", ("--apply", "1"), 1, "Every line is kept"),
        (PIECE, ("--apply", "9"), 2, "There is no plan 9"),
        (b"I go.\xff", (), 2, "UTF-8"),
        ("slot: 1s\n\nI weighed the salt for thirty years.", (), 1, ""),
    ],
)
def test_what_cannot_be_done_is_said(
    tmp_path: Path, content: str | bytes, arguments: tuple[str, ...], code: int, says: str
) -> None:
    script = write(tmp_path, content)
    before = script.read_bytes()
    done = cut(script, *arguments)
    assert done.returncode == code
    assert says in done.stderr + done.stdout
    assert "Traceback" not in done.stderr
    assert script.read_bytes() == before


def test_a_script_that_is_not_there(tmp_path: Path) -> None:
    done = cut(tmp_path / "none.say")
    assert done.returncode == 2
    assert "It cannot be read" in done.stderr


@pytest.mark.skipif(ROOT, reason="root may write everything")
def test_a_read_only_script_is_left_alone(tmp_path: Path) -> None:
    script = write(tmp_path, PIECE)
    script.chmod(0o444)
    done = cut(script, "--apply", "1")
    assert done.returncode == 2
    assert "read-only" in done.stderr
    assert script.read_bytes() == PIECE.encode()
