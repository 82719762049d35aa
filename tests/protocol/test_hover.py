"""Hovers over the server's pipes: as Markdown or plain, in any encoding, and where nothing is."""

from collections.abc import Iterator
from typing import Any

import pytest

from tests.clients.direct import DirectClient
from tests.clients.plain import PlainClient

URI = "file:///folder/a.say"
SCRIPT = "slot: 4s\n\n🚤 I weigh *salt* at 4:30. (beat)\n---- takes\n3s of 2.5s\n"
MARKDOWN = {"textDocument": {"hover": {"contentFormat": ["markdown", "plaintext"]}}}


@pytest.fixture
def client() -> Iterator[PlainClient]:
    with DirectClient() as client:
        yield client


def hover(client: PlainClient, line: int, character: int) -> Any:
    at = {"line": line, "character": character}
    return client.result("textDocument/hover", {"textDocument": {"uri": URI}, "position": at})


def test_it_is_offered(client: PlainClient) -> None:
    assert client.initialize()["capabilities"]["hoverProvider"]


def test_plain_for_who_does_not_say(client: PlainClient) -> None:
    client.initialize()
    client.open(URI, SCRIPT)
    told = hover(client, 2, 11)
    assert told["contents"]["kind"] == "plaintext"
    assert told["contents"]["value"].splitlines()[0] == "Stressed"


def test_markdown_for_who_takes_it_with_the_texts_own_characters(client: PlainClient) -> None:
    client.initialize(MARKDOWN)
    client.open(URI, SCRIPT)
    told = hover(client, 2, 11)["contents"]
    assert told["kind"] == "markdown"
    assert told["value"].startswith("**Stressed**\n\nThe words between \\* and \\* are leaned on")


@pytest.mark.parametrize(("encoding", "before"), [("utf-8", 4), ("utf-16", 2), ("utf-32", 1)])
def test_the_range_counts_as_was_agreed(client: PlainClient, encoding: str, before: int) -> None:
    client.initialize({"general": {"positionEncodings": [encoding]}})
    client.open(URI, SCRIPT)
    start = before + len(" I weigh *salt* at ")
    told = hover(client, 2, start + 1)
    assert told["contents"]["value"].startswith("“4:30” is said “four thirty”: 3 syllables\n")
    assert told["range"] == {
        "start": {"line": 2, "character": start},
        "end": {"line": 2, "character": start + 4},
    }


@pytest.mark.parametrize(
    ("line", "character"), [(1, 0), (1, 9), (2, 90), (3, 90), (4, 90), (5, 0), (900, 900)]
)
def test_odd_places_are_answered(client: PlainClient, line: int, character: int) -> None:
    client.initialize()
    client.open(URI, SCRIPT)
    hover(client, line, character)
    assert hover(client, 4, 2)["contents"]["value"].startswith("A take of 3 s\n")


def test_nothing_is_told_of_an_empty_file_nor_of_one_that_is_not_open(client: PlainClient) -> None:
    client.initialize()
    assert hover(client, 0, 0) is None
    client.open(URI, "")
    assert hover(client, 0, 0) is None


def test_an_edit_is_told_of_at_once(client: PlainClient) -> None:
    client.initialize()
    client.open(URI, "I weigh salt.")
    start = {"line": 0, "character": 8}
    client.change(URI, 2, {"range": {"start": start, "end": start}, "text": "3 "})
    assert hover(client, 0, 8)["contents"]["value"].startswith("“3” is said “three”: 1 syllable")
