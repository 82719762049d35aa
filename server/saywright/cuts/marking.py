"""Edits that cut, keep, restore and delete a sentence.

A cut or a keep only puts marks in, so it loses no word, and the edit that takes them out again
gives back the same text. Every edit that marks is tried on its paragraph first: one that would
not read as it should, because of a mark left open nearby, is not offered; nor is one that lets
loose a line which would be read as a cue (of a listed speaker), a note, a rule or a setting.
"""

import re
from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from saywright.finding import Edit, Fix, applied
from saywright.markup.cues import read_cue
from saywright.markup.lines import is_blank, is_note, read_rule
from saywright.markup.mark_problems import marks_off
from saywright.markup.paragraphs import read_paragraph
from saywright.markup.reader import has_opening, split_lines
from saywright.markup.settings import Settings
from saywright.markup.tree import SPAN_MARKS, Paragraph, Part, Range, Span, SpanKind
from saywright.speech.extent import source_extents
from saywright.speech.timeline import Placed
from saywright.speech.timing import Sentence

_WORD = re.compile(r"[^\W_]+")
_BLANKS = " \t"


class Around(NamedTuple):
    """What a paragraph's lines could be read as depends on it: who may have a cue, and whether
    the file's settings could begin here."""

    speakers: tuple[str, ...] = ()
    opens_file: bool = False


def around(part: Part, placed: Placed) -> Around:
    """What is around a paragraph of `part`."""
    opens_file = not part.has_rule and placed.start == part.start and part.settings == Settings()
    return Around(part.settings.speakers, opens_file)


class Places(NamedTuple):
    """Where the marks of a cut go: the stretches of the spoken text that are cut, and where each
    stands in the source, with the silences that go along."""

    stretches: tuple[Range, ...]
    extents: tuple[Range, ...]


def cut(paragraph: Paragraph, sentence: Sentence) -> Fix | None:
    """Marks the sentence's live stretches as cut, with the silences that belong to it.

    None where it is cut or kept already, or cannot be marked.
    """
    places = places_to_cut(paragraph, sentence)
    return _marked("Cut this sentence", paragraph, "cut", *places) if places else None


def places_to_cut(paragraph: Paragraph, sentence: Sentence) -> Places | None:
    """Where the marks of `cut` go, whether or not they would be read there."""
    stretches = [] if sentence.kept else list(_live_stretches(paragraph, sentence))
    if not stretches:
        return None
    extents = list(source_extents(paragraph, stretches))
    extents[-1] = Range(extents[-1].start, _past_silences(paragraph, extents[-1].end))
    if not paragraph.plain[: sentence.plain.start].strip():
        extents[0] = Range(_before_silences(paragraph, extents[0].start), extents[0].end)
    return Places(tuple(stretches), tuple(extents))


def cut_together(paragraph: Paragraph, sentences: Iterable[Places]) -> Fix | None:
    """All of the cuts of some sentences, in order, at once. None where not all would be read.

    Two that touch go into one pair of marks: marks that meet would read as plain characters.
    """
    stretches: list[Range] = []
    extents: list[Range] = []
    for places in sentences:
        stretches += places.stretches
        for extent in places.extents:
            if extents and extents[-1].end == extent.start:
                extents[-1] = Range(extents[-1].start, extent.end)
            else:
                extents.append(extent)
    return _marked("Cut these sentences", paragraph, "cut", stretches, extents)


def keep(paragraph: Paragraph, sentence: Sentence) -> Fix | None:
    """Marks the sentence as kept, save what is cut of it. None where it is kept or all cut."""
    stretches = [] if sentence.kept else list(_live_stretches(paragraph, sentence))
    if not stretches:
        return None
    extents = list(source_extents(paragraph, stretches))
    return _marked("Keep this sentence", paragraph, "keep", stretches, extents)


def restore(paragraph: Paragraph, where: Range, around: Around) -> Fix | None:
    """Takes off the marks of the cuts that meet `where`, a range of the paragraph's source."""
    return _unmarked("Restore what is cut here", paragraph, where, "cut", around)


def release(paragraph: Paragraph, where: Range, around: Around) -> Fix | None:
    """Takes off the keep marks that meet `where`, a range of the paragraph's source."""
    return _unmarked("Keep this no longer", paragraph, where, "keep", around)


def delete(paragraph: Paragraph, sentence: Sentence, around: Around) -> Fix | None:
    """Takes the sentence out of the file. None where it is kept, or shares a mark with others."""
    if sentence.kept:
        return None
    for gone in _with_blanks(paragraph.text, sentence.start, sentence.end):
        edits = tuple(Edit(*stretch, "") for stretch in between(gone, paragraph.notes))
        if _reads_without(paragraph, sentence, edits, around):
            return Fix("Delete this sentence for good", edits)
    return None


def _live_stretches(paragraph: Paragraph, sentence: Sentence) -> Iterator[Range]:
    """Stretches of the sentence's spoken text, with words in them, that are not cut."""
    for stretch in between(sentence.plain, paragraph.cuts):
        if trimmed := _trimmed(paragraph.plain, stretch, sentence.plain):
            yield trimmed


def between(whole: Range, holes: Sequence[Range]) -> Iterator[Range]:
    """What is left of `whole` without `holes`, which are in order and apart."""
    start = whole.start
    for index in range(bisect_left(holes, start + 1, key=_end), len(holes)):
        hole = holes[index]
        if hole.start >= whole.end:
            break
        if hole.start > start:
            yield Range(start, hole.start)
        start = hole.end
    if start < whole.end:
        yield Range(start, whole.end)


def _end(where: Range) -> int:
    return where.end


def _trimmed(plain: str, stretch: Range, sentence: Range) -> Range | None:
    """`stretch` without the blanks around it, nor, next to another mark, its punctuation: two
    marks that touch would read as one longer run of plain characters."""
    words = list(_WORD.finditer(plain, stretch.start, stretch.end))
    if not words:
        return None
    start = stretch.start if stretch.start == sentence.start else words[0].start()
    end = stretch.end if stretch.end == sentence.end else words[-1].end()
    return Range(start, end)


def _past_silences(paragraph: Paragraph, end: int) -> int:
    """`end`, or the end of the last silence of those that follow it at once."""
    marks = {start: after for start, after in _silences(paragraph) if start >= end}
    at = end
    while at < len(paragraph.text):
        if at in marks:
            end = at = marks[at]
        elif paragraph.text[at].isspace():
            at += 1
        else:
            break
    return end


def _before_silences(paragraph: Paragraph, start: int) -> int:
    """`start`, or the start of the first silence of those that lead up to it at once."""
    marks = {after: before for before, after in _silences(paragraph) if after <= start}
    at = start
    while at:
        if at in marks:
            start = at = marks[at]
        elif paragraph.text[at - 1].isspace():
            at -= 1
        else:
            break
    return start


def _silences(paragraph: Paragraph) -> Iterator[Range]:
    for breath in paragraph.breaths:
        yield Range(breath.start, breath.end)
    for direction in paragraph.directions:
        if direction.bare:
            yield Range(direction.start, direction.end)


def _marked(
    title: str,
    paragraph: Paragraph,
    kind: SpanKind,
    stretches: Sequence[Range],
    extents: Iterable[Range],
) -> Fix | None:
    mark = SPAN_MARKS[kind]
    edits: list[Edit] = []
    spans: set[Span] = set()
    for start, end in extents:
        moved = len(mark) * len(edits)  # by the marks before it
        edits += (Edit(start, start, mark), Edit(end, end, mark))
        spans.add(Span(kind, start + moved, end + moved + 2 * len(mark)))
    marked = read_paragraph(applied(paragraph.text, edits))
    before, after = (_marks_of(each, kind) for each in (paragraph, marked))
    meant = sorted((*before, *stretches))
    pairs_as_meant = spans <= set(marked.spans) and marked.plain == paragraph.plain
    if pairs_as_meant and _words_in(marked, after) == _words_in(paragraph, meant):
        return Fix(title, tuple(edits))
    return None


def _marks_of(paragraph: Paragraph, kind: SpanKind) -> Sequence[Range]:
    return paragraph.cuts if kind == "cut" else paragraph.keeps


def _words_in(paragraph: Paragraph, ranges: Iterable[Range]) -> list[int]:
    """Where the words stand that begin in `ranges`."""
    return [word.start() for where in ranges for word in _WORD.finditer(paragraph.plain, *where)]


def _unmarked(
    title: str, paragraph: Paragraph, where: Range, kind: SpanKind, around: Around
) -> Fix | None:
    spans = [
        span
        for span in paragraph.spans
        if span.kind == kind
        and span.start < max(where.end, where.start + 1)
        and span.end > where.start
    ]
    edits = tuple(sorted(edit for span in spans for edit in marks_off(span)))
    if edits and stays_speech(paragraph.text, applied(paragraph.text, edits), around):
        return Fix(title, edits)
    return None


def _reads_without(
    paragraph: Paragraph, sentence: Sentence, edits: Sequence[Edit], around: Around
) -> bool:
    """Whether `edits` leave all other words, each spoken, cut or kept as it was."""
    text = applied(paragraph.text, edits)
    rest = read_paragraph(text)
    whole = Range(0, len(paragraph.plain))
    as_it_was = stays_speech(paragraph.text, text, around) and _notes(rest) == _notes(paragraph)
    return as_it_was and all(
        _texts_in(rest, after) == _texts_in(paragraph, _apart(before, sentence.plain))
        for before, after in (
            ([whole], [Range(0, len(rest.plain))]),
            (paragraph.cuts, rest.cuts),
            (paragraph.keeps, rest.keeps),
        )
    )


def stays_speech(old: str, new: str, around: Around) -> bool:
    """Whether no line of the paragraph `new` that was not in `old` could be read as anything but
    speech: a note, a rule, a cue, a setting that opens a file, or a blank line in its middle."""
    lines = split_lines(new)
    added = set(lines) - set(split_lines(old))
    return not new.strip() or not any(
        is_blank(line)
        or is_note(line)
        or read_rule(line)
        or read_cue(line, around.speakers)
        or (around.opens_file and line == lines[0] and has_opening([line]))
        for line in added
    )


def _notes(paragraph: Paragraph) -> list[str]:
    return [paragraph.text[start:end].strip() for start, end in paragraph.notes]


def _apart(ranges: Iterable[Range], hole: Range) -> Iterator[Range]:
    for where in ranges:
        yield from between(where, [hole])


def _texts_in(paragraph: Paragraph, ranges: Iterable[Range]) -> list[str]:
    """The words that stand in `ranges`."""
    return [word for where in ranges for word in _WORD.findall(paragraph.plain, *where)]


def _with_blanks(text: str, start: int, end: int) -> Iterator[Range]:
    """The range with the blanks, and the emptied line, that should go with it: those after it,
    or, where that would part a mark from its word, those before it."""
    after, before = end, start
    while after < len(text) and text[after] in _BLANKS:
        after += 1
    while before and text[before - 1] in _BLANKS:
        before -= 1
    starts_line = before == 0 or text[before - 1] == "\n"
    line_end = next((each for each in ("\n", "\r\n") if text.startswith(each, after)), None)
    if line_end and starts_line:
        yield Range(before, after + len(line_end))
    elif line_end or after == len(text):
        yield Range(before, after)
    yield Range(start, after)
    yield Range(before, end)
