"""`saywright cut`: what it tells, writes and ends with."""

import json
import os
import re
import stat
import subprocess
from pathlib import Path

import pytest

from saywright.analysis import analyse
from saywright.commands.main import main
from saywright.speech.slot import clock
from tests.commands.running import run_here

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
    return run_here("cut", *arguments, columns=columns)


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


def test_a_diff_never_writes(tmp_path: Path) -> None:
    script = write(tmp_path, PIECE)
    refused = cut("--apply", "2", "--diff", script)
    assert refused.returncode == 2
    assert "To see plan 2 first: --plan 2" in refused.stderr
    assert cut("--apply", "2", "--json", "--diff", script).returncode == 2
    assert cut(script, "--plan", "1", "--apply", "2").returncode == 2
    assert script.read_bytes() == PIECE.encode()


def test_as_many_plans_as_are_asked_for(tmp_path: Path) -> None:
    script = write(tmp_path, PIECE)
    assert cut(script, "--plan", "4", "--plans", "4").stdout.startswith("--- ")
    refused = cut(script, "--apply", "4")
    assert refused.returncode == 2
    assert "There is no plan 4: there are only 3 plans. --plans 4 asks for more." in refused.stderr
    assert "there is one plan only." in cut(script, "--apply", "2", "--plans", "1").stderr
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


TRIMMED = (
    "__I weighed the salt for thirty years.__ Well, you know, my mother kept the lamp at night.\n"
    "__She rowed the ferry home.__ __I took the bell in the night.__\n"
)


def test_trims_stand_among_the_cuts(tmp_path: Path) -> None:
    script = write(tmp_path, TRIMMED)
    whole = analyse(TRIMMED).views[0].timeline.seconds
    asked = ("--to", f"{whole - 0.5:.1f}s")
    found = plans(script, *asked)["plans"]
    assert isinstance(found, list)
    first = found[0]
    assert first["cuts"]
    assert all("the line stands without" in each["why"] for each in first["cuts"])
    table = cut(script, *asked).stdout
    for each in first["cuts"]:
        words = TRIMMED[each["start"] : each["end"]]
        assert words.strip(" ,") in table
        assert "mother" not in words
        assert "Well" in words
    assert cut(script, "--apply", "1", *asked).returncode == 0
    after = analyse(script.read_text("utf-8")).views[0].timeline.seconds
    assert after == pytest.approx(first["seconds"], abs=0.05)


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
    for time in ("-5s", "\N{MINUS SIGN}5s", "-1:30"):
        assert "This is not a time. Write it as 45s" in cut(script, "--to", time).stderr
    assert "No piece fits into no time." in cut(script, "--to", "0s").stderr
    assert cut(script, "--to", "0:00").returncode == 2
    assert "--to: expected one argument" in cut(script, "--to").stderr


def test_the_part_of_a_second_by_which_it_is_over(tmp_path: Path) -> None:
    whole = analyse(PIECE).views[0].timeline.seconds
    script = write(tmp_path, PIECE)
    told = cut(script, "--to", f"{whole - 0.02:.2f}s").stdout
    runs, aim = re.findall(r"(\d+\.\d+) s", " ".join(told.split()))[:2]
    assert float(runs) > float(aim)
    assert cut(script).stdout.startswith(
        f"a.say: it runs {clock(whole)} and should be inside 0:18."
    )


VERSE = (
    "form: verse\n\n__I was the keeper of the light.__\nMy father (he coughs), who was deaf "
    "(so he told us),\nWould climb the stair at noon.\n__And there they sit.__\n"
)


def test_verse_keeps_its_lines_in_the_table_and_marks_leave_no_blank(tmp_path: Path) -> None:
    told = cut(write(tmp_path, VERSE), "--to", "5s", columns=120).stdout
    assert "My father, who was deaf, / Would climb the stair at noon." in told
    prose = cut(write(tmp_path, VERSE.replace("verse", "prose")), "--to", "5s", columns=120).stdout
    assert "My father, who was deaf, Would climb the stair at noon." in prose


def test_a_sentence_takes_the_room_there_is(tmp_path: Path) -> None:
    long = "I weighed the salt and the sacks and the wagons and the fish that the ferry brought in."
    script = write(tmp_path, f"slot: 2s\n\n__I went home.__ {long}\n")
    assert f"  {long}\n" in cut(script, columns=120).stdout
    assert " …\n" in cut(script).stdout


@pytest.mark.parametrize(
    ("takes", "says"),
    [
        (("24s 2026-11-01",), "The take of 0:24 was of the longer piece."),
        (("0.4 min", "24s Ada"), "The takes of 0:24 and 0:24 were of the longer piece."),
        (("24s", "0:25", "26s"), "The takes of 0:24, 0:25 and 0:26 were of the longer piece."),
    ],
)
def test_takes_that_do_not_say_of_how_long_a_piece_they_are(
    tmp_path: Path, takes: tuple[str, ...], says: str
) -> None:
    script = write(tmp_path, "\n".join((f"{PIECE}---- takes", *takes, "")))
    first = plans(script)["plans"]
    assert isinstance(first, list)
    told = " ".join(cut(script, "--apply", "1").stdout.split())
    text = script.read_text("utf-8")
    found = re.search(r"Write (of \d+\.\ds) after (?:its time|their times), as (.*?) of", told)
    assert says in told
    assert found
    assert takes[0].startswith(found[2])
    assert f"taken to run {clock(analyse(text).views[0].timeline.seconds)}, not " in told
    text = re.sub(r"(?m)^([\d.:]+(?: min|s)?)(?= |$)", rf"\1 {found[1]}", text)
    after = analyse(text).views[0].timeline.seconds
    assert after == pytest.approx(first[0]["seconds"], abs=0.05)
    assert told.endswith(f", not {clock(after)}.")


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
        (TWO.replace("long", "Short"), (), 2, "with --part: 1 (“short”); 2 (“Short”)"),
        (TWO.replace("long", "Short"), ("--part", "short"), 2, "1 (“short”); 2 (“Short”)"),
        (TWO.replace("long", "Short"), ("--part", "2"), 0, "a.say, Short"),
        (TWO.replace(": long", ""), ("--part", "2"), 0, "and should be inside 0:03"),
        (TWO.replace(": long", ""), ("--part", "long"), 2, "There are: short; 2 (no label)"),
        (PIECE, ("--part", "nope"), 2, "There is one piece, without a label: leave out"),
        (TWO + "---- piece: c\n(beat)\n", ("--part", "c"), 2, "Nothing is spoken in this piece"),
        (PIECE, ("--json", "--diff"), 2, "--json and a diff cannot both be printed"),
        (PIECE, ("--json", "--plan", "2"), 2, "--json and a diff cannot both be printed"),
        ("slot: 1s\n\n~~I weighed the salt. She sang.", (), 1, "a mark near them is left open"),
        ("", (), 2, "no piece"),
        ("slot: 9s\n\n(beat)\n", (), 2, "no piece"),
        ("slot: 9s\n\n~~I weighed the salt.~~\n", (), 2, "no piece"),
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
    assert says in " ".join((done.stderr + done.stdout).split())
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


def test_a_piece_of_hours_is_not_planned_for(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    script = tmp_path / "a.say"
    script.write_text("slot: 60s\n\n" + "I weigh the salt and go.\n" * 3_334, encoding="utf-8")
    assert main(["cut", str(script)]) == 2
    assert "20,004 words, too many to plan for" in capsys.readouterr().err
