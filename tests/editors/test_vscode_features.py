"""`editors/vscode` in VS Code's own workbench: what a writer does to a script beside cutting it."""

import re
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from .vscode.desk import NEEDS_WORKBENCH, RELEASES, Desk, desk_at, server
from .vscode.page import Page

pytestmark = NEEDS_WORKBENCH

SLIP = Path(__file__).parent / "vscode/slip.say"
LINES = SLIP.read_text(encoding="utf-8").split("\n")
DRAFT = LINES.index("---- draft: the tin; timer 5 min")
# what only the server tells of a word, the colour a writer has chosen for it, and where one stands
PAINTED = {
    "property:say": ("#aa0001", ("slot: 40s", "slot")),
    "class:say": ("#aa0002", ("Joss: (", "Joss")),
    "comment.deprecated:say": ("#aa0003", ("I thought", "Nobody")),
}
MORE_SPEECH = " The tide takes the title. To whom? Speaker, slot, tense: she sees it by the rope"


@pytest.fixture(scope="module", params=RELEASES)
def slip(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Desk]:
    """One for all tests of a release, with a script of several parts open in it."""
    home = tmp_path_factory.mktemp("slip")
    with desk_at(home, server(sys.executable), request.param, sample=SLIP) as desk:
        desk.open()
        desk.page.wait_for("the hints", desk.page.hints, lambda hints: len(hints) == 3)
        yield desk


@pytest.fixture
def desk(slip: Desk) -> Desk:
    """The script as it was first."""
    slip.page.ask("press", keys="Escape")
    slip.page.ask("command", title="File: Revert File")
    slip.page.wait_for("the first text", texts(slip.page), LINES.__eq__)
    return slip


def texts(page: Page) -> Callable[[], list[str]]:
    return lambda: [line.text for line in page.lines()]


def offered(page: Page) -> Callable[[], list[str]]:
    """What the list at the cursor offers, each as far as its first line."""
    rows = ".suggest-widget.visible .monaco-list-row"
    return lambda: [row.split("\n")[0] for row in page.ask("texts", selector=rows)]


def place(page: Page) -> Callable[[], str]:
    """As `Ln 6, Col 38 (37 selected)`."""
    item = '.statusbar-item[id="status.editor.selection"]'
    return lambda: "".join(page.ask("texts", selector=item))


def test_colours_are_the_server_s(desk: Desk) -> None:
    page, chosen = desk.page, {name: colour for name, (colour, _) in PAINTED.items()}
    words = [word for _, word in PAINTED.values()]
    rules = {"editor.semanticTokenColorCustomizations": {"rules": chosen}}
    seen = lambda: page.ask("colours", words=words)  # noqa: E731
    desk.set(rules)
    page.wait_for("the chosen colours", seen, list(chosen.values()).__eq__)
    desk.set(rules | {"editor.semanticHighlighting.enabled": False})
    page.wait_for("the grammar's", seen, lambda now: not set(now) & {"#", *chosen.values()})
    desk.set({})


def test_a_part_folds_away(desk: Desk) -> None:
    page = desk.page
    desk.put_cursor_on(LINES[DRAFT])
    page.ask("press", keys="Control+Shift+BracketLeft")
    page.wait_for("no draft", texts(page), [*LINES[: DRAFT + 1], *LINES[DRAFT + 3 :]].__eq__)
    desk.picture("folded")
    page.ask("press", keys="Control+Shift+BracketRight")
    page.wait_for("the draft", texts(page), LINES.__eq__)


def test_the_outline_has_parts_with_their_times(desk: Desk) -> None:
    page = desk.page
    piece = page.wait_for("the time", page.status, bool)
    assert re.fullmatch(r"0:\d\d of 0:40", piece)
    page.ask("command", title="Explorer: Focus on Outline View")
    rows = page.wait_for("the outline", page.outline, lambda rows: len(rows) > 4)
    desk.picture("outline")
    page.ask("press", keys="Control+b")
    turns = [row for row in rows if row.startswith(("Wanda: ", "Joss: "))]
    assert [bool(re.search(r"0:\d\d$", turn)) for turn in turns] == [True, True]
    assert rows[0] == f"piece{piece}"
    assert "draft “the tin”21 words, 5:00 to write" in rows

    page.ask("press", keys="Control+Shift+o")
    page.wait_for("the parts", page.choices, lambda rows: "draft “the tin”" in rows)
    desk.picture("parts")
    page.ask("type", text="draft", delay=0)
    page.wait_for("it alone at the top", page.choices, lambda rows: rows[0].startswith("draft"))
    page.ask("press", keys="Enter")
    page.wait_for("the draft", place(page), f"Ln {DRAFT + 1}, Col 1".__eq__)


def test_a_speaker_gets_another_name(desk: Desk) -> None:
    page = desk.page
    desk.put_cursor_on("Joss: (without")
    page.ask("press", keys="F2")
    page.wait_for("the box", lambda: page.ask("texts", selector=".rename-box input:focus"), bool)
    page.ask("type", text="Ada", delay=0)
    desk.picture("renaming")
    page.ask("press", keys="Enter")
    renamed = [line.replace("Joss", "Ada") for line in LINES]
    page.wait_for("the other name everywhere", texts(page), renamed.__eq__)
    page.ask("press", keys="Control+z")
    page.wait_for("the first name, in one step", texts(page), LINES.__eq__)

    desk.put_cursor_on("rope or")
    page.ask("press", keys="F2")
    message = ".monaco-editor-overlaymessage"
    said = page.wait_for("a word", lambda: page.ask("texts", selector=message), bool)
    assert said == ["This is no name."]


def test_settings_are_offered_and_speech_is_left_in_peace(desk: Desk) -> None:
    page = desk.page
    desk.put_cursor_on("slot: 40s")
    page.ask("press", keys="End")
    page.ask("type", text="\nten", delay=50)
    page.wait_for("the setting", offered(page), ["tense"].__eq__)
    desk.picture("offered")
    page.ask("press", keys="Enter")
    page.wait_for("its values", offered(page), ["present", "past", "free"].__eq__)
    desk.picture("values")
    page.ask("press", keys="ArrowDown")
    page.ask("press", keys="Enter")
    wanted = [*LINES[:3], "tense: past", *LINES[3:]]
    page.wait_for("both", texts(page), wanted.__eq__)

    page.ask("type", text="\nleav", delay=50)
    page.wait_for("another", offered(page), ["leave-out"].__eq__)
    page.ask("press", keys="Enter")
    page.ask("type", text="fil", delay=50)
    page.wait_for(
        "a check, over what stood for it", offered(page), lambda rows: "filler" in rows[:1]
    )
    page.ask("press", keys="Enter")
    wanted.insert(4, "leave-out: filler")
    page.wait_for("that too", texts(page), wanted.__eq__)

    page.ask("place", line=len(wanted) - 5, column=99)
    page.ask("watch", typed="")
    page.ask("type", text=MORE_SPEECH, delay=50)
    page.wait_for("the words", page.text, lambda text: MORE_SPEECH in text)
    assert page.ask("watched")["covered"] == []


def test_the_script_is_tidied(desk: Desk) -> None:
    page = desk.page
    desk.put_cursor_on("slot: 40s")
    page.ask("press", keys="End")
    page.ask("type", text="  \n\nSo   say I.   \n----notes:  the wind", delay=0)
    untidy = ["slot: 40s  ", "", "So   say I.   ", "----notes:  the wind"]
    page.wait_for("the words", texts(page), [*LINES[:2], *untidy, *LINES[3:]].__eq__)
    page.ask("command", title="Format Document")
    page.wait_for("tidy lines", texts(page), lambda now: now != [*LINES[:2], *untidy, *LINES[3:]])
    tidy = ["slot: 40s", "", "So say I.", "---- notes: the wind"]
    assert texts(page)() == [*LINES[:2], *tidy, *LINES[3:]]


def test_a_selection_grows_by_sense_and_a_gathered_line_leads_to_its_draft(desk: Desk) -> None:
    page = desk.page
    desk.put_cursor_on("rope or")
    for what in ("rope", "You have the rope", "You have the rope or I have the rope."):
        page.ask("press", keys="Shift+Alt+ArrowRight")
        page.wait_for(what, place(page), re.compile(rf"\({len(what)} selected\)").search)
    desk.put_cursor_on("from draft")
    page.ask("press", keys="F12")
    page.wait_for("the draft", place(page), re.compile(f"Ln {DRAFT + 2}, ").match)
