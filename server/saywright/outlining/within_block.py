"""What an offset of a block stands in there, in the block's own offsets."""

from bisect import bisect_right
from collections.abc import Iterator

from saywright.markup.lines import lead_length, line_ranges, read_rule, read_setting
from saywright.markup.tree import Block, Cue, Paragraph, Range, Rule, Setting
from saywright.outlining.phrases import phrases_at
from saywright.outlining.words_at import word_at
from saywright.speech.extent import source_extents
from saywright.speech.timed_block import TimedBlock
from saywright.speech.timing import Sentence


def trimmed(text: str, where: Range) -> Range:
    """The range without the blank at its ends."""
    inside = text[where.start : where.end]
    return Range(
        where.start + min(lead_length(inside), len(inside.rstrip())),
        where.start + len(inside.rstrip()),
    )


def within_block(item: TimedBlock, offset: int, language: str) -> Iterator[Range]:
    """Its word and what that stands in, up to the block: some may not hold the offset."""
    block = item.block
    if isinstance(block, Paragraph) and _is_speech(block, offset):
        yield from _in_speech(item, block, offset, language)
    elif word := word_at(block.text, offset):
        yield word
    if sentence := _sentence_at(item, offset):
        yield Range(sentence.start, sentence.end)
    elif not isinstance(block, Paragraph):
        yield from (trimmed(block.text, line) for line in line_ranges(block.text))
        yield from _fields(block)
    yield trimmed(block.text, Range(0, len(block.text)))


def marked(block: Block, offset: int) -> Iterator[Range]:
    """What stands between two marks, without them and with them."""
    if isinstance(block, Paragraph):
        for note in block.notes:
            yield _words_of_note(block.text, note)
            yield trimmed(block.text, note)
        for span in block.spans:
            if span.start <= offset <= span.end:
                yield span.inner
                yield Range(span.start, span.end)
    directions = block.directions if isinstance(block, Paragraph) else ()
    if isinstance(block, Cue) and block.direction:
        directions = (block.direction,)
    for direction in directions:
        if direction.start <= offset <= direction.end:
            yield Range(direction.start + 1, direction.end - 1)
            yield Range(direction.start, direction.end)


def _words_of_note(text: str, note: Range) -> Range:
    after = text.index("#", note.start) + 1
    return trimmed(text, Range(after, note.end))


def _is_speech(block: Paragraph, offset: int) -> bool:
    """Whether the offset stands neither in a note nor in a direction."""
    in_note = any(note.start <= offset < note.end for note in block.notes)
    return not in_note and not any(each.start < offset < each.end for each in block.directions)


def _in_speech(item: TimedBlock, block: Paragraph, offset: int, language: str) -> Iterator[Range]:
    at = block.plain_of(offset)
    if word := word_at(block.plain, at):
        yield block.source_range(*word)
    sentence = _sentence_at(item, offset)
    if sentence:
        yield from source_extents(block, list(phrases_at(block, sentence.plain, at, language)))


def _sentence_at(item: TimedBlock, offset: int) -> Sentence | None:
    sentences = item.timed.sentences if item.timed else ()
    index = bisect_right(sentences, offset, key=_start) - 1
    return sentences[index] if index >= 0 and offset <= sentences[index].end else None


def _start(sentence: Sentence) -> int:
    return sentence.start


def _fields(block: Block) -> Iterator[Range]:
    """The key and the value of a setting; the label and the settings of a rule."""
    if isinstance(block, Setting) and (setting := read_setting(block.text)):
        yield setting.key_range
        yield setting.value_range
    elif isinstance(block, Rule) and (rule := read_rule(block.text)):
        if rule.label:
            start = block.text.index(rule.label, block.text.index(":"))
            yield Range(start, start + len(rule.label))
        for each in rule.settings:
            yield each.range
