"""What is said of scripts, open or on the disk, one or all: to whom, how often, and when not."""

import os
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from urllib.parse import unquote, urlsplit

import pytest

from saywright.checks.catalogue import CHECK_NAMES
from saywright.protocol import closed_scripts, progress, workspace_diagnostics
from saywright.protocol.check_pages import page_uri
from saywright.protocol.closed_scripts import ClosedScripts
from tests.clients.direct import DirectClient

PULLS: dict[str, Any] = {"diagnostic": {}}
OVER = "slot: 2s\n\nI weigh the salt. I never cheat. I go home.\n"
FINE = "I weigh the salt.\n"


@pytest.fixture
def client() -> Iterator[DirectClient]:
    with DirectClient() as client:
        yield client


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "deep" / "er").mkdir(parents=True)
    (tmp_path / ".hidden").mkdir()
    for name in ("a.say", "deep/b é.say", "deep/er/c.say", ".hidden/d.say", "e.txt"):
        (tmp_path / name).write_text(OVER, "utf-8")
    for path in tmp_path.rglob("*"):
        long_ago(path)
    long_ago(tmp_path)
    return tmp_path


def long_ago(path: Path, by_ns: int = 0) -> None:
    """As if nothing had been changed there for a while."""
    then = 10**18 + by_ns
    os.utime(path, ns=(then, then))


def begin(client: DirectClient, folder: Path, **capabilities: Any) -> None:
    params = {
        "processId": None,
        "rootUri": None,
        "capabilities": {"textDocument": PULLS, **capabilities},
        "workspaceFolders": [{"uri": folder.as_uri(), "name": "scripts"}],
    }
    client.result("initialize", params)
    client.notify("initialized", {})


def pull(client: DirectClient, *known: dict[str, str], **more: Any) -> list[dict[str, Any]]:
    params = {"previousResultIds": list(known), **more}
    items: list[dict[str, Any]] = client.result("workspace/diagnostic", params)["items"]
    return items


def known(items: list[dict[str, Any]]) -> list[dict[str, str]]:
    return [{"uri": each["uri"], "value": each["resultId"]} for each in items if "resultId" in each]


def names(items: list[dict[str, Any]]) -> list[str]:
    return [unquote(each["uri"]).rsplit("/", 1)[1] for each in items]


def test_all_scripts_in_the_folders_are_told_of(client: DirectClient, folder: Path) -> None:
    begin(client, folder)
    items = pull(client)
    assert names(items) == ["a.say", "b é.say", "c.say"]
    for each in items:
        assert each["kind"] == "full"
        assert each["version"] is None
        assert [found["code"] for found in each["items"]] == ["running-time", "over-time"]


def test_what_is_known_is_told_as_unchanged(client: DirectClient, folder: Path) -> None:
    begin(client, folder)
    first = pull(client)
    again = pull(client, *known(first))
    assert {each["kind"] for each in again} == {"unchanged"}
    assert known(again) == known(first)
    (folder / "a.say").write_text(FINE, "utf-8")
    changed = [each for each in pull(client, *known(first)) if each["kind"] == "full"]
    assert names(changed) == ["a.say"]
    assert [found["code"] for found in changed[0]["items"]] == ["running-time"]


def counted(monkeypatch: pytest.MonkeyPatch, name: str) -> list[Any]:
    """What `closed_scripts` asks of the function of that name from now on."""
    asked: list[Any] = []
    right = getattr(closed_scripts, name)

    def counting(*of: Any) -> Any:
        asked.append(of)
        return right(*of)

    monkeypatch.setattr(closed_scripts, name, counting)
    return asked


def test_an_unchanged_script_is_not_read_again(
    client: DirectClient, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    begin(client, folder)
    first = pull(client)
    read, listed = counted(monkeypatch, "read_script"), counted(monkeypatch, "_list")
    pull(client, *known(first))
    assert (read, listed) == ([], [])
    (folder / "deep" / "f.say").write_text(FINE, "utf-8")
    assert names(pull(client)) == ["a.say", "b é.say", "f.say", "c.say"]
    assert len(read) == len(listed) == 1


def test_a_change_at_the_moment_of_a_look_is_seen(client: DirectClient, folder: Path) -> None:
    """The clock of a disk has steps: the second change bears the time of the first."""
    begin(client, folder)
    script = folder / "a.say"
    script.write_text(OVER, "utf-8")
    now = script.stat().st_mtime_ns
    before = pull(client)
    script.write_text(OVER.replace("2s", "9s"), "utf-8")
    os.utime(script, ns=(now, now))
    after = pull(client, *known(before))
    assert [each["kind"] for each in after] == ["full", "unchanged", "unchanged"]


def test_a_script_that_is_gone_has_nothing_to_say(client: DirectClient, folder: Path) -> None:
    begin(client, folder)
    first = pull(client)
    (folder / "a.say").unlink()
    (folder / "deep" / "er" / "c.say").write_bytes(b"\xff\xfe")
    told = {names([each])[0]: each for each in pull(client, *known(first))}
    assert told["a.say"]["items"] == told["c.say"]["items"] == []
    assert told["b é.say"]["kind"] == "unchanged"
    assert names(pull(client)) == ["b é.say"]


def test_the_project_file_is_seen(client: DirectClient, folder: Path) -> None:
    begin(client, folder)
    first = pull(client)
    (folder / "deep" / "saywright.toml").write_text('[checks]\nrunning-time = "off"\n', "utf-8")
    changed = [each for each in pull(client, *known(first)) if each["kind"] == "full"]
    assert names(changed) == ["b é.say", "c.say"]


def test_an_open_script_is_told_of_as_it_is_open(client: DirectClient, folder: Path) -> None:
    begin(client, folder)
    first = pull(client)
    client.open((folder / "a.say").as_uri(), FINE, version=7)
    client.open("file:///elsewhere/x.say", FINE, version=3)
    told = {names([each])[0]: each for each in pull(client, *known(first))}
    assert told["a.say"]["version"] == 7
    assert [each["code"] for each in told["a.say"]["items"]] == ["running-time"]
    assert told["x.say"]["version"] == 3
    assert told["b é.say"]["kind"] == "unchanged"
    client.notify("textDocument/didClose", {"textDocument": {"uri": (folder / "a.say").as_uri()}})
    told = {names([each])[0]: each for each in pull(client)}
    assert told["a.say"]["version"] is None
    assert len(told["a.say"]["items"]) == 2


def test_both_ways_of_asking_give_the_same_result_id(client: DirectClient, folder: Path) -> None:
    begin(client, folder)
    [first, *_] = pull(client)
    params = {"textDocument": {"uri": first["uri"]}, "previousResultId": first["resultId"]}
    assert client.result("textDocument/diagnostic", params)["kind"] == "unchanged"
    client.open(first["uri"], OVER)
    assert client.result("textDocument/diagnostic", params)["kind"] == "unchanged"


def test_an_address_is_echoed_as_the_client_spells_it(client: DirectClient, folder: Path) -> None:
    begin(client, folder)
    spelt = (folder / "a.say").as_uri().replace("a.say", "%61.say")
    told = pull(client, {"uri": spelt, "value": "old"})
    assert [each["uri"] for each in told if unquote(each["uri"]).endswith("/a.say")] == [spelt]


def test_a_closed_script_is_read_from_the_disk(client: DirectClient, folder: Path) -> None:
    begin(client, folder)

    def codes(path: Path) -> list[str]:
        params = {"textDocument": {"uri": path.as_uri()}}
        return [each["code"] for each in client.result("textDocument/diagnostic", params)["items"]]

    assert codes(folder / "a.say") == ["running-time", "over-time"]
    assert codes(folder / "e.txt") == codes(folder / "none.say") == codes(folder) == []


def test_no_more_than_anybody_needs_is_read(
    client: DirectClient, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    begin(client, folder)
    (folder / "long.say").write_text(FINE * 10_000, "utf-8")
    assert names(pull(client)) == ["a.say", "b é.say", "c.say"]
    monkeypatch.setattr(closed_scripts, "MOST_SCRIPTS", 2)
    assert len(list(filter(None, ClosedScripts().below([str(folder)])))) == 2
    monkeypatch.setattr(closed_scripts, "_MOST_FOLDERS", 1)
    found = list(filter(None, ClosedScripts().below([str(folder)])))
    assert [Path(path).name for path in found] == ["a.say", "long.say"]


@pytest.mark.skipif(os.name != "posix", reason="links need no leave on POSIX")
def test_links_do_not_lead_astray(folder: Path) -> None:
    (folder / "deep" / "up").symlink_to(folder)
    (folder / "gone.say").symlink_to(folder / "nowhere")
    os.mkfifo(folder / "pipe.say")
    found = [path for path in ClosedScripts().below([str(folder), str(folder)]) if path]
    assert len(found) == len(set(found)) == 5
    with DirectClient() as client:
        begin(client, folder)
        assert names(pull(client)) == ["a.say", "b é.say", "c.say"]


def test_no_folder_is_no_fault(client: DirectClient) -> None:
    client.initialize({"textDocument": PULLS})
    assert pull(client) == []
    assert pull(client, {"uri": "file:///gone.say", "value": "a"})[0]["items"] == []


def test_parts_are_sent_to_who_takes_them(
    client: DirectClient, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(workspace_diagnostics, "_SENT_EVERY_SECONDS", 0.0)
    begin(client, folder)
    assert pull(client, partialResultToken="t") == []
    parts = [each["params"] for each in client.notices if each["method"] == "$/progress"]
    assert {part["token"] for part in parts} == {"t"}
    assert len(parts) > 1
    items = [item for part in parts for item in part["value"]["items"]]
    assert names(items) == ["a.say", "b é.say", "c.say"]


def shown(client: DirectClient) -> list[tuple[Any, str]]:
    values = (each["params"] for each in client.notices if each["method"] == "$/progress")
    return [(each["token"], each["value"]["kind"]) for each in values]


def test_how_far_it_is_stands_under_the_client_s_own_token(
    client: DirectClient, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(workspace_diagnostics, "_TURN_SECONDS", 0.0)
    begin(client, folder)
    pull(client, workDoneToken=5)
    assert shown(client)[0] == (5, "begin")
    assert (5, "report") in shown(client)
    assert shown(client)[-1] == (5, "end")


@pytest.mark.parametrize("can", [True, False])
def test_what_takes_long_is_shown_to_who_shows_it(
    client: DirectClient, folder: Path, monkeypatch: pytest.MonkeyPatch, can: bool
) -> None:
    monkeypatch.setattr(workspace_diagnostics, "_TURN_SECONDS", 0.0)
    monkeypatch.setattr(progress, "_SHOWN_AFTER_SECONDS", 0.0)
    begin(client, folder, window={"workDoneProgress": can})
    assert len(pull(client)) == 3  # though the client never answers
    asked = [each for each in client.notices if each["method"] == "window/workDoneProgress/create"]
    assert len(asked) == can
    for each in asked:  # too late: what it was for is done
        client.send({"jsonrpc": "2.0", "id": each["id"], "result": None})
    client.run_for(0)
    assert shown(client) == []


def slow(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(workspace_diagnostics, "_TURN_SECONDS", 0.0)
    monkeypatch.setattr(progress, "_OTHERS_SECONDS", 0.05)


def test_the_client_takes_its_question_back(
    client: DirectClient, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    slow(monkeypatch)
    begin(client, folder)
    params = {"previousResultIds": [], "workDoneToken": "w"}
    client.send({"jsonrpc": "2.0", "id": 50, "method": "workspace/diagnostic", "params": params})
    client.run_for(0.01)
    client.notify("$/cancelRequest", {"id": 50})
    assert client.wait_for(50)["error"]["code"] == -32800
    assert shown(client)[-1] == ("w", "end")
    assert len(pull(client)) == 3


def test_work_is_stopped_by_who_sees_it(
    client: DirectClient, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    slow(monkeypatch)
    begin(client, folder)
    params = {"previousResultIds": [], "workDoneToken": "w"}
    client.send({"jsonrpc": "2.0", "id": 50, "method": "workspace/diagnostic", "params": params})
    client.run_for(0.01)
    client.notify("window/workDoneProgress/cancel", {"token": "w"})
    assert client.wait_for(50)["error"]["code"] == -32800
    client.notify("window/workDoneProgress/cancel", {"token": "w"})  # once more: nothing to stop
    client.run_for(0.01)
    assert len(pull(client)) == 3


def test_others_are_answered_in_between(
    client: DirectClient, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    slow(monkeypatch)
    begin(client, folder)
    client.open("file:///x.say", FINE)
    params: dict[str, Any] = {"previousResultIds": []}
    client.send({"jsonrpc": "2.0", "id": 50, "method": "workspace/diagnostic", "params": params})
    client.run_for(0.01)
    assert client.hints("file:///x.say")
    assert 50 not in client.answers
    assert len(client.wait_for(50)["result"]["items"]) == 4


DETAILED = {
    "relatedInformation": True,
    "codeDescriptionSupport": True,
    "tagSupport": {"valueSet": [1, 2]},
}
KEPT_AND_CUT = "__I weigh ~~the salt__ again.~~\n\n\nI was, like, cold.\n"


@pytest.mark.parametrize("where", ["publishDiagnostics", "diagnostic"])
def test_a_finding_leads_to_its_check_s_page(client: DirectClient, where: str) -> None:
    documents = {"diagnostic": {}, where: DETAILED}
    client.initialize({"textDocument": documents})
    client.open("file:///a.say", KEPT_AND_CUT)
    params = {"textDocument": {"uri": "file:///a.say"}}
    items = client.result("textDocument/diagnostic", params)["items"]
    assert items
    for each in items:
        page = Path(unquote(urlsplit(each["codeDescription"]["href"]).path.removeprefix("/C:")))
        assert page.read_text("utf-8").startswith(f"{each['code']} (")


def test_every_check_has_a_page_to_lead_to() -> None:
    assert all(map(page_uri, CHECK_NAMES))
    assert page_uri("nothing-of-the-kind") is None


def test_nothing_more_than_the_client_takes(client: DirectClient) -> None:
    client.initialize({"textDocument": {"diagnostic": {}}})
    client.open("file:///a.say", KEPT_AND_CUT)
    params = {"textDocument": {"uri": "file:///a.say"}}
    for each in client.result("textDocument/diagnostic", params)["items"]:
        assert set(each) == {"range", "message", "severity", "code", "source"}


@pytest.mark.parametrize("versions", [True, False])
def test_what_is_pushed_names_its_version_to_who_looks(
    client: DirectClient, versions: bool
) -> None:
    client.initialize({"textDocument": {"publishDiagnostics": {"versionSupport": versions}}})
    client.open("file:///a.say", FINE, version=4)
    pushed = client.wait_for_notice("textDocument/publishDiagnostics")
    assert pushed.get("version") == (4 if versions else None)


def test_of_many_keystrokes_the_last_is_told_of(client: DirectClient) -> None:
    client.initialize({"textDocument": {"publishDiagnostics": {"versionSupport": True}}})
    client.open("file:///a.say", FINE)
    for version in range(2, 9):
        client.change("file:///a.say", version, {"text": FINE * version})
    client.run_for(0.1)
    pushed = [each["params"]["version"] for each in client.notices]
    assert pushed == [1, 8]
