"""`saywright inspect`: everything known of one script, as JSON or as a table to read."""

import json
import shutil
import sys
import textwrap
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from saywright.analysis import analyse
from saywright.files import NotTextError, UnreadableFileError, decode, nearest_project, read_script
from saywright.inspection import inspection
from saywright.speech.slot import clock

_COULD_NOT_RUN = 2
_NARROWEST, _WIDEST = 40, 76
_BEFORE_TEXT = 10  # columns


def run(file: str, as_json: bool) -> int:
    """Print what is known of `file`, or of standard input where it is `-`."""
    try:
        text = decode(sys.stdin.buffer.read()) if file == "-" else read_script(Path(file))
    except (UnreadableFileError, NotTextError) as error:
        print(f"{file}: {error}", file=sys.stderr)
        return _COULD_NOT_RUN
    # text from standard input belongs to the folder that it is piped in
    project, _ = nearest_project(Path("standard-input" if file == "-" else file))
    known = inspection(analyse(text, project))
    if as_json:
        print(json.dumps(known, ensure_ascii=False, indent=1))
    else:
        width = min(max(shutil.get_terminal_size().columns, _NARROWEST), _WIDEST)
        print("\n".join(_table(known, width)))
    return 0


def _table(known: dict[str, Any], width: int) -> Iterator[str]:
    room = width - _BEFORE_TEXT
    for part in known["parts"]:
        name = f"{part['kind']}: {part['label']}" if part["label"] else part["kind"]
        heading = f"{name}   {_times(part)}   {part['words']} words"
        yield from textwrap.wrap(heading, width, subsequent_indent="   ", break_on_hyphens=False)
        elapsed = part["lead_seconds"]
        for sentence in part["sentences"]:
            if sentence["cut"]:
                yield f"   cut   {_short(sentence['text'], room)}"
                continue
            elapsed += sentence["speech_seconds"]
            mark = "  _" if sentence["kept"] else "   "
            yield f"{clock(elapsed):>5}{mark} {_short(sentence['text'], room)}"
            if sentence["said"]:
                yield f"   said   {_short(sentence['said'], room)}"
            elapsed += sentence["pause_seconds"]


def _times(part: dict[str, Any]) -> str:
    """A part's time, and the range that holds nine readings in ten."""
    total, low, high = (clock(part[key] or 0) for key in ("seconds", "seconds_low", "seconds_high"))
    return f"{total} ({low} to {high})" if low != high else total


def _short(text: str, width: int) -> str:
    line = " ".join(text.split())
    return line if len(line) <= width else line[: width - 1].rstrip() + "…"
