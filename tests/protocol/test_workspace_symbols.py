"""Titles and parts of the scripts in the client's folders, over the server's pipes."""

import json
import os
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.clients.direct import DirectClient
from tests.clients.plain import PlainClient


@pytest.fixture
def client() -> Iterator[PlainClient]:
    with DirectClient() as client:
        yield client


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "island").mkdir()
    write(tmp_path / "island" / "ferry.say", "title: The Last 🚤 Crossing\n\nI go.\n---- notes\n")
    write(tmp_path / "salt.say", "I go.\r\n---- piece: the shört one\r\nI go.\r\n")
    for hidden in (".old", "node_modules", "venv"):
        (tmp_path / hidden).mkdir()
        write(tmp_path / hidden / "a.say", "title: Hidden\n")
    (tmp_path / "broken.say").write_bytes(b"\xff\xfetitle: x")
    write(tmp_path / "plain.txt", "title: Plain\n")
    return tmp_path


def write(path: Path, text: str) -> None:
    path.write_bytes(text.encode("utf-8"))


def begin(client: PlainClient, folder: Path | None, *more: Path, **general: Any) -> None:
    folders = [{"uri": each.as_uri(), "name": each.name} for each in more]
    params = {
        "processId": None,
        "rootUri": folder.as_uri() if folder else None,
        "workspaceFolders": folders or None,
        "capabilities": {"general": general},
    }
    client.result("initialize", params)
    client.notify("initialized", {})


def names(client: PlainClient, query: str) -> list[str]:
    return [each["name"] for each in client.result("workspace/symbol", {"query": query})]


def test_all_that_there_is(client: PlainClient, folder: Path) -> None:
    begin(client, folder)
    found = client.result("workspace/symbol", {"query": ""})
    told = [(each["name"], each.get("containerName"), each["kind"]) for each in found]
    assert told == [
        ("salt", None, 1),
        ("piece “the shört one”", "salt", 3),
        ("The Last 🚤 Crossing", None, 1),
        ("notes", "The Last 🚤 Crossing", 2),
    ]


@pytest.mark.parametrize(
    ("query", "wanted"),
    [
        ("last", ["The Last 🚤 Crossing"]),
        ("tlc", ["The Last 🚤 Crossing"]),
        ("short", ["piece “the shört one”"]),
        ("t", ["The Last 🚤 Crossing", "piece “the shört one”", "salt", "notes"]),
        ("hidden", []),
    ],
)
def test_a_few_letters_find_it(
    client: PlainClient, folder: Path, query: str, wanted: list[str]
) -> None:
    begin(client, folder)
    assert names(client, query) == wanted


@pytest.mark.parametrize(("encoding", "wide"), [("utf-8", 4), ("utf-16", 2), ("utf-32", 1)])
def test_the_place_counts_as_was_agreed(
    client: PlainClient, folder: Path, encoding: str, wide: int
) -> None:
    begin(client, folder, positionEncodings=[encoding])
    [title] = client.result("workspace/symbol", {"query": "crossing"})
    assert title["location"] == {
        "uri": (folder / "island" / "ferry.say").as_uri(),
        "range": {
            "start": {"line": 0, "character": 7},
            "end": {"line": 0, "character": 7 + 18 + wide},
        },
    }
    [part] = client.result("workspace/symbol", {"query": "the sh"})
    assert part["location"]["range"]["start"] == {"line": 1, "character": 0}


def test_an_open_script_is_told_as_it_is_being_written(client: PlainClient, folder: Path) -> None:
    begin(client, folder)
    assert names(client, "last") == ["The Last 🚤 Crossing"]
    uri = (folder / "island" / "ferry.say").as_uri()
    client.open(uri, "title: The Last Boat\n\nI go.\n")
    client.open("file:///elsewhere/b.say", "---- draft: last\n")
    assert names(client, "last") == ["draft “last”", "The Last Boat"]
    client.notify("textDocument/didClose", {"textDocument": {"uri": uri}})
    assert "The Last 🚤 Crossing" in names(client, "last")


def test_a_script_that_changes_is_read_again(client: PlainClient, folder: Path) -> None:
    begin(client, folder)
    assert names(client, "salt") == ["salt"]
    path = folder / "salt.say"
    times = path.stat()
    write(path, "title: S\n\nI go.\n")
    os.utime(path, ns=(times.st_atime_ns, times.st_mtime_ns + 1))
    assert names(client, "salt") == []
    path.unlink()
    (folder / "new.say").write_text("title: Salt again\n", "utf-8")
    assert names(client, "salt") == ["Salt again"]


def test_several_folders_one_in_another(client: PlainClient, folder: Path) -> None:
    begin(client, None, folder / "island", folder)
    assert names(client, "last") == ["The Last 🚤 Crossing"]


def test_without_a_folder_there_are_the_open_ones(client: PlainClient) -> None:
    begin(client, None)
    assert names(client, "") == []
    client.open("untitled:Untitled-1", "I go.\n")
    assert names(client, "") == ["Untitled-1"]


def test_a_private_name_is_shown_nowhere(client: PlainClient, folder: Path) -> None:
    write(folder / "private-names.txt", "Maren Holt\n")
    write(folder / "b.say", "title: For Maren Holt\n\n---- draft: Maren Holt\n")
    begin(client, folder)
    assert names(client, "for") == ["For …"]
    assert names(client, "maren") == []


def test_meanwhile_other_questions_are_answered_and_it_can_be_taken_back(tmp_path: Path) -> None:
    with PlainClient() as client:
        meanwhile(client, tmp_path)


def meanwhile(client: PlainClient, tmp_path: Path) -> None:
    for number in range(450):
        (tmp_path / f"{number // 50}").mkdir(exist_ok=True)
        write(tmp_path / f"{number // 50}" / f"{number}.say", f"title: Sack {number}\n")
    begin(client, tmp_path)
    client.open("file:///elsewhere/b.say", "title: Sack\n")
    symbols = {"id": "a", "method": "workspace/symbol", "params": {"query": "sack"}}
    lenses = {
        "id": "b",
        "method": "textDocument/codeLens",
        "params": {"textDocument": {"uri": "file:///elsewhere/b.say"}},
    }
    taken_back = {"method": "$/cancelRequest", "params": {"id": "a"}}
    at_once(client, symbols, lenses, taken_back)
    found = names(client, "sack 44")
    assert found[:11] == ["Sack 44", *(f"Sack 44{digit}" for digit in range(10))]
    answers = [each for each in client.notices if each.get("id") in ("a", "b")]
    assert [each["id"] for each in answers] == ["b", "a"]
    assert answers[1]["error"]["code"] == -32800


def at_once(client: PlainClient, *messages: dict[str, Any]) -> None:
    """Send messages of which none waits for an answer to another."""
    bodies = [json.dumps({"jsonrpc": "2.0", **each}).encode() for each in messages]
    assert client.process.stdin
    client.process.stdin.write(
        b"".join(b"Content-Length: %d\r\n\r\n%s" % (len(b), b) for b in bodies)
    )
    client.process.stdin.flush()
