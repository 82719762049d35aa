"""Going from a place to where it comes from, and to all places like it, over the server's pipes."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.clients.direct import DirectClient
from tests.clients.plain import PlainClient

URI = "file:///folder/a.say"
SCRIPT = "speaker: Inés, Joss\npace: Ana\n\nInés:\n𝄞 Joss and Inés. INÉS!\n---- takes\n2s Ana\n"
LINKS = {"textDocument": {"definition": {"linkSupport": True}}}


@pytest.fixture
def client() -> Iterator[PlainClient]:
    with DirectClient() as client:
        yield client


def definition(client: PlainClient, line: int, character: int, uri: str = URI) -> Any:
    at = {"line": line, "character": character}
    return client.result("textDocument/definition", {"textDocument": {"uri": uri}, "position": at})


def references(
    client: PlainClient, line: int, character: int, *, declared: bool = True, uri: str = URI
) -> Any:
    at = {"line": line, "character": character}
    context = {"includeDeclaration": declared}
    params = {"textDocument": {"uri": uri}, "position": at, "context": context}
    return client.result("textDocument/references", params)


def span(line: int, start: int, end: int) -> dict[str, Any]:
    return {
        "start": {"line": line, "character": start},
        "end": {"line": line, "character": end},
    }


def test_they_are_offered(client: PlainClient) -> None:
    told = client.initialize()["capabilities"]
    assert told["definitionProvider"]
    assert told["referencesProvider"]


@pytest.mark.parametrize(("encoding", "before"), [("utf-8", 14), ("utf-16", 12), ("utf-32", 11)])
def test_a_speaker(client: PlainClient, encoding: str, before: int) -> None:
    client.initialize({"general": {"positionEncodings": [encoding]}})
    client.open(URI, SCRIPT)
    width = 5 if encoding == "utf-8" else 4
    home = {"uri": URI, "range": span(0, 9, 9 + width)}
    assert definition(client, 4, before + 1) == [home]
    places = references(client, 4, before + 1)
    assert places[0] == home
    assert [each["range"]["start"]["line"] for each in places] == [0, 3, 4, 4]
    at = {"textDocument": {"uri": URI}, "position": {"line": 4, "character": before + 1}}
    renamed = client.result("textDocument/rename", {**at, "newName": "Tove"})["changes"][URI]
    assert [each["range"] for each in renamed] == [each["range"] for each in places]
    shown = client.result("textDocument/documentHighlight", at)
    assert [each["range"] for each in shown] == [each["range"] for each in places]
    assert references(client, 4, before + 1, declared=False) == places[1:]


def test_links_for_who_takes_them(client: PlainClient) -> None:
    client.initialize(LINKS)
    client.open(URI, SCRIPT)
    assert definition(client, 3, 1) == [
        {
            "originSelectionRange": span(3, 0, 4),
            "targetUri": URI,
            "targetRange": span(0, 0, 19),
            "targetSelectionRange": span(0, 9, 13),
        }
    ]


def test_a_reader_of_the_project_file(client: PlainClient, tmp_path: Path) -> None:
    project = tmp_path / "saywright.toml"
    project.write_bytes('# 𝄞\r\n[readers]\r\n"Ana" = "142 wpm"\r\n'.encode())
    uri = (tmp_path / "a b.say").as_uri()
    client.initialize()
    client.open(uri, SCRIPT)
    there = {"uri": project.as_uri(), "range": span(2, 1, 4)}
    for line, character in ((1, 7), (6, 4)):
        assert definition(client, line, character, uri) == [there]
        assert references(client, line, character, uri=uri) == [
            there,
            {"uri": uri, "range": span(1, 6, 9)},
            {"uri": uri, "range": span(6, 3, 6)},
        ]
    project.unlink()
    takes = [{"uri": uri, "range": span(6, 3, 6)}]
    assert definition(client, 1, 7, uri) == takes


def test_a_gathered_line_and_back(client: PlainClient) -> None:
    client.initialize(LINKS)
    client.open(URI, "---- draft\n__I never cheat.__\n---- piece\nSo. I never cheat.\n")
    [there] = definition(client, 3, 8)
    assert there["targetSelectionRange"] == span(1, 0, 18)
    [back] = definition(client, 1, 8)
    assert back["targetSelectionRange"] == span(3, 4, 17)


@pytest.mark.parametrize(("line", "character"), [(2, 0), (900, 900), (4, 8)])
def test_where_there_is_nothing(client: PlainClient, line: int, character: int) -> None:
    client.initialize()
    assert definition(client, line, character) is None
    assert references(client, line, character) is None
    client.open(URI, SCRIPT)
    assert definition(client, line, character) is None
    assert references(client, line, character) is None
