"""The kept lines of drafts, brought into a piece: only what is new there, each with its trail.

A line is in a piece already if its words stand there one after another, in whatever case, with
whatever marks and punctuation, cut or not; or if it was reworded there (see `origins`). The trail
is a note under each line, since a note that opens a paragraph would name a unit of action.
"""

import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from saywright.analysis import Analysis
from saywright.cuts.new_parts import after_all, free_label, line_end_of, rule_line
from saywright.cuts.trimming import veiled
from saywright.drafting.kept_lines import KeptLine, kept_lines, paragraphs_of
from saywright.drafting.origins import told_draft, words_there
from saywright.finding import Edit, Fix
from saywright.markup.cues import read_cue
from saywright.markup.tree import Blank, Part
from saywright.speech.piece_takes import same_name
from saywright.speech.voice import language_of

NEW_PIECE = "gathered"
_LINE_END = re.compile(r"\r?\n")
_ENDED = re.compile(r"[.!?…][\"'”’»)\]]*\Z")


class Gathered(NamedTuple):
    """The lines that are brought, in the order in which they are, and the edit that does it.

    `part` is the piece that they are brought into, None where one is made for them.
    """

    lines: tuple[KeptLine, ...]
    part: Part | None
    fix: Fix


def gather(
    analysis: Analysis, part: Part | None = None, *, flow: bool = False, draft: Part | None = None
) -> Gathered | None:
    """Brings the kept lines of all drafts, or of one, into a piece, at its end; into a new one
    without `part`.

    In the file's order, or in one that flows (see `flow`). None where nothing is new.
    """
    lines = new_lines(analysis, [part] if part else [], draft)
    if not lines:
        return None
    settings = part.settings if part else analysis.settings
    if flow:
        language = language_of(settings, analysis.project)
        # loaded when it is asked for: a lens that counts the lines has no use for it
        from saywright.drafting.flow import in_flow  # noqa: PLC0415

        lines = in_flow(lines, _last_words(analysis, part), language)
    line_end = line_end_of(analysis)
    chunk = "".join(_written(analysis, lines, settings.speakers, line_end))
    if part is None:
        label = free_label(analysis, NEW_PIECE)
        edit = after_all(analysis, rule_line("piece", label, "", line_end) + chunk)
    else:
        edit = _at_end(analysis, part, chunk, line_end)
    return Gathered(tuple(lines), part, Fix(title(analysis, len(lines), part), (edit,)))


def title(analysis: Analysis, count: int, part: Part | None) -> str:
    if part is None:
        return f"{short_title(count)} into a new piece"
    pieces = [each for each in analysis.parts if each.kind == "piece"]
    alike = sum(same_name(part.label, each.label) for each in pieces)
    if part.label and alike == 1:
        return f"{short_title(count)} into “{veiled(part.label, analysis)}”"
    several = f" into piece {pieces.index(part) + 1}" if len(pieces) > 1 else ""
    return f"{short_title(count)}{several}"


def short_title(count: int) -> str:
    return f"Gather {count} kept line{'s' * (count != 1)}"


def new_lines(
    analysis: Analysis, pieces: Sequence[Part], draft: Part | None = None
) -> list[KeptLine]:
    """The kept lines that are in none of the pieces yet, each once; of all drafts, or of one."""
    found: dict[str, KeptLine] = {}
    for line in _not_there(analysis, pieces):
        if draft in (None, line.draft):
            found.setdefault(line.words, line)
    return list(found.values())


def new_in_drafts(analysis: Analysis, pieces: Sequence[Part]) -> list[tuple[Part, int]]:
    """How many each draft has of its own, of those that have any."""
    found: dict[int, tuple[Part, set[str]]] = {}
    for line in _not_there(analysis, pieces):
        found.setdefault(line.draft.start, (line.draft, set()))[1].add(line.words)
    return [(draft, len(words)) for draft, words in found.values()]


def _not_there(analysis: Analysis, pieces: Sequence[Part]) -> list[KeptLine]:
    lines = list(kept_lines(analysis))
    there = {words for part in pieces for words in words_there(analysis, part, lines)}
    return [line for line in lines if line.words not in there]


def _last_words(analysis: Analysis, part: Part | None) -> str:
    """The last paragraph of a piece as it is spoken, "" where it has none."""
    last = ""
    for _, paragraph in paragraphs_of(analysis, part) if part else ():
        last = paragraph.plain
    return last


def _written(
    analysis: Analysis, lines: Sequence[KeptLine], speakers: tuple[str, ...], line_end: str
) -> Iterator[str]:
    """The chunk, line by line. A fragment, which no full stop ends, ends its paragraph, since it
    would run on into the next line."""
    for number, line in enumerate(lines):
        written = _LINE_END.split(line.text)
        if any(read_cue(each, speakers) for each in written):
            written = [" ".join(written)]
        yield "".join(each + line_end for each in written)
        yield f"# from {told_draft(analysis, line.draft)}{line_end}"
        if number + 1 < len(lines) and not _ENDED.search(line.plain):
            yield line_end


def _at_end(analysis: Analysis, part: Part, chunk: str, line_end: str) -> Edit:
    """Puts a paragraph at a part's end, before the blank lines that end it."""
    index, at = part.end_block - 1, part.end
    last = analysis.blocks[index].block
    while isinstance(last, Blank) and index > part.first_block:
        at -= len(last.text)
        index -= 1
        last = analysis.blocks[index].block
    before = "" if last.text.endswith("\n") else line_end
    if index > part.first_block or not part.has_rule:
        before += line_end
    is_last = at == part.end and part.end < analysis.blocks.sum.length
    return Edit(at, at, f"{before}{chunk}{line_end if is_last else ''}")
