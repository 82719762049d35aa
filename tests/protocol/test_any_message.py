"""Whatever a client sends: each question is answered, and nothing pops up on a writer's screen."""

import json
import logging
import time
from pathlib import Path
from typing import Any

from hypothesis import given
from hypothesis import strategies as st
from lsprotocol import types

from tests.clients.direct import DirectClient
from tests.clients.plain import ALL_LINES

URI = "file:///folder/a.say"
SCRIPT = "slot: 4s\nspeaker: Ines\n\nI weigh the salt. __I never cheat.__ I was, like, cold.\n"
POP_UPS = {"window/showMessage", "window/showMessageRequest"}
ALL_ABLE = json.loads(
    (Path(__file__).parents[1] / "clients" / "profiles" / "vscode.json").read_text("utf-8")
)

junk = st.recursive(
    st.one_of(
        st.none(),
        st.booleans(),
        st.integers(),
        st.sampled_from([0, 1, -1, 2**31 - 1, 2**31, 2**63]),
        st.floats(allow_nan=False, allow_infinity=False),
        st.text(max_size=6),
        st.sampled_from([URI, "file:", "file:///", "untitled:a", "a.say", "\ud800", "quickfix"]),
    ),
    lambda inner: st.one_of(
        st.lists(inner, max_size=3),
        st.dictionaries(
            st.sampled_from(["jsonrpc", "id", "method", "uri", "line", "start", "a", ""]),
            inner,
            max_size=3,
        ),
    ),
    max_leaves=5,
)
PLACE = {"line": 3, "character": 4}
RANGE = {"start": PLACE, "end": PLACE}
USUAL: dict[str, Any] = {
    "textDocument": {"uri": URI, "version": 2, "languageId": "say", "text": SCRIPT},
    "position": PLACE,
    "positions": [PLACE],
    "range": ALL_LINES,
    "context": {"diagnostics": [], "includeDeclaration": True, "triggerKind": 1, "only": [""]},
    "options": {"tabSize": 4, "insertSpaces": True},
    "newName": "Ada",
    "query": "o",
    "ch": "\n",
    "previousResultId": "a",
    "previousResultIds": [{"uri": URI, "value": "a"}],
    "contentChanges": [{"range": RANGE, "text": "a "}],
    "label": "a",
    "title": "a",
    "kind": 1,
    "data": {"uri": URI, "version": 1, "offer": "finding:0", "start": 30, "end": 30},
    "command": "saywright.plan",
    "arguments": [{"uri": URI, "version": 1}],
    "changes": [{"uri": "file:///folder/saywright.toml", "type": 2}],
    "settings": {},
    "event": {"added": [], "removed": []},
    "id": 5,
    "token": "a",
    "value": "off",
    "files": [{"uri": URI, "oldUri": URI, "newUri": URI}],
    "item": {},
}
METHODS = sorted(
    method
    for method in types.METHOD_TO_TYPES
    if types.message_direction(method) != "serverToClient" and method != types.EXIT
)


@st.composite
def parameters(draw: st.DrawFn) -> Any:
    """What nearly all methods take, and then something changed in it."""
    params = json.loads(json.dumps(USUAL))
    for _ in range(draw(st.integers(0, 3))):
        inside = params
        while isinstance(inside, dict | list) and inside:
            keys = sorted(inside) if isinstance(inside, dict) else list(range(len(inside)))
            key = draw(st.sampled_from(keys))
            if draw(st.booleans()) or not isinstance(inside[key], dict | list):
                if draw(st.booleans()):
                    inside[key] = draw(junk)
                else:
                    del inside[key]
                break
            inside = inside[key]
    return draw(st.one_of(st.just(params), st.just(params), st.just(params), junk))


messages = st.fixed_dictionaries(
    {
        "method": st.one_of(st.sampled_from(METHODS), st.sampled_from(METHODS), junk),
        "is_request": st.booleans(),
        "params": parameters(),
    }
)
answers = st.one_of(
    st.just({"result": None}),
    st.just({"error": {"code": -32601, "message": "no"}}),
    st.builds(lambda value: {"result": value}, junk),
    st.builds(lambda value: {"error": value}, junk),
)


@given(st.lists(messages, max_size=6), st.lists(answers, min_size=1, max_size=3), st.booleans())
def test_every_question_is_answered_and_nothing_pops_up(
    sent: list[dict[str, Any]], replies: list[dict[str, Any]], is_able: bool
) -> None:
    logging.disable(logging.CRITICAL)
    with DirectClient() as client:
        client.initialize(ALL_ABLE if is_able else {})
        client.open(URI, SCRIPT)
        for number, message in enumerate(sent):
            body = {"jsonrpc": "2.0", "method": message["method"], "params": message["params"]}
            if message["is_request"]:
                body["id"] = f"q{number}"
            client.send(body)
            reply_to(client, replies)
        for number, message in enumerate(sent):
            if message["is_request"]:
                wait_while_replying(client, f"q{number}", replies)
                assert ("result" in client.answers[f"q{number}"]) != (
                    "error" in client.answers[f"q{number}"]
                )
        methods = {each["method"] for each in client.notices}
        if not any(each["method"] == types.WORKSPACE_DID_CHANGE_CONFIGURATION for each in sent):
            assert not methods & POP_UPS
        assert not client.answers.keys() - {f"q{number}" for number in range(len(sent))}
        if not any(each["method"] == types.SHUTDOWN for each in sent):
            client.open(URI, SCRIPT, version=1)
            assert client.hints(URI)
    logging.disable(logging.NOTSET)


def wait_while_replying(client: DirectClient, asked: str, replies: list[dict[str, Any]]) -> None:
    deadline = time.monotonic() + 5
    while asked not in client.answers:
        assert time.monotonic() < deadline, f"{asked} is not answered"
        client.run_for(0.001)
        reply_to(client, replies)


def reply_to(client: DirectClient, replies: list[dict[str, Any]]) -> None:
    """Answer what the server asks, sensibly or not."""
    for number, each in enumerate([each for each in client.notices if "id" in each]):
        reply = replies[number % len(replies)]
        client.send({"jsonrpc": "2.0", "id": each.pop("id"), **reply})
