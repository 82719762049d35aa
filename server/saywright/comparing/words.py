"""What was done to the words of a sentence: which are new, gone, cut or restored."""

from collections.abc import Iterator, Sequence
from difflib import SequenceMatcher
from typing import Literal, NamedTuple

from saywright.comparing.lines import Line, Token
from saywright.markup.tree import Range

_MOST_PAIRS = 250_000  # of words: beyond, what is between the first change and the last is new

How = Literal["gone", "new", "cut", "restored"]


class WordChange(NamedTuple):
    """A run of words to which the same was done, as it stands in one version.

    `start` and `end` are offsets of the file, of the version before where the words are gone, else
    of the one after; `line` is the number there of its sentence among those compared, and `plain`
    the range in that sentence's text.
    """

    how: How
    line: int
    plain: Range
    start: int
    end: int
    text: str


class _At(NamedTuple):
    line: int
    token: Token


def word_changes(before: Sequence[Line], after: Sequence[Line]) -> tuple[WordChange, ...]:
    """In order; a run never reaches past its sentence."""
    ones, twos = _tokens(before), _tokens(after)
    found: list[WordChange] = []
    for (first, last), (other, other_last), equal in _stretches(ones, twos):
        if equal:
            found += _marked(
                after, list(zip(ones[first:last], twos[other:other_last], strict=True))
            )
        else:
            found += _runs("gone", before, ones[first:last])
            found += _runs("new", after, twos[other:other_last])
    return tuple(found)


def _stretches(
    ones: Sequence[_At], twos: Sequence[_At]
) -> Iterator[tuple[tuple[int, int], tuple[int, int], bool]]:
    """What is equal and what is not, in order, as ranges of both."""
    words, other_words = ([at.token.text for at in tokens] for tokens in (ones, twos))
    shorter = min(len(words), len(other_words))
    head = tail = 0
    while head < shorter and words[head] == other_words[head]:
        head += 1
    while tail < shorter - head and words[-1 - tail] == other_words[-1 - tail]:
        tail += 1
    last, other_last = len(words) - tail, len(other_words) - tail
    yield (0, head), (0, head), True
    if (last - head) * (other_last - head) > _MOST_PAIRS:
        yield (head, last), (head, other_last), False
    else:
        middle = SequenceMatcher(None, words[head:last], other_words[head:other_last], False)
        for tag, start, end, other_start, other_end in middle.get_opcodes():
            places = (head + start, head + end), (head + other_start, head + other_end)
            yield *places, tag == "equal"
    yield (last, len(words)), (other_last, len(other_words)), True


def _tokens(lines: Sequence[Line]) -> list[_At]:
    return [_At(number, token) for number, line in enumerate(lines) for token in line.tokens]


def _marked(after: Sequence[Line], pairs: Sequence[tuple[_At, _At]]) -> Iterator[WordChange]:
    start = 0
    hows = [_how(one.token, two.token) for one, two in pairs]
    for index, how in enumerate(hows):
        if index + 1 == len(hows) or hows[index + 1] != how:
            if how and any(two.token.is_word for _, two in pairs[start : index + 1]):
                yield from _runs(how, after, [two for _, two in pairs[start : index + 1]])
            start = index + 1


def _how(one: Token, two: Token) -> How | None:
    if one.cut == two.cut:
        return None
    return "cut" if two.cut else "restored"


def _runs(how: How, lines: Sequence[Line], tokens: Sequence[_At]) -> Iterator[WordChange]:
    for number in sorted({at.line for at in tokens}):
        own = [at.token for at in tokens if at.line == number]
        plain = Range(own[0].start, own[-1].end)
        line = lines[number]
        yield WordChange(
            how, number, plain, *line.place(*plain), line.text[plain.start : plain.end]
        )
