"""The editor's settings over the server's pipes: asked for, sent at the start, sent later."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.clients.direct import DirectClient
from tests.clients.plain import PlainClient

URI = "file:///folder/a.say"
SCRIPT = "slot: 60s\n\nI weigh the salt. I never cheat.\nNot once.\n\nAsk them.\n"
ASKED: dict[str, Any] = {
    "workspace": {"configuration": True, "inlayHint": {"refreshSupport": True}}
}


@pytest.fixture
def client() -> Iterator[PlainClient]:
    with DirectClient() as client:
        yield client


def begin(client: PlainClient, capabilities: dict[str, Any], options: Any = None) -> None:
    params = {
        "processId": None,
        "rootUri": None,
        "capabilities": capabilities,
        "initializationOptions": options,
    }
    client.result("initialize", params)
    client.notify("initialized", {})


def lines(client: PlainClient, uri: str = URI) -> list[int]:
    return [hint["position"]["line"] for hint in client.hints(uri)]


def methods(client: PlainClient) -> list[str]:
    return [each["method"] for each in client.notices]


def answer(client: PlainClient, result: Any) -> dict[str, Any]:
    """Answer the next request for settings; returns its parameters."""
    asked = client.wait_for_request("workspace/configuration")
    client.send({"jsonrpc": "2.0", "id": asked["id"], "result": result})
    params: dict[str, Any] = asked["params"]
    return params


def test_who_says_nothing_gets_the_usual(client: PlainClient) -> None:
    client.initialize()
    client.open(URI, SCRIPT)
    assert lines(client) == [2, 3, 5]
    assert set(methods(client)) == {"textDocument/publishDiagnostics"}


@pytest.mark.parametrize(
    ("value", "expected"),
    [("lines", [2, 3, 5]), ("sentences", [2, 2, 3, 5]), ("paragraphs", [3, 5]), ("off", [])],
)
@pytest.mark.parametrize("wrap", [False, True])
def test_settings_sent_at_the_start(
    client: PlainClient, value: str, expected: list[int], wrap: bool
) -> None:
    options = {"runningTime": value}
    begin(client, {}, {"saywright": options} if wrap else options)
    client.open(URI, SCRIPT)
    assert lines(client) == expected


def test_settings_are_asked_for_each_document(client: PlainClient) -> None:
    begin(client, ASKED, {"running-time": "off"})
    client.open(URI, SCRIPT)
    asked = answer(client, [{"running-time": "paragraphs", "server": {"path": ""}}])
    assert asked == {"items": [{"scopeUri": URI, "section": "saywright"}]}
    refresh = client.wait_for_request("workspace/inlayHint/refresh")
    client.send({"jsonrpc": "2.0", "id": refresh["id"], "result": None})
    assert lines(client) == [3, 5]
    other = "file:///elsewhere/b.say"
    client.open(other, SCRIPT)
    answer(client, [None])
    assert lines(client, other) == []
    client.notify("workspace/didChangeConfiguration", {"settings": None})
    assert len(answer(client, [{"running-time": "off"}, {"running-time": "lines"}])["items"]) == 2
    client.wait_for_request("workspace/inlayHint/refresh")
    assert (lines(client), lines(client, other)) == ([], [2, 3, 5])
    assert "window/showMessage" not in methods(client)


def test_a_client_that_answers_oddly_is_borne(client: PlainClient) -> None:
    begin(client, ASKED)
    client.open(URI, SCRIPT)
    for result in ([], None, [5], [{"running-time": "off"}, {}]):
        answer(client, result)
        assert client.hints(URI) is not None
        client.notify("workspace/didChangeConfiguration", {"settings": {}})
    asked = client.wait_for_request("workspace/configuration")
    error = {"code": -32601, "message": "no"}
    client.send({"jsonrpc": "2.0", "id": asked["id"], "error": error})
    client.wait_for_request("workspace/inlayHint/refresh")
    assert lines(client) == []
    assert "window/showMessage" not in methods(client)


def test_settings_sent_later_to_who_cannot_be_asked(client: PlainClient) -> None:
    client.initialize()
    client.open(URI, SCRIPT)
    settings = {"saywright": {"running-time": "paragraphs", "time-shown": "remaining"}}
    client.notify("workspace/didChangeConfiguration", {"settings": settings})
    hints = client.hints(URI)
    assert [hint["position"]["line"] for hint in hints] == [3, 5]
    assert all(hint["label"].startswith("-0:5") for hint in hints)
    client.notify("workspace/didChangeConfiguration", {"settings": {"saywright": {}}})
    assert lines(client) == [2, 3, 5]


def test_the_editors_word_is_last_and_null_says_nothing(
    client: PlainClient, tmp_path: Path
) -> None:
    (tmp_path / "saywright.toml").write_text('[editor]\nrunning-time = "off"\n')
    uri = (tmp_path / "a.say").as_uri()
    begin(client, ASKED)
    client.open(uri, SCRIPT)
    answer(client, [{"running-time": None, "time-shown": None}])
    assert lines(client, uri) == []
    client.notify("workspace/didChangeConfiguration", {"settings": None})
    answer(client, [{"running-time": "lines"}])
    client.wait_for_request("workspace/inlayHint/refresh")
    assert lines(client, uri) == [2, 3, 5]


def test_what_cannot_be_followed_is_told_once(client: PlainClient) -> None:
    begin(client, {}, {"running-tiem": "off"})
    told = client.wait_for_notice("window/showMessage")
    assert told == {
        "type": 2,
        "message": "Saywright: There is no setting called “running-tiem”. "
        "Did you mean running-time?",
    }
    assert client.wait_for_notice("window/logMessage")["message"] in told["message"]
    for _ in range(2):
        settings = {"saywright": {"running-tiem": "off", "language": "de", "running-time": 5}}
        client.notify("workspace/didChangeConfiguration", {"settings": settings})
    client.open(URI, SCRIPT)
    assert lines(client) == [2, 3, 5]
    told_later = [
        each["params"]["message"]
        for each in client.notices
        if each["method"] == "window/showMessage"
    ]
    assert told_later == [
        "Saywright: language is set in saywright.toml, not in the editor, so that every editor "
        "and the command line say the same of a script.",
        "Saywright: running-time cannot be followed. Write one of lines, sentences, paragraphs, "
        "off.",
    ]


def test_what_is_found_does_not_hang_on_the_editor(client: PlainClient) -> None:
    begin(client, {"textDocument": {"diagnostic": {}}}, {"pace": "40 wpm", "checks": {}})
    client.open(URI, SCRIPT)
    document = {"textDocument": {"uri": URI}}
    [running] = client.result("textDocument/diagnostic", document)["items"]
    assert running["message"].startswith("0:0")


def test_whoever_registers_is_told_of_changes(client: PlainClient) -> None:
    begin(client, {"workspace": {"didChangeConfiguration": {"dynamicRegistration": True}}})
    asked = client.wait_for_request("client/registerCapability")
    methods = [each["method"] for each in asked["params"]["registrations"]]
    assert methods == ["workspace/didChangeConfiguration"]
