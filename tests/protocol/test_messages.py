"""How the server behaves in conversation: each question gets an answer, and nothing pops up on a
writer's screen whatever a client sends."""

import asyncio
import json
from collections.abc import Iterator
from typing import Any

import pytest
from pygls.feature_manager import is_thread_function

from saywright.finding import Edit
from saywright.protocol.commands import add_command, document_named, make_edits
from saywright.protocol.progress import working
from saywright.protocol.server import SaywrightServer, make_server
from tests.clients.direct import DirectClient

URI = "file:///folder/a.say"
SCRIPT = "slot: 4s\nspeaker: Ines\n\nI weigh the salt. __I never cheat.__ I was, like, cold.\n"


@pytest.fixture
def client() -> Iterator[DirectClient]:
    with DirectClient() as client:
        yield client


def error(response: dict[str, Any]) -> int:
    code: int = response["error"]["code"]
    return code


def execute(client: DirectClient, name: str, *arguments: Any, **more: Any) -> dict[str, Any]:
    params = {"command": name, "arguments": list(arguments), **more}
    return client.request("workspace/executeCommand", params)


@pytest.mark.parametrize(
    "message",
    [
        {"jsonrpc": "2.0", "id": 5},
        {"jsonrpc": "2.0", "id": 5, "method": 7},
        {"jsonrpc": "2.0", "id": 5, "method": None, "params": {}},
        {"jsonrpc": "2.0", "id": 5, "method": ["a"]},
        {"jsonrpc": "1.0", "id": 5, "method": "textDocument/hover"},
        {"id": 5, "method": "textDocument/hover"},
        {"jsonrpc": "2.0", "id": 5, "method": "textDocument/didOpen", "params": None},
        {"jsonrpc": "2.0", "id": 5, "method": "$/cancelRequest", "params": {"id": 1}},
    ],
)
def test_what_is_no_request_is_told_so(client: DirectClient, message: dict[str, Any]) -> None:
    client.initialize()
    client.send(message)
    if "method" in message:
        assert error(client.wait_for(5)) in (-32600, -32602)
    assert client.answers == {}
    assert client.notices == []


@pytest.mark.parametrize(
    "message",
    [
        {"jsonrpc": "2.0", "id": None, "method": "textDocument/hover"},
        {"jsonrpc": "2.0", "id": True, "method": "textDocument/hover"},
        {"jsonrpc": "2.0", "id": {}, "method": "textDocument/hover"},
        {"jsonrpc": "2.0", "id": [1], "result": None},
        {"jsonrpc": "2.0"},
        {"jsonrpc": "2.0", "id": 99, "result": 5},
        {"jsonrpc": "2.0", "id": 99, "error": 5},
        {"jsonrpc": "2.0", "id": 99, "error": {}},
        [{"jsonrpc": "2.0", "id": 5, "method": "textDocument/hover"}],
        5,
        None,
        {},
    ],
)
def test_what_cannot_be_answered_is_passed_over(client: DirectClient, message: Any) -> None:
    client.initialize()
    client.send(message)
    assert client.answers == {}
    assert client.notices == []


def test_a_fault_is_told_as_one_and_its_story_is_in_the_log(
    client: DirectClient, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    def fails(*_: Any) -> None:
        raise ValueError("what went wrong")

    client.initialize()
    client.open(URI, SCRIPT)
    monkeypatch.setattr(client.server.documents, "get", fails)
    response = client.request("textDocument/codeLens", {"textDocument": {"uri": URI}})
    assert error(response) == -32603
    assert "what went wrong" not in json.dumps(response)
    assert "what went wrong" in caplog.text


def test_a_fault_in_a_notification_is_logged(
    client: DirectClient, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    def fails(*_: Any) -> None:
        raise ValueError("what went wrong")

    client.initialize()
    monkeypatch.setattr(client.server.documents, "change", fails)
    client.change(URI, 2, {"text": "a"})
    assert "what went wrong" in caplog.text
    assert client.notices == []


def test_documents_are_the_projects_own(client: DirectClient) -> None:
    """pygls' copies would be read from the disk, and split at what ends no line."""
    client.initialize()
    client.open(URI, SCRIPT)
    client.change(URI, 2, {"text": "I go.\u2028We go."})
    assert not client.server.workspace.text_documents
    assert len(client.hints(URI)) == 1


def test_nothing_shares_the_thread_that_reads() -> None:
    features = make_server().protocol.fm.features
    assert features
    assert not any(map(is_thread_function, features.values()))


def test_after_the_farewell_nothing_is_done(client: DirectClient) -> None:
    client.initialize()
    client.open(URI, SCRIPT)
    assert client.result("shutdown") is None
    assert error(client.request("textDocument/hover", {})) == -32600
    client.change(URI, 2, {"text": "I go."})
    document = client.server.documents.get(URI)
    assert document
    assert document.version == 1


def commanded(server: SaywrightServer) -> list[str]:
    """Commands of every sort; what the slow one has done so far."""
    done: list[str] = []

    async def slow(steps: int) -> str:
        async with working(server, "Being slow") as work:
            for step in range(steps):
                done.append("step")
                await work.step(step, steps)
        return "done"

    async def put_on_top(told: dict[str, Any]) -> str:
        document = document_named(server, told["uri"], told.get("version"))
        await make_edits(server, document, "Put a note on top", [Edit(0, 0, "# ")])
        return "made"

    async def late(uri: str) -> None:
        document = document_named(server, uri)
        await asyncio.sleep(0.02)
        await make_edits(server, document, "Put a note on top", [Edit(0, 0, "# ")])

    add_command(server, "saywright.slow", slow)
    add_command(server, "saywright.late", late)
    add_command(server, "saywright.top", put_on_top)
    add_command(server, "saywright.echo", lambda *told: list(told))
    add_command(server, "saywright.wrong", lambda: int("none"))
    return done


def test_a_command_gets_its_arguments_as_they_are(client: DirectClient) -> None:
    commanded(client.server)
    told = client.initialize()["capabilities"]["executeCommandProvider"]["commands"]
    assert "saywright.echo" in told
    arguments = [1, "a", None, {"jsonrpc": "2.0", "id": 1, "a": [{}]}]
    assert execute(client, "saywright.echo", *arguments)["result"] == arguments
    assert client.request("workspace/executeCommand", {"command": "saywright.echo"})["result"] == []


def test_a_command_that_cannot_run_is_answered_as_an_error(client: DirectClient) -> None:
    commanded(client.server)
    client.initialize()
    assert error(execute(client, "saywright.none")) == -32602
    assert error(execute(client, "saywright.slow")) == -32602
    assert error(execute(client, "saywright.slow", 1, 2)) == -32602
    assert error(execute(client, "saywright.wrong")) == -32603
    assert error(execute(client, "saywright.top", {"uri": 5})) == -32803
    assert client.notices == []


def test_a_command_is_stopped_by_taking_it_back(client: DirectClient) -> None:
    done = commanded(client.server)
    client.initialize()
    params = {"command": "saywright.slow", "arguments": [10_000]}
    client.send(
        {"jsonrpc": "2.0", "id": 50, "method": "workspace/executeCommand", "params": params}
    )
    client.run_for(0.02)
    client.notify("$/cancelRequest", {"id": 50})
    assert error(client.wait_for(50)) == -32800
    before = len(done)
    client.run_for(0.02)
    assert 0 < before == len(done)
    client.notify("$/cancelRequest", {"id": 50})
    client.notify("$/cancelRequest", {"id": "never heard of"})
    assert client.notices == []


def test_a_command_shows_how_far_it_is_under_the_client_s_token(client: DirectClient) -> None:
    commanded(client.server)
    client.initialize()
    assert execute(client, "saywright.slow", 3, workDoneToken="w")["result"] == "done"
    values = [each["params"]["value"] for each in client.notices]
    assert [each["kind"] for each in values] == ["begin", "report", "end"]
    assert values[0]["title"] == "Being slow"
    client.notices.clear()
    execute(client, "saywright.slow", 3)
    assert client.notices == []


def applying(client: DirectClient, can: bool = True) -> None:
    commanded(client.server)
    edits = {"documentChanges": True}
    client.initialize({"workspace": {"applyEdit": can, "workspaceEdit": edits}})
    client.open(URI, SCRIPT, version=3)
    client.notices.clear()


def ask_for_the_edit(client: DirectClient) -> dict[str, Any]:
    """The request that the server sends to have the edit made."""
    params = {"command": "saywright.top", "arguments": [{"uri": URI, "version": 3}]}
    client.send(
        {"jsonrpc": "2.0", "id": 50, "method": "workspace/executeCommand", "params": params}
    )
    client.run_for(0.01)
    asked: dict[str, Any] = client.notices.pop()
    assert asked["method"] == "workspace/applyEdit"
    return asked


def test_a_command_has_the_client_make_its_edit(client: DirectClient) -> None:
    applying(client)
    asked = ask_for_the_edit(client)
    assert asked["params"]["label"] == "Put a note on top"
    [change] = asked["params"]["edit"]["documentChanges"]
    assert change["textDocument"] == {"uri": URI, "version": 3}
    assert change["edits"][0]["newText"] == "# "
    client.send({"jsonrpc": "2.0", "id": asked["id"], "result": {"applied": True}})
    assert client.wait_for(50)["result"] == "made"


@pytest.mark.parametrize(
    ("answer", "code"),
    [
        ({"result": {"applied": False, "failureReason": "It is read-only."}}, -32803),
        ({"result": {"applied": False}}, -32803),
        ({"result": None}, -32602),
        ({"result": 5}, -32602),
        ({"error": {"code": -32601, "message": "no such method"}}, -32601),
    ],
)
def test_an_edit_that_is_not_made_is_told_of(
    client: DirectClient, answer: dict[str, Any], code: int
) -> None:
    applying(client)
    asked = ask_for_the_edit(client)
    client.send({"jsonrpc": "2.0", "id": asked["id"], **answer})
    assert error(client.wait_for(50)) == code
    assert client.notices == []


def test_no_edit_is_made_where_it_is_not_meant(client: DirectClient) -> None:
    applying(client)
    client.change(URI, 4, {"text": "I go."})
    late = execute(client, "saywright.top", {"uri": URI, "version": 3})
    assert error(late) == -32801
    assert error(execute(client, "saywright.top", {"uri": "file:///other.say"})) == -32803
    with DirectClient() as other:
        applying(other, can=False)
        assert error(execute(other, "saywright.top", {"uri": URI})) == -32803
        assert not {each["method"] for each in other.notices} & {"workspace/applyEdit"}


def test_an_edit_for_a_text_that_has_changed_meanwhile_is_not_made(client: DirectClient) -> None:
    applying(client)
    params = {"command": "saywright.late", "arguments": [URI]}
    client.send(
        {"jsonrpc": "2.0", "id": 50, "method": "workspace/executeCommand", "params": params}
    )
    client.change(URI, 4, {"text": "I go."})
    assert error(client.wait_for(50)) == -32801
    assert not {each["method"] for each in client.notices} & {"workspace/applyEdit"}
