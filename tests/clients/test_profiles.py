"""The same session with a script, as the clients of several editors would hold it: every answer
comes, and nothing is sent that the client has not said that it knows."""

import asyncio
import json
from collections.abc import AsyncIterator
from pathlib import Path
from typing import Any, cast

import pytest
import pytest_lsp
from lsprotocol import types
from lsprotocol.converters import get_converter
from pytest_lsp import ClientServerConfig, LanguageClient
from pytest_lsp.client import register_lsp_features
from pytest_lsp.protocol import LanguageClientProtocol

from tests.clients.manners import Manners
from tests.clients.plain import SERVER

PROFILES = Path(__file__).with_name("profiles")
HAND_WRITTEN = ("vscode", "helix", "sublime", "kate")
RECORDED = ("neovim", "emacs", "visual_studio_code")
ANSWER_SECONDS = 30.0
CONVERTER = get_converter()

pytestmark = pytest.mark.filterwarnings("error::pytest_lsp.LspSpecificationWarning")

SCRIPT = """slot: 5s
speaker: Ines, Joss
to: Ada

---- draft: what she is proud of; timer 5 min
I can tell a wagon's load by the sound of it. __I was never once wrong.__

---- piece: one
Ines: (at the weighbridge)
(a lamp, 3s)
__I was never once wrong.__ (beat) 𝄞 Forty tonnes, | forty-one, | Joss knows before the needle did.
# too neat?
~~Joss's needle was for the ferry people.~~ I was, like, cold. So Joss lit the lamp. We went home.

Joss:
Ines is right, you know.

---- takes: one
9.5s
"""
OTHER = "slto: 30s\n\nThe keepers of the light sleep now.\n"


AGREED_TO = (
    types.CLIENT_REGISTER_CAPABILITY,
    types.WORKSPACE_INLAY_HINT_REFRESH,
    types.WORKSPACE_CODE_LENS_REFRESH,
    types.WORKSPACE_SEMANTIC_TOKENS_REFRESH,
    types.WORKSPACE_FOLDING_RANGE_REFRESH,
)


class Recording(LanguageClientProtocol):
    """Passes each message on to `manners`, as it came."""

    manners: Manners

    def __init__(self, *arguments: Any, **named: Any) -> None:
        super().__init__(*arguments, **named)  # type: ignore[no-untyped-call]
        self._asked: dict[Any, str] = {}
        self.raw_answers: dict[str, Any] = {}

    def _send_data(self, data: Any) -> None:
        if isinstance(getattr(data, "method", None), str) and hasattr(data, "id"):
            self._asked[data.id] = data.method
        super()._send_data(data)

    def structure_message(self, data: dict[str, Any]) -> Any:
        if "jsonrpc" in data:
            message = json.loads(json.dumps(data))
            if "method" in message:
                self.manners.sent_unasked(message)
            else:
                method = self._asked[message["id"]]
                self.raw_answers[method] = message.get("result")
                self.manners.answered(method, message)
        return super().structure_message(data)


def recording_client() -> LanguageClient:
    client = LanguageClient(protocol_cls=Recording, converter_factory=lambda: CONVERTER)
    register_lsp_features(client)
    for method in AGREED_TO:
        client.feature(method)(_agree)
    return client


def _agree(_params: Any) -> None:
    """What a client answers that does as it is asked; `manners` says whether it may be asked."""


def capabilities_of(name: str) -> types.ClientCapabilities:
    if name in RECORDED:
        return pytest_lsp.client_capabilities(name)
    told = json.loads((PROFILES / f"{name}.json").read_text("utf-8"))
    capabilities: types.ClientCapabilities = CONVERTER.structure(told, types.ClientCapabilities)
    return capabilities


@pytest_lsp.fixture(  # type: ignore[untyped-decorator]
    config=ClientServerConfig(server_command=list(SERVER), client_factory=recording_client),
    params=[*RECORDED, *HAND_WRITTEN],
)
async def client(
    request: pytest.FixtureRequest, lsp_client: LanguageClient, tmp_path: Path
) -> AsyncIterator[None]:
    (tmp_path / "other.say").write_text(OTHER, "utf-8")
    (tmp_path / "saywright.toml").write_text("[editor]\ngrey-beyond-slot = true\n", "utf-8")
    capabilities = capabilities_of(request.param)
    told = CONVERTER.unstructure(capabilities, types.ClientCapabilities)
    protocol: Any = lsp_client.protocol
    protocol.manners = Manners(told)
    folder = types.WorkspaceFolder(tmp_path.as_uri(), "scripts")
    params = types.InitializeParams(
        capabilities=capabilities, root_uri=tmp_path.as_uri(), workspace_folders=[folder]
    )
    await lsp_client.initialize_session(params)
    yield
    await lsp_client.shutdown_session()


class Session:
    """Asks as a client does: only for what both sides can do."""

    def __init__(self, client: LanguageClient, uri: str) -> None:
        self._client = client
        self._protocol = cast(Recording, client.protocol)
        self.manners: Manners = self._protocol.manners
        self.server: dict[str, Any] = self._protocol.raw_answers["initialize"]["capabilities"]
        self.encoding = self.server.get("positionEncoding", "utf-16")
        self.uri = uri
        self.document = {"uri": uri}
        self.asked: set[str] = set()

    def position(self, text: str, offset: int) -> dict[str, int]:
        line = text.count("\n", 0, offset)
        before = text[text.rfind("\n", 0, offset) + 1 : offset]
        units = {"utf-8": 1, "utf-16": 2, "utf-32": 4}[self.encoding]
        name = self.encoding if units == 1 else f"{self.encoding}-le"
        return {"line": line, "character": len(before.encode(name)) // units}

    def tell(self, method: str, params: dict[str, Any]) -> None:
        kind: Any = types.METHOD_TO_TYPES[method][2]
        self._protocol.notify(method, self._protocol._converter.structure(params, kind))

    async def ask(self, method: str, params: Any) -> Any:
        """The answer as it came; an AssertionError if it does not come in time."""
        self.asked.add(method)
        kind: Any = types.METHOD_TO_TYPES[method][2]
        structured = self._protocol._converter.structure(params, kind)
        async with asyncio.timeout(ANSWER_SECONDS):
            await self._protocol.send_request_async(  # type: ignore[no-untyped-call]
                method, structured
            )
        return self._protocol.raw_answers[method]

    async def ask_if(self, provider: str, capability: str, method: str, **params: Any) -> Any:
        """Of the open document, if the server announces it and the client knows it."""
        if not self.server.get(provider) or self.manners.can(capability) is None:
            return None
        return await self.ask(method, {"textDocument": self.document, **params})


@pytest.mark.asyncio
async def test_a_session(client: LanguageClient, tmp_path: Path) -> None:
    session = Session(client, (tmp_path / "a.say").as_uri())
    item = {"uri": session.uri, "languageId": "say", "version": 1, "text": SCRIPT}
    session.tell("textDocument/didOpen", {"textDocument": item})
    text = await edited(session)
    await read(session, text)
    await changed(session, text)
    await told_what_is_wrong(session, client)
    session.tell("textDocument/didClose", {"textDocument": session.document})
    await asyncio.sleep(0.05)
    assert session.manners.amiss == []
    assert not client.messages


async def edited(session: Session) -> str:
    """A word is typed beyond a character of two units."""
    at = SCRIPT.index("Forty tonnes")
    where = session.position(SCRIPT, at)
    change = {"range": {"start": where, "end": where}, "text": "Forty-one tonnes. "}
    document = {"uri": session.uri, "version": 2}
    session.tell("textDocument/didChange", {"textDocument": document, "contentChanges": [change]})
    return f"{SCRIPT[:at]}Forty-one tonnes. {SCRIPT[at:]}"


async def read(session: Session, text: str) -> None:
    whole = {"start": session.position(text, 0), "end": session.position(text, len(text))}
    ask_if = session.ask_if
    hints = await ask_if(
        "inlayHintProvider", "textDocument.inlayHint", "textDocument/inlayHint", range=whole
    )
    if hints is not None:
        assert hints
        if session.manners.can("textDocument.inlayHint.resolveSupport"):
            await session.ask("inlayHint/resolve", hints[0])
    lenses = await ask_if("codeLensProvider", "textDocument.codeLens", "textDocument/codeLens")
    assert lenses is None or lenses
    for word in ("slot", "Joss lit", "Forty-one", "__I was", "----", "(beat)", "Ines:"):
        at = session.position(text, text.index(word) + 1)
        for provider, name in (
            ("hoverProvider", "hover"),
            ("documentHighlightProvider", "documentHighlight"),
            ("definitionProvider", "definition"),
            ("completionProvider", "completion"),
        ):
            await ask_if(provider, f"textDocument.{name}", f"textDocument/{name}", position=at)
        await ask_if(
            "referencesProvider",
            "textDocument.references",
            "textDocument/references",
            position=at,
            context={"includeDeclaration": True},
        )
        await ask_if(
            "selectionRangeProvider",
            "textDocument.selectionRange",
            "textDocument/selectionRange",
            positions=[at],
        )
    await ask_if(
        "documentSymbolProvider", "textDocument.documentSymbol", "textDocument/documentSymbol"
    )
    await ask_if("foldingRangeProvider", "textDocument.foldingRange", "textDocument/foldingRange")
    if session.server.get("workspaceSymbolProvider") and session.manners.can("workspace.symbol"):
        await session.ask("workspace/symbol", {"query": "o"})
    await coloured(session, whole)


async def coloured(session: Session, whole: dict[str, Any]) -> None:
    room = "textDocument.semanticTokens"
    provider = session.server.get("semanticTokensProvider")
    if not provider or session.manners.can(room) is None:
        return
    full = await session.ask_if("semanticTokensProvider", room, "textDocument/semanticTokens/full")
    assert full["data"]
    requests = session.manners.can(f"{room}.requests")
    if requests.get("range") and provider.get("range"):
        params = {"textDocument": session.document, "range": whole}
        await session.ask("textDocument/semanticTokens/range", params)
    delta = isinstance(requests.get("full"), dict) and requests["full"].get("delta")
    if delta and isinstance(provider.get("full"), dict) and provider["full"].get("delta"):
        params = {"textDocument": session.document, "previousResultId": full["resultId"]}
        await session.ask("textDocument/semanticTokens/full/delta", params)


async def changed(session: Session, text: str) -> None:
    """What changes the script: actions, renaming, tidying."""
    offered = 0
    for word in ("slot", "like", "We went", "__I was never once wrong.__ (beat)", "~~Joss"):
        at = session.position(text, text.index(word) + 1)
        for more in ({}, {"triggerKind": 2}, {"only": ["refactor"]}, {"only": ["source.fixAll"]}):
            actions = await session.ask_if(
                "codeActionProvider",
                "textDocument.codeAction",
                "textDocument/codeAction",
                range={"start": at, "end": at},
                context={"diagnostics": [], **more},
            )
            for action in actions or ():
                offered += 1
                if "edit" not in action and "data" in action:
                    resolved = await session.ask("codeAction/resolve", action)
                    assert "edit" in resolved
    assert offered > 20
    at = session.position(text, text.index("Joss lit") + 1)
    if session.manners.can("textDocument.rename.prepareSupport"):
        params = {"textDocument": session.document, "position": at}
        await session.ask("textDocument/prepareRename", params)
    rename = await session.ask_if(
        "renameProvider",
        "textDocument.rename",
        "textDocument/rename",
        position=at,
        newName="Maren",
    )
    assert rename
    await session.ask_if(
        "documentFormattingProvider",
        "textDocument.formatting",
        "textDocument/formatting",
        options={"tabSize": 4, "insertSpaces": True},
    )


async def told_what_is_wrong(session: Session, client: LanguageClient) -> None:
    if session.manners.can("textDocument.diagnostic") is None:
        async with asyncio.timeout(ANSWER_SECONDS):
            while not client.diagnostics.get(session.uri):
                await asyncio.sleep(0.01)
        return
    provider = session.server["diagnosticProvider"]
    report = await session.ask("textDocument/diagnostic", {"textDocument": session.document})
    assert report["items"]
    if provider["workspaceDiagnostics"]:
        answer = await session.ask("workspace/diagnostic", {"previousResultIds": []})
        found = {Path(each["uri"]).name: each for each in answer["items"]}
        assert set(found) == {"a.say", "other.say"}
        assert found["other.say"]["version"] is None
        assert [each["code"] for each in found["other.say"]["items"]][:1] == ["setting"]


def test_the_checker_finds_fault() -> None:
    """It is not that it lets everything pass."""
    manners = Manners({"textDocument": {"codeAction": {"codeActionLiteralSupport": {}}}})
    manners.sent_unasked({"method": "window/showMessage", "params": {}})
    manners.sent_unasked({"id": 1, "method": "workspace/inlayHint/refresh"})
    registration = {"id": "a", "method": "workspace/didChangeWatchedFiles"}
    manners.sent_unasked(
        {
            "id": 2,
            "method": "client/registerCapability",
            "params": {"registrations": [registration]},
        }
    )
    manners.sent_unasked({"method": "$/progress", "params": {"token": 5, "value": {}}})
    item = {"severity": 1, "message": "", "range": {}, "tags": [1], "relatedInformation": []}
    manners.answered("textDocument/diagnostic", {"result": {"items": [item]}})
    hover = {"contents": {"kind": "markdown", "value": ""}}
    manners.answered("textDocument/hover", {"result": hover})
    edit = {"documentChanges": [{"edits": [{"annotationId": "a"}]}]}
    action = {"title": "a", "edit": edit, "isPreferred": True, "disabled": {}}
    manners.answered("textDocument/codeAction", {"result": [action, {"title": "b"}]})
    manners.answered("textDocument/completion", {"result": [{"insertTextFormat": 2, "kind": 25}]})
    symbol = {"selectionRange": {}, "kind": 22}
    manners.answered("textDocument/documentSymbol", {"result": [symbol]})
    manners.answered("textDocument/rename", {"error": {"code": -32603, "message": "a"}})
    assert len(manners.amiss) == 18, manners.amiss
