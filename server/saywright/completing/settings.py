"""Settings: their keys with what they are for, and values, in the lines that open a file and on
rules."""

import re
from collections.abc import Collection, Iterator, Mapping
from string import ascii_letters

from saywright.analysis import Analysis
from saywright.completing.candidate import Candidate, Line, choice, field
from saywright.completing.values import LISTS, usual_values, values_of
from saywright.markup.settings import RULE_KEYS

_KEY_LETTERS = f"{ascii_letters}-"
_KEY_GOES_ON = re.compile(r"[A-Za-z-]*")
_BLANKS = re.compile(r"[ \t]*")
_ALONE = "alphabet"
_EXAMPLES: Mapping[str, str] = {"speaker": "name", "leave-out": "check"}


def keys(line: Line, known: Collection[str], gap: str) -> Iterator[Candidate]:
    """The `known` keys, where `line` holds the start of one before the cursor, or none yet.
    `gap` stands between a key and its value."""
    start = len(line.before.rstrip(_KEY_LETTERS))
    end = _end(_KEY_GOES_ON, line.text, line.cursor)
    has_value = bool(line.text[end:].partition(";")[0].strip())
    for key in known:
        what = RULE_KEYS[key].what
        if has_value or key == _ALONE:
            yield Candidate(key, key, start, end, "key", what)
        else:
            snippet = f"{key}{gap}{_place(key)}"
            yield Candidate(key, f"{key}{gap}", start, end, "key", what, snippet)


def _place(key: str) -> str:
    """Where the value goes, in a snippet."""
    if values := usual_values(key):
        return choice(1, values)
    return field(1, _EXAMPLES[key]) if key in _EXAMPLES else "$0"


def values(line: Line, key: str, start: int, end: int, analysis: Analysis) -> Iterator[Candidate]:
    """Values for `key`, whose own stands from `start` to `end` of the line, the cursor in it. Of
    a list, names for the place between two commas that the cursor is at."""
    listed: set[str] = set()
    if key in LISTS:
        whole = line.text[start:end]
        own_start = line.text.rfind(",", start, line.cursor) + 1 or start
        comma = line.text.find(",", line.cursor, end)
        own_end = comma if comma >= 0 else end
        listed = {_folded(name) for name in whole.split(",")}
        listed.discard(_folded(line.text[own_start:own_end]))
        start, end = own_start, own_end
    start = min(_end(_BLANKS, line.text, start), line.cursor)
    end = max(start + len(line.text[start:end].rstrip()), line.cursor)
    gap = "" if line.text[start - 1 : start].isspace() else " "
    for value in values_of(key, analysis):
        if _folded(value.text) not in listed:
            yield Candidate(
                value.text, gap + value.text, start, end, "value", value.what, None, value.check
            )


def _folded(text: str) -> str:
    return " ".join(text.split()).casefold()


def _end(what: re.Pattern[str], text: str, start: int) -> int:
    match = what.match(text, start)
    return match.end() if match else start
