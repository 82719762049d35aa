"""What can be folded away, as far as the client folds it."""

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from lsprotocol import types

from saywright.outlining.folding import Fold, FoldKind, folds
from saywright.protocol.placing import Placing

if TYPE_CHECKING:
    from saywright.protocol.server import SaywrightServer

_KINDS: dict[FoldKind, types.FoldingRangeKind] = {
    "part": types.FoldingRangeKind.Region,
    "unit": types.FoldingRangeKind.Region,
    "notes": types.FoldingRangeKind.Comment,
}


def register(server: "SaywrightServer") -> None:
    @server.feature(types.TEXT_DOCUMENT_FOLDING_RANGE)
    def _folding(params: types.FoldingRangeParams) -> list[types.FoldingRange] | None:
        document = server.documents.get(params.text_document.uri)
        if document is None:
            return None
        structure = server.client.structure
        found = folds(document.analysis, structure.most_folds)
        placed = _placed(found, Placing(document), structure.fold_kinds)
        return list(_whole_lines(placed, found)) if structure.whole_lines else list(placed)


def _placed(
    found: Iterable[Fold], placing: Placing, kinds: frozenset[str]
) -> Iterator[types.FoldingRange]:
    for fold in found:
        start, end = placing.position(fold.start), placing.position(fold.end)
        kind = _KINDS.get(fold.kind)
        yield types.FoldingRange(
            start.line, end.line, start.character, end.character, kind if kind in kinds else None
        )


def _whole_lines(
    placed: Iterable[types.FoldingRange], found: Iterable[Fold]
) -> Iterator[types.FoldingRange]:
    """Of those that begin on one line the longest; what goes on after one on its last line stays
    in sight."""
    longest: dict[int, types.FoldingRange] = {}
    for folding, fold in zip(placed, found, strict=True):
        line, last = folding.start_line, folding.end_line - (not fold.is_whole)
        known = longest.get(line)
        if last > line and (known is None or known.end_line < last):
            longest[line] = types.FoldingRange(line, last, kind=folding.kind)
    yield from longest.values()
