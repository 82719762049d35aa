"""A client that runs the server's commands, and is asked things and made to edit meanwhile."""

from collections.abc import Callable
from typing import Any

from tests.clients.direct import ANSWER_SECONDS, DirectClient

_STEP_SECONDS = 0.001


class AskedClient(DirectClient):
    """`asked` are the questions that it was asked, `applied` the edits that it was told to make,
    all of which it makes. `before_choice` is called before it answers a question."""

    def __init__(self) -> None:
        super().__init__()
        self.asked: list[dict[str, Any]] = []
        self.applied: list[dict[str, Any]] = []
        self.before_choice: Callable[[], None] = lambda: None

    def run(self, command: str, arguments: list[Any], choice: int | None) -> dict[str, Any]:
        """The server's whole answer to a command; of what it asks the answer of that number is
        chosen, or none."""
        self._last_id += 1
        msg_id = self._last_id
        params = {"command": command, "arguments": arguments}
        self.send(
            {"jsonrpc": "2.0", "id": msg_id, "method": "workspace/executeCommand", "params": params}
        )
        for _ in range(int(ANSWER_SECONDS / _STEP_SECONDS)):
            if msg_id in self.answers:
                break
            self.run_for(_STEP_SECONDS)
            self._answer_all(choice)
        return self.answers.pop(msg_id)

    def _answer_all(self, choice: int | None) -> None:
        for message in [each for each in self.notices if "id" in each]:
            self.notices.remove(message)
            result = self._answer(message["method"], message["params"], choice)
            self.send({"jsonrpc": "2.0", "id": message["id"], "result": result})

    def _answer(self, method: str, params: dict[str, Any], choice: int | None) -> Any:
        if method == "workspace/applyEdit":
            self.applied.append(params)
            return {"applied": True}
        assert method == "window/showMessageRequest"
        self.asked.append(params)
        self.before_choice()
        return None if choice is None else params["actions"][choice]
