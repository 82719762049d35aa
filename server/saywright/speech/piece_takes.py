"""Which of a script's takes count for which of its pieces, and what each piece's pace comes to."""

from collections.abc import Iterator, Mapping
from itertools import islice, pairwise
from types import MappingProxyType
from typing import NamedTuple

from saywright.markup.reader import context_after
from saywright.markup.settings import Settings
from saywright.markup.tree import Kind, Rule, Take
from saywright.project import Project
from saywright.speech.calibration import USUAL_READER, Calibration, TimedTake, after_takes
from saywright.speech.stretch import Stretch
from saywright.speech.timed_block import Blocks, timed_block
from saywright.speech.voice import calibration_before_takes, pace_of, voice_of

Calibrations = Mapping[int, Calibration]
"""A piece's calibration by the number of rules up to its own; pieces without takes are left out."""


class OfAnyLength(NamedTuple):
    """The takes of a piece that do not say of how long a piece they are, and how long it is from
    first sound to last at the usual pace, as they would say it."""

    takes: tuple[Take, ...]
    usual_seconds: float


NO_TAKES: Calibrations = MappingProxyType({})


class _Part(NamedTuple):
    rules: int
    kind: str
    label: str
    settings: Settings
    first: int
    end: int


class _Labelled(NamedTuple):
    label: str
    take: Take


def calibrations(blocks: Blocks, settings: Settings, project: Project) -> Calibrations:
    """The calibration of each piece that has takes, whatever pace `blocks` are timed at.

    A take counts for the pieces of its part's label, or for all where that has none; where the
    piece's pace names a reader, only that reader's. A pace that is a number is taken as told.
    """
    if not blocks.sum.takes:
        return NO_TAKES
    parts = list(_parts(blocks, settings))
    takes = list(_takes(blocks, parts))
    found: dict[int, Calibration] = {}
    for part in parts:
        own = _own_takes(part, takes, project)
        if not own:
            continue
        before = calibration_before_takes(part.settings, project)
        after = after_takes(before, _timed(own, part, blocks, project))
        if after.takes:
            found[part.rules] = after
    return found


def takes_of_any_length(
    blocks: Blocks, settings: Settings, project: Project, rules: int
) -> OfAnyLength:
    """Those that count for the piece that has so many rules up to its own."""
    parts = list(_parts(blocks, settings))
    own = _own_takes(parts[rules], list(_takes(blocks, parts)), project)
    takes = tuple(take for take in own if take.estimated_seconds is None)
    return OfAnyLength(takes, _usual_seconds(parts[rules], blocks, project))


def take_readers(blocks: Blocks) -> frozenset[str]:
    """Those whose takes are in the script, as they are written."""
    readers: set[str] = set()
    index = 0
    while found := blocks.find(lambda sum: sum.takes > 0, index):
        assert isinstance(found.item.block, Take)
        readers.add(found.item.block.reader or "")
        index = found.index + 1
    return frozenset(readers)


def same_name(one: str, other: str) -> bool:
    """Whether two labels or readers are one: case and the number of blanks do not matter."""
    return " ".join(one.split()).casefold() == " ".join(other.split()).casefold()


def _own_takes(part: _Part, takes: list[_Labelled], project: Project) -> list[Take]:
    """Those that count for a part, the latest last; none does if it is no piece."""
    pace = pace_of(part.settings, project)
    if part.kind != "piece" or (pace and not pace.reader):
        return []
    reader = pace.reader if pace else None
    return _in_order_of_time([each.take for each in takes if _counts(each, part, reader)])


def _in_order_of_time(takes: list[Take]) -> list[Take]:
    """By their dates where each has one, else as they are written."""
    dated = all(take.date for take in takes)
    return sorted(takes, key=lambda take: take.date or "") if dated else takes


def _counts(labelled: _Labelled, part: _Part, reader: str | None) -> bool:
    if labelled.label and not same_name(labelled.label, part.label):
        return False
    return reader is None or same_name(labelled.take.reader or "", reader)


def _parts(blocks: Blocks, settings: Settings) -> Iterator[_Part]:
    rules: list[tuple[int, Kind, str, Settings]] = [(0, "piece", "", settings)]
    index = 0
    while found := blocks.find(lambda sum: sum.rules > 0, index):
        rule = found.item.block
        assert isinstance(rule, Rule)
        kind, own = context_after(rule, settings)
        rules.append((found.index, kind, rule.label, own))
        index = found.index + 1
    end: tuple[int, Kind, str, Settings] = (len(blocks), "piece", "", settings)
    for number, (this, following) in enumerate(pairwise((*rules, end))):
        first, kind, label, own = this
        yield _Part(number, kind, label, own, first, following[0])


def _takes(blocks: Blocks, parts: list[_Part]) -> Iterator[_Labelled]:
    for part in parts:
        if part.kind == "takes":
            for item in islice(blocks.items(part.first), part.end - part.first):
                if isinstance(item.block, Take) and item.block.seconds is not None:
                    yield _Labelled(part.label, item.block)


def _timed(takes: list[Take], part: _Part, blocks: Blocks, project: Project) -> Iterator[TimedTake]:
    if not takes:
        return
    marked = blocks.sum_between(part.first, part.end).stretch.marked_seconds
    usual: float | None = None
    for take in takes:
        assert take.seconds is not None
        estimate = take.estimated_seconds
        if estimate is None:
            usual = _usual_seconds(part, blocks, project) if usual is None else usual
            estimate = usual
        yield TimedTake(take.seconds, estimate, marked)


def _usual_seconds(part: _Part, blocks: Blocks, project: Project) -> float:
    """The piece as it stands from first sound to last, at the usual pace."""
    voice = voice_of(part.settings, project, USUAL_READER)
    items = islice(blocks.items(part.first), part.end - part.first)
    return sum((timed_block(item.block, voice).stretch for item in items), Stretch()).sound_seconds
