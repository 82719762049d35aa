"""What little may be completed where words are spoken: a silence in its brackets, and a cue."""

import re
from collections.abc import Iterator

from saywright.completing.candidate import Candidate, Line, field
from saywright.markup.silences import NAMES, Silence, read_direction
from saywright.speech.voice import Voice

_OPEN_BRACKET = re.compile(r"(?<!\\)\((?P<words>[^()]{0,40})\Z")
_NEAR = 50
_FEWEST_LETTERS = 2
_SILENCES = (*NAMES, "short pause", "long pause", "pause 2s", "silence 4s")
_WITH_TIME = {"pause 2s": ("pause ", "2s"), "silence 4s": ("silence ", "4s")}


def silences(line: Line, voice: Voice) -> Iterator[Candidate]:
    """Silences, where the cursor stands in brackets that hold the start of one, or nothing."""
    bracket = _OPEN_BRACKET.search(line.before, max(line.cursor - _NEAR, 0))
    if not bracket:
        return
    so_far = bracket["words"].lower()
    start = bracket.start("words")
    closing = "" if line.after.lstrip()[:1] == ")" else ")"
    for words in _SILENCES:
        if words.startswith(so_far):
            silence = read_direction(words).silence or Silence(None)
            what = f"{voice.seconds_of(silence):g} s"
            yield Candidate(
                words,
                words + closing,
                start,
                line.cursor,
                "silence",
                what,
                _snippet(words, closing),
            )


def _snippet(words: str, closing: str) -> str | None:
    if words not in _WITH_TIME:
        return None
    name, time = _WITH_TIME[words]
    return f"{name}{field(1, time)}{closing}"


def cues(line: Line, speakers: tuple[str, ...], speaking: str | None) -> Iterator[Candidate]:
    """Cues, where the line is blank or may be the start of one and of nothing else.

    Where one alone speaks, nobody writes cues; where a word is being written, two letters of a
    name are waited for. Whoever speaks now comes last.
    """
    so_far = line.text.strip()
    if line.after.strip() or (so_far and len(speakers) < 2):
        return
    if so_far and len(so_far) < _FEWEST_LETTERS:
        return
    start = len(line.before) - len(line.before.lstrip())
    for name in sorted(speakers, key=lambda name: name == speaking):
        if name.startswith(so_far):
            yield Candidate(name, f"{name}:", start, line.cursor, "name", "speaks from here on")
