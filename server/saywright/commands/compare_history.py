"""A script's past in Git, a line for each revision: its time, and what was done to its lines."""

import json
import shutil
from collections.abc import Iterator, Sequence
from itertools import pairwise
from pathlib import Path
from typing import Any, NamedTuple

from saywright.analysis import Analysis, analyse
from saywright.checks.check import View
from saywright.commands.compare_table import NARROWEST, WORDS
from saywright.commands.wide_text import columns_of, wrapped
from saywright.comparing.changes import Kind
from saywright.comparing.comparison import Comparison, compare, side_of
from saywright.comparing.pieces import named_piece, only_piece, same_piece
from saywright.files import NotTextError, decode, nearest_project, read_script
from saywright.history import Revision, content_of, revisions
from saywright.project import Project
from saywright.speech.slot import clock

_WIDEST = 80
_DAY = "%Y-%m-%d %H:%M"


class _Entry(NamedTuple):
    """The script at a revision, None for as it is now, and the piece in it, None without one."""

    revision: Revision | None
    analysis: Analysis
    view: View | None


class _Row(NamedTuple):
    """A revision and what it changed; `comparison` is None where there was no piece before it."""

    entry: _Entry
    comparison: Comparison | None
    is_first: bool


def told_history(script: Path, label: str | None, last: int, as_json: bool) -> str:
    """What to print of the last revisions of a piece, newest first.

    Raises what reading the script and its history do.
    """
    project = nearest_project(script)[0]
    now = analyse(read_script(script), project)
    view = only_piece(now, "--part") if label is None else named_piece(now, label)
    known = revisions(script, last + 1)
    entries = [_Entry(None, now, view)]
    entries += (_entry(script, each, project, entries[0]) for each in known)
    rows = list(_rows(entries, complete=len(known) <= last))
    if as_json:
        told = {"file": str(script), "part": label_of_part(view)}
        return json.dumps(
            {**told, "revisions": [_as_dictionary(row) for row in rows]},
            ensure_ascii=False,
            indent=1,
        )
    width = min(max(shutil.get_terminal_size().columns, NARROWEST), _WIDEST)
    return "\n".join(line for row in rows for line in _line(row, width))


def label_of_part(view: View) -> str:
    return view.timeline.part.label


def _entry(script: Path, revision: Revision, project: Project, now: _Entry) -> _Entry:
    assert now.view
    try:
        text = decode(content_of(script, revision))
    except NotTextError:
        text = ""  # it was something else then; there is no piece in it
    analysis = analyse(text, project)
    return _Entry(revision, analysis, same_piece(analysis, now.analysis, now.view))


def _rows(entries: Sequence[_Entry], complete: bool) -> Iterator[_Row]:
    for later, earlier in pairwise(entries):
        comparison = _compared(earlier, later)
        if later.revision is None and comparison and not _counts(comparison):
            continue  # nothing has been written since
        yield _Row(later, comparison, is_first=False)
    if complete or len(entries) == 1:
        yield _Row(entries[-1], None, is_first=True)


def _compared(earlier: _Entry, later: _Entry) -> Comparison | None:
    if earlier.view and later.view:
        return compare(side_of(earlier.analysis, earlier.view), side_of(later.analysis, later.view))
    return None


def _counts(comparison: Comparison) -> dict[Kind, int]:
    return {kind: total.lines for kind, total in comparison.totals.items() if kind != "unchanged"}


def _line(row: _Row, width: int) -> list[str]:
    entry = row.entry
    day = entry.revision.when.strftime(_DAY) if entry.revision else "now"
    name = entry.revision.short_name if entry.revision else ""
    time = clock(entry.view.timeline.seconds) if entry.view else "–"
    head = f"{day:<16}  {name:<9} {time:>5}  "
    what = _what(row)
    if columns_of(head) + columns_of(what) <= width:
        return [head + what]
    return [head.rstrip(), *wrapped(what, width, " " * 4, " " * 4)]


def _what(row: _Row) -> str:
    if not row.entry.view:
        return "no such piece"
    if not row.comparison:
        return "first" if row.is_first else "the piece is new"
    counts = _counts(row.comparison)
    return ", ".join(f"{count} {WORDS[kind]}" for kind, count in counts.items()) or "as before"


def _as_dictionary(row: _Row) -> dict[str, Any]:
    revision, view = row.entry.revision, row.entry.view
    return {
        "revision": revision.name if revision else None,
        "when": revision.when.isoformat() if revision else None,
        "seconds": round(view.timeline.seconds, 6) if view else None,
        "lines": _counts(row.comparison) if row.comparison else None,
    }
