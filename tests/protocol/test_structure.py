"""Outline, folds and selections over the server's pipes, as far as a client can show them."""

from collections.abc import Iterator
from typing import Any

import pytest

from tests.clients.direct import DirectClient
from tests.clients.plain import PlainClient

URI = "file:///folder/a.say"
SCRIPT = (
    "slot: 60s\n\n# 🚤 she *turns*\n~~Gone.\nAll.~~ I weigh\nthe salt.\n\n"
    "~~So.~~\n\n---- draft: d\nI go.\n"
)
DOCUMENT = {"textDocument": {"uri": URI}}
ALL_KINDS = {"symbolKind": {"valueSet": list(range(1, 27))}}
TREE = {"hierarchicalDocumentSymbolSupport": True, **ALL_KINDS, "tagSupport": {"valueSet": [1]}}


@pytest.fixture
def client() -> Iterator[PlainClient]:
    with DirectClient() as client:
        yield client


def symbols(client: PlainClient, capabilities: dict[str, Any], text: str = SCRIPT) -> Any:
    client.initialize({"textDocument": {"documentSymbol": capabilities}})
    client.open(URI, text)
    return client.result("textDocument/documentSymbol", DOCUMENT)


def test_an_outline_is_a_tree_to_who_shows_one(client: PlainClient) -> None:
    piece, draft = symbols(client, TREE)
    assert (piece["name"], piece["kind"]) == ("piece", 3)
    assert piece["detail"].endswith(" of 1:00")
    assert (draft["name"], draft["detail"]) == ("draft “d”", "2 words")
    [unit] = piece["children"]
    assert (unit["name"], unit["kind"]) == ("🚤 she *turns*", 24)
    first, second = unit["children"]
    assert first["name"] == "I weigh the salt."
    assert first["selectionRange"]["start"] == {"line": 4, "character": 7}
    assert "tags" not in first
    assert second["tags"] == [1]
    assert second["range"] == {
        "start": {"line": 7, "character": 0},
        "end": {"line": 7, "character": 7},
    }


def test_an_older_client_has_a_list_with_the_times_in_the_names(client: PlainClient) -> None:
    found = symbols(client, {})
    assert [each["kind"] for each in found] == [3, 6, 15, 15, 4, 15]
    assert found[0]["name"].startswith("piece, 0:0")
    assert found[1]["containerName"] == "piece"
    assert found[4]["name"] == "draft “d”, 2 words"
    assert all("tags" not in each for each in found)
    assert found[4]["location"]["uri"] == URI
    assert found[4]["location"]["range"]["start"] == {"line": 9, "character": 0}


def test_nothing_is_outlined_of_an_empty_file_nor_of_one_that_is_not_open(
    client: PlainClient,
) -> None:
    assert symbols(client, TREE, "") == []
    other = {"textDocument": {"uri": "file:///never-opened.say"}}
    assert client.result("textDocument/documentSymbol", other) is None
    assert client.result("textDocument/foldingRange", other) is None
    assert client.result("textDocument/selectionRange", {**other, "positions": []}) is None


def folding(client: PlainClient, text: str = SCRIPT, **capabilities: Any) -> Any:
    client.initialize({"textDocument": {"foldingRange": capabilities}})
    client.open(URI, text)
    return client.result("textDocument/foldingRange", DOCUMENT)


def test_what_is_folded_ends_where_it_ends(client: PlainClient) -> None:
    unit, cut, draft = folding(client)
    assert unit == {"startLine": 2, "startCharacter": 16, "endLine": 7, "endCharacter": 7}
    assert cut == {"startLine": 3, "startCharacter": 1, "endLine": 4, "endCharacter": 6}
    assert draft == {"startLine": 9, "startCharacter": 13, "endLine": 10, "endCharacter": 5}


def test_who_folds_whole_lines_has_one_a_line_and_no_words_are_hidden_with_it(
    client: PlainClient,
) -> None:
    kinds = {"foldingRangeKind": {"valueSet": ["region"]}}
    found = folding(client, "# u\n# v\n~~a\nb~~\n\n~~c\nd~~ e\n", lineFoldingOnly=True, **kinds)
    assert found == [
        {"startLine": 0, "endLine": 6, "kind": "region"},
        {"startLine": 2, "endLine": 5},
    ]


def test_kinds_go_to_who_knows_them_and_no_more_than_are_wanted(client: PlainClient) -> None:
    kinds = {"foldingRangeKind": {"valueSet": ["comment", "imports", "region"]}}
    found = folding(client, "I go.\n\n# a\n# b\n\n---- notes\na\n", rangeLimit=1, **kinds)
    assert [(each["startLine"], each["kind"]) for each in found] == [(5, "region")]
    client.change(URI, 2, {"text": "# a\n# b\n"})
    found = client.result("textDocument/foldingRange", DOCUMENT)
    assert [(each["startLine"], each["kind"]) for each in found] == [(0, "comment")]


@pytest.mark.parametrize(("encoding", "before"), [("utf-8", 5), ("utf-16", 3), ("utf-32", 2)])
def test_selections_grow_at_several_places_at_once(
    client: PlainClient, encoding: str, before: int
) -> None:
    client.initialize({"general": {"positionEncodings": [encoding]}})
    client.open(URI, "I go.\n\n🚤 Home, I say. So.\n")
    positions = [{"line": 2, "character": before + 1}, {"line": 0, "character": 3}]
    params = {**DOCUMENT, "positions": [*positions, {"line": 99, "character": 0}]}
    first, second, last = client.result("textDocument/selectionRange", params)
    grown = []
    while first:
        grown.append(first["range"])
        first = first.get("parent")
    sentence = before + len("Home, I say.")
    ends = [(before, before + 4), (before, before + 5), (0, sentence), (0, sentence + 4)]
    assert [(each["start"]["character"], each["end"]["character"]) for each in grown[:4]] == ends
    assert grown[-1] == {
        "start": {"line": 0, "character": 0},
        "end": {"line": 3, "character": 0},
    }
    assert second["range"]["end"] == {"line": 0, "character": 4}
    assert last == {"range": grown[-1]}
