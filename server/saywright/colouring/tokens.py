"""A block → its tokens: in order, none over another, none over a line's end."""

import re
from collections.abc import Iterable, Iterator

from saywright.colouring.lines import rule_tokens, setting_tokens, take_tokens
from saywright.colouring.speech import direction_tokens, speech_tokens
from saywright.colouring.token import Token
from saywright.markup.lines import lead_length
from saywright.markup.tree import Aside, Block, Cue, Note, Paragraph, Rule, Setting, Take

_LINE = re.compile(r"[^\r\n]+")


def tokens(block: Block) -> Iterator[Token]:
    """What a block's text alone tells: the same wherever it stands."""
    for kind, start, end in _tokens(block):
        for line in _LINE.finditer(block.text, start, end):
            written = line[0]
            first = line.start() + lead_length(written)
            last = line.start() + len(written.rstrip())
            if first < last:
                yield Token(kind, first, last)


def _tokens(block: Block) -> Iterable[Token]:
    told: Iterable[Token] = ()
    match block:
        case Paragraph():
            told = speech_tokens(block)
        case Note() | Aside():
            told = (Token("note", 0, len(block.text)),)
        case Cue():
            told = _cue_tokens(block)
        case Setting():
            told = setting_tokens(block)
        case Rule():
            told = rule_tokens(block)
        case Take():
            told = take_tokens(block)
    return told


def _cue_tokens(block: Cue) -> Iterator[Token]:
    yield Token("speaker", 0, len(block.text[: block.text.index(":")].rstrip()))
    if block.direction:
        yield from direction_tokens(block.text, block.direction)
