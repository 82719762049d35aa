"""What a cursor move costs where code actions are asked for: `python -m tests.benchmarks.actions`.

A script of about 1 MB with findings all over; the cursor at 200 places, each asked for once as
clients do when it moves, in a server without pipes. The first request after an edit also finds
what is said of the script, which diagnostics have mostly done before.
"""

import statistics
import time
from pathlib import Path

from tests.clients.direct import DirectClient
from tests.clients.plain import ACTIONS

SAMPLES = Path(__file__).parents[2] / "sample_scripts"
URI = "file:///folder/a.say"
_LENGTH = 1_000_000
_PLACES = 200


def script() -> str:
    """The samples' pieces one after the other, each part of its own."""
    texts = [path.read_text("utf-8").split("\n\n", 1)[1] for path in sorted(SAMPLES.glob("*.say"))]
    once = "".join(
        f"\n---- piece: {number}; slot 60s\n\n{text}\n" for number, text in enumerate(texts)
    )
    return once * (_LENGTH // len(once))


def main() -> None:
    text = script()
    resolving = {**ACTIONS, "dataSupport": True, "resolveSupport": {"properties": ["edit"]}}
    lines = text.count("\n")
    with DirectClient() as client:
        client.initialize({"textDocument": {"codeAction": resolving, "diagnostic": {}}})
        client.open(URI, text)
        client.result("textDocument/diagnostic", {"textDocument": {"uri": URI}})
        client.actions(URI, 0, 0)
        taken, offered = [], 0
        for place in range(_PLACES):
            started = time.process_time()
            offered += len(client.actions(URI, lines * place // _PLACES, 4))
            taken.append(time.process_time() - started)
    print(f"{len(text):,} characters, {lines:,} lines, {offered / _PLACES:.1f} actions a place")
    for name, share in (("half", 50), ("nine tenths", 90), ("99 in 100", 99)):
        worst = statistics.quantiles(taken, n=100)[share - 1]
        print(f"{name} of the moves take at most {1000 * worst:.1f} ms")


if __name__ == "__main__":
    main()
