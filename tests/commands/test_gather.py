"""`saywright gather` as a shell runs it."""

import os
import stat
from pathlib import Path

import pytest

from saywright.analysis import analyse
from saywright.commands.main import main
from saywright.speech.slot import clock

DRAFTS = (
    "---- draft: the works\nWe went in at six. __Nobody licks their hands twice.__ It was cold.\n"
    "__The weighbridge closed.__ __Ada blew the whistle.__ __But the weighbridge kept its needle.__"
    "\n\n"
)
TWO = f"{DRAFTS}---- piece: one\nI go.\n\n---- piece: two\nThe weighbridge closed.\n"


def write(folder: Path, content: str) -> Path:
    path = folder / "a.say"
    path.write_bytes(content.encode())
    return path


def gather(*arguments: str | Path) -> int:
    return main(["gather", *map(str, arguments)])


def test_it_writes_only_what_is_new(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    script = write(tmp_path, f"{DRAFTS}---- piece\nAda blew the whistle.\n".replace("\n", "\r\n"))
    before = script.read_bytes()
    script.chmod(0o640)
    assert gather(script) == 0
    assert capsys.readouterr().out == (
        f"{script}: 3 kept lines are in the piece now. It runs 0:08.\n"
    )
    after = script.read_bytes()
    assert after.startswith(before)
    assert after[len(before) :].replace(b"\r\n", b"\n").decode() == (
        "\n__Nobody licks their hands twice.__\n# from draft “the works”\n"
        "__The weighbridge closed.__\n# from draft “the works”\n"
        "__But the weighbridge kept its needle.__\n# from draft “the works”\n"
    )
    assert after.count(b"\n") == after.count(b"\r\n")
    if os.name == "posix":
        assert stat.S_IMODE(script.stat().st_mode) == 0o640
    assert list(tmp_path.iterdir()) == [script]
    assert gather(script) == 0
    assert script.read_bytes() == after
    assert "in the piece already" in capsys.readouterr().out


def test_an_order_that_flows(tmp_path: Path) -> None:
    script = write(tmp_path, DRAFTS)
    assert gather(script, "--order", "flow") == 0
    lines = script.read_text("utf-8").split("---- piece: gathered\n")[1].split("\n")
    closed, kept = "__The weighbridge closed.__", "__But the weighbridge kept its needle.__"
    assert lines.index(kept) == lines.index(closed) + 2


def test_a_diff_writes_nothing(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    script = write(tmp_path, DRAFTS.rstrip("\n"))
    before = script.read_bytes()
    assert gather(script, "--diff") == 0
    told = capsys.readouterr().out
    assert script.read_bytes() == before
    assert told.startswith(f"--- {script}\n+++ {script}\n@@ ")
    assert "+---- piece: gathered\n+__Nobody licks their hands twice.__\n" in told
    assert "\\ No newline at end of file\n" in told


def test_of_several_pieces_one_is_named(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    script = write(tmp_path, TWO)
    assert gather(script) == 2
    assert "Name one with --part: one; two" in capsys.readouterr().err
    assert gather(script, "--part", "Two") == 0
    assert capsys.readouterr().out == f"{script}: 3 kept lines are in “two” now. It runs 0:08.\n"
    assert script.read_text("utf-8").startswith(TWO)


def test_a_piece_without_a_label_is_named_by_its_number(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    script = write(tmp_path, TWO.replace(": two", "; slot 60s"))
    assert gather(script) == 2
    assert "Name one with --part: one; 2 (no label)" in capsys.readouterr().err
    assert gather(script, "--part", "2") == 0
    assert "are in the piece now. It runs 0:08 of 1:00.\n" in capsys.readouterr().out
    assert script.read_text("utf-8").startswith(TWO.replace(": two", "; slot 60s"))


def test_a_new_piece_has_a_time_too(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    script = write(tmp_path, f"slot: 60s\n\n{DRAFTS}")
    assert gather(script) == 0
    seconds = analyse(script.read_text("utf-8")).views[-1].timeline.seconds
    told = f"4 kept lines are in a new piece now. It runs {clock(seconds)} of 1:00.\n"
    assert told in capsys.readouterr().out


@pytest.mark.parametrize(
    ("content", "arguments", "says"),
    [
        ("I go.\n", (), "No line is kept in its drafts."),
        ("__I go.__\n", (), "No line is kept in its drafts."),
        (TWO, ("--part", "three"), "There are: one; two"),
        (TWO.replace("two", "one"), ("--part", "one"), "by its number: 1 (“one”); 2 (“one”)"),
        (TWO, ("--part", "3"), "There are: one; two"),
        ("---- draft\n__I go.__\n", ("--part", "one"), "There are: none"),
    ],
)
def test_what_it_cannot_do_it_says(
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    content: str,
    arguments: tuple[str, ...],
    says: str,
) -> None:
    script = write(tmp_path, content)
    assert gather(script, *arguments) == 2
    assert says in capsys.readouterr().err
    assert script.read_text("utf-8") == content


def test_what_cannot_be_read_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert gather(tmp_path / "b.say") == 2
    (tmp_path / "c.say").write_bytes(b"\xff\xff")
    assert gather(tmp_path / "c.say") == 2
    assert "not UTF-8" in capsys.readouterr().err
