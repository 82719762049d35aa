"""Whether a script is still read as it was once names in it are others."""

from collections import Counter
from collections.abc import Iterable, Iterator

from saywright.analysis import Analysis
from saywright.markup.reader import context_after, read_blocks
from saywright.markup.settings import Settings
from saywright.markup.tree import Block, Cue, Paragraph, Rule, Setting, Take

_NAMED = frozenset(("title", "by", "to", "rights", "content", "speaker", "pace"))


def reads_the_same(analysis: Analysis, text: str) -> bool:
    """Whether `text` has the blocks that the script has, kind by kind and mark by mark, with no
    new problem; and whether names that differ still do."""
    opening, settings, in_context = read_blocks(text)
    before = [each.block for each in analysis.blocks.items()]
    after = [*opening, *(each.block for each in in_context)]
    return (
        (len(before), analysis.opening) == (len(after), len(opening))
        and all(map(_same, before, after))
        and _are_apart(_speakers(before, analysis.settings), _speakers(after, settings))
        and _are_apart(_labels(before), _labels(after))
        and _are_apart(_readers(before), _readers(after))
    )


def _same(before: Block, after: Block) -> bool:
    return _shape(before) == _shape(after) and not _problems(after) - _problems(before)


def _problems(block: Block) -> Counter[str]:
    return Counter(problem.check for problem in block.problems)


def _shape(block: Block) -> tuple[object, ...]:
    """All that is read of a block but its words."""
    shape: tuple[object, ...] = ()
    if isinstance(block, Paragraph):
        spans = [span.kind for span in block.spans]
        directions = [(each.silence, each.bare) for each in block.directions]
        shape = (spans, directions, len(block.breaths), len(block.notes))
    elif isinstance(block, Rule):
        values = [(key, value if key not in _NAMED else "") for key, value in block.settings]
        shape = (block.kind, bool(block.label), values)
    elif isinstance(block, Setting):
        shape = (block.key, block.value if block.key not in _NAMED else "")
    elif isinstance(block, Cue):
        shape = (block.direction and (block.direction.silence, block.direction.bare),)
    elif isinstance(block, Take):
        reader = bool(block.reader)
        shape = (block.seconds, block.estimated_seconds, block.date, reader)
    return type(block), *shape


def _are_apart(before: Iterable[str], after: Iterable[str]) -> bool:
    """Whether the same names are one, and the same are two, as before."""
    pairs = list(zip(before, after, strict=False))
    olds, news = ({pair[side] for pair in pairs} for side in (0, 1))
    return len(olds) == len(news) == len(set(pairs))


def _speakers(blocks: Iterable[Block], settings: Settings) -> Iterator[str]:
    yield from settings.speakers
    for block in blocks:
        if isinstance(block, Rule):
            yield from context_after(block, settings).settings.speakers
        elif isinstance(block, Cue):
            yield block.speaker


def _labels(blocks: Iterable[Block]) -> Iterator[str]:
    for block in blocks:
        if isinstance(block, Rule):
            yield _folded(block.label)


def _readers(blocks: Iterable[Block]) -> Iterator[str]:
    for block in blocks:
        if isinstance(block, Take):
            yield _folded(block.reader or "")


def _folded(name: str) -> str:
    return " ".join(name.split()).casefold()
