"""A spoken part's blocks → its units of action, the turns in them, and their paragraphs."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import NamedTuple

from saywright.explaining.explained import counted
from saywright.markup.lines import lead_length
from saywright.markup.tree import Cue, Paragraph, Range
from saywright.outlining.entry import Entry
from saywright.outlining.first_words import first_words, shortened
from saywright.speech.slot import clock
from saywright.speech.stretch import Stretch
from saywright.speech.timed_block import TimedBlock


class _Placed(NamedTuple):
    """A block at its file offset, and how far the part has come before and after it."""

    start: int
    block: Cue | Paragraph
    before: int
    after: int
    is_cut: bool

    @property
    def end(self) -> int:
        return self.start + len(self.block.text)


@dataclass(slots=True)
class _Turn:
    """A cue (None before the first, and where a unit begins within a turn) and what follows it."""

    cue: _Placed | None
    paragraphs: list[_Placed] = field(default_factory=list)


@dataclass(slots=True)
class _Unit:
    """A unit of action; `name` is where the note that names it stands (None: no note does)."""

    name: Range | None
    text: str
    turns: list[_Turn] = field(default_factory=list)

    @property
    def blocks(self) -> Iterator[_Placed]:
        for turn in self.turns:
            if turn.cue:
                yield turn.cue
            yield from turn.paragraphs


class Measure(NamedTuple):
    """How the length of a part and of all that is in it is told."""

    of: Callable[[Stretch], int]
    told: Callable[[int], str]


SECONDS = Measure(lambda stretch: int(stretch.seconds + 0.5), clock)
WORDS = Measure(lambda stretch: stretch.words, lambda words: counted(words, "word"))


def spoken_entries(items: Sequence[TimedBlock], start: int, measure: Measure) -> tuple[Entry, ...]:
    """The entries of a part that starts at file offset `start`: its units, and what stands in no
    unit by itself. Their lengths add up to the part's, as they are told."""
    end = start + sum(len(item.block.text) for item in items)
    units = _units(_placed(items, start, measure.of))
    starts = [next(unit.blocks).start if unit.name else start for unit in units]
    entries: list[Entry] = []
    for unit, first, following in zip(units, starts, (*starts[1:], end), strict=True):
        inside = [entry for turn in unit.turns for entry in _turn(turn, measure)]
        entries += [_unit(unit, inside, Range(first, following), measure)] if unit.name else inside
    return tuple(entries)


def units_in(items: Iterable[TimedBlock], start: int, end: int) -> Iterator[Range]:
    """Where the units of action stand in a part from file offset `start` to `end`."""
    starts = [next(unit.blocks).start for unit in _units(_placed(items, start)) if unit.name]
    return (Range(*each) for each in pairwise((*starts, end)))


def _units(blocks: Iterable[_Placed]) -> list[_Unit]:
    units = [_Unit(None, "")]
    for placed in blocks:
        if isinstance(placed.block, Cue):
            units[-1].turns.append(_Turn(placed))
            continue
        turns = units[-1].turns
        if name := _name_of_unit(placed.block):
            # a cue right before the note belongs to the unit that it names
            opening = [turns.pop()] if turns and not turns[-1].paragraphs else []
            at = Range(placed.start + name.start, placed.start + name.end)
            units.append(_Unit(at, placed.block.text[name.start : name.end], opening))
            turns = opening
        if not turns:
            turns.append(_Turn(None))
        turns[-1].paragraphs.append(placed)
    return units


def _placed(
    items: Iterable[TimedBlock], start: int, length_of: Callable[[Stretch], int] | None = None
) -> Iterator[_Placed]:
    """The cues and paragraphs. The silence between two belongs to the later."""
    so_far, before, after = Stretch(), 0, 0
    for item in items:
        block = item.block
        if isinstance(block, Cue | Paragraph):
            if length_of:
                so_far = so_far + item.stretch
                after = length_of(so_far)
            sentences = item.timed.sentences if item.timed else ()
            is_cut = bool(sentences) and all(each.cut for each in sentences)
            yield _Placed(start, block, before, after, is_cut)
            before = after
        start += len(block.text)


def _name_of_unit(paragraph: Paragraph) -> Range | None:
    """Where the words stand of the first note that opens the paragraph and says something."""
    at = 0
    for note in paragraph.notes:
        if note.start != at:
            break
        at = note.end
        line = paragraph.text[note.start : note.end]
        first = line.index("#") + 1
        words = line[first:].strip()
        if words:
            start = note.start + line.index(words, first)
            return Range(start, start + len(words))
    return None


def _unit(unit: _Unit, inside: Sequence[Entry], where: Range, measure: Measure) -> Entry:
    assert unit.name
    blocks = list(unit.blocks)
    return Entry(
        "unit",
        shortened(unit.text),
        measure.told(blocks[-1].after - blocks[0].before),
        *where,
        *unit.name,
        all(entry.is_cut for entry in inside),
        tuple(inside) if len(inside) > 1 or inside[0].kind == "turn" else (),
    )


def _turn(turn: _Turn, measure: Measure) -> Iterator[Entry]:
    paragraphs = [_paragraph(placed, measure) for placed in turn.paragraphs]
    if turn.cue is None:
        yield from paragraphs
        return
    cue = turn.cue
    assert isinstance(cue.block, Cue)
    last = turn.paragraphs[-1] if turn.paragraphs else cue
    name = cue.block.speaker
    if paragraphs:
        name = f"{name}: {paragraphs[0].name}"
    yield Entry(
        "turn",
        name,
        measure.told(last.after - cue.before),
        cue.start,
        last.end,
        cue.start + lead_length(cue.block.text),
        cue.start + len(cue.block.text.rstrip()),
        bool(paragraphs) and all(each.is_cut for each in paragraphs),
        tuple(paragraphs) if len(paragraphs) > 1 else (),
    )


def _paragraph(placed: _Placed, measure: Measure) -> Entry:
    paragraph = placed.block
    assert isinstance(paragraph, Paragraph)
    words, where = first_words(paragraph)
    return Entry(
        "paragraph",
        words,
        measure.told(placed.after - placed.before),
        placed.start,
        placed.end,
        placed.start + where.start,
        placed.start + where.end,
        placed.is_cut,
    )
