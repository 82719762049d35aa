"""The line above each piece: its time, its range, and what a slow reading may do."""

from collections.abc import Iterator

import pytest

import saywright
from tests.clients.direct import DirectClient
from tests.clients.plain import PlainClient

URI = "file:///folder/a.say"


@pytest.fixture
def client() -> Iterator[PlainClient]:
    with DirectClient() as client:
        client.initialize()
        yield client


def lenses(client: PlainClient, text: str) -> list[tuple[int, str]]:
    client.open(URI, text)
    found = client.result("textDocument/codeLens", {"textDocument": {"uri": URI}})
    assert all(lens["command"]["command"] == "" for lens in found)
    return [(lens["range"]["start"]["line"], lens["command"]["title"]) for lens in found]


def test_each_piece_that_speaks_has_one(client: PlainClient) -> None:
    text = "I weigh the salt.\n\n---- draft\nI go.\n---- piece: b\nI go home.\n---- piece\n(3s)\n"
    first, second = lenses(client, text)
    assert first[0] == 0
    assert second[0] == 4
    part = saywright.inspect(text)["parts"][0]
    assert first[1].startswith(f"0:{round(part['seconds']):02d}, likely 0:")


def test_only_a_slow_reading_runs_over(client: PlainClient) -> None:
    text = "slot: {slot}s\n\n" + "I weigh the salt for the whole island. " * 12
    part = saywright.inspect(text.format(slot=900))["parts"][0]
    slot = round(part["seconds"]) + 1
    assert slot < part["seconds_high"]
    [(_, title)] = lenses(client, text.format(slot=slot))
    assert "A slow reading may run over: up to 0:" in title
    checks = [each["check"] for each in saywright.inspect(text.format(slot=slot))["findings"]]
    assert "over-time" not in checks
