"""Running times at the ends of lines, sentences and paragraphs, and their tooltips."""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.clients.direct import DirectClient
from tests.clients.plain import PlainClient

SCRIPT = (
    "slot: 6s\n\n"
    "I weigh the salt. ~~Every sack.~~ I never\n"
    "cheat. (beat)\n\n"
    "(2s)\n"
    "Ask them. Ask anybody at the slip.\n"
    "# a note\n"
)
RESOLVES: dict[str, Any] = {
    "textDocument": {"inlayHint": {"resolveSupport": {"properties": ["tooltip"]}}}
}


@pytest.fixture
def client() -> Iterator[PlainClient]:
    with DirectClient() as client:
        yield client


def places(hints: list[dict[str, Any]]) -> list[tuple[int, int]]:
    return [(hint["position"]["line"], hint["position"]["character"]) for hint in hints]


@pytest.mark.parametrize(
    ("where", "expected"),
    [
        ("lines", [(2, 41), (3, 13), (5, 4), (6, 34)]),
        ("sentences", [(2, 17), (3, 6), (6, 9), (6, 34)]),
        ("paragraphs", [(3, 13), (6, 34)]),
        ("off", []),
    ],
)
def test_where_times_stand(
    client: PlainClient, tmp_path: Path, where: str, expected: list[tuple[int, int]]
) -> None:
    (tmp_path / "saywright.toml").write_text(f'[editor]\nrunning-time = "{where}"\n')
    uri = (tmp_path / "a.say").as_uri()
    client.initialize()
    client.open(uri, SCRIPT)
    hints = client.hints(uri)
    assert places(hints) == expected
    assert all(re.fullmatch(r"[+]?\d:\d\d", hint["label"]) for hint in hints)


def test_what_is_left_of_the_slot(client: PlainClient, tmp_path: Path) -> None:
    (tmp_path / "saywright.toml").write_text('margin = "1s"\n[editor]\ntime-shown = "remaining"\n')
    uri = (tmp_path / "a.say").as_uri()
    client.initialize()
    client.open(uri, SCRIPT.replace("6s", "8s"))
    remaining = [hint["label"] for hint in client.hints(uri)]
    (tmp_path / "saywright.toml").write_text('margin = "1s"\n')
    elapsed = [hint["label"] for hint in client.hints(uri)]
    assert remaining[-1] == elapsed[-1]
    assert remaining[-1].startswith("+0:0")
    assert len(remaining) == 4
    for left, gone in zip(remaining[:-1], elapsed[:-1], strict=True):
        assert (left[0], gone[0]) == ("-", "0")
        assert int(left[-2:]) + int(gone[-2:]) == 7


def test_without_a_slot_there_is_nothing_left_to_tell(client: PlainClient, tmp_path: Path) -> None:
    (tmp_path / "saywright.toml").write_text('[editor]\ntime-shown = "remaining"\n')
    uri = (tmp_path / "a.say").as_uri()
    client.initialize()
    client.open(uri, "I weigh the salt.")
    assert [hint["label"] for hint in client.hints(uri)] == ["0:01"]


def test_tooltips_come_when_they_are_asked_for(client: PlainClient) -> None:
    uri = "file:///a.say"
    client.initialize(RESOLVES)
    client.open(uri, SCRIPT)
    hint = client.hints(uri)[1]
    assert "tooltip" not in hint
    told = client.result("inlayHint/resolve", hint)
    assert re.match(r"0:0\d from the start, in a slot of 0:06\. The whole: 0:0\d", told["tooltip"])
    assert {**told, "tooltip": None} == {**hint, "tooltip": None}
    client.change(uri, 2, {"text": SCRIPT.replace("salt", "rope")})
    assert "tooltip" not in client.result("inlayHint/resolve", hint)


def test_the_tooltip_is_the_same_for_who_does_not_resolve(client: PlainClient) -> None:
    uri = "file:///a.say"
    client.initialize(RESOLVES)
    client.open(uri, SCRIPT)
    resolved = [client.result("inlayHint/resolve", hint)["tooltip"] for hint in client.hints(uri)]
    with PlainClient() as other:
        other.initialize()
        other.open(uri, SCRIPT)
        hints = other.hints(uri)
    assert [hint["tooltip"] for hint in hints] == resolved
    assert all("data" not in hint for hint in hints)


@pytest.mark.parametrize("data", [None, 5, [], ["a", 1, -4], ["file:///a.say", 1, 10**9], {"a": 1}])
def test_odd_hints_come_back_as_they_are(client: PlainClient, data: Any) -> None:
    client.initialize(RESOLVES)
    client.open("file:///a.say", SCRIPT)
    hint = {"position": {"line": 0, "character": 0}, "label": "0:01"}
    if data is not None:
        hint["data"] = data
    assert client.result("inlayHint/resolve", hint) == hint


def test_a_range_within_a_line_has_the_lines_time(client: PlainClient) -> None:
    client.initialize()
    client.open("file:///a.say", SCRIPT)
    at = {"line": 3, "character": 2}
    assert places(client.hints("file:///a.say", {"start": at, "end": at})) == [(3, 13)]
