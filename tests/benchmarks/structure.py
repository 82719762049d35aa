"""What a script's structure costs to ask for, over real pipes, beside a bare pygls server.

    python -m tests.benchmarks.structure [LARGEST_KB]

Keystroke: a letter typed into the middle paragraph, alone and with what has then changed of the
tokens, which editors ask for with each. The floor is the same keystroke to a bare server, which has
no hints to give. Beside it how many bytes are sent, and what all tokens, the outline, the folds and
a selection cost when they are asked for. Medians; the ratio is to the floor.
"""

import json
import statistics
import sys
import time
from collections.abc import Callable
from functools import partial
from typing import Any

from lsprotocol import types

from tests.benchmarks.keystroke import HEAD, PARAGRAPH
from tests.benchmarks.round_trips import BARE
from tests.clients.plain import SERVER, PlainClient

URI = "file:///folder/a.say"
DOCUMENT = {"textDocument": {"uri": URI}}
NOWHERE = {"start": {"line": 0, "character": 0}, "end": {"line": 0, "character": 0}}
TOKENS = {
    "requests": {"full": {"delta": True}},
    "tokenTypes": [each.value for each in types.SemanticTokenTypes],
    "tokenModifiers": [each.value for each in types.SemanticTokenModifiers],
    "formats": ["relative"],
}
CLIENT: dict[str, Any] = {
    "textDocument": {
        "diagnostic": {},
        "semanticTokens": TOKENS,
        "documentSymbol": {"hierarchicalDocumentSymbolSupport": True},
        "foldingRange": {"lineFoldingOnly": True},
    }
}
KEYSTROKES = 40
_LINES_AT_ONCE = 200


def main(largest_kb: int) -> None:
    size_kb = 10
    while size_kb <= largest_kb:
        text = HEAD + PARAGRAPH * max(size_kb * 1000 // len(PARAGRAPH), 1)
        with PlainClient(BARE) as client:
            client.initialize()
            floor, _ = _Session(client, text).typed("hints")
        print(f"{size_kb} kB; a bare server's keystroke: {floor * 1e3:.2f} ms")
        with PlainClient(SERVER) as client:
            client.initialize(CLIENT)
            for name, seconds, sent in _rows(_Session(client, text)):
                print(
                    f"{name:>24}: {seconds * 1e3:8.2f} ms, ratio {seconds / floor:6.1f}, "
                    f"{sent:>9,} bytes"
                )
        size_kb *= 10


class _Session:
    """A document that is open, and typed into."""

    def __init__(self, client: PlainClient, text: str) -> None:
        self._client = client
        self._version = 1
        self._result_id = ""
        client.open(URI, "")
        lines = text.splitlines(keepends=True)
        for first in range(0, len(lines), _LINES_AT_ONCE):  # so that no answer takes long
            at = {"line": first, "character": 0}
            self._change(at, "".join(lines[first : first + _LINES_AT_ONCE]))
            client.hints(URI, NOWHERE)
        line = text.count("\n", 0, text.index(PARAGRAPH, len(text) // 2))
        self.middle = {"line": line, "character": 30}

    def typed(self, question: str) -> tuple[float, Any]:
        """The median of many keystrokes, each with its question, and the last answer."""
        return _median([_timed(partial(self._keystroke, question)) for _ in range(KEYSTROKES)])

    def _keystroke(self, question: str) -> Any:
        self._change(self.middle, "a")
        return self.changed_tokens() if question == "tokens" else self._client.hints(URI, NOWHERE)

    def _change(self, at: dict[str, int], text: str) -> None:
        self._version += 1
        self._client.change(URI, self._version, {"range": {"start": at, "end": at}, "text": text})

    def all_tokens(self) -> Any:
        tokens = self.ask("semanticTokens/full")
        self._result_id = tokens["resultId"]
        return tokens

    def changed_tokens(self) -> Any:
        tokens = self.ask("semanticTokens/full/delta", previousResultId=self._result_id)
        self._result_id = tokens["resultId"]
        return tokens

    def ask(self, what: str, **more: Any) -> Any:
        return self._client.result(f"textDocument/{what}", {**DOCUMENT, **more})


def _rows(session: _Session) -> list[tuple[str, float, int]]:
    """Each question, its seconds, and how long its answer is."""
    rows = [
        ("all tokens, at first", *_timed(session.all_tokens)),
        ("keystroke alone", *session.typed("hints")),
        ("keystroke and tokens", *session.typed("tokens")),
    ]
    for what, more in (
        ("documentSymbol", {}),
        ("foldingRange", {}),
        ("selectionRange", {"positions": [session.middle]}),
    ):
        ask = partial(session.ask, what, **more)
        rows.append((what, *_median([_timed(ask) for _ in range(5)])))
    return [(name, seconds, len(json.dumps(answer))) for name, seconds, answer in rows]


def _median(taken: list[tuple[float, Any]]) -> tuple[float, Any]:
    """The median of the times, and the last answer."""
    return statistics.median(seconds for seconds, _ in taken), taken[-1][1]


def _timed(ask: Callable[[], Any]) -> tuple[float, Any]:
    started = time.perf_counter()
    answer = ask()
    return time.perf_counter() - started, answer


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 1000)
