"""A part of a script → its lines, see `piece`."""

import re
from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from itertools import accumulate
from typing import NamedTuple

from saywright.cuts.marking import Places, places_to_cut
from saywright.cuts.planning.marks import markable
from saywright.cuts.planning.piece import Piece, Silences, SpokenLine, pause_ticks
from saywright.cuts.planning.problem import ticks
from saywright.markup.tree import Breath, Direction, Paragraph, Range
from saywright.speech.extent import source_extents
from saywright.speech.grid import on_grid
from saywright.speech.model import gap_kind, pause_seconds
from saywright.speech.paragraph_words import inside, lengthening_seconds, live_text
from saywright.speech.spoken import spoken_words
from saywright.speech.timeline import Timeline
from saywright.speech.timing import Sentence, TimedParagraph
from saywright.speech.voice import Voice

_WORD = re.compile(r"[^\W_]")


def piece_of(timeline: Timeline, voice: Voice) -> Piece:
    """The lines of a part that is spoken with `voice`."""
    part = timeline.part
    lines: list[SpokenLine] = []
    before = Silences()
    at = part.start
    blocks = timeline.blocks.items(part.first_block)
    for _, each in zip(range(part.first_block, part.end_block), blocks, strict=False):
        last = lines[-1].silences if lines else before
        if each.timed:
            own, starts = spoken_lines(at, each.timed, voice)
            _place(_Found(own, starts, last), each.timed.paragraph, voice)
            lines += own
        else:
            last.after += ticks(each.stretch.lead_seconds)
        at += len(each.block.text)
    return Piece(tuple(lines), before.after, ticks(lengthening_seconds(voice)), voice)


class _Found(NamedTuple):
    """The lines of a paragraph, where the words of each begin, and what is known of the silences
    of the line before."""

    lines: list[SpokenLine]
    starts: list[list[int]]
    before: Silences


def spoken_lines(
    at: int, timed: TimedParagraph, voice: Voice, *, cuttable: bool = True
) -> tuple[list[SpokenLine], list[list[int]]]:
    """The lines of a paragraph at file offset `at`, no silences reckoned yet, and where the words
    of each begin. Where it does not matter whether they are `cuttable`, that is not tried."""
    paragraph = timed.paragraph
    spoken = _spoken(paragraph, timed.sentences, voice.language)
    places: Sequence[Places | None] = [None] * len(spoken)
    if cuttable:
        places = _cuttable(paragraph, [sentence for sentence, _ in spoken])
    drawn = ticks(lengthening_seconds(voice))
    lines: list[SpokenLine] = []
    for index, (sentence, words) in enumerate(spoken):
        ends = index + 1 == len(spoken)
        last = words[-1].end
        following = len(paragraph.plain) if ends else spoken[index + 1][1][0].start
        stops = following - last > 1 and _stops(paragraph, last, following)
        regular = following - last > 1 and _stops(paragraph, last, sentence.plain.end)
        stop = pause_seconds("", words_before=len(words), paragraph=True)
        lines.append(
            SpokenLine(
                at=at,
                paragraph=paragraph,
                sentence=sentence,
                words=len(words),
                first=words[0].start,
                last=last,
                sound=ticks(sentence.speech_seconds) - (drawn if stops or ends else 0),
                pause=pause_ticks(".", len(words), False, voice) if regular else None,
                stop=ticks(on_grid(stop * voice.scale)),
                ends=ends,
                places=places[index],
                silences=Silences(),
            )
        )
    return lines, [[word.start for word in words] for _, words in spoken]


def _spoken(
    paragraph: Paragraph, sentences: Sequence[Sentence], language: str
) -> list[tuple[Sentence, list[Range]]]:
    """The sentences of which something is spoken, each with where its words stand."""
    found: list[tuple[Sentence, list[Range]]] = []
    for sentence in sentences:
        start, end = sentence.plain
        words = [
            Range(start + word.start, start + word.end)
            for word in spoken_words(paragraph.plain[start:end], language)
        ]
        if paragraph.cuts:
            cut = inside(paragraph.cuts, [word.start for word in words])
            words = [word for word, gone in zip(words, cut, strict=True) if not gone]
        if words:
            found.append((sentence, words))
    return found


def _stops(paragraph: Paragraph, start: int, end: int) -> bool:
    return gap_kind(live_text(paragraph, start, end)) == "stop"


def _cuttable(paragraph: Paragraph, sentences: Sequence[Sentence]) -> list[Places | None]:
    """For each sentence where the marks of its cut go, None where it cannot be cut."""
    places = _places(paragraph, sentences)
    wanted = [each for each in places if each]
    read = iter(markable(paragraph, wanted))
    return [each if each and next(read) else None for each in places]


def _places(paragraph: Paragraph, sentences: Sequence[Sentence]) -> list[Places | None]:
    """The same whether or not they would be read there. Of a sentence by which no silence stands
    the whole goes, which is seen without looking for its words one by one."""
    if paragraph.cuts:
        return [places_to_cut(paragraph, sentence) for sentence in sentences]
    silences = [mark.start for mark in paragraph.breaths]
    silences = sorted([*silences, *(mark.start for mark in paragraph.directions)])
    found: list[Places | None] = []
    extents = source_extents(paragraph, [sentence.plain for sentence in sentences])
    for sentence, extent in zip(sentences, extents, strict=True):
        if sentence.kept or not _WORD.search(paragraph.plain, *sentence.plain):
            found.append(None)
        elif silences and (not found or _is_by(silences, extent.end, paragraph.text)):
            found.append(places_to_cut(paragraph, sentence))
        else:
            found.append(Places((sentence.plain,), (extent,)))
    return found


def _is_by(silences: Sequence[int], end: int, text: str) -> bool:
    """Whether after the source offset `end` a silence comes before anything else."""
    index = bisect_left(silences, end)
    return index < len(silences) and not text[end : silences[index]].strip()


def _place(found: _Found, paragraph: Paragraph, voice: Voice) -> None:
    """Add the silences of a paragraph to its lines, and to the one before."""
    extents = sorted(
        (*extent, index)
        for index, line in enumerate(found.lines)
        for extent in (line.places.extents if line.places else ())
    )
    starts = [start for words in found.starts for start in words]
    owners = [index for index, words in enumerate(found.starts) for _ in words]
    for mark in _performed(paragraph):
        assert mark.silence
        silence = ticks(on_grid(voice.seconds_of(mark.silence)))
        word = bisect_left(starts, paragraph.plain_of(mark.start))
        line = owners[word] if word < len(starts) else len(found.lines)
        owner = _owner(extents, mark.start)
        if word in range(1, len(starts)) and owners[word - 1] == line:
            if owner != line:
                found.lines[line].silences.left += silence
            continue
        before = found.lines[line - 1].silences if line else found.before
        if owner == line:
            found.lines[line].silences.lead += silence
        elif owner is not None and owner == line - 1:
            before.tail += silence
        else:
            before.after += silence


def _owner(extents: Sequence[tuple[int, int, int]], at: int) -> int | None:
    """The line whose cut would take along what stands at source offset `at`."""
    index = bisect_right(extents, at, key=lambda extent: extent[0]) - 1
    return extents[index][2] if index >= 0 and at < extents[index][1] else None


def _performed(paragraph: Paragraph) -> Iterator[Direction | Breath]:
    """The silences that are marked outside cuts, in order."""
    marks: list[Direction | Breath] = [*paragraph.directions, *paragraph.breaths]
    cuts = [Range(span.start, span.end) for span in paragraph.spans if span.kind == "cut"]
    ends = list(accumulate((cut.end for cut in cuts), max))
    for mark in sorted(marks, key=lambda mark: mark.start):
        last = bisect_left(cuts, mark.start, key=lambda cut: cut.start) - 1
        if mark.silence and (last < 0 or mark.start >= ends[last]):
            yield mark
