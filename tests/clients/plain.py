"""A client that speaks the protocol in plain dictionaries to a real server over its pipes."""

import json
import queue
import subprocess
import sys
import threading
from collections.abc import Sequence
from types import TracebackType
from typing import Any, Self

SERVER = (sys.executable, "-m", "saywright", "serve")
ALL_LINES = {"start": {"line": 0, "character": 0}, "end": {"line": 10**6, "character": 0}}
ACTIONS = {"codeActionLiteralSupport": {"codeActionKind": {"valueSet": ["quickfix"]}}}


class PlainClient:
    """`notices` holds what the server sent unasked."""

    def __init__(self, command: Sequence[str] = SERVER) -> None:
        self.process = subprocess.Popen(
            command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE
        )
        self.notices: list[dict[str, Any]] = []
        self._messages: queue.Queue[dict[str, Any]] = queue.Queue()
        self._last_id = 0
        threading.Thread(target=self._listen, daemon=True).start()
        # a full pipe would stop the server
        threading.Thread(target=self.process.stderr.read, daemon=True).start()  # type: ignore[union-attr]

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.process.kill()
        self.process.wait()

    def _listen(self) -> None:
        stream = self.process.stdout
        assert stream
        while header := stream.readline():
            if header.lower().startswith(b"content-length:"):
                length = int(header.split(b":")[1])
                while stream.readline().strip():
                    pass
                self._messages.put(json.loads(stream.read(length)))

    def send(self, message: object) -> None:
        body = message if isinstance(message, bytes) else json.dumps(message).encode()
        assert self.process.stdin
        self.process.stdin.write(b"Content-Length: %d\r\n\r\n%s" % (len(body), body))
        self.process.stdin.flush()

    def notify(self, method: str, params: object = None) -> None:
        self.send({"jsonrpc": "2.0", "method": method, "params": params})

    def request(self, method: str, params: object = None) -> dict[str, Any]:
        """The whole response, result or error."""
        self._last_id += 1
        self.send({"jsonrpc": "2.0", "id": self._last_id, "method": method, "params": params})
        while True:
            message = self._messages.get(timeout=20)
            if message.get("id") == self._last_id and "method" not in message:
                return message
            self.notices.append(message)

    def result(self, method: str, params: object = None) -> Any:
        response = self.request(method, params)
        assert "error" not in response, response
        return response["result"]

    def wait_for_notice(self, method: str) -> dict[str, Any]:
        """The next unasked message of that method, its parameters."""
        while True:
            for index, message in enumerate(self.notices):
                if message.get("method") == method:
                    params: dict[str, Any] = self.notices.pop(index)["params"]
                    return params
            self.notices.append(self._messages.get(timeout=20))

    def wait_for_request(self, method: str) -> dict[str, Any]:
        """The next request of the server's of that method, whole; the caller answers it."""
        while True:
            for index, message in enumerate(self.notices):
                if message.get("method") == method:
                    return self.notices.pop(index)
            self.notices.append(self._messages.get(timeout=20))

    def initialize(self, capabilities: dict[str, Any] | None = None) -> dict[str, Any]:
        params = {"processId": None, "rootUri": None, "capabilities": capabilities or {}}
        result: dict[str, Any] = self.result("initialize", params)
        self.notify("initialized", {})
        return result

    def open(self, uri: str, text: str, version: int = 1) -> None:
        item = {"uri": uri, "languageId": "say", "version": version, "text": text}
        self.notify("textDocument/didOpen", {"textDocument": item})

    def change(self, uri: str, version: int, *changes: dict[str, Any]) -> None:
        document = {"uri": uri, "version": version}
        self.notify(
            "textDocument/didChange", {"textDocument": document, "contentChanges": list(changes)}
        )

    def hints(self, uri: str, where: dict[str, Any] = ALL_LINES) -> list[dict[str, Any]]:
        hints: list[dict[str, Any]] = self.result(
            "textDocument/inlayHint", {"textDocument": {"uri": uri}, "range": where}
        )
        return hints

    def actions(self, uri: str, line: int, character: int, **context: Any) -> list[dict[str, Any]]:
        at = {"line": line, "character": character}
        params = {
            "textDocument": {"uri": uri},
            "range": {"start": at, "end": at},
            "context": {"diagnostics": [], **context},
        }
        actions: list[dict[str, Any]] = self.result("textDocument/codeAction", params)
        return actions
