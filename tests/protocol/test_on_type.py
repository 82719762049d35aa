"""Enter in a list, over the server's pipes."""

from collections.abc import Iterator
from typing import Any

import pytest

from tests.clients.direct import DirectClient
from tests.clients.plain import PlainClient

URI = "file:///folder/a.say"


@pytest.fixture
def client() -> Iterator[PlainClient]:
    with DirectClient() as client:
        yield client


def typed(client: PlainClient, line: int, character: int, ch: str = "\n") -> Any:
    params = {
        "textDocument": {"uri": URI},
        "position": {"line": line, "character": character},
        "ch": ch,
        "options": {"tabSize": 4, "insertSpaces": True},
    }
    return client.result("textDocument/onTypeFormatting", params)


def test_it_is_offered_for_enter_alone(client: PlainClient) -> None:
    offered = client.initialize()["capabilities"]["documentOnTypeFormattingProvider"]
    assert offered == {"firstTriggerCharacter": "\n"}


def test_the_next_item(client: PlainClient) -> None:
    client.initialize()
    assert typed(client, 99, 9) is None
    client.open(URI, "---- draft: 🚤; count 5\n1. a pencil\n\n2. a lamp\n")
    place = {"line": 2, "character": 0}
    below = {"start": {"line": 3, "character": 0}, "end": {"line": 3, "character": 1}}
    assert typed(client, 2, 0) == [
        {"range": {"start": place, "end": place}, "newText": "2. "},
        {"range": below, "newText": "3"},
    ]
    assert typed(client, 2, 0, "x") is None
    assert typed(client, 1, 3) is None
