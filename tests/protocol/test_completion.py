"""Completion over the server's pipes: for clients that take much, and little."""

from collections.abc import Iterator
from typing import Any

import pytest

from tests.clients.direct import DirectClient
from tests.clients.plain import PlainClient

URI = "file:///folder/a.say"
EVERYTHING = {
    "textDocument": {
        "completion": {
            "completionItem": {
                "snippetSupport": True,
                "insertReplaceSupport": True,
                "documentationFormat": ["markdown", "plaintext"],
                "resolveSupport": {"properties": ["documentation"]},
            }
        }
    }
}


@pytest.fixture
def client() -> Iterator[PlainClient]:
    with DirectClient() as client:
        yield client


def complete(client: PlainClient, line: int, character: int) -> Any:
    at = {"line": line, "character": character}
    return client.result("textDocument/completion", {"textDocument": {"uri": URI}, "position": at})


def test_it_is_offered_with_few_triggers(client: PlainClient) -> None:
    offered = client.initialize()["capabilities"]["completionProvider"]
    assert offered == {"triggerCharacters": [":", "-", "(", ";"], "resolveProvider": True}


def test_plain_text_for_who_says_nothing(client: PlainClient) -> None:
    client.initialize()
    client.open(URI, "slot: 60s\nten")
    found = complete(client, 1, 2)
    assert found["isIncomplete"] is False
    item = next(each for each in found["items"] if each["label"] == "tense")
    assert item == {
        "label": "tense",
        "kind": 10,
        "detail": "the tense it keeps to",
        "sortText": item["sortText"],
        "filterText": "tense",
        "textEdit": {
            "range": {"start": {"line": 1, "character": 0}, "end": {"line": 1, "character": 3}},
            "newText": "tense: ",
        },
    }
    assert [each["sortText"] for each in found["items"]] == sorted(
        each["sortText"] for each in found["items"]
    )
    assert all("commitCharacters" not in each for each in found["items"])


def test_snippets_that_may_insert_or_replace_for_who_takes_them(client: PlainClient) -> None:
    client.initialize(EVERYTHING)
    client.open(URI, "slot: 60s\nten")
    item = next(each for each in complete(client, 1, 2)["items"] if each["label"] == "tense")
    assert item["insertTextFormat"] == 2
    start = {"line": 1, "character": 0}
    assert item["textEdit"] == {
        "newText": "tense: ${1|present,past,free|}",
        "insert": {"start": start, "end": {"line": 1, "character": 2}},
        "replace": {"start": start, "end": {"line": 1, "character": 3}},
    }


def test_a_text_of_several_words_is_a_snippet_where_it_can_be(client: PlainClient) -> None:
    client.initialize(EVERYTHING)
    client.open(URI, "slot: ")
    formats = {
        each["label"]: each.get("insertTextFormat", 1) for each in complete(client, 0, 6)["items"]
    }
    assert formats == {"60s": 1, "60-90s": 1, "90s": 1, "2 min": 2, "3 min": 2}


@pytest.mark.parametrize(("encoding", "before"), [("utf-8", 4), ("utf-16", 2), ("utf-32", 1)])
def test_the_range_counts_as_was_agreed(client: PlainClient, encoding: str, before: int) -> None:
    client.initialize({"general": {"positionEncodings": [encoding]}})
    client.open(URI, "🚤 I weigh it. (pau")
    start = before + len(" I weigh it. (")
    [first, _] = complete(client, 0, start + 3)["items"]
    assert first["textEdit"]["newText"] == "pause)"
    assert first["textEdit"]["range"]["start"] == {"line": 0, "character": start}
    assert first["textEdit"]["range"]["end"] == {"line": 0, "character": start + 3}


def test_a_check_is_told_of_when_it_is_looked_at(client: PlainClient) -> None:
    client.initialize(EVERYTHING)
    client.open(URI, "leave-out: fil")
    item = next(i for i in complete(client, 0, 14)["items"] if i["label"] == "filler")
    assert "documentation" not in item
    told = client.result("completionItem/resolve", item)["documentation"]
    assert told["kind"] == "markdown"
    assert told["value"].startswith(
        "**filler: words that carry nothing where they stand**\n\nEvery"
    )


@pytest.mark.parametrize("data", [None, {"check": "unheard-of"}, {"check": 5}, [], 7, "filler"])
def test_odd_items_come_back_as_they_are(client: PlainClient, data: Any) -> None:
    client.initialize()
    item = {"label": "x", "data": data} if data is not None else {"label": "x"}
    assert client.result("completionItem/resolve", item) == item


def test_in_speech_there_is_nothing(client: PlainClient) -> None:
    client.initialize(EVERYTHING)
    assert complete(client, 0, 0) is None
    client.open(URI, "I weigh the salt: all of it; twice - at least\n")
    assert [complete(client, 0, at) for at in range(46)] == [None] * 46
