"""Whether a server sends a client only what the client has said that it knows.

`Manners` gets each raw message of a conversation and collects what is amiss. It knows the
protocol (3.17) and nothing of this server.
"""

from collections.abc import Callable, Iterator
from typing import Any

Json = Any

_REFRESHES = {
    "workspace/inlayHint/refresh": "workspace.inlayHint.refreshSupport",
    "workspace/codeLens/refresh": "workspace.codeLens.refreshSupport",
    "workspace/semanticTokens/refresh": "workspace.semanticTokens.refreshSupport",
    "workspace/diagnostic/refresh": "workspace.diagnostics.refreshSupport",
    "workspace/foldingRange/refresh": "workspace.foldingRange.refreshSupport",
    "workspace/inlineValue/refresh": "workspace.inlineValue.refreshSupport",
}
_REQUESTS = {
    **_REFRESHES,
    "workspace/configuration": "workspace.configuration",
    "workspace/applyEdit": "workspace.applyEdit",
    "workspace/workspaceFolders": "workspace.workspaceFolders",
    "window/workDoneProgress/create": "window.workDoneProgress",
    "window/showMessageRequest": "window.showMessage",
    "window/showDocument": "window.showDocument.support",
}
_NOTIFICATIONS = {
    "textDocument/publishDiagnostics": "textDocument.publishDiagnostics",
    "window/logMessage": "",
    "telemetry/event": "never",
    "window/showMessage": "never",  # this server has nothing to say aloud in a usual session
    "$/logTrace": "never",
}
_SYMBOL_KINDS = range(1, 19)
_COMPLETION_KINDS = range(1, 19)
_PLAIN = ["plaintext"]


class Manners:
    """`amiss` is what was sent that the client has not said that it knows."""

    def __init__(self, capabilities: Json) -> None:
        self._capabilities = capabilities
        self._legend: Json = None
        self._tokens: set[Json] = set()
        self.amiss: list[str] = []

    def can(self, path: str) -> Json:
        """What the client says at `path`, None if nothing."""
        found = self._capabilities
        for name in path.split("."):
            found = found.get(name) if isinstance(found, dict) else None
        return found

    def told_token(self, token: Json) -> None:
        """A token for progress that the client gave with a request."""
        self._tokens.add(token)

    def sent_unasked(self, message: Json) -> None:
        method, params = message["method"], message.get("params") or {}
        if method == "$/progress":
            self._expect(params["token"] in self._tokens, f"progress under {params['token']}")
            return
        if method in ("client/registerCapability", "client/unregisterCapability"):
            for each in params.get("registrations", ()):
                self._may_register(each["method"])
            return
        wanted = (_REQUESTS if "id" in message else _NOTIFICATIONS).get(method, "never")
        self._expect(not wanted or bool(self.can(wanted) is not None), method)
        if method in _REFRESHES:
            self._expect(self.can(wanted) is True, method)
        if method == "window/workDoneProgress/create":
            self._tokens.add(params["token"])
        if method == "textDocument/publishDiagnostics":
            self._expect(not self.can("textDocument.diagnostic"), "pushed to who pulls")
            versions = self.can("textDocument.publishDiagnostics.versionSupport")
            self._expect("version" not in params or versions, "version of what is pushed")
        self._everywhere(params)

    def answered(self, method: str, message: Json) -> None:
        if "error" in message:
            self._expect(False, f"{method}: {message['error']}")
            return
        result = message["result"]
        self._everywhere(result)
        check = _ANSWERS.get(method)
        if check and result is not None:
            check(self, result)

    def _expect(self, holds: Json, what: str) -> None:
        if not holds:
            self.amiss.append(what)

    def _may_register(self, method: str) -> None:
        room, name = method.split("/", 1)
        path = f"{room}.{'synchronization' if name.startswith('did') else name}"
        if room == "workspace":
            path = f"workspace.{name}"
        self._expect(self.can(f"{path}.dynamicRegistration"), f"registration of {method}")

    def _everywhere(self, value: Json) -> None:
        for each in _objects(value):
            if "severity" in each and "message" in each and "range" in each:
                self._diagnostic(each)
            if "changes" in each or "documentChanges" in each:
                self._workspace_edit(each)

    def _diagnostic(self, item: Json) -> None:
        told = "textDocument.publishDiagnostics"
        newer = self.can("textDocument.diagnostic") or {}
        if {"relatedInformation", "tagSupport", "codeDescriptionSupport"} & set(newer):
            told = "textDocument.diagnostic"
        known_tags = self.can(f"{told}.tagSupport.valueSet") or []
        self._expect(set(item.get("tags", ())) <= set(known_tags), "tags of a diagnostic")
        for key, support in (
            ("relatedInformation", "relatedInformation"),
            ("codeDescription", "codeDescriptionSupport"),
            ("data", "dataSupport"),
        ):
            self._expect(key not in item or self.can(f"{told}.{support}"), f"diagnostic's {key}")

    def _workspace_edit(self, edit: Json) -> None:
        told = "workspace.workspaceEdit"
        self._expect(
            "documentChanges" not in edit or self.can(f"{told}.documentChanges"), "documentChanges"
        )
        notes = "changeAnnotations" in edit or "annotationId" in str(edit)
        self._expect(not notes or self.can(f"{told}.changeAnnotationSupport") is not None, "notes")
        for change in edit.get("documentChanges", ()):
            operations = self.can(f"{told}.resourceOperations") or []
            self._expect("kind" not in change or change["kind"] in operations, "a file operation")

    def _initialize(self, result: Json) -> None:
        server = result["capabilities"]
        encodings = self.can("general.positionEncodings") or ["utf-16"]
        self._expect(server.get("positionEncoding", "utf-16") in encodings, "position encoding")
        renames = isinstance(server.get("renameProvider"), dict)
        self._expect(
            not renames or self.can("textDocument.rename.prepareSupport"), "rename options"
        )
        actions = isinstance(server.get("codeActionProvider"), dict)
        literal = self.can("textDocument.codeAction.codeActionLiteralSupport") is not None
        self._expect(not actions or literal, "code action options")
        self._legend = (server.get("semanticTokensProvider") or {}).get("legend")

    def _hover(self, hover: Json) -> None:
        self._markup(hover["contents"], "textDocument.hover.contentFormat", "hover")

    def _markup(self, content: Json, path: str, what: str) -> None:
        if isinstance(content, dict) and "kind" in content:
            formats = self.can(path) or _PLAIN
            self._expect(content["kind"] in formats, f"{content['kind']} in {what}")

    def _actions(self, actions: Json) -> None:
        told = "textDocument.codeAction"
        for action in actions:
            if isinstance(action.get("command"), str):
                continue  # a bare command, which all clients know
            literal = self.can(f"{told}.codeActionLiteralSupport") is not None
            self._expect(literal, "an action that is no command")
            for key, support in (
                ("isPreferred", "isPreferredSupport"),
                ("disabled", "disabledSupport"),
                ("data", "dataSupport"),
            ):
                self._expect(key not in action or self.can(f"{told}.{support}"), f"action's {key}")
            resolves = "edit" in (self.can(f"{told}.resolveSupport.properties") or ())
            does = {"edit", "command", "disabled"} & set(action)
            self._expect(does or resolves, f"“{action['title']}” does nothing")

    def _completions(self, result: Json) -> None:
        told = "textDocument.completion"
        items = result["items"] if isinstance(result, dict) else result
        if isinstance(result, dict):
            defaults = self.can(f"{told}.completionList.itemDefaults") or []
            self._expect(set(result.get("itemDefaults", ())) <= set(defaults), "itemDefaults")
        kinds = self.can(f"{told}.completionItemKind.valueSet") or _COMPLETION_KINDS
        for item in items:
            self._completion(item)
            self._expect(item.get("kind", 1) in kinds, f"completion kind {item.get('kind')}")

    def _completion(self, item: Json) -> None:
        told = "textDocument.completion.completionItem"
        snippets = self.can(f"{told}.snippetSupport")
        self._expect(item.get("insertTextFormat", 1) == 1 or snippets, "a snippet")
        self._markup(item.get("documentation"), f"{told}.documentationFormat", "completion")
        insert_replace = "insert" in item.get("textEdit", {})
        self._expect(not insert_replace or self.can(f"{told}.insertReplaceSupport"), "insert")
        tags = self.can(f"{told}.tagSupport.valueSet") or []
        self._expect(set(item.get("tags", ())) <= set(tags), "tags of a completion")
        for key, support in (
            ("labelDetails", "labelDetailsSupport"),
            ("deprecated", "deprecatedSupport"),
            ("preselect", "preselectSupport"),
            ("commitCharacters", "commitCharactersSupport"),
            ("insertTextMode", "insertTextModeSupport"),
        ):
            self._expect(key not in item or self.can(f"{told}.{support}"), f"completion's {key}")

    def _symbols(self, symbols: Json, room: str = "textDocument.documentSymbol") -> None:
        kinds = self.can(f"{room}.symbolKind.valueSet") or _SYMBOL_KINDS
        tags = self.can(f"{room}.tagSupport.valueSet") or []
        for symbol in symbols:
            tree = "selectionRange" in symbol
            trees = self.can("textDocument.documentSymbol.hierarchicalDocumentSymbolSupport")
            self._expect(not tree or trees, "a tree of symbols")
            self._expect(symbol["kind"] in kinds, f"symbol kind {symbol['kind']}")
            self._expect(set(symbol.get("tags", ())) <= set(tags), "tags of a symbol")
            self._symbols(symbol.get("children") or [], room)

    def _workspace_symbols(self, symbols: Json) -> None:
        self._symbols(symbols, "workspace.symbol")
        for symbol in symbols:
            resolves = self.can("workspace.symbol.resolveSupport") is not None
            self._expect("range" in symbol["location"] or resolves, "a symbol without a range")

    def _folds(self, folds: Json) -> None:
        told = "textDocument.foldingRange"
        limit = self.can(f"{told}.rangeLimit")
        self._expect(limit is None or len(folds) <= limit, "too many folds")
        for fold in folds:
            kinds = self.can(f"{told}.foldingRangeKind.valueSet") or [
                "comment",
                "imports",
                "region",
            ]
            self._expect(fold.get("kind", kinds[0]) in kinds, f"fold kind {fold.get('kind')}")
            collapsed = self.can(f"{told}.foldingRange.collapsedText")
            self._expect("collapsedText" not in fold or collapsed, "text of a fold")
            whole_lines = self.can(f"{told}.lineFoldingOnly")
            self._expect(
                not whole_lines or fold["startLine"] < fold["endLine"], "a fold inside a line"
            )

    def _tokens_of(self, result: Json) -> None:
        told = "textDocument.semanticTokens"
        types, modifiers = self._legend["tokenTypes"], self._legend["tokenModifiers"]
        data = result.get("data") or []
        used = {types[kind] for kind in data[3::5]}
        self._expect(used <= set(self.can(f"{told}.tokenTypes")), f"token types {used}")
        bits = 0
        for modifier in data[4::5]:
            bits |= modifier
        used = {name for bit, name in enumerate(modifiers) if bits >> bit & 1}
        self._expect(used <= set(self.can(f"{told}.tokenModifiers")), f"token modifiers {used}")
        if not self.can(f"{told}.overlappingTokenSupport"):
            lengths_before = [0, *data[2::5]]
            each = zip(data[0::5], data[1::5], lengths_before, strict=False)
            overlap = any(not lines and on < length for lines, on, length in each)
            self._expect(not overlap, "overlapping tokens")

    def _places(self, result: Json) -> None:
        linked = any("targetUri" in each for each in _objects(result))
        self._expect(not linked or self.can("textDocument.definition.linkSupport"), "links")


def _objects(value: Json) -> Iterator[dict[str, Json]]:
    if isinstance(value, dict):
        yield value
        for each in value.values():
            yield from _objects(each)
    elif isinstance(value, list):
        for each in value:
            yield from _objects(each)


_ANSWERS: dict[str, Callable[[Manners, Json], None]] = {
    "initialize": Manners._initialize,
    "textDocument/hover": Manners._hover,
    "textDocument/codeAction": Manners._actions,
    "codeAction/resolve": lambda manners, action: manners._actions([action]),
    "textDocument/completion": Manners._completions,
    "completionItem/resolve": Manners._completion,
    "textDocument/documentSymbol": Manners._symbols,
    "workspace/symbol": Manners._workspace_symbols,
    "textDocument/foldingRange": Manners._folds,
    "textDocument/semanticTokens/full": Manners._tokens_of,
    "textDocument/semanticTokens/range": Manners._tokens_of,
    "textDocument/definition": Manners._places,
}
