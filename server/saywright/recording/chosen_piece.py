"""Which piece of a script was read."""

from collections.abc import Iterable

from saywright.analysis import Analysis
from saywright.speech.piece_takes import same_name
from saywright.speech.timeline import Timeline

_NO_LABEL = "(no label)"


class NoPieceError(Exception):
    """No piece can be told to be the one; the message says why, and names those there are."""


def chosen_piece(analysis: Analysis, label: str | None) -> Timeline:
    """The piece called `label`, or the only one where that is None. Raises `NoPieceError`."""
    pieces = [view.timeline for view in analysis.pieces]
    if not pieces:
        raise NoPieceError("There is no piece in this script, only drafts and notes.")
    if label is None:
        if len(pieces) > 1:
            raise NoPieceError(
                f"There are several pieces. Say with --part which was read: {_listed(pieces)}"
            )
        return _with_words(pieces[0])
    found = [piece for piece in pieces if same_name(piece.part.label, label)]
    if not found:
        raise NoPieceError(f"There is no piece called “{label}”. There are: {_listed(pieces)}")
    if len(found) > 1:
        raise NoPieceError(f"There are {len(found)} pieces called “{label}”. Rename one first.")
    return _with_words(found[0])


def _with_words(piece: Timeline) -> Timeline:
    if not piece.stretch.sounds:
        raise NoPieceError("Nothing is spoken in this piece.")
    return piece


def _listed(pieces: Iterable[Timeline]) -> str:
    return "; ".join(piece.part.label or _NO_LABEL for piece in pieces)
