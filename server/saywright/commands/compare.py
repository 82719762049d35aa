"""`saywright compare`: what became of each sentence from one version of a piece to another.

With `--json` it prints `{"before", "after", "pieces"}`: what the two versions are called, and each
piece as `comparing.as_dictionary` has it. Of one that only one version has, `before` and `after`
are its `part`, `start` and `end`, or null, and `same_words` is false: it has no `lines`. With
`--history` it is `{"file", "part", "revisions"}`, newest first: each `revision` (null for the
script as it is now), `when` (ISO 8601), `seconds`, and `lines`, how many of each kind were changed
since the one before (null where there was none).
"""

import json
import shutil
import sys
from pathlib import Path
from typing import Any, NamedTuple

from saywright.analysis import Analysis, analyse
from saywright.checks.check import View
from saywright.commands.compare_history import told_history
from saywright.commands.compare_table import NARROWEST, told_comparison
from saywright.commands.wide_text import wrapped
from saywright.comparing.as_dictionary import as_dictionary
from saywright.comparing.comparison import Comparison, compare, side_of
from saywright.comparing.pieces import (
    NoPieceError,
    Pair,
    label_of,
    named_piece,
    pairs,
    same_piece,
)
from saywright.files import NotTextError, UnreadableFileError, decode, nearest_project, read_script
from saywright.history import NoHistoryError, content_at

_COULD_NOT_RUN = 2
_LAST_COMMIT = "HEAD"
_OR_A_FILE = "Name another file to compare it with."


class Told(NamedTuple):
    """What the command line says; None where it does not. `other`: a file to compare with;
    `with_part`: the label of a piece to compare with; `since`: a revision; `last`: so many
    revisions of the history."""

    script: Path
    other: Path | None
    part: str | None
    with_part: str | None
    since: str | None
    last: int | None
    json: bool


class CannotCompareError(Exception):
    """A file that cannot be read; the message names it."""


class _Version(NamedTuple):
    """One of the two, and what it is called in what is printed."""

    name: str
    analysis: Analysis


class _Found(NamedTuple):
    """A piece of the two versions of those names; not compared where one of them lacks it."""

    before: str
    after: str
    pair: Pair
    comparison: Comparison | None


def run(told: Told) -> int:
    """Print what has changed; returns 0 where the same words are spoken, or else 1."""
    try:
        if told.last is not None:
            return _tell_history(told, told.last)
        before, after = _versions(told)
        chosen = _chosen(told, before.analysis, after.analysis)
    except (NoPieceError, NoHistoryError) as error:
        asked = told.since is not None or told.last is not None
        hint = "" if asked or isinstance(error, NoPieceError) else f" {_OR_A_FILE}"
        print(f"{told.script}: {error}{hint}", file=sys.stderr)
        return _COULD_NOT_RUN
    except CannotCompareError as error:
        print(error, file=sys.stderr)
        return _COULD_NOT_RUN
    found = [_found(before, after, pair) for pair in chosen]
    if told.json:
        pieces = [_as_dictionary(each) for each in found]
        known = {"before": before.name, "after": after.name, "pieces": pieces}
        print(json.dumps(known, ensure_ascii=False, indent=1))
    else:
        columns = shutil.get_terminal_size().columns
        blocks = ["\n".join(_told(each, len(found) > 1, columns)) for each in found]
        print("\n\n".join(blocks))
    return int(not all(each.comparison and each.comparison.same_words for each in found))


def _versions(told: Told) -> tuple[_Version, _Version]:
    now = _version(told.script)
    if told.other:
        return now, _version(told.other)
    if told.with_part is not None and told.since is None:
        return now, now
    revision = told.since or _LAST_COMMIT
    return _version_at(told.script, revision), now


def _version(path: Path) -> _Version:
    try:
        return _Version(str(path), analyse(read_script(path), nearest_project(path)[0]))
    except (UnreadableFileError, NotTextError) as error:
        raise CannotCompareError(f"{path}: {error}") from error


def _version_at(path: Path, revision: str) -> _Version:
    """The script as it was, timed as the project times it now."""
    try:
        text = decode(content_at(path, revision))
    except NotTextError as error:
        raise CannotCompareError(f"{path} at {revision}: {error}") from error
    return _Version(f"{path} at {revision}", analyse(text, nearest_project(path)[0]))


def _chosen(told: Told, before: Analysis, after: Analysis) -> list[Pair]:
    if told.part is None:
        found = pairs(before, after)
        if not found:
            raise NoPieceError("There is no piece to compare, only drafts and notes.")
        return found
    if told.with_part is not None:
        return [Pair(named_piece(before, told.part), named_piece(after, told.with_part))]
    if told.other:
        one = named_piece(before, told.part)
        return [Pair(one, same_piece(after, before, one))]
    two = named_piece(after, told.part)
    return [Pair(same_piece(before, after, two), two)]


def _found(before: _Version, after: _Version, pair: Pair) -> _Found:
    if pair.before is None or pair.after is None:
        return _Found(before.name, after.name, pair, None)
    sides = side_of(before.analysis, pair.before), side_of(after.analysis, pair.after)
    return _Found(before.name, after.name, pair, compare(*sides))


def _told(found: _Found, named: bool, columns: int) -> list[str]:
    """`named`: say which piece it is."""
    if found.comparison:
        before, after = found.pair if named else (None, None)
        names = _with_label(found.before, before), _with_label(found.after, after)
        return told_comparison(names, found.comparison, columns)
    in_after = found.pair.after is not None
    name = _with_label(found.after if in_after else found.before, found.pair[in_after])
    return wrapped(f"{name}: only in this version.", max(columns, NARROWEST))


def _with_label(name: str, view: View | None) -> str:
    return f"{name}, {label_of(view)}" if view else name


def _as_dictionary(found: _Found) -> dict[str, Any]:
    if found.comparison:
        return as_dictionary(found.comparison)
    before, after = _place(found.pair.before), _place(found.pair.after)
    return {"before": before, "after": after, "same_words": False}


def _place(view: View | None) -> dict[str, Any] | None:
    if view is None:
        return None
    part = view.timeline.part
    return {"part": part.label, "start": part.start, "end": part.end}


def _tell_history(told: Told, last: int) -> int:
    try:
        print(told_history(told.script, told.part, last, told.json))
    except (UnreadableFileError, NotTextError) as error:
        raise CannotCompareError(f"{told.script}: {error}") from error
    return 0
