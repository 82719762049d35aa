"""`saywright compare` in the terminal, with a Git repository of its own."""

import json
import os
import shutil
import subprocess
from pathlib import Path
from typing import Any

import pytest

from saywright.commands.wide_text import columns_of
from tests.commands.running import run_here

GIT = shutil.which("git")
needs_git = pytest.mark.skipif(GIT is None, reason="git is not here")
AS_WRITER = {
    "GIT_CONFIG_GLOBAL": os.devnull,
    "GIT_CONFIG_NOSYSTEM": "1",
    **{f"GIT_{who}_NAME": "Ines" for who in ("AUTHOR", "COMMITTER")},
    **{f"GIT_{who}_EMAIL": "ines@island.invalid" for who in ("AUTHOR", "COMMITTER")},
}
BEFORE = (
    "slot: 10s\n\nI weigh the salt. I never cheat, not once. (beat) My father did.\n\n"
    "Joss rows the ferry home. The lamp goes out at ten. Ada sings to the gulls.\n"
)
AFTER = (
    "slot: 10s\n\nI weigh the salt. ~~I never cheat, not once. (beat)~~ My father never did.\n\n"
    "The lamp goes out at ten. __Ada sings to the gulls.__ (2s) Joss rows the ferry home. "
    "We wave.\n"
)
KINDS = ["unchanged", "cut", "reworded", "unchanged", "kept", "moved", "added"]


def run(
    *arguments: str | Path, columns: int = 80, **environment: str
) -> "subprocess.CompletedProcess[str]":
    return run_here("compare", *arguments, columns=columns, **AS_WRITER, **environment)


def write(path: Path, content: str | bytes) -> Path:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(content if isinstance(content, bytes) else content.encode())
    return path


def git(folder: Path, *arguments: str, day: str = "2026-03-01T09:30:00+00:00") -> None:
    subprocess.run(
        ["git", *arguments],
        cwd=folder,
        env={**os.environ, **AS_WRITER, "GIT_AUTHOR_DATE": day, "GIT_COMMITTER_DATE": day},
        capture_output=True,
        check=True,
        timeout=60,
    )


@pytest.fixture
def repository(tmp_path: Path) -> Path:
    """A repository whose script was written, changed, named otherwise, and then changed again."""
    git(tmp_path, "init", "-q")
    old = write(tmp_path / "night" / "old name.say", BEFORE)
    git(tmp_path, "add", ".")
    git(tmp_path, "commit", "-qm", "one", day="2026-03-01T09:30:00+00:00")
    write(old, BEFORE.replace("I weigh the salt.", "~~I weigh the salt.~~"))
    git(tmp_path, "commit", "-qam", "two", day="2026-03-02T10:00:00+00:00")
    git(tmp_path, "mv", "night/old name.say", "night/é *.say")
    git(tmp_path, "commit", "-qm", "three", day="2026-03-03T11:00:00+00:00")
    write(tmp_path / "night" / "é *.say", BEFORE)
    git(tmp_path, "commit", "-qam", "four", day="2026-03-04T12:00:00+00:00")
    return tmp_path


def known(*arguments: str | Path) -> Any:
    return json.loads(run(*arguments, "--json").stdout)


@pytest.mark.parametrize("columns", [40, 60, 80, 120])
def test_two_files(tmp_path: Path, columns: int) -> None:
    before, after = write(tmp_path / "a.say", BEFORE), write(tmp_path / "b.say", AFTER)
    done = run(before, after, columns=columns)
    assert done.returncode == 1
    assert done.stderr == ""
    lines = done.stdout.splitlines()
    assert max(map(columns_of, lines)) <= min(columns, 80)
    text = " ".join(done.stdout.split())
    for told in (
        "over 0:10",
        "cut, −",
        "I never cheat, not once.",
        "was: My father did.",
        "now: My father [never] did.",
        "now kept, silence 2.0 s added",
        "moved",
        "We wave.",
        "cut: 1 line −",
        "together +",
    ):
        assert told in text
    assert "\x1b" not in done.stdout


def test_json_tells_each_sentence_with_its_place(tmp_path: Path) -> None:
    texts = [
        "\ufeff" + text.replace("salt", "😀 salt").replace("\n", "\r\n") for text in (BEFORE, AFTER)
    ]
    files = [write(tmp_path / f"{name}.say", text) for name, text in zip("ab", texts, strict=True)]
    found = known(*files)
    assert [found["before"], found["after"]] == list(map(str, files))
    (piece,) = found["pieces"]
    assert [line["kind"] for line in piece["lines"]] == KINDS
    assert piece["same_words"] is False
    for side, text in zip(("before", "after"), texts, strict=True):
        assert piece[side]["slot_seconds"] == [0, 10]
        lines = [line for each in piece["lines"] for line in each[side]]
        for line in lines:
            assert text[line["start"] : line["end"]].strip("~_ ").startswith(line["text"][:8])
        spoken = [line["seconds"] for line in lines]
        assert sum(spoken) == pytest.approx(piece[side]["seconds"], abs=1e-4)
    for line in piece["lines"]:
        for word in line["words"]:
            text = texts[word["how"] != "gone"]
            stretch = text[word["start"] : word["end"]]
            assert stretch.replace("~~", "") == word["text"]
    totals = piece["totals"].values()
    assert sum(total["seconds"] for total in totals) == pytest.approx(piece["seconds"], abs=1e-4)


def test_the_same_words_exit_with_0(tmp_path: Path) -> None:
    before = write(tmp_path / "a.say", "I weigh the salt. I row.\n")
    after = write(tmp_path / "b.say", "__I weigh the salt!__ (beat)\n\nI row.\n")
    assert "Every line is as it was." in run(before, before).stdout
    assert run(before, before).returncode == 0
    done = run(before, after)
    assert done.returncode == 0
    assert "now kept" in done.stdout


def test_two_pieces_of_a_file(tmp_path: Path) -> None:
    script = write(
        tmp_path / "a.say",
        "---- piece: long\nI weigh the salt. Joss rows home.\n---- draft\nNothing.\n"
        "---- piece: short; slot 5s\nI weigh the salt.\n",
    )
    (piece,) = known(script, "--part", "Long", "--with", "short")["pieces"]
    assert [piece["before"]["part"], piece["after"]["part"]] == ["long", "short"]
    assert [line["kind"] for line in piece["lines"]] == ["unchanged", "taken out"]
    assert run(script, "--with", "short").returncode == 2
    done = run(script, "--part", "middle", "--with", "short")
    assert (done.returncode, done.stdout) == (2, "")
    assert "There are: long; short\n" in done.stderr


def test_pieces_that_only_their_numbers_tell_apart(tmp_path: Path) -> None:
    text = "---- piece\nI weigh.\n---- piece: a\nI row.\n---- piece: a\nI sing.\n"
    script = write(tmp_path / "a.say", text)
    (piece,) = known(script, "--part", "1", "--with", "3")["pieces"]
    assert [piece[side]["start"] for side in ("before", "after")] == [0, text.rindex("----")]
    after = write(tmp_path / "b.say", text.replace("sing", "wave"))
    (piece,) = known(script, after, "--part", "3")["pieces"]
    assert piece["after"]["start"] == text.rindex("----")
    assert run(script, after, "--part", "2").returncode == 0
    done = run(script, after, "--part", "a")
    assert done.returncode == 2
    assert "There are 2 pieces called “a”. Name one by its number: 2 (“a”); 3 (“a”)" in done.stderr


def test_lines_that_were_cut_before_too(tmp_path: Path) -> None:
    before = write(tmp_path / "a.say", "~~I weigh.~~ I row. She sings.\n")
    after = write(tmp_path / "b.say", "~~I weigh.~~ I row. She sings. We wave.\n")
    assert "  0:00   0:00 as before: 2 lines, and 1 cut\n" in run(before, after).stdout
    moved = write(tmp_path / "c.say", "~~I weigh.~~ ~~I row.~~ She sings.\n")
    assert "     –      – cut as before: 1 line\n" in run(before, moved).stdout


def test_pieces_are_compared_by_label_and_told_where_only_one_version_has_them(
    tmp_path: Path,
) -> None:
    before = write(tmp_path / "a.say", "---- piece: a\nI row.\n---- piece: b\nI weigh.\n")
    after = write(
        tmp_path / "b.say",
        "---- piece: B\nI weigh.\n---- piece: c\nI sing.\n---- piece: a\nI row.\n",
    )
    pieces = known(before, after)["pieces"]
    names = [[each[side] and each[side]["part"] for side in ("before", "after")] for each in pieces]
    assert names == [["b", "B"], [None, "c"], ["a", "a"]]
    done = run(before, after)
    assert done.returncode == 1
    assert f"{after}, c: only in this version." in " ".join(done.stdout.split())
    assert run(before, after, "--part", "a").returncode == 0


@needs_git
def test_with_what_was_last_committed(repository: Path) -> None:
    script = repository / "night" / "é *.say"
    assert run(script).returncode == 0
    write(script, AFTER)
    assert [line["kind"] for line in known(script)["pieces"][0]["lines"]] == KINDS
    assert "at HEAD: runs 0:1" in " ".join(run(script).stdout.split())


@needs_git
def test_since_a_revision_when_it_had_another_name(repository: Path) -> None:
    script = repository / "night" / "é *.say"
    found = known(script, "--since", "HEAD~2")["pieces"][0]
    assert [line["kind"] for line in found["lines"]] == ["restored", *["unchanged"] * 5]
    assert run(script, "--since", "HEAD~3").returncode == 0


@needs_git
def test_a_repository_named_by_the_environment_is_not_taken_for_the_scripts_own(
    repository: Path, tmp_path_factory: pytest.TempPathFactory
) -> None:
    other = tmp_path_factory.mktemp("other")
    git(other, "init", "-q")
    done = run(repository / "night" / "é *.say", GIT_DIR=str(other / ".git"))
    assert (done.returncode, done.stderr) == (0, "")


@needs_git
@pytest.mark.parametrize("columns", [40, 60, 80, 120])
def test_history(repository: Path, columns: int) -> None:
    script = repository / "night" / "é *.say"
    write(script, AFTER)
    done = run(script, "--history", columns=columns)
    assert (done.returncode, done.stderr) == (0, "")
    assert max(map(columns_of, done.stdout.splitlines())) <= min(columns, 80)
    rows = " ".join(done.stdout.split())
    order = ["now", "1 cut", "03-04 12:00", "1 restored", "03-03 11:00", "as before"]
    order += ["03-02 10:00", "1 cut", "03-01 09:30", "first"]
    at = 0
    for told in order:
        at = rows.index(told, at) + len(told)


@needs_git
def test_history_as_far_as_is_asked(repository: Path) -> None:
    script = repository / "night" / "é *.say"
    found = known(script, "--history", "--last", "2")
    assert [row["when"][:10] for row in found["revisions"]] == ["2026-03-04", "2026-03-03"]
    assert [row["lines"] for row in found["revisions"]] == [{"restored": 1}, {}]
    everything = known(script, "--history", "--last", "4")["revisions"]
    assert [row["lines"] for row in everything] == [{"restored": 1}, {}, {"cut": 1}, None]
    since = known(script, "--since", everything[2]["revision"])["pieces"][0]
    assert since["totals"]["restored"]["lines"] == 1


@needs_git
def test_what_git_cannot_tell_is_said(repository: Path) -> None:
    script = repository / "night" / "é *.say"
    new = write(repository / "new.say", BEFORE)
    binary = write(repository / "binary.say", b"\xff\xfe")
    git(repository, "add", "binary.say")
    git(repository, "commit", "-qm", "five")
    write(binary, BEFORE)
    for told, arguments in (
        ("There is no revision “no such”", (script, "--since", "no such")),
        ("There is no revision “--all”", (script, "--since=--all")),
        ("It is not in revision “HEAD”", (new,)),
        ("It is not in revision “HEAD”", (new, "--since", "HEAD")),
        ("saved as UTF-16", (binary,)),
        ("It cannot be read", (repository / "none.say",)),
        ("not both", (script, new, "--since", "HEAD")),
        ("from 1 to 9999", (script, "--history", "--last", "0")),
    ):
        done = run(*arguments)
        assert (done.returncode, done.stdout) == (2, ""), arguments
        assert told in done.stderr
        assert "Traceback" not in done.stderr


@needs_git
def test_where_nothing_was_committed_yet(tmp_path: Path) -> None:
    git(tmp_path, "init", "-q")
    script = write(tmp_path / "a.say", BEFORE)
    for options in ((), ("--history",)):
        done = run(script, *options)
        assert done.returncode == 2
        assert "Nothing has been committed yet" in done.stderr


@needs_git
def test_outside_a_repository(tmp_path: Path) -> None:
    script = write(tmp_path / "a.say", BEFORE)
    done = run(script, GIT_CEILING_DIRECTORIES=str(tmp_path.parent))
    assert done.returncode == 2
    assert "It is in no Git repository" in done.stderr
    assert "Name another file" in done.stderr


def test_without_git(tmp_path: Path) -> None:
    script = write(tmp_path / "a.say", BEFORE)
    done = run(script, PATH=str(tmp_path))
    assert done.returncode == 2
    assert "git is not installed" in done.stderr
    assert run(script, script, PATH=str(tmp_path)).returncode == 0


def test_control_characters_do_not_reach_the_terminal(tmp_path: Path) -> None:
    before = write(tmp_path / "a.say", "I row.\n")
    after = write(tmp_path / "b.say", "I row \x1b[31mhome.\n")
    assert "\x1b" not in run(before, after).stdout
