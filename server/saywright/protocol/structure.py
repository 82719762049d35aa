"""What the client can show of a script's structure: symbols, folds, and kinds of tokens."""

from dataclasses import dataclass

from lsprotocol import types

_ALL_KNOW = frozenset(kind for kind in types.SymbolKind if kind <= types.SymbolKind.Array)


@dataclass(frozen=True, slots=True)
class Structure:
    """`nested_symbols`: an outline may be a tree. `struck_symbols`: one of its entries may be shown
    as no longer valid. `whole_lines`: it folds nothing but whole lines. `most_folds`: no more are
    wanted. `tokens`: None where it takes none."""

    nested_symbols: bool = False
    struck_symbols: bool = False
    symbol_kinds: frozenset[types.SymbolKind] = _ALL_KNOW
    kinds_in_search: frozenset[types.SymbolKind] = _ALL_KNOW
    whole_lines: bool = False
    most_folds: int | None = None
    fold_kinds: frozenset[str] = frozenset()
    tokens: "TokenSupport | None" = None


@dataclass(frozen=True, slots=True)
class TokenSupport:
    """The kinds of tokens and modifiers that the client knows, and what it asks for."""

    kinds: tuple[str, ...] = ()
    modifiers: tuple[str, ...] = ()
    full: bool = False
    delta: bool = False
    range: bool = False


def structure_from(
    documents: types.TextDocumentClientCapabilities, workspace: types.WorkspaceClientCapabilities
) -> Structure:
    symbols = documents.document_symbol or types.DocumentSymbolClientCapabilities()
    search = workspace.symbol or types.WorkspaceSymbolClientCapabilities()
    folding = documents.folding_range or types.FoldingRangeClientCapabilities()
    tags, fold_kinds = symbols.tag_support, folding.folding_range_kind
    return Structure(
        nested_symbols=bool(symbols.hierarchical_document_symbol_support),
        struck_symbols=bool(tags and types.SymbolTag.Deprecated in tags.value_set),
        symbol_kinds=_kinds(symbols.symbol_kind),
        kinds_in_search=_kinds(search.symbol_kind),
        whole_lines=bool(folding.line_folding_only),
        most_folds=folding.range_limit,
        fold_kinds=frozenset((fold_kinds and fold_kinds.value_set) or ()),
        tokens=_tokens(documents.semantic_tokens),
    )


def _kinds(known: types.ClientSymbolKindOptions | None) -> frozenset[types.SymbolKind]:
    return frozenset(known.value_set) if known and known.value_set is not None else _ALL_KNOW


def _tokens(told: types.SemanticTokensClientCapabilities | None) -> TokenSupport | None:
    if told is None or types.TokenFormat.Relative not in told.formats:
        return None
    full = told.requests.full
    return TokenSupport(
        tuple(told.token_types),
        tuple(told.token_modifiers),
        full=bool(full),
        delta=bool(isinstance(full, types.ClientSemanticTokensRequestFullDelta) and full.delta),
        range=told.requests.range not in (None, False),
    )
