"""Which piece of a script was read."""

from saywright.analysis import Analysis
from saywright.speech.piece_names import NoSuchPieceError, listed, piece_called
from saywright.speech.timeline import Timeline


class NoPieceError(Exception):
    """No piece can be told to be the one; the message says why, and names those there are."""


def chosen_piece(analysis: Analysis, label: str | None) -> Timeline:
    """The piece called `label`, see `piece_called`, or the only one where that is None.

    Raises `NoPieceError`.
    """
    pieces = [view.timeline for view in analysis.pieces]
    if not pieces:
        raise NoPieceError("There is no piece in this script, only drafts and notes.")
    labels = [piece.part.label for piece in pieces]
    if label is not None:
        try:
            return _with_words(pieces[piece_called(label, labels)])
        except NoSuchPieceError as error:
            raise NoPieceError(str(error)) from error
    if len(pieces) > 1:
        raise NoPieceError(
            f"There are several pieces. Say with --part which was read: {listed(labels)}"
        )
    return _with_words(pieces[0])


def _with_words(piece: Timeline) -> Timeline:
    if not piece.stretch.sounds:
        raise NoPieceError("Nothing is spoken in this piece.")
    return piece
