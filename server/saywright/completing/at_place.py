"""What may be written where the cursor stands. In plain speech that is nothing."""

import re
from bisect import bisect_right
from collections.abc import Iterator
from itertools import islice

from saywright.analysis import Analysis, is_spoken
from saywright.completing.candidate import Candidate, Line
from saywright.completing.rules import in_rule, is_rule_so_far
from saywright.completing.settings import keys, values
from saywright.completing.speech import cues, silences
from saywright.completing.takes import after_time
from saywright.markup.lines import is_blank, is_note, lead_length, read_setting
from saywright.markup.settings import KEYS
from saywright.markup.tree import Blank, Note, Part, Setting
from saywright.speech.voice import voice_of


def completions_at(analysis: Analysis, offset: int, today: str) -> tuple[Candidate, ...]:
    """The candidates at the file's `offset`, best first, their ranges the file's; `today` is a
    date as 2026-11-25."""
    place = _Place(analysis, offset)
    start = offset - place.line.cursor
    return tuple(each.shifted(start) for each in place.candidates(today))


_REST_OF_LINE = re.compile(r"[^\r\n]*")
_LONGEST_NOTES = 2000
_MOST_BLOCKS = 50


class _Place:
    """The cursor's line, the block that it is of, and the part."""

    def __init__(self, analysis: Analysis, offset: int) -> None:
        self.analysis = analysis
        blocks = analysis.blocks
        found = blocks.find(lambda sum: sum.length > offset)
        if found:
            text, self.index = found.item.block.text, found.index
            local = offset - found.before.length
        else:
            self.index = max(len(blocks) - 1, 0)
            text = blocks[self.index].block.text if len(blocks) else ""
            local = len(text)
        if not found and text.endswith("\n"):  # the line after the last
            text, local, self.index = "", 0, len(blocks)
        start = max(text.rfind(end, 0, local) for end in "\r\n") + 1
        match = _REST_OF_LINE.match(text, local)
        self.line = Line(text[start : match.end() if match else local], local - start)
        lines_before = text[: min(start, _LONGEST_NOTES)].splitlines()
        self.begins = start < _LONGEST_NOTES and all(map(is_note, lines_before))
        """Whether nothing but notes goes before it in its block."""

    @property
    def part(self) -> Part | None:
        """The part that the line is in, unless it stands before all text that is spoken."""
        parts = self.analysis.parts
        index = bisect_right(parts, self.index, key=lambda part: part.first_block) - 1
        return parts[index] if index >= 0 else None

    def candidates(self, today: str) -> Iterator[Candidate]:
        part, line = self.part, self.line
        kind = part.kind if part else "piece"
        if is_rule_so_far(line):
            yield from in_rule(line, self.analysis)
        elif is_note(line.text):
            return
        elif self._is_in_opening():
            yield from self._in_opening()
        elif kind == "takes" and part:
            yield from after_time(line, part, self.analysis, today)
        elif is_spoken(kind):
            yield from self._in_speech(part)

    def _in_speech(self, part: Part | None) -> Iterator[Candidate]:
        settings = part.settings if part else self.analysis.settings
        yield from silences(self.line, voice_of(settings, self.analysis.project))
        if self._may_be_cue():
            yield from cues(self.line, settings.speakers, self._speaking(part))

    def _may_be_cue(self) -> bool:
        """A cue is looked for where a paragraph begins, not in the middle of one."""
        return self.begins or is_blank(self.line.text)

    def _speaking(self, part: Part | None) -> str | None:
        if part is None:
            return None
        before = self.analysis.blocks.sum_between(part.first_block, self.index)
        speakers = part.settings.speakers
        return before.stretch.cue or (speakers[0] if speakers else None)

    def _is_in_opening(self) -> bool:
        """Whether the line is one of the settings that open the file, or may become one."""
        analysis = self.analysis
        if self.index < analysis.opening:
            return True
        if analysis.opening:
            return self.index == analysis.opening and self.begins and is_blank(self.line.text)
        return self._may_open()

    def _may_open(self) -> bool:
        """Of a file without settings: whether nothing but blank lines and notes goes before, and
        the line is blank or the start of a key, in small letters."""
        if not self.begins or not any(key.startswith(self._written()) for key in KEYS):
            return False
        items = self.analysis.blocks.items()
        before = [each.block for each in islice(items, min(self.index, _MOST_BLOCKS))]
        return all(isinstance(block, Blank | Note) for block in before)

    def _written(self) -> str:
        return self.line.text[lead_length(self.line.text) :].rstrip()

    def _in_opening(self) -> Iterator[Candidate]:
        line = self.line
        setting = read_setting(line.text)
        if setting and line.cursor > setting.key_range.end:
            key = setting.key.casefold()
            colon = line.text.index(":", setting.key_range.end)
            if key in KEYS and line.cursor > colon:
                yield from values(line, key, colon + 1, len(line.text), self.analysis)
            return
        set_already = self._keys_set() - {setting.key.casefold() if setting else ""}
        written = "" if self.analysis.opening else self._written()
        wanted = [key for key in KEYS if key not in set_already and key.startswith(written)]
        yield from keys(line, wanted, ": ")

    def _keys_set(self) -> set[str]:
        opening = min(self.analysis.opening, _MOST_BLOCKS)
        blocks = (each.block for each in islice(self.analysis.blocks.items(), opening))
        return {block.key for block in blocks if isinstance(block, Setting) and block.key}
