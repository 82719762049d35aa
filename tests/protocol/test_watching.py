"""Changes to files beside the script, told by a client that watches them."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.clients.direct import DirectClient
from tests.clients.plain import PlainClient

SCRIPT = "slot: 2s\n\nI weigh the salt. I never cheat. Ask them.\n"
WATCHES: dict[str, Any] = {"didChangeWatchedFiles": {"dynamicRegistration": True}}
REFRESHED = ("inlayHint", "codeLens", "semanticTokens", "diagnostics")


@pytest.fixture
def client() -> Iterator[PlainClient]:
    with DirectClient() as client:
        yield client


def change(client: PlainClient, path: Path) -> None:
    changes = [{"uri": path.as_uri(), "type": 2}]
    client.notify("workspace/didChangeWatchedFiles", {"changes": changes})


def checks(client: PlainClient) -> list[str]:
    told = client.wait_for_notice("textDocument/publishDiagnostics")["diagnostics"]
    return [each["code"] for each in told]


def test_it_asks_to_be_told(client: PlainClient) -> None:
    client.initialize({"workspace": WATCHES})
    asked = client.wait_for_request("client/registerCapability")
    [registration] = asked["params"]["registrations"]
    assert registration["method"] == "workspace/didChangeWatchedFiles"
    watched = [each["globPattern"] for each in registration["registerOptions"]["watchers"]]
    assert watched == ["**/saywright.toml", "**/private-names.txt", "**/*.say"]
    client.send({"jsonrpc": "2.0", "id": asked["id"], "error": {"code": 1, "message": "no"}})
    client.open("file:///a.say", SCRIPT)
    assert checks(client)


def test_who_does_not_watch_is_not_asked(client: PlainClient) -> None:
    client.initialize()
    client.open("file:///a.say", SCRIPT)
    client.hints("file:///a.say")
    assert [each["method"] for each in client.notices] == ["textDocument/publishDiagnostics"]


def test_a_changed_project_file_is_seen_at_once(client: PlainClient, tmp_path: Path) -> None:
    (tmp_path / "deep").mkdir()
    client.initialize({"workspace": WATCHES})
    client.open((tmp_path / "deep" / "a.say").as_uri(), SCRIPT)
    assert checks(client) == ["running-time", "over-time"]
    client.open("file:///elsewhere/b.say", SCRIPT)
    assert checks(client) == ["running-time", "over-time"]
    project = tmp_path / "saywright.toml"
    project.write_text('[checks]\nover-time = "off"\n')
    change(client, project)
    assert checks(client) == ["running-time"]
    project.unlink()
    change(client, project)
    assert checks(client) == ["running-time", "over-time"]
    change(client, tmp_path / "deep" / "other.say")
    change(client, tmp_path / "deep" / "private-names.txt.bak")
    client.hints("file:///elsewhere/b.say")
    published = [each for each in client.notices if each["method"].endswith("publishDiagnostics")]
    assert published == []


@pytest.mark.parametrize("refreshed", [(), REFRESHED[:1], REFRESHED])
def test_only_what_the_client_takes_is_refreshed(
    client: PlainClient, tmp_path: Path, refreshed: tuple[str, ...]
) -> None:
    takes = {name: {"refreshSupport": True} for name in refreshed}
    client.initialize({"workspace": takes, "textDocument": {"diagnostic": {}}})
    uri = (tmp_path / "a.say").as_uri()
    client.open(uri, SCRIPT)
    change(client, tmp_path / "private-names.txt")
    client.hints(uri)
    assert [each["method"] for each in client.notices] == [
        f"workspace/{name.replace('diagnostics', 'diagnostic')}/refresh" for name in refreshed
    ]


def test_odd_changes_are_borne(client: PlainClient) -> None:
    client.initialize()
    for uri in ("", "saywright.toml", "untitled:saywright.toml", "file:///%ff/saywright.toml"):
        client.notify("workspace/didChangeWatchedFiles", {"changes": [{"uri": uri, "type": 9}]})
        client.notify("workspace/didChangeWatchedFiles", {"changes": [{"uri": uri, "type": 3}]})
    client.open("file:///a.say", SCRIPT)
    assert checks(client)


def test_another_script_that_changes_is_asked_about_anew(
    client: PlainClient, tmp_path: Path
) -> None:
    takes = {"inlayHint": {"refreshSupport": True}, "diagnostics": {"refreshSupport": True}}
    client.initialize({"workspace": takes, "textDocument": {"diagnostic": {}}})
    uri = (tmp_path / "a.say").as_uri()
    client.open(uri, SCRIPT)
    change(client, tmp_path / "a.say")
    client.hints(uri)
    assert client.notices == []
    change(client, tmp_path / "b.say")
    client.hints(uri)
    assert [each["method"] for each in client.notices] == ["workspace/diagnostic/refresh"]
