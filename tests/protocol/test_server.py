"""The server over its pipes: what an editor asks, and what a broken client does."""

import os
import re
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.clients.plain import ACTIONS, ALL_LINES, SERVER, PlainClient

URI = "file:///folder/a.say"
SCRIPT = (
    "slot: 4s\n\nI weigh the salt. I never cheat.\nShe weighs the salt again, and then once more.\n"
)
VERSIONED = {"workspaceEdit": {"documentChanges": True}}


@pytest.fixture
def client() -> Iterator[PlainClient]:
    with PlainClient() as client:
        yield client


def published(client: PlainClient) -> list[dict[str, Any]]:
    diagnostics: list[dict[str, Any]] = client.wait_for_notice("textDocument/publishDiagnostics")[
        "diagnostics"
    ]
    return diagnostics


def test_hints_run_on_and_then_say_how_far_over(client: PlainClient) -> None:
    client.initialize()
    client.open(URI, SCRIPT)
    hints = client.hints(URI)
    assert [hint["position"] for hint in hints] == [
        {"line": 2, "character": 32},
        {"line": 3, "character": 46},
    ]
    assert hints[0]["label"].startswith("0:0")
    assert hints[1]["label"].startswith("+0:0")
    assert all(hint["paddingLeft"] and "kind" not in hint for hint in hints)


def test_a_hint_that_is_pointed_at_tells_the_range_of_the_whole(client: PlainClient) -> None:
    client.initialize()
    client.open(URI, "slot: 3s\n\n" + "I weigh the salt, every sack of it. " * 3)
    (hint,) = client.hints(URI)
    assert re.fullmatch(
        r"0:\d\d from the start, in a slot of 0:03: 0:0\d over\. "
        r"The whole: 0:\d\d, likely 0:\d\d to 0:\d\d\.",
        hint["tooltip"],
    )


def test_hints_honour_the_range(client: PlainClient) -> None:
    client.initialize()
    client.open(URI, "\n\n".join(f"I weigh sack {number}." for number in range(50)))
    where = {"start": {"line": 40, "character": 0}, "end": {"line": 50, "character": 0}}
    lines = [hint["position"]["line"] for hint in client.hints(URI, where)]
    assert lines == [40, 42, 44, 46, 48, 50]


def test_diagnostics_are_pushed_and_taken_back(client: PlainClient) -> None:
    client.initialize()
    client.open(URI, SCRIPT)
    assert [each["code"] for each in published(client)] == ["running-time", "over-time"]
    client.change(URI, 2, {"text": "I go."})
    assert [each["code"] for each in published(client)] == ["running-time"]
    client.notify("textDocument/didClose", {"textDocument": {"uri": URI}})
    assert published(client) == []


def test_diagnostics_are_pulled_by_who_pulls(client: PlainClient) -> None:
    client.initialize({"textDocument": {"diagnostic": {}}})
    client.open(URI, SCRIPT)
    params: dict[str, Any] = {"textDocument": {"uri": URI}}
    full = client.result("textDocument/diagnostic", params)
    assert [each["code"] for each in full["items"]] == ["running-time", "over-time"]
    params["previousResultId"] = full["resultId"]
    same = client.result("textDocument/diagnostic", params)
    assert same == {"kind": "unchanged", "resultId": full["resultId"]}
    client.change(URI, 2, {"text": "I go."})
    assert client.result("textDocument/diagnostic", params)["kind"] == "full"
    assert client.notices == []


def test_a_sentence_is_cut_and_restored(client: PlainClient) -> None:
    client.initialize({"textDocument": {"codeAction": ACTIONS}, "workspace": VERSIONED})
    client.open(URI, SCRIPT, version=7)
    cut = next(a for a in client.actions(URI, 2, 22) if a["title"] == "Cut this sentence")
    [change] = cut["edit"]["documentChanges"]
    assert change["textDocument"] == {"uri": URI, "version": 7}
    edits = [{"range": edit["range"], "text": edit["newText"]} for edit in change["edits"]]
    client.change(URI, 8, *reversed(edits))
    before = client.hints(URI)
    [restore] = [a for a in client.actions(URI, 2, 25) if a["title"] == "Restore what is cut here"]
    [change] = restore["edit"]["documentChanges"]
    edits = [{"range": edit["range"], "text": edit["newText"]} for edit in change["edits"]]
    client.change(URI, 9, *reversed(edits))
    assert client.actions(URI, 2, 22)[0]["title"] == "Cut this sentence"
    assert before != client.hints(URI)


def test_edits_go_without_versions_to_who_takes_none(client: PlainClient) -> None:
    client.initialize({"textDocument": {"codeAction": ACTIONS}})
    client.open(URI, SCRIPT)
    cut = client.actions(URI, 2, 3)[0]
    assert list(cut["edit"]["changes"]) == [URI]


def test_actions_of_the_kinds_that_were_asked_for(client: PlainClient) -> None:
    client.initialize({"textDocument": {"codeAction": ACTIONS}})
    client.open(URI, SCRIPT)
    assert client.actions(URI, 3, 3, only=["source"]) == []
    kinds = {action["kind"] for action in client.actions(URI, 3, 3, only=["refactor"])}
    assert kinds == {"refactor.rewrite", "refactor.rewrite.cut", "refactor.rewrite.part"}
    kinds = {action["kind"] for action in client.actions(URI, 3, 3, only=["quickfix"])}
    assert kinds == {"quickfix"}


def test_formatting(client: PlainClient) -> None:
    client.initialize()
    client.open(URI, "-----  piece\nI  go.\n")
    options = {"tabSize": 4, "insertSpaces": True}
    params = {"textDocument": {"uri": URI}, "options": options}
    edits = client.result("textDocument/formatting", params)
    assert [edit["newText"] for edit in edits] == ["---- piece\n", "I go.\n"]


def test_the_project_file_is_found_and_changes_are_seen(
    client: PlainClient, tmp_path: Path
) -> None:
    project = tmp_path / "saywright.toml"
    project.write_text('[editor]\nrunning-time = "off"\n')
    uri = (tmp_path / "a.say").as_uri()
    client.initialize({"textDocument": {"diagnostic": {}}})
    client.open(uri, SCRIPT)
    assert client.hints(uri) == []
    project.write_text('[checks]\nover-time = "off"\n')
    assert len(client.hints(uri)) == 2
    items = client.result("textDocument/diagnostic", {"textDocument": {"uri": uri}})["items"]
    assert [each["code"] for each in items] == ["running-time"]


def test_what_lies_beyond_the_slot_is_greyed_only_if_wished(
    client: PlainClient, tmp_path: Path
) -> None:
    (tmp_path / "saywright.toml").write_text("[editor]\ngrey-beyond-slot = true\n")
    uri = (tmp_path / "a.say").as_uri()
    client.initialize({"textDocument": {"publishDiagnostics": {"tagSupport": {"valueSet": [1]}}}})
    client.open(uri, SCRIPT)
    assert [each["tags"] for each in published(client) if "tags" in each] == [[1]]


def test_an_address_is_known_however_it_is_spelt(client: PlainClient) -> None:
    client.initialize()
    client.open("file:///c%3A/folder/a%20b.say", "I go.")
    assert len(client.hints("file:///C:/folder/a b.say")) == 1


def test_before_and_after_its_time_a_request_is_refused(client: PlainClient) -> None:
    assert client.request("textDocument/hover", {})["error"]["code"] == -32002
    client.initialize()
    assert client.request("initialize", {})["error"]["code"] == -32600
    assert client.result("shutdown") is None
    assert client.request("textDocument/diagnostic", {})["error"]["code"] == -32600
    client.notify("exit")
    assert client.process.wait(10) == 0


def test_exit_without_shutdown_fails(client: PlainClient) -> None:
    client.initialize()
    client.notify("exit")
    assert client.process.wait(10) == 1


def test_the_end_of_input_ends_the_server(client: PlainClient) -> None:
    client.initialize()
    assert client.process.stdin
    client.process.stdin.close()
    assert client.process.wait(10) == 1


@pytest.mark.skipif(os.name != "posix", reason="the client's process is watched on POSIX only")
def test_a_server_whose_client_is_gone_ends(client: PlainClient) -> None:
    gone = subprocess.Popen([sys.executable, "-c", ""])
    gone.wait()
    client.result("initialize", {"processId": gone.pid, "rootUri": None, "capabilities": {}})
    assert client.process.wait(20) == 1


@pytest.mark.parametrize(
    "broken",
    [
        b"{",
        b"[]",
        b'"text"',
        {"jsonrpc": "1.0", "method": "x"},
        {"jsonrpc": "2.0", "method": "textDocument/didChange", "params": {"textDocument": 5}},
        {"jsonrpc": "2.0", "method": "textDocument/didOpen"},
        {"jsonrpc": "2.0", "method": "unknown/notification", "params": {"jsonrpc": "2.0"}},
        {"jsonrpc": "2.0", "id": 99, "result": None},
        {"jsonrpc": "2.0", "id": 99, "error": {"code": 1, "message": ""}},
    ],
    ids=range(9),
)
def test_a_broken_message_is_passed_over_without_a_word(client: PlainClient, broken: Any) -> None:
    client.initialize()
    client.send(broken)
    client.change("file:///never-opened.say", 3, {"text": "a"})
    client.open(URI, SCRIPT)
    assert len(client.hints(URI)) == 2
    assert {notice["method"] for notice in client.notices} <= {"textDocument/publishDiagnostics"}


@pytest.mark.parametrize("method", ["textDocument/codeAction", "textDocument/inlayHint"])
def test_parameters_that_do_not_parse_are_answered(client: PlainClient, method: str) -> None:
    client.initialize()
    assert client.request(method, {"textDocument": {"uri": 5}})["error"]["code"] == -32602
    assert client.request("textDocument/unheard-of", {})["error"]["code"] == -32601
    nested = {"textDocument": {"uri": URI}, "range": ALL_LINES, "data": {"jsonrpc": "2.0"}}
    assert "result" in client.request("textDocument/inlayHint", nested)
    assert client.notices == []


def test_an_unopened_document_has_nothing_to_say(client: PlainClient) -> None:
    client.initialize({"textDocument": {"codeAction": ACTIONS}})
    document = {"textDocument": {"uri": "file:///never-opened.say"}}
    assert client.result("textDocument/inlayHint", {**document, "range": ALL_LINES}) is None
    assert client.result("textDocument/diagnostic", document)["items"] == []


def test_it_starts_in_no_time_that_a_writer_would_notice() -> None:
    started = time.perf_counter()
    with PlainClient(SERVER) as client:
        client.initialize()
        client.open(URI, SCRIPT)
        assert client.hints(URI)
    print(f"start to first hint: {time.perf_counter() - started:.2f} s")


NAMED = "speaker: Inés, Joss\n\nInés:\n𝄞 Joss and Inés. INÉS!\n"


def at(line: int, character: int, **more: Any) -> dict[str, Any]:
    where = {"line": line, "character": character}
    return {"textDocument": {"uri": URI}, "position": where, **more}


@pytest.mark.parametrize(("encoding", "before"), [("utf-8", 14), ("utf-16", 12), ("utf-32", 11)])
def test_a_name_is_shown_and_changed_everywhere(
    client: PlainClient, encoding: str, before: int
) -> None:
    rename = {"prepareSupport": True}
    told = client.initialize(
        {"general": {"positionEncodings": [encoding]}, "textDocument": {"rename": rename}}
    )
    assert told["capabilities"]["renameProvider"] == {"prepareProvider": True}
    client.open(URI, NAMED)
    prepared = client.result("textDocument/prepareRename", at(3, before + 1))
    assert prepared["placeholder"] == "Inés"
    assert prepared["range"]["start"] == {"line": 3, "character": before}
    shown = client.result("textDocument/documentHighlight", at(3, before + 1))
    assert [each["kind"] for each in shown] == [1, 1, 1, 1]
    renamed = client.result("textDocument/rename", at(3, before + 1, newName="Tove"))
    edits = renamed["changes"][URI]
    assert [each["newText"] for each in edits] == ["Tove", "Tove", "Tove", "TOVE"]
    assert [each["range"] for each in edits] == [each["range"] for each in shown]
    assert [each["range"]["start"]["line"] for each in edits] == [0, 2, 3, 3]
    assert edits[2]["range"] == prepared["range"]


def test_a_rename_names_the_version_that_it_is_for(client: PlainClient) -> None:
    told = client.initialize({"workspace": VERSIONED})
    assert told["capabilities"]["renameProvider"] is True
    client.open(URI, NAMED, version=7)
    edit = client.result("textDocument/rename", at(2, 0, newName="Tove"))
    assert [each["textDocument"]["version"] for each in edit["documentChanges"]] == [7]


def test_what_cannot_be_renamed_is_told_in_plain_words(client: PlainClient) -> None:
    client.initialize()
    client.open(URI, NAMED)
    refused = client.request("textDocument/prepareRename", at(3, 9))["error"]
    assert refused == {"code": -32803, "message": "This is no name."}
    refused = client.request("textDocument/rename", at(2, 0, newName="Joss"))["error"]
    assert refused == {"code": -32803, "message": "Joss speaks already."}
    assert client.result("textDocument/documentHighlight", at(3, 9)) == []
    assert all(notice["method"] != "window/showMessage" for notice in client.notices)


def test_a_name_of_the_private_list_is_changed_whole(client: PlainClient, tmp_path: Path) -> None:
    (tmp_path / "private-names.txt").write_text("Maren Holt\n", "utf-8")
    uri = (tmp_path / "a.say").as_uri()
    client.initialize()
    client.open(uri, "I told Maren Holt. Maren\nHolt left.\n")
    told = at(0, 15, newName="Tove Aro") | {"textDocument": {"uri": uri}}
    edits = client.result("textDocument/rename", told)["changes"][uri]
    assert [each["newText"] for each in edits] == ["Tove Aro", "Tove\nAro"]
