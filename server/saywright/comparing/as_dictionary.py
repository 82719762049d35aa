"""A comparison as plain dictionaries and lists, ready for JSON. The shape is public."""

from typing import Any

from saywright.comparing.changes import Change
from saywright.comparing.comparison import Comparison, Side
from saywright.comparing.lines import Line
from saywright.comparing.words import WordChange


def as_dictionary(comparison: Comparison) -> dict[str, Any]:
    """`{"before", "after", "same_words", "seconds", "opening_seconds", "totals", "lines"}`.

    `before` and `after` have the piece's `part` (its label), `start` and `end` in its file,
    `seconds`, `slot_seconds` ([low, high] or None), `aim_seconds` (the slot less its margin, or
    None) and `over_seconds` (below zero where it is shorter than that, or None).

    `same_words`: whether the same words are spoken in the same order. `seconds` is by how much
    the piece is longer: the `seconds` of all `totals` and `opening_seconds`, of the silence before
    the first word. `totals` has, by kind, `lines` and `seconds`.

    `lines` has every sentence of either version once, in order. Each has `kind`: unchanged, cut,
    restored, trimmed (partly cut), partly restored, added, taken out, reworded, split, joined,
    punctuation, moved, kept, released or silences; `also`, which of these are true of it too (an
    added sentence that is marked as cut is added, and also cut); `seconds`, by how much the piece
    is longer for it; `before` and `after`, the sentence in either version: a list, empty where it
    is not there, of two where it was split or joined. A sentence has `start`, `end`, `text` (all
    its words, marks off), `at_seconds` (when it is heard), `seconds` (its speech and the silence
    after it, zero where it is cut), `silence_seconds` (marked, of its own), `kept` and `cut`.

    `words` has what was done to words: `how` (gone, new, cut or restored), `text`, `start` and
    `end`. All offsets are half-open code points: of the file before in `before` and where words
    are gone, else of the file after.
    """
    return {
        "before": _side(comparison.before),
        "after": _side(comparison.after),
        "same_words": comparison.same_words,
        "seconds": _rounded(comparison.seconds),
        "opening_seconds": _rounded(comparison.opening_seconds),
        "totals": {
            kind: {"lines": total.lines, "seconds": _rounded(total.seconds)}
            for kind, total in comparison.totals.items()
        },
        "lines": [_change(change) for change in comparison.changes],
    }


def _side(side: Side) -> dict[str, Any]:
    part, aim = side.view.timeline.part, side.view.aim
    over = side.over_seconds
    return {
        "part": part.label,
        "start": part.start,
        "end": part.end,
        "seconds": _rounded(side.seconds),
        "slot_seconds": list(part.settings.slot) if part.settings.slot else None,
        "aim_seconds": _rounded(aim.seconds) if aim else None,
        "over_seconds": None if over is None else _rounded(over),
    }


def _change(change: Change) -> dict[str, Any]:
    return {
        "kind": change.kind,
        "also": list(change.also),
        "seconds": _rounded(change.seconds),
        "before": [_line(line) for line in change.before],
        "after": [_line(line) for line in change.after],
        "words": [_word(word) for word in change.words],
    }


def _line(line: Line) -> dict[str, Any]:
    return {
        "start": line.start,
        "end": line.end,
        "text": line.text,
        "at_seconds": _rounded(line.first_seconds),
        "seconds": _rounded(line.seconds),
        "silence_seconds": _rounded(sum(line.silences)),
        "kept": line.kept,
        "cut": line.cut,
    }


def _word(word: WordChange) -> dict[str, Any]:
    return {"how": word.how, "start": word.start, "end": word.end, "text": word.text}


def _rounded(seconds: float) -> float:
    return round(seconds, 6) + 0.0  # no minus before a zero
