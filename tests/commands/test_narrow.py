"""What `explain` and `inspect` print fits the terminal, down to 40 columns and up to 76."""

from pathlib import Path

import pytest

from saywright.checks.catalogue import CHECK_NAMES
from saywright.commands.main import main

SCRIPT = (
    "---- piece: what the lamp-room keeper told the ferry at the end of winter\n"
    "In 1987 the keeper of the lamp-room counted 412 sacks of salt on the quay before breakfast.\n"
    "~~Nobody on the island had ever counted them before, and nobody has since, as you know.~~\n"
)
WIDTHS = pytest.mark.parametrize(("columns", "most"), [(20, 40), (40, 40), (53, 53), (200, 76)])


@pytest.fixture
def terminal(columns: int, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", str(columns))


def widest(printed: str) -> int:
    return max(map(len, printed.splitlines()))


@WIDTHS
@pytest.mark.usefixtures("terminal")
def test_inspect_fits(most: int, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    script = tmp_path / "a.say"
    script.write_text(SCRIPT, "utf-8")
    assert main(["inspect", str(script)]) == 0
    printed = capsys.readouterr().out
    assert most - 12 <= widest(printed) <= most
    assert "   cut   Nobody" in printed
    assert "at the end of winter" in " ".join(printed.split())


@WIDTHS
@pytest.mark.usefixtures("terminal")
def test_the_list_of_checks_fits(most: int, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["explain"]) == 0
    printed = capsys.readouterr().out
    assert most - 12 <= widest(printed) <= most
    assert [line.split()[0] for line in printed.splitlines() if line[0] != " "] == [*CHECK_NAMES]


@WIDTHS
@pytest.mark.usefixtures("terminal")
@pytest.mark.parametrize("name", CHECK_NAMES)
def test_a_page_fits(name: str, most: int, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["explain", name]) == 0
    printed = capsys.readouterr().out
    assert most - 12 <= widest(printed) <= most
    for line in (f"leave-out: {name}", f"leave-out {name}", f'{name} = "off"'):
        assert line in printed
