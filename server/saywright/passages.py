"""Blocks → the same with what is found in each paragraph among the sentences around it.

A passage ends at a rule and at a cue, and reaches a dozen sentences; so after an edit only the
paragraphs that near are looked at again.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import islice
from typing import NamedTuple

from saywright.checks.catalogue import CHECKS
from saywright.checks.passage import REACH_BLOCKS, REACH_SENTENCES, Line, Passage
from saywright.finding import Finding
from saywright.markup.reader import Context, context_after
from saywright.markup.settings import Settings
from saywright.markup.tree import Cue, Range, Rule
from saywright.project import Project
from saywright.speech.timed_block import Blocks, TimedBlock
from saywright.speech.voice import language_of

_AROUND = tuple(each.find_nearby for each in CHECKS if each.find_nearby and each.looks_around)
_ALONE = tuple(each.find_nearby for each in CHECKS if each.find_nearby and not each.looks_around)


class _Around(NamedTuple):
    """What holds for all the paragraphs of a stretch."""

    context: Context
    speaker: str | None
    opens_file: bool  # the settings of the file could begin here


@dataclass(frozen=True, slots=True)
class Script:
    """What a passage depends on beside its blocks: the settings of the file, how many blocks
    they take up, and the project."""

    settings: Settings
    opening: int
    project: Project


def all_checked(blocks: Sequence[TimedBlock], script: Script) -> list[TimedBlock]:
    """All the blocks of a file after those that open it, each paragraph looked at."""
    whole = Range(0, len(blocks))
    start = _Around(Context("piece", script.settings), None, not script.opening)
    return _checked(blocks, start, whole, script)


def found_alone(
    block: TimedBlock, settings: Settings, language: str, *, opens_file: bool
) -> Iterator[Finding]:
    """What is found in a paragraph of a piece whatever stands around it."""
    lines = list(lines_in(block, language))
    if lines:
        passage = Passage(lines, 0, len(lines), settings, None, language, opens_file)
        for find in _ALONE:
            yield from find(passage)


def checked_again(blocks: Blocks, first: int, end: int, script: Script) -> Blocks:
    """`blocks` after those from index `first` to `end` have changed."""
    near = Range(_back(blocks, first, script.opening), _forth(blocks, end))
    far = Range(_back(blocks, near.start, script.opening), _forth(blocks, near.end))
    items = _between(blocks, *far)
    wanted = Range(near.start - far.start, near.end - far.start)
    checked = _checked(items, _around(blocks, far.start, script), wanted, script)
    return blocks.spliced(near.start, near.end, checked[wanted.start : wanted.end])


def _back(blocks: Blocks, index: int, opening: int) -> int:
    """The first of the blocks before `index` whose sentences are within reach of it."""
    first = max(min(index, opening), index - REACH_BLOCKS)
    return index - _within_reach(reversed(_between(blocks, first, index)))


def _forth(blocks: Blocks, index: int) -> int:
    return index + _within_reach(_between(blocks, index, index + REACH_BLOCKS))


def _between(blocks: Blocks, start: int, end: int) -> list[TimedBlock]:
    return list(islice(blocks.items(start), end - start))


def _within_reach(nearest_first: Iterable[TimedBlock]) -> int:
    """How many of the blocks are within reach of what stands before the first."""
    sentences = count = 0
    for each in nearest_first:
        if sentences >= REACH_SENTENCES or _ends_stretch(each):
            break
        sentences += _spoken_sentences(each)
        count += 1
    return count


def _ends_stretch(timed: TimedBlock) -> bool:
    return isinstance(timed.block, Rule | Cue)


def _spoken_sentences(timed: TimedBlock) -> int:
    return sum(not sentence.cut for sentence in timed.timed.sentences) if timed.timed else 0


def _around(blocks: Blocks, index: int, script: Script) -> _Around:
    """What holds at the block at `index`."""
    rules = blocks.sum_between(0, index).rules
    found = blocks.find(lambda sum: sum.rules >= rules) if rules else None
    if not found:
        cue = blocks.sum_between(0, index).stretch.cue
        return _Around(Context("piece", script.settings), cue, not script.opening)
    assert isinstance(found.item.block, Rule)
    context = context_after(found.item.block, script.settings)
    return _Around(context, blocks.sum_between(found.index, index).stretch.cue, False)


def _checked(
    blocks: Sequence[TimedBlock], start: _Around, wanted: Range, script: Script
) -> list[TimedBlock]:
    checked = list(blocks)
    for around, stretch in _stretches(blocks, start, script.settings):
        if around.context.kind != "piece":
            continue
        for index, findings in _found(blocks, stretch, wanted, around, script.project):
            if findings != blocks[index].findings_nearby:
                checked[index] = replace(blocks[index], findings_nearby=findings)
    return checked


def _stretches(
    blocks: Sequence[TimedBlock], around: _Around, settings: Settings
) -> Iterator[tuple[_Around, Range]]:
    """The runs of blocks between rules and cues, each with what holds there."""
    start = 0
    for index, each in enumerate(blocks):
        if not _ends_stretch(each):
            continue
        yield around, Range(start, index)
        start = index + 1
        if isinstance(each.block, Rule):
            around = _Around(context_after(each.block, settings), None, False)
        elif isinstance(each.block, Cue):
            around = around._replace(speaker=each.block.speaker)
    yield around, Range(start, len(blocks))


def _found(
    blocks: Sequence[TimedBlock], stretch: Range, wanted: Range, around: _Around, project: Project
) -> Iterator[tuple[int, tuple[Finding, ...]]]:
    settings = around.context.settings
    language = language_of(settings, project)
    starts = _starts(blocks, stretch)
    lines = [
        line
        for index in range(*stretch)
        for line in lines_in(blocks[index], language, index - stretch.start, starts[index])
    ]
    speaker = around.speaker or next(iter(settings.speakers), None)
    for first, last in _paragraphs(lines):
        index = lines[first].block + stretch.start
        if wanted.start <= index < wanted.end:
            opens_file = around.opens_file
            passage = Passage(lines, first, last, settings, speaker, language, opens_file)
            yield index, _shifted(_nearby(passage), -starts[index])


def _starts(blocks: Sequence[TimedBlock], stretch: Range) -> dict[int, int]:
    starts: dict[int, int] = {}
    at = 0
    for index in range(*stretch):
        starts[index] = at
        at += len(blocks[index].block.text)
    return starts


def lines_in(timed: TimedBlock, language: str, block: int = 0, at: int = 0) -> Iterator[Line]:
    """The sentences of a block of which something is spoken; it is the stretch's `block`th and
    starts at `at`."""
    opens = True
    for sentence in timed.timed.sentences if timed.timed else ():
        if not sentence.cut:
            assert timed.timed
            yield Line(block, at, timed.timed, sentence, opens, language)
            opens = False


def _paragraphs(lines: Sequence[Line]) -> Iterator[tuple[int, int]]:
    first = 0
    for index in range(1, len(lines) + 1):
        if index == len(lines) or lines[index].block != lines[first].block:
            yield first, index
            first = index


def _nearby(passage: Passage) -> Iterator[Finding]:
    for find in _AROUND:
        yield from find(passage)


def _shifted(findings: Iterable[Finding], by: int) -> tuple[Finding, ...]:
    return tuple(finding.shifted(by) for finding in findings)
