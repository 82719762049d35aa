"""Semantic tokens over the server's pipes: what is asked for, what has changed, and no more."""

from collections.abc import Iterator
from typing import Any

import pytest
from lsprotocol import types

from tests.clients.direct import DirectClient
from tests.clients.plain import PlainClient

URI = "file:///folder/a.say"
DOCUMENT = {"textDocument": {"uri": URI}}
FULL, DELTA, RANGE = (
    f"textDocument/semanticTokens/{each}" for each in ("full", "full/delta", "range")
)
SCRIPT = "slot: 5s\n\n𝄞 I ~~weigh\nthe~~ *salt*. |\n\n# so?\n"


@pytest.fixture
def client() -> Iterator[PlainClient]:
    with DirectClient() as client:
        yield client


def offered(client: PlainClient, **more: Any) -> Any:
    """What the server says of tokens to a client that knows them all, but for what is told."""
    wanted: dict[str, Any] = {
        "requests": {"full": {"delta": True}, "range": True},
        "tokenTypes": [each.value for each in types.SemanticTokenTypes],
        "tokenModifiers": [each.value for each in types.SemanticTokenModifiers],
        "formats": ["relative"],
        "overlappingTokenSupport": False,
        "multilineTokenSupport": False,
    }
    encodings = {"general": {"positionEncodings": [more.pop("encoding", "utf-16")]}}
    told = client.initialize({"textDocument": {"semanticTokens": wanted | more}, **encodings})
    return told["capabilities"].get("semanticTokensProvider")


def decoded(data: list[int], legend: dict[str, list[str]]) -> list[tuple[int, int, int, str]]:
    told, line, character = [], 0, 0
    for at in range(0, len(data), 5):
        down, right, length, kind, bits = data[at : at + 5]
        line, character = line + down, right if down else character + right
        modifiers = [
            each for index, each in enumerate(legend["tokenModifiers"]) if bits >> index & 1
        ]
        told.append((line, character, length, ".".join((legend["tokenTypes"][kind], *modifiers))))
    return told


def test_a_client_that_takes_none_is_offered_none(client: PlainClient) -> None:
    assert "semanticTokensProvider" not in client.initialize()["capabilities"]
    client.open(URI, SCRIPT)
    assert client.request(FULL, DOCUMENT)["error"]["code"] == -32601


@pytest.mark.parametrize(
    ("requests", "full", "is_range"),
    [
        ({"full": {"delta": True}, "range": True}, {"delta": True}, True),
        ({"full": {"delta": False}, "range": False}, True, False),
        ({"full": True}, True, False),
        ({"range": {}}, False, True),
        ({"full": False, "range": False}, False, False),
    ],
)
def test_what_is_asked_for_is_offered(
    client: PlainClient, requests: Any, full: Any, is_range: bool
) -> None:
    provider = offered(client, requests=requests) or {}
    assert provider.get("full", False) == full
    assert provider.get("range", False) == is_range


def test_another_format_is_not_spoken(client: PlainClient) -> None:
    assert offered(client, formats=[]) is None


@pytest.mark.parametrize(("encoding", "wide"), [("utf-8", 4), ("utf-16", 2), ("utf-32", 1)])
def test_all_tokens_counted_as_was_agreed(client: PlainClient, encoding: str, wide: int) -> None:
    legend = offered(client, encoding=encoding)["legend"]
    client.open(URI, SCRIPT)
    found = decoded(client.result(FULL, DOCUMENT)["data"], legend)
    assert found == [
        (0, 0, 4, "property"),
        (0, 6, 2, "number"),
        (2, wide + 3, 7, "comment.deprecated"),
        (3, 0, 5, "comment.deprecated"),
        (3, 6, 6, "macro"),
        (3, 14, 1, "operator"),
        (5, 0, 5, "comment"),
    ]


def test_no_type_and_no_modifier_that_the_client_does_not_know(client: PlainClient) -> None:
    legend = offered(client, tokenTypes=["variable", "keyword", "comment"], tokenModifiers=[])
    assert legend["legend"] == {
        "tokenTypes": ["keyword", "variable", "comment"],
        "tokenModifiers": [],
    }
    client.open(URI, SCRIPT)
    found = decoded(client.result(FULL, DOCUMENT)["data"], legend["legend"])
    assert [kind for *_, kind in found] == ["variable", "comment", "comment", "keyword", "comment"]


def test_tokens_of_the_lines_on_screen(client: PlainClient) -> None:
    legend = offered(client)["legend"]
    client.open(URI, SCRIPT)
    whole = decoded(client.result(FULL, DOCUMENT)["data"], legend)
    where = {"start": {"line": 3, "character": 0}, "end": {"line": 4, "character": 0}}
    screen = decoded(client.result(RANGE, {**DOCUMENT, "range": where})["data"], legend)
    assert screen == [each for each in whole if each[0] == 3]


def typed(client: PlainClient, version: int, line: int, character: int, text: str) -> None:
    at = {"line": line, "character": character}
    client.change(URI, version, {"range": {"start": at, "end": at}, "text": text})


def test_what_has_changed_since_is_sent_alone(client: PlainClient) -> None:
    offered(client)
    client.open(URI, SCRIPT)
    before = client.result(FULL, DOCUMENT)
    typed(client, 2, 3, 7, "s")
    changed = client.result(DELTA, {**DOCUMENT, "previousResultId": before["resultId"]})
    [edit] = changed["edits"]
    assert (edit["start"], edit["deleteCount"], len(edit["data"])) == (20, 10, 10)
    data = list(before["data"])
    data[edit["start"] : edit["start"] + edit["deleteCount"]] = edit["data"]
    assert data == client.result(FULL, DOCUMENT)["data"]
    same = client.result(DELTA, {**DOCUMENT, "previousResultId": changed["resultId"]})
    assert same == {"edits": [], "resultId": changed["resultId"]}


def test_who_asks_of_a_result_that_is_gone_is_given_all(client: PlainClient) -> None:
    offered(client)
    client.open(URI, SCRIPT)
    first = client.result(FULL, DOCUMENT)
    typed(client, 2, 3, 7, "s")
    second = client.result(FULL, DOCUMENT)
    assert second["resultId"] != first["resultId"]
    for gone in (first["resultId"], "never"):
        again = client.result(DELTA, {**DOCUMENT, "previousResultId": gone})
        assert again == second
    client.notify("textDocument/didClose", DOCUMENT)
    client.open(URI, SCRIPT)
    again = client.result(DELTA, {**DOCUMENT, "previousResultId": second["resultId"]})
    assert again["data"] == first["data"]


def test_of_a_document_that_is_not_open_nothing_is_told(client: PlainClient) -> None:
    offered(client)
    assert client.result(FULL, DOCUMENT) is None
    assert client.result(DELTA, {**DOCUMENT, "previousResultId": "1"}) is None
    where = {"start": {"line": 0, "character": 0}, "end": {"line": 4, "character": 0}}
    assert client.result(RANGE, {**DOCUMENT, "range": where}) is None
    client.open(URI, "")
    assert client.result(FULL, DOCUMENT)["data"] == []
    assert client.result(RANGE, {**DOCUMENT, "range": where})["data"] == []
