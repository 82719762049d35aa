"""What may be written where the cursor stands; while words are spoken nothing pops up."""

from datetime import date
from typing import TYPE_CHECKING, Any

from lsprotocol import types

from saywright.completing.at_place import completions_at
from saywright.completing.candidate import Candidate, literal
from saywright.explaining.checks import about_check, is_check, told_check
from saywright.protocol.documents import Document
from saywright.protocol.markdown import told

if TYPE_CHECKING:
    from saywright.protocol.server import SaywrightServer

# what ends a key, makes a rule's dashes, opens a silence, and parts a rule's settings
_TRIGGERS = (":", "-", "(", ";")
# all of them are known to every client
_KINDS = {
    "key": types.CompletionItemKind.Property,
    "value": types.CompletionItemKind.Value,
    "kind": types.CompletionItemKind.Keyword,
    "name": types.CompletionItemKind.Reference,
    "silence": types.CompletionItemKind.Unit,
    "take": types.CompletionItemKind.Text,
}


def register(server: "SaywrightServer") -> None:
    options = types.CompletionOptions(trigger_characters=_TRIGGERS, resolve_provider=True)

    @server.feature(types.TEXT_DOCUMENT_COMPLETION, options)
    def _complete(params: types.CompletionParams) -> types.CompletionList | None:
        document = server.documents.get(params.text_document.uri)
        if document is None:
            return None
        offset, _ = document.offsets(types.Range(params.position, params.position))
        found = completions_at(document.analysis, offset, date.today().isoformat())
        items = [_item(server, document, offset, each, at) for at, each in enumerate(found)]
        return types.CompletionList(is_incomplete=False, items=items) if items else None

    @server.feature(types.COMPLETION_ITEM_RESOLVE)
    def _resolve(item: types.CompletionItem) -> types.CompletionItem:
        name = _check_named(item.data)
        if name is not None:
            item.documentation = told(
                told_check(name),
                list(about_check(name)),
                markdown=server.client.markdown_completions,
            )
        return item


def _check_named(data: Any) -> str | None:
    name = data.get("check") if isinstance(data, dict) else None
    return name if isinstance(name, str) and is_check(name) else None


def _item(
    server: "SaywrightServer", document: Document, offset: int, candidate: Candidate, at: int
) -> types.CompletionItem:
    text, style = candidate.text, None
    snippet = candidate.snippet or _of_words(text)
    if snippet is not None and server.client.snippets:
        text, style = snippet, types.InsertTextFormat.Snippet
    return types.CompletionItem(
        label=candidate.label,
        kind=_KINDS[candidate.sort],
        detail=candidate.what or None,
        sort_text=f"{at:03d}",
        filter_text=candidate.label,  # without it Neovim takes all for matches
        insert_text_format=style,
        text_edit=_edit(server, document, offset, candidate, text),
        data={"check": candidate.check} if candidate.check else None,
    )


def _of_words(text: str) -> str | None:
    """Neovim puts in but the first word of a text that is no snippet."""
    return literal(text) if " " in text.strip() else None


def _edit(
    server: "SaywrightServer", document: Document, offset: int, candidate: Candidate, text: str
) -> types.TextEdit | types.InsertReplaceEdit:
    whole = document.range(candidate.start, candidate.end)
    if not server.client.insert_or_replace:
        return types.TextEdit(whole, text)
    return types.InsertReplaceEdit(text, document.range(candidate.start, offset), whole)
