"""A sentence's words in groups that are said in one breath.

A breath may be taken at any punctuation that makes a pause, at any mark or direction, and at a
verse's line end. An address or a long number is a group of its own: it is said in pieces.
"""

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from saywright.checks.passage import Line
from saywright.speech.model import gap_kind, is_stumble, pause_seconds
from saywright.speech.spoken import spoken_words

_WORD_IN_PIECES_SECONDS = 2.5
_FIGURE_IN_PIECES_SECONDS = 1.2
_MORE_PLACES = frozenset("，；：︰؛⸺·•/")  # besides those that the clock gives a pause


class GroupWord(NamedTuple):
    """A word of a sentence: half-open code points of what is spoken of it.

    `after` is the offset in the paragraph's spoken text of the white space that follows it, None
    where none does before the next word; `seconds` when it has been said.
    """

    start: int
    end: int
    text: str
    after: int | None
    seconds: float


class Group(NamedTuple):
    """Words said in one breath, and when the first begins, in seconds as those of the words."""

    words: Sequence[GroupWord]
    start_seconds: float

    @property
    def seconds(self) -> float:
        return self.words[-1].seconds - self.start_seconds


class _Place(NamedTuple):
    """A word, and what follows it: the text up to the next word, and whether a mark is in it."""

    word: GroupWord
    between: str
    next_start: int | None  # in the paragraph's spoken text


def breath_groups(line: Line, rests: Sequence[int]) -> Iterator[Group]:
    """`rests`: where in the paragraph's spoken text a mark or a line's end gives room to breathe,
    in order."""
    places = _places(line)
    first = 0
    last_seconds = places[-1].word.seconds if places else 0.0
    start = before = last_seconds - line.sentence.speech_seconds
    for index, place in enumerate(places):
        seconds = place.word.seconds
        rest = _rests_after(place, rests)
        in_pieces = _is_in_pieces(place.word.text, seconds - before)
        if rest or in_pieces or _is_place(place.between):
            words = [each.word for each in places[first : index + 1 - in_pieces]]
            if words:
                yield Group(words, start)
            first = index + 1
            stumbles = first < len(places) and is_stumble(
                place.word.text, places[first].word.text, line.language
            )
            start = seconds + pause_seconds(place.between, words_before=first, stumbles=stumbles)
            if rest and place.next_start is not None:
                at = line.paragraph.source_of(place.next_start)
                start = max(start, line.timed.seconds_at(at))
        before = seconds


def _is_in_pieces(word: str, seconds: float) -> bool:
    if not any(map(str.isalnum, word)):
        return True
    if word.isalpha():
        return seconds > _WORD_IN_PIECES_SECONDS
    return seconds > _FIGURE_IN_PIECES_SECONDS and any(map(_is_of_figures, word))


def _is_of_figures(character: str) -> bool:
    return character.isdigit() or character in "@/_"


def _places(line: Line) -> list[_Place]:
    words = spoken_words(line.text, line.language)
    text, paragraph = line.text, line.paragraph
    offsets: list[int] = []
    for index, word in enumerate(words):
        end = words[index + 1].start if index + 1 < len(words) else len(text)
        space = next((at for at in range(word.end, end) if text[at].isspace()), word.end - 1)
        offsets += (word.start, word.end - 1, space)
    plain = _plain_offsets(line, offsets)
    places: list[_Place] = []
    for index, word in enumerate(words):
        _, last, space = plain[3 * index : 3 * index + 3]
        seconds = line.timed.seconds_at(paragraph.source_of(last) + 1)
        after = space if space > last else None
        said = GroupWord(word.start, word.end, text[word.start : word.end], after, seconds)
        if index + 1 < len(words):
            between = text[word.end : words[index + 1].start]
            places.append(_Place(said, between, plain[3 * index + 3]))
        else:
            places.append(_Place(said, ".", None))
    return places


def _plain_offsets(line: Line, offsets: Sequence[int]) -> list[int]:
    """What `line.plain` gives for each of the offsets, which are in order."""
    cuts = line.paragraph.cuts
    start = line.sentence.plain.start
    index = bisect_left(cuts, start + 1, key=lambda cut: cut.end)
    at = start
    found: list[int] = []
    for offset in offsets:
        while index < len(cuts) and cuts[index].start <= at + offset:
            at += cuts[index].end - max(cuts[index].start, start)
            index += 1
        found.append(at + offset)
    return found


def _rests_after(place: _Place, rests: Sequence[int]) -> bool:
    if place.next_start is None or not rests:
        return False
    index = bisect_left(rests, place.next_start + 1) - 1
    end = place.word.after if place.word.after is not None else place.next_start
    return index >= 0 and rests[index] >= end


def _is_place(between: str) -> bool:
    return between != " " and (
        gap_kind(between) is not None or not _MORE_PLACES.isdisjoint(between)
    )
