"""What it costs to tell of all scripts of a folder, first and every two seconds after:
`python -m tests.benchmarks.folder`. Seconds are the processor's, in a server without pipes."""

import tempfile
import time
from pathlib import Path
from typing import Any

from tests.clients.direct import DirectClient

SAMPLES = Path(__file__).parents[2] / "sample_scripts"
_POLLS = 20


def main() -> None:
    texts = [path.read_bytes() for path in sorted(SAMPLES.glob("*.say"))]
    for count in (20, 200, 500):
        with tempfile.TemporaryDirectory() as folder, DirectClient() as client:
            for number in range(count):
                script = Path(folder) / f"folder {number // 10}" / f"{number}.say"
                script.parent.mkdir(exist_ok=True)
                script.write_bytes(texts[number % len(texts)])
            time.sleep(2.1)  # until the changes are certainly over
            begin(client, Path(folder))
            started = time.process_time()
            first = pull(client, [])
            in_all = time.process_time() - started
            known = [{"uri": each["uri"], "value": each["resultId"]} for each in first]
            started = time.process_time()
            for _ in range(_POLLS):
                assert {each["kind"] for each in pull(client, known)} == {"unchanged"}
            again = (time.process_time() - started) / _POLLS
        print(f"{len(first)} scripts: first {in_all:.2f} s, unchanged {1000 * again:.1f} ms")


def begin(client: DirectClient, folder: Path) -> None:
    params: dict[str, Any] = {
        "processId": None,
        "rootUri": folder.as_uri(),
        "capabilities": {"textDocument": {"diagnostic": {}}},
    }
    client.result("initialize", params)
    client.open("file:///elsewhere/warm.say", "I weigh the salt.\n")
    client.hints("file:///elsewhere/warm.say")
    client.notify("textDocument/didClose", {"textDocument": {"uri": "file:///elsewhere/warm.say"}})


def pull(client: DirectClient, known: list[dict[str, str]]) -> list[dict[str, Any]]:
    items: list[dict[str, Any]] = client.result(
        "workspace/diagnostic", {"previousResultIds": known}
    )["items"]
    return items


if __name__ == "__main__":
    main()
