"""What is to be coloured otherwise than plain speech: all of it, what has changed, or a range.

What a client does not ask for is not offered, and of the types and modifiers that it knows no
other is sent.
"""

from itertools import count
from typing import TYPE_CHECKING, NamedTuple

from lsprotocol import types

from saywright.colouring.token import TokenKind
from saywright.protocol.documents import Document
from saywright.protocol.structure import TokenSupport
from saywright.protocol.token_runs import (
    Encoder,
    Look,
    Version,
    all_numbers,
    changes,
)

if TYPE_CHECKING:
    from saywright.protocol.server import SaywrightServer

_TYPES = types.SemanticTokenTypes
_MODIFIERS = types.SemanticTokenModifiers
# each kind's types, the first that the client knows counts, and its modifiers
_LOOKS: dict[TokenKind, tuple[tuple[str, ...], tuple[str, ...]]] = {
    "rule": ((_TYPES.Keyword,), ()),
    "label": ((_TYPES.Namespace, _TYPES.String), ()),
    "key": ((_TYPES.Property, _TYPES.Variable), ()),
    "text": ((_TYPES.String,), ()),
    "number": ((_TYPES.Number,), ()),
    "choice": ((_TYPES.EnumMember, _TYPES.Keyword), ()),
    "listed": ((_TYPES.Class, _TYPES.Type), (_MODIFIERS.Declaration,)),
    "speaker": ((_TYPES.Class, _TYPES.Type), ()),
    "reader": ((_TYPES.Variable, _TYPES.Parameter), ()),
    "note": ((_TYPES.Comment,), ()),
    "direction": ((_TYPES.Comment,), (_MODIFIERS.Documentation,)),
    "silence": ((_TYPES.Operator, _TYPES.Keyword), ()),
    "stress": ((_TYPES.Macro, _TYPES.Function), ()),
    "kept": ((_TYPES.String,), (_MODIFIERS.Readonly,)),
    "cut": ((_TYPES.Comment,), (_MODIFIERS.Deprecated,)),
}


class _Sent(NamedTuple):
    """The result that a client has been given last for a document."""

    result_id: str
    version: Version


class Colours:
    """What has been sent of each open document, to tell what has changed since."""

    def __init__(self) -> None:
        self._sent: dict[str, _Sent] = {}
        self._numbers = count(1)

    def sent(self, document: Document, result_id: str) -> _Sent | None:
        known = self._sent.get(document.uri)
        return known if known and known.result_id == result_id else None

    def next(self, document: Document, encoder: Encoder) -> _Sent:
        """The tokens of the document as it is now; what is known of it is not made again."""
        known, blocks = self._sent.get(document.uri), document.analysis.blocks
        if known and known.version.blocks is blocks:
            return known
        runs = encoder.runs(blocks, known.version if known else None)
        made = _Sent(str(next(self._numbers)), Version(blocks, runs))
        self._sent[document.uri] = made
        return made

    def forget(self, document: Document) -> None:
        """Whoever opens it again begins anew."""
        self._sent.pop(document.uri, None)


def begin(server: "SaywrightServer") -> None:
    """Offers what the client has said that it asks for."""
    wanted = server.client.structure.tokens
    if wanted is None:
        return
    legend = types.SemanticTokensLegend(*_legend(wanted))
    encoder = Encoder(_looks(legend), server.documents.encoding)
    if wanted.full:
        _register_full(server, legend, encoder)
    if wanted.full and wanted.delta:
        _register_delta(server, legend, encoder)
    if wanted.range:
        _register_range(server, legend, encoder)


def _register_full(
    server: "SaywrightServer", legend: types.SemanticTokensLegend, encoder: Encoder
) -> None:
    @server.feature(types.TEXT_DOCUMENT_SEMANTIC_TOKENS_FULL, legend)
    def _full(params: types.SemanticTokensParams) -> types.SemanticTokens | None:
        document = server.documents.get(params.text_document.uri)
        return _all(server.colours.next(document, encoder)) if document else None


def _register_delta(
    server: "SaywrightServer", legend: types.SemanticTokensLegend, encoder: Encoder
) -> None:
    @server.feature(types.TEXT_DOCUMENT_SEMANTIC_TOKENS_FULL_DELTA, legend)
    def _delta(
        params: types.SemanticTokensDeltaParams,
    ) -> types.SemanticTokens | types.SemanticTokensDelta | None:
        document = server.documents.get(params.text_document.uri)
        if document is None:
            return None
        before = server.colours.sent(document, params.previous_result_id)
        now = server.colours.next(document, encoder)
        if before is None:
            return _all(now)
        edits = [
            types.SemanticTokensEdit(*change) for change in changes(before.version, now.version)
        ]
        return types.SemanticTokensDelta(edits, now.result_id)


def _register_range(
    server: "SaywrightServer", legend: types.SemanticTokensLegend, encoder: Encoder
) -> None:
    @server.feature(types.TEXT_DOCUMENT_SEMANTIC_TOKENS_RANGE, legend)
    def _range(params: types.SemanticTokensRangeParams) -> types.SemanticTokens | None:
        document = server.documents.get(params.text_document.uri)
        if document is None:
            return None
        lines = params.range.start.line, params.range.end.line
        return types.SemanticTokens(
            encoder.between(document.analysis.blocks, min(lines), max(lines))
        )


def _all(sent: _Sent) -> types.SemanticTokens:
    return types.SemanticTokens(all_numbers(sent.version.runs), sent.result_id)


def _legend(wanted: TokenSupport) -> tuple[list[str], list[str]]:
    """The types and the modifiers that are used, of those that the client knows."""
    kinds = [_first_known(each, wanted) for each, _ in _LOOKS.values()]
    modifiers = [modifier for _, each in _LOOKS.values() for modifier in each]
    return (
        list(dict.fromkeys(kind for kind in kinds if kind)),
        [modifier for modifier in dict.fromkeys(modifiers) if modifier in wanted.modifiers],
    )


def _first_known(kinds: tuple[str, ...], wanted: TokenSupport) -> str | None:
    return next((kind for kind in kinds if kind in wanted.kinds), None)


def _looks(legend: types.SemanticTokensLegend) -> dict[TokenKind, Look]:
    looks: dict[TokenKind, Look] = {}
    for name, (kinds, modifiers) in _LOOKS.items():
        known = [legend.token_types.index(kind) for kind in kinds if kind in legend.token_types]
        bits = [
            1 << legend.token_modifiers.index(modifier)
            for modifier in modifiers
            if modifier in legend.token_modifiers
        ]
        if known:
            looks[name] = Look(known[0], sum(bits))
    return looks
