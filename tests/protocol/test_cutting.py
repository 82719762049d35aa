"""Cutting and gathering in the editor: what is offered of a piece, and what the lenses do."""

from collections.abc import Iterator
from typing import Any

import pytest

import saywright
from tests.clients.asked import AskedClient

URI = "file:///folder/a.say"
PIECE = (
    "__I was never once wrong.__ I want to tell you something. I weighed the salt for thirty years."
    "\nI weighed it in the rain. The lamp was mine too, and the whistle on its nail.\n\nOnce a man "
    "brought me a fish to say sorry. I weighed the fish. It was two kilos.\nSo when the inspector "
    "asks, I tell him two kilos. (beat) He never asks about it.\n"
)
OVERLONG = f"slot: 20s\nmargin: 2s\n\n{PIECE}"
DRAFTS = (
    "---- draft: the works\nWe went in at six. __Nobody licks their hands twice.__ It was cold.\n"
    "__I was never once wrong.__ __Ada blew the whistle.__\n\n"
)
ACTIONS = {
    "codeActionLiteralSupport": {"codeActionKind": {"valueSet": ["quickfix"]}},
    "dataSupport": True,
    "disabledSupport": True,
    "resolveSupport": {"properties": ["edit"]},
}
FULL = {
    "textDocument": {"codeAction": ACTIONS},
    "workspace": {
        "applyEdit": True,
        "workspaceEdit": {"documentChanges": True, "changeAnnotationSupport": {}},
    },
    "window": {"showMessage": {"messageActionItem": {}}},
}


@pytest.fixture
def client() -> Iterator[AskedClient]:
    with AskedClient() as client:
        yield client


def offered(client: AskedClient, line: int, character: int = 0) -> dict[str, dict[str, Any]]:
    actions = client.actions(URI, line, character, only=["refactor"])
    return {action["title"]: action for action in actions}


def edit_of(client: AskedClient, action: dict[str, Any]) -> dict[str, Any]:
    edit = action.get("edit") or client.result("codeAction/resolve", action)["edit"]
    assert isinstance(edit, dict)
    return edit


def made(text: str, edit: dict[str, Any]) -> str:
    """`text` (of ASCII) with a workspace edit made."""
    if "changes" in edit:
        changes = edit["changes"][URI]
    else:
        (changed,) = edit["documentChanges"]
        changes = changed["edits"]
    starts = [0]
    for line in text.split("\n"):
        starts.append(starts[-1] + len(line) + 1)
    places = [
        tuple(starts[at["line"]] + at["character"] for at in change["range"].values())
        for change in changes
    ]
    for (start, end), change in sorted(zip(places, changes, strict=True), key=_first, reverse=True):
        text = text[:start] + change["newText"] + text[end:]
    return text


def _first(pair: tuple[Any, Any]) -> Any:
    return pair[0]


def seconds(text: str, number: int = 0) -> float:
    found = saywright.inspect(text)["parts"][number]["seconds"]
    assert isinstance(found, float)
    return found


def replace_all(client: AskedClient, version: int, text: str) -> None:
    client.change(URI, version, {"text": text})


def test_plans_anywhere_in_an_overlong_piece(client: AskedClient) -> None:
    client.initialize(FULL)
    client.open(URI, OVERLONG)
    for line in (3, 4, 6, 7):
        plans = {name: each for name, each in offered(client, line, 8).items() if "Plan a" in name}
        assert len(plans) == 3
        for name, action in plans.items():
            assert name.startswith("Plan a cut to 0:20: 0:1")
            assert action["kind"] == "refactor.rewrite.cut"
            edit = edit_of(client, action)
            (note,) = edit["changeAnnotations"].values()
            assert note["needsConfirmation"] is False
            assert note["description"].startswith("“")
            after = made(OVERLONG, edit)
            assert after.replace("~~", "") == OVERLONG
            assert 15 < seconds(after) <= 18
            assert f": 0:{round(seconds(after))}, " in name
    assert not [name for name in offered(client, 0) if "Plan a" in name]


def test_no_plan_where_it_fits_or_has_no_slot(client: AskedClient) -> None:
    client.initialize(FULL)
    for version, text in enumerate((OVERLONG.replace("20s", "80s"), PIECE), 1):
        client.open(URI, text, version)
        assert not [name for name in offered(client, 4) if "Plan a" in name]


def test_where_all_is_kept_it_says_why_not(client: AskedClient) -> None:
    client.initialize(FULL)
    client.open(URI, "slot: 1s\n\n__I was never once wrong about the salt.__\n")
    action = offered(client, 2, 8)["Plan a cut to 0:01"]
    assert action["disabled"]["reason"] == "No line of it can be cut."


def test_a_long_piece_is_planned_only_when_chosen(client: AskedClient) -> None:
    client.initialize(FULL)
    text = (
        "slot: 60s\n\n" + "I weighed the salt of the island. The rain came in from the sea.\n" * 80
    )
    client.open(URI, text)
    plans = [each for name, each in offered(client, 4, 3).items() if "Plan a" in name]
    assert [each["title"] for each in plans] == ["Plan a cut to 1:00"]
    after = made(text, edit_of(client, plans[0]))
    assert after.replace("~~", "") == text
    assert seconds(after) <= 60


def test_a_plan_that_was_made_is_restored_and_then_all_cuts(client: AskedClient) -> None:
    client.initialize(FULL)
    own = OVERLONG.replace("It was two kilos.", "~~It was two kilos.~~")
    client.open(URI, own)
    plan = next(each for name, each in offered(client, 4, 8).items() if "Plan a" in name)
    cut = made(own, edit_of(client, plan))
    replace_all(client, 2, cut)
    offers = offered(client, 4, 8)
    restoring = next(name for name in offers if name.startswith("Restore this plan’s"))
    assert made(cut, edit_of(client, offers[restoring])) == own
    everything = edit_of(client, offers["Restore all cuts in this piece"])
    assert made(cut, everything) == OVERLONG
    replace_all(client, 3, own)
    assert not [name for name in offered(client, 4, 8) if name.startswith("Restore this plan’s")]
    replace_all(client, 4, OVERLONG)
    assert not [name for name in offered(client, 4, 8) if name.startswith("Restore all")]


def test_the_cuts_are_taken_out_into_a_new_part(client: AskedClient) -> None:
    client.initialize(FULL)
    text = "---- piece: short; slot 20s\nI weighed the salt. ~~I sang.~~ I rowed.\n"
    client.open(URI, text)
    action = offered(client, 1, 3)["Take the cuts out into a new part"]
    assert made(text, edit_of(client, action)) == (
        f"{text}\n---- piece: short, clean; slot 20s\n# from “short”, without its cuts\n\n"
        "I weighed the salt. I rowed.\n"
    )
    client.open(URI, text.replace("~~", ""), 2)
    assert "Take the cuts out into a new part" not in offered(client, 1, 3)


def test_a_version_of_the_next_slots(client: AskedClient) -> None:
    client.initialize(FULL)
    text = "---- piece: short; slot 60s\nI weighed the salt. ~~I sang.~~\n"
    client.open(URI, text)
    offers = offered(client, 1, 3)
    assert [name for name in offers if "version" in name] == [
        "Make a version of 0:30",
        "Make a version of 1:30",
    ]
    assert made(text, edit_of(client, offers["Make a version of 1:30"])) == (
        f"{text}\n---- piece: short, 90s; slot 90s\n# from “short”\n\n"
        "I weighed the salt. ~~I sang.~~\n"
    )


def test_kept_lines_are_gathered_from_draft_and_piece(client: AskedClient) -> None:
    client.initialize(FULL)
    text = f"{DRAFTS}---- piece: one\nI was never once wrong.\n"
    client.open(URI, text)
    for line in (1, 5):
        action = offered(client, line, 3)["Gather 2 kept lines into “one”"]
        assert made(text, edit_of(client, action)) == (
            f"{text}\n__Nobody licks their hands twice.__\n# from draft “the works”\n"
            "__Ada blew the whistle.__\n# from draft “the works”\n"
        )


def test_without_a_piece_they_make_one(client: AskedClient) -> None:
    client.initialize(FULL)
    client.open(URI, DRAFTS)
    offers = offered(client, 1, 3)
    assert "Gather 3 kept lines into a new piece" in offers
    assert "Gather 3 kept lines into a new piece, in an order that flows" in offers


def lenses(client: AskedClient) -> list[dict[str, Any]]:
    found = client.result("textDocument/codeLens", {"textDocument": {"uri": URI}})
    assert isinstance(found, list)
    return [each for each in found if each["command"]["command"]]


def run(client: AskedClient, lens: dict[str, Any], choice: int | None = 0) -> dict[str, Any]:
    """Runs a lens's command, as a client that is asked chooses by number; the answer."""
    command = lens["command"]
    return client.run(command["command"], command["arguments"], choice)


def test_a_lens_plans_what_is_chosen(client: AskedClient) -> None:
    client.initialize(FULL)
    client.open(URI, OVERLONG)
    (lens,) = lenses(client)
    assert lens["command"]["title"] == "Plan a cut to 0:20"
    assert lens["range"]["start"]["line"] == 3
    titles = [name for name in offered(client, 4, 8) if "Plan a" in name]
    assert "error" not in run(client, lens, 1)
    (asked,) = client.asked
    assert asked["message"].startswith("Plan a cut to 0:20: which plan?")
    start = "Plan a cut to 0:20: "
    assert [start + each["title"] for each in asked["actions"]] == titles
    (applied,) = client.applied
    assert applied["label"] == titles[1]
    (note,) = applied["edit"]["changeAnnotations"].values()
    assert note["needsConfirmation"] is False  # it was chosen just now
    cut = made(OVERLONG, applied["edit"])
    assert seconds(cut) <= 18
    replace_all(client, 2, cut)
    assert lenses(client) == []
    assert "error" in run(client, lens)


def test_nothing_is_done_where_nothing_is_chosen(client: AskedClient) -> None:
    client.initialize(FULL)
    client.open(URI, OVERLONG)
    (lens,) = lenses(client)
    assert "error" not in run(client, lens, None)
    assert client.applied == []


def test_a_text_that_changed_while_the_writer_chose_is_left_alone(client: AskedClient) -> None:
    client.initialize(FULL)
    client.open(URI, OVERLONG)
    (lens,) = lenses(client)
    client.before_choice = lambda: replace_all(client, 2, f"{OVERLONG}One more.\n")
    assert run(client, lens)["error"]["message"].startswith("The script has changed")
    assert client.applied == []


@pytest.mark.parametrize("missing", ["window", "workspace"])
def test_a_client_that_cannot_is_told_so(client: AskedClient, missing: str) -> None:
    client.initialize({key: value for key, value in FULL.items() if key != missing})
    client.open(URI, OVERLONG)
    (lens,) = lenses(client)
    message = run(client, lens)["error"]["message"]
    assert "This editor" in message
    assert client.applied == []


def test_a_lens_gathers_a_drafts_lines(client: AskedClient) -> None:
    client.initialize(FULL)
    text = f"{DRAFTS}---- piece: one\nI was never once wrong.\n"
    client.open(URI, text)
    (lens,) = lenses(client)
    assert lens["command"]["title"] == "Gather 2 kept lines"
    assert lens["range"]["start"]["line"] == 0
    assert "error" not in run(client, lens)
    assert client.asked == []
    gathered = made(text, client.applied[0]["edit"])
    assert "__Ada blew the whistle.__\n# from draft “the works”\n" in gathered
    replace_all(client, 2, gathered)
    assert lenses(client) == []


def test_of_several_pieces_it_asks_which(client: AskedClient) -> None:
    client.initialize(FULL)
    text = f"{DRAFTS}---- piece: one\nI go.\n\n---- piece: two\nI was never once wrong.\n"
    client.open(URI, text)
    (lens,) = lenses(client)
    run(client, lens, 1)
    assert [each["title"] for each in client.asked[0]["actions"]] == [
        "Gather 3 kept lines into “one”",
        "Gather 2 kept lines into “two”",
    ]
    assert made(text, client.applied[0]["edit"]).endswith("whistle.__\n# from draft “the works”\n")


def test_pieces_without_a_name_of_their_own_are_told_by_number(client: AskedClient) -> None:
    client.initialize(FULL)
    client.open(URI, f"{DRAFTS}---- piece\nI go.\n----\nI was never once wrong.\n---- draft\n")
    (lens,) = lenses(client)
    run(client, lens, None)
    assert [each["title"] for each in client.asked[0]["actions"]] == [
        "Gather 3 kept lines into piece 1",
        "Gather 2 kept lines into piece 2",
    ]


@pytest.mark.parametrize(
    "arguments", [[], [URI], [URI, 9], [URI, "0"], ["file:///b.say", 0], [1, 2]]
)
def test_odd_arguments_are_refused(client: AskedClient, arguments: list[Any]) -> None:
    client.initialize(FULL)
    client.open(URI, OVERLONG)
    for command in ("saywright.planCut", "saywright.gatherKeptLines"):
        assert "error" in client.run(command, arguments, 0)


def test_in_a_long_script_lines_are_counted_only_when_gathered(client: AskedClient) -> None:
    client.initialize(FULL)
    text = f"{DRAFTS}---- piece\n" + "I weighed the salt of the island.\n\n" * 3200
    client.open(URI, text)
    assert lenses(client) == []
    action = offered(client, 9, 3)["Gather the kept lines"]
    after = made(text, edit_of(client, action))
    assert after.startswith(text.rstrip("\n"))
    assert after.count("# from draft “the works”") == 3
