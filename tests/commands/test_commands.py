"""The commands as a shell runs them: what they print, and their exit codes."""

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

import saywright

SAMPLES = Path(__file__).parents[2] / "sample_scripts"
ROOT = os.name == "posix" and os.geteuid() == 0


def run(*arguments: str | Path, stdin: bytes = b"") -> subprocess.CompletedProcess[bytes]:
    command = [sys.executable, "-m", "saywright", *map(str, arguments)]
    return subprocess.run(command, input=stdin, capture_output=True, timeout=60, check=False)


def write(folder: Path, name: str, content: str | bytes) -> Path:
    path = folder / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(content if isinstance(content, bytes) else content.encode())
    return path


def test_lint_of_the_samples_names_the_overlong_script() -> None:
    done = run("lint", SAMPLES)
    lines = done.stdout.decode().splitlines()
    warnings = [line for line in lines if ": warning: " in line]
    assert done.returncode == 1
    assert len(warnings) == 1
    assert "ferry-mate.say:" in warnings[0]
    assert "too long" in warnings[0]
    assert done.stderr == b""


def test_lint_prints_file_line_and_column(tmp_path: Path) -> None:
    script = write(tmp_path, "a.say", "slot: 1s\n\n😀 I go.\nShe stays and she weighs the salt.\n")
    lines = run("lint", script).stdout.decode().splitlines()
    assert lines[1].startswith(f"{script}:4:1: warning: ")
    assert lines[1].endswith("[over-time]")


@pytest.mark.parametrize(
    ("text", "fail_on", "code"),
    [
        ("I go.", "warning", 0),
        ("I go.", "hint", 1),
        ("I ~~go.", "warning", 1),
        ("I ~~go.", "error", 0),
        ("", "hint", 0),
    ],
)
def test_lint_fails_on_what_it_is_told(tmp_path: Path, text: str, fail_on: str, code: int) -> None:
    assert run("lint", write(tmp_path, "a.say", text), "--fail-on", fail_on).returncode == code


def test_lint_cannot_run_without_scripts(tmp_path: Path) -> None:
    for path in (tmp_path, tmp_path / "missing.say"):
        done = run("lint", path)
        assert done.returncode == 2
        assert done.stderr.strip()
        assert b"Traceback" not in done.stderr


@pytest.mark.parametrize(
    ("content", "says"),
    [
        ("I go.".encode("utf-16"), "UTF-16"),
        (
            b"I go.\nShe st\xff\xfeys.",
            ":2:1: error: Line 2 holds a character that is not UTF-8. Save the file as UTF-8 "
            "instead.\n",
        ),
    ],
)
def test_lint_reports_what_is_not_text(tmp_path: Path, content: bytes, says: str) -> None:
    write(tmp_path, "fine.say", "I go.")
    write(tmp_path, "other.say", content)
    done = run("lint", tmp_path)
    assert done.returncode == 1
    assert says in done.stdout.decode()
    assert "fine.say:1:1: hint: " in done.stdout.decode()


def test_lint_follows_no_loop_and_reads_no_hidden_folder(tmp_path: Path) -> None:
    write(tmp_path, "in/a.say", "I go.")
    write(tmp_path, ".git/b.say", "I go.")
    try:
        (tmp_path / "in" / "again").symlink_to(tmp_path, target_is_directory=True)
    except OSError:
        pytest.skip("no links here")
    done = run("lint", tmp_path)
    assert done.returncode == 0
    assert b"1 script:" in done.stdout


@pytest.mark.skipif(ROOT, reason="root may read everything")
def test_lint_says_what_it_may_not_read(tmp_path: Path) -> None:
    write(tmp_path, "a.say", "I go.").chmod(0)
    done = run("lint", tmp_path)
    assert done.returncode == 2
    assert b"cannot be read" in done.stderr


def test_lint_takes_the_nearest_project_file(tmp_path: Path) -> None:
    write(tmp_path, "saywright.toml", '[checks]\nrunning-time = "off"\nover-tme = "error"\n')
    write(tmp_path, "deep/a.say", "slot: 1s\n\nI weigh the salt and I never cheat anybody.")
    write(tmp_path, "near/b.say", "I go.")
    write(tmp_path, "near/saywright.toml", 'pase = "100 wpm"\n')
    lines = run("lint", tmp_path).stdout.decode().splitlines()
    found = [line.removeprefix(str(tmp_path)) for line in lines]
    assert found[0].startswith("/saywright.toml:3:1: warning: There is no check called “over-tme”")
    assert found[1].startswith("/deep/a.say:3:1: warning: ")
    assert found[2].startswith("/near/saywright.toml:1:1: warning: There is no setting")
    assert found[3].startswith("/near/b.say:1:1: hint: ")


def test_inspect_is_the_same_from_a_file_from_a_pipe_and_from_python() -> None:
    script = SAMPLES / "salt-song.say"
    text = script.read_text("utf-8")
    from_file = json.loads(run("inspect", script, "--json").stdout)
    from_pipe = json.loads(run("inspect", "-", "--json", stdin=text.encode()).stdout)
    assert from_pipe == saywright.inspect(text)
    assert from_file["parts"][0]["sentences"] == from_pipe["parts"][0]["sentences"]


def test_inspect_prints_a_table() -> None:
    lines = run("inspect", SAMPLES / "weighing-room.say").stdout.decode().splitlines()
    assert lines[0].startswith("draft: a question, answered without stopping   0:")
    assert any(line.strip().startswith("cut   Once a man") for line in lines)


def test_inspect_tells_what_is_said_otherwise_than_it_is_written() -> None:
    script = b"I weigh the salt. The ferry left at 4:30. ~~It was 5 p.m.~~\n"
    known = json.loads(run("inspect", "-", "--json", stdin=script).stdout)
    said = [sentence["said"] for sentence in known["parts"][0]["sentences"]]
    assert said == [None, "The ferry left at four thirty.", "It was five P M."]
    lines = run("inspect", "-", stdin=script).stdout.decode().splitlines()
    assert [line.strip() for line in lines if "said" in line] == [
        "said   The ferry left at four thirty."
    ]


@pytest.mark.parametrize("command", ["lint", "inspect", "format"])
def test_python_shows_no_traceback_on_bad_bytes(tmp_path: Path, command: str) -> None:
    done = run(command, write(tmp_path, "a.say", b"\xff\xfe\x00"))
    assert done.returncode in (1, 2)
    assert b"Traceback" not in done.stderr


def test_format_tidies_in_place_and_keeps_line_ends_and_permissions(tmp_path: Path) -> None:
    script = write(
        tmp_path, "a.say", b"\xef\xbb\xbfslot:60s\r\ntitle: x\r\n\r\n I go.  ( beat )\r\n"
    )
    script.chmod(0o640)
    assert run("format", script, "--check").returncode == 1
    assert script.read_bytes().startswith(b"\xef\xbb\xbfslot:60s")
    assert run("format", script).returncode == 0
    assert b"\r\n\r\nI go. (beat)\r\n" in script.read_bytes()
    assert script.stat().st_mode & 0o777 == 0o640
    assert run("format", script, "--check").returncode == 0
    assert [path.name for path in tmp_path.iterdir()] == ["a.say"]


def test_the_samples_are_tidy() -> None:
    assert run("format", SAMPLES, "--check").returncode == 0


def test_lint_writes_nothing(tmp_path: Path) -> None:
    copy = tmp_path / "copy"
    shutil.copytree(SAMPLES, copy)
    before = {path: path.read_bytes() for path in copy.iterdir()}
    run("lint", copy)
    run("inspect", copy / "salt-song.say")
    assert {path: path.read_bytes() for path in copy.iterdir()} == before


def test_lint_loads_no_language_server() -> None:
    code = (
        "import sys; from saywright.commands.main import main; "
        f"main(['lint', {str(SAMPLES / 'salt-song.say')!r}]); "
        "print([m for m in sys.modules if m.startswith(('pygls', 'lsprotocol'))])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, check=True, timeout=60)
    assert done.stdout.decode().splitlines()[-1] == "[]"
