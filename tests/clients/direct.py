"""The same client without a process or pipes: the server is in the test's own, and can be looked
into. For many short conversations; what the pipes and the process do is tested with the other."""

import asyncio
import json
from typing import Any, Self

from pygls.protocol import default_converter

from saywright.protocol.server import SaywrightServer, make_server
from tests.clients.plain import PlainClient

ANSWER_SECONDS = 60.0
# what it learns of each sort of message takes longer to learn than a short conversation lasts
_CONVERTER = default_converter()  # type: ignore[no-untyped-call]


class DirectClient(PlainClient):
    def __init__(self, server: SaywrightServer | None = None) -> None:
        self.server = server or make_server()
        self.server.protocol._converter = _CONVERTER
        self.server.protocol.set_writer(_Writer(self))
        self.notices = []
        self.answers: dict[Any, dict[str, Any]] = {}
        self._last_id = 0
        self._loop = asyncio.new_event_loop()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.run_for(0)
        self._loop.close()

    def receive(self, message: dict[str, Any]) -> None:
        if "method" in message:
            self.notices.append(message)
        else:
            self.answers[message["id"]] = message

    def send(self, message: object) -> None:
        """As it would come from a pipe, JSON and all."""
        protocol = self.server.protocol
        body = json.loads(json.dumps(message), object_hook=protocol.structure_message)

        async def handle() -> None:
            protocol.handle_message(body)

        self._loop.run_until_complete(handle())

    def run_for(self, seconds: float) -> None:
        """Let the server do what it does of itself."""
        self._loop.run_until_complete(asyncio.sleep(seconds))

    def wait_for(self, msg_id: Any) -> dict[str, Any]:
        """The response to a request that was sent; an AssertionError if there is none in time."""

        async def answered() -> None:
            async with asyncio.timeout(ANSWER_SECONDS):
                while msg_id not in self.answers:
                    await asyncio.sleep(0.001)

        if msg_id not in self.answers:
            self._loop.run_until_complete(answered())
        return self.answers.pop(msg_id)

    def request(self, method: str, params: object = None) -> dict[str, Any]:
        self._last_id += 1
        self.send({"jsonrpc": "2.0", "id": self._last_id, "method": method, "params": params})
        return self.wait_for(self._last_id)

    def wait_for_notice(self, method: str) -> dict[str, Any]:
        for _ in range(1000):
            for index, message in enumerate(self.notices):
                if message["method"] == method:
                    params: dict[str, Any] = self.notices.pop(index)["params"]
                    return params
            self.run_for(0.01)
        raise AssertionError(f"No {method} came.")


class _Writer:
    def __init__(self, client: DirectClient) -> None:
        self._client = client

    def close(self) -> None:
        pass

    def write(self, data: bytes) -> None:
        self._client.receive(json.loads(data.split(b"\r\n\r\n", 1)[1]))
