"""The clause and the phrase at a place in a sentence.

A phrase is what stands between two signs that make a pause, or marks that leave room for one. In
English a phrase of several clauses is told apart further.
"""

from bisect import bisect_left
from collections.abc import Callable, Iterator, Sequence

from saywright.language.english.phrase_boundaries import Boundary, boundary_before
from saywright.language.english.tag import is_english
from saywright.markup.tree import Breath, Direction, Paragraph, Range
from saywright.speech.model import gap_kind
from saywright.speech.spoken import spoken_words


def phrases_at(paragraph: Paragraph, sentence: Range, at: int, language: str) -> Iterator[Range]:
    """The word as it is spoken, its clause and its phrase, as far as they hold or touch `at`.

    All offsets are those of the paragraph's spoken text; `sentence` is a sentence's.
    """
    words = _words(paragraph, sentence, language)
    index = bisect_left(words, at, key=_end)
    if index == len(words):
        index -= 1
    elif words[index].start <= at:
        yield words[index]
    elif index and not _parts_phrases(paragraph, words, index):
        index -= 1
    if index < 0:
        return
    phrase = _reach(words, index, lambda gap: _parts_phrases(paragraph, words, gap))
    if is_english(language):
        inside = words[phrase.start : phrase.end]
        written = [paragraph.plain[word.start : word.end] for word in inside]
        clause = _reach(
            inside,
            index - phrase.start,
            lambda gap: boundary_before(written, gap) > Boundary.PHRASE,
        )
        yield _text(paragraph, sentence, inside, clause)
    yield _text(paragraph, sentence, words, phrase)


def _end(word: Range) -> int:
    return word.end


def _words(paragraph: Paragraph, sentence: Range, language: str) -> list[Range]:
    start, end = sentence
    return [
        Range(start + word.start, start + word.end)
        for word in spoken_words(paragraph.plain[start:end], language)
    ]


def _reach(words: Sequence[Range], index: int, is_edge: Callable[[int], bool]) -> Range:
    """How far from the word at `index` words hang together, as indices; `is_edge` tells whether
    the gap before a word is an edge."""
    first, last = index, index + 1
    while first > 0 and not is_edge(first):
        first -= 1
    while last < len(words) and not is_edge(last):
        last += 1
    return Range(first, last)


def _parts_phrases(paragraph: Paragraph, words: Sequence[Range], index: int) -> bool:
    """Whether a pause is marked between the word at `index` and the one before it."""
    before, after = words[index - 1].end, words[index].start
    if gap_kind(paragraph.plain[before:after]):
        return True
    end, start = paragraph.source_of(before - 1) + 1, paragraph.source_of(after)
    if start - end == after - before:
        return False
    return any(
        (at := bisect_left(marks, end, key=_start)) < len(marks) and marks[at].start < start
        for marks in (paragraph.breaths, paragraph.directions)
    )


def _start(mark: Breath | Direction) -> int:
    return mark.start


def _text(paragraph: Paragraph, sentence: Range, words: Sequence[Range], which: Range) -> Range:
    """The words with the signs that are written to them."""
    plain = paragraph.plain
    start, end = words[which.start].start, words[which.end - 1].end
    least = words[which.start - 1].end if which.start else sentence.start
    most = words[which.end].start if which.end < len(words) else sentence.end
    while end < most and not plain[end].isspace():
        end += 1
    before = start
    while before > least and not plain[before - 1].isspace():
        before -= 1
    return Range(start if before == least and which.start else before, end)
