"""A script tree as the indented outline that the corpus writes (see grammar/corpus/README.md)."""

from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

from saywright.finding import Finding
from saywright.markup.settings import RULE_KEYS, Goal, Settings, with_value
from saywright.markup.silences import Silence
from saywright.markup.tree import (
    Aside,
    Blank,
    Block,
    Cue,
    Direction,
    Note,
    Paragraph,
    Range,
    Rule,
    Script,
    Setting,
    Take,
)
from saywright.markup.values import Pace, Slot, Unreadable
from saywright.speech.voice import Voice

from .escapes import quoted

LINE_END = "\r\n"


class Item(NamedTuple):
    """One line of a paragraph's outline; the state of a stretch that is spoken, else None."""

    source: int
    written: str
    state: str | None = None


def outline(script: Script) -> list[str]:
    return [line for block in script.blocks for line in _block(block)]


def problem_lines(script: Script) -> list[str]:
    """`check line:column "the text"` of every problem of form, in the file's order."""
    placed = [
        problem.shifted(start)
        for start, block in zip(script.starts, script.blocks, strict=True)
        for problem in block.problems
    ]
    return [_problem(script.text, problem) for problem in placed]


def _problem(text: str, problem: Finding) -> str:
    line = text.count("\n", 0, problem.start) + 1
    column = problem.start - (text.rfind("\n", 0, problem.start) + 1) + 1
    return f"{problem.check} {line}:{column} {quoted(text[problem.start : problem.end])}"


def _block(block: Block) -> Iterator[str]:
    match block:
        case Blank():
            yield "blank"
        case Note():
            yield from map(_note, block.text.removesuffix("\n").split("\n"))
        case Setting():
            yield _setting(block)
        case Rule():
            yield from _rule(block)
        case Cue():
            yield from _cue(block)
        case Aside():
            yield f"aside {quoted(block.text.rstrip(LINE_END))}"
        case Take():
            yield _take(block)
        case Paragraph():
            yield "paragraph"
            yield from (f"  {line}" for line in _paragraph(block))


def _setting(setting: Setting) -> str:
    if setting.key is None:
        return "setting ?"
    return f"setting {setting.key} = {_value(setting.key, setting.value)}"


def _cue(cue: Cue) -> Iterator[str]:
    yield f"cue {quoted(cue.speaker)}"
    if cue.direction:
        yield f"  {_direction(cue.text, cue.direction)}"


def _rule(rule: Rule) -> Iterator[str]:
    yield f"rule {rule.kind}"
    if rule.label:
        yield f"  label {quoted(rule.label)}"
    for key, value in rule.settings:
        yield f"  {key} = {_value(key, value)}"


def _value(key: str, written: str) -> str:
    try:
        settings = with_value(Settings(), RULE_KEYS[key], written)
    except Unreadable:
        return "?"
    return _read(getattr(settings, RULE_KEYS[key].field))


def _read(value: object) -> str:
    match value:
        case Slot(low, high):
            return f"{low:g} to {high:g} s"
        case Pace() | Goal():
            return _rate(value)
        case float(seconds):
            return f"{seconds:g} s"
        case tuple() | frozenset() as names:
            ordered = names if isinstance(names, tuple) else sorted(names)
            return ", ".join(quoted(str(name)) for name in ordered)
        case _:
            return quoted(str(value))


def _rate(value: Pace | Goal) -> str:
    match value:
        case Pace(words_per_minute=float(words)):
            return f"{words:g} wpm"
        case Pace(syllables_per_second=float(syllables)):
            return f"{syllables:g} syl/s"
        case Pace(reader=reader):
            return f"reader {quoted(str(reader))}"
        case Goal(timer_seconds=float(seconds)):
            return f"{seconds:g} s"
        case Goal(count=int(count)):
            return str(count)
    return "yes"


def _note(text: str) -> str:
    return f"note {quoted(text[text.index('#') + 1 :].strip())}"


def _take(take: Take) -> str:
    if take.seconds is None:
        return "take ?"
    written = f"take {take.seconds:g} s"
    if take.estimated_seconds is not None:
        written += f" of {take.estimated_seconds:g} s"
    if take.date:
        written += f" on {take.date}"
    return written + (f" by {quoted(take.reader)}" if take.reader else "")


def _direction(text: str, direction: Direction) -> str:
    words = quoted(text[direction.start + 1 : direction.end - 1])
    kind = "silence" if direction.bare else "direction"
    return f"{kind} {words}" + (f" = {_silence(direction.silence)}" if direction.silence else "")


def _silence(silence: Silence) -> str:
    name = " ".join(word for word in (silence.size, silence.name) if word)
    return f"{name} {Voice().seconds_of(silence):g} s".strip()


def _paragraph(paragraph: Paragraph) -> Iterator[str]:
    items = sorted((*_spoken(paragraph), *_marks(paragraph)))
    gathered = ""
    state: str | None = None
    for item in items:
        if item.state != state or state is None:
            if state:
                yield f"{state} {quoted(gathered)}"
            gathered = ""
        state = item.state
        if state is None:
            yield item.written
        else:
            gathered += item.written
    if state:
        yield f"{state} {quoted(gathered)}"


def _marks(paragraph: Paragraph) -> Iterator[Item]:
    text = paragraph.text
    for direction in paragraph.directions:
        yield Item(direction.start, _direction(text, direction))
    for breath in paragraph.breaths:
        yield Item(breath.start, _silence(breath.silence))
    for note in paragraph.notes:
        yield Item(note.start, _note(text[note.start : note.end]))


def _spoken(paragraph: Paragraph) -> Iterator[Item]:
    """The spoken text, cut where a run or a state begins or ends."""
    states = {"kept": paragraph.keeps, "cut": paragraph.cuts, "stressed": paragraph.stresses}
    edges = {edge for ranges in states.values() for where in ranges for edge in where}
    starts = (*(run.plain for run in paragraph.runs), len(paragraph.plain))
    for run, (_, end) in zip(paragraph.runs, pairwise(starts), strict=True):
        if run.plain in paragraph.breaks:
            yield Item(run.source, "break")
            continue
        within = sorted(edge for edge in edges if run.plain < edge < end)
        for start, stop in zip((run.plain, *within), (*within, end), strict=True):
            held = [name for name, ranges in states.items() if _holds(ranges, start)]
            source = run.source + start - run.plain
            yield Item(source, paragraph.plain[start:stop], " ".join(held) or "text")


def _holds(ranges: tuple[Range, ...], offset: int) -> bool:
    return any(start <= offset < end for start, end in ranges)
