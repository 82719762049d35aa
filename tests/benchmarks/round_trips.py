"""What an editor waits for, over real pipes, beside a bare pygls server in the same run.

    python -m tests.benchmarks.round_trips [RUNS]

Start: from the server's start to the first answer about hints. Keystroke: a letter typed into a
sample script, then its diagnostics and the hints of the lines on screen. Medians, and the ratio to
the floor.
"""

import statistics
import sys
import time
from pathlib import Path
from typing import Any

from tests.clients import bare_server
from tests.clients.plain import SERVER, PlainClient

URI = "file:///folder/a.say"
SAMPLE = Path(__file__).parents[2] / "sample_scripts" / "ferry-mate.say"
SCREEN = {"start": {"line": 0, "character": 0}, "end": {"line": 40, "character": 0}}
PULLS: dict[str, Any] = {"textDocument": {"diagnostic": {}}}
BARE = (sys.executable, str(bare_server.__file__))


def main(runs: int) -> None:
    floor = [_once(BARE) for _ in range(runs)]
    own = [_once(SERVER) for _ in range(runs)]
    for index, name in enumerate(("start to first hint", "keystroke")):
        bare, ours = (statistics.median(each[index] for each in taken) for taken in (floor, own))
        print(
            f"{name:>20}: {ours * 1e3:7.1f} ms, bare server {bare * 1e3:7.1f} ms, "
            f"ratio {ours / bare:.2f}"
        )


def _once(command: tuple[str, ...]) -> tuple[float, float]:
    """Seconds to the first hints, and the median of twenty keystrokes."""
    started = time.perf_counter()
    with PlainClient(command) as client:
        client.initialize(PULLS)
        client.open(URI, SAMPLE.read_text("utf-8"))
        client.hints(URI, SCREEN)
        first = time.perf_counter() - started
        return first, statistics.median(_keystroke(client, version) for version in range(2, 22))


def _keystroke(client: PlainClient, version: int) -> float:
    at = {"line": 10, "character": 4}
    started = time.perf_counter()
    client.change(URI, version, {"range": {"start": at, "end": at}, "text": "a"})
    client.result("textDocument/diagnostic", {"textDocument": {"uri": URI}})
    client.hints(URI, SCREEN)
    return time.perf_counter() - started


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 5)
