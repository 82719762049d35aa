"""Which pieces of two scripts are versions of one another."""

from typing import NamedTuple

from saywright.analysis import Analysis
from saywright.checks.check import View
from saywright.speech.piece_names import NoSuchPieceError, listed, piece_called
from saywright.speech.piece_takes import same_name

_NO_LABEL = "(no label)"


class NoPieceError(Exception):
    """No piece can be told to be the one; the message is for the writer."""


class Pair(NamedTuple):
    """A piece and its other version; None on the side that has none."""

    before: View | None
    after: View | None


def named_piece(analysis: Analysis, label: str) -> View:
    """The one piece called `label`, see `piece_called`. Raises `NoPieceError`."""
    pieces = list(analysis.pieces)
    try:
        return pieces[piece_called(label, [_label(view) for view in pieces])]
    except NoSuchPieceError as error:
        raise NoPieceError(str(error)) from error


def only_piece(analysis: Analysis, option: str) -> View:
    """The only piece there is. Raises `NoPieceError`, which names the option to choose one by."""
    pieces = list(analysis.pieces)
    if not pieces:
        raise NoPieceError("There is no piece in it, only drafts and notes.")
    if len(pieces) > 1:
        labels = listed([_label(view) for view in pieces])
        raise NoPieceError(f"There are several pieces. Name one with {option}: {labels}")
    return pieces[0]


def same_piece(analysis: Analysis, other: Analysis, view: View) -> View | None:
    """What a piece of the `other` script is here: the piece of its label, of several in their
    order, or the only one there is; None where there is neither."""
    pieces, label = list(analysis.pieces), _label(view)
    found = [each for each in pieces if same_name(_label(each), label)]
    alike = [each for each in other.pieces if same_name(_label(each), label)]
    at = alike.index(view)
    return found[at] if at < len(found) else pieces[0] if len(pieces) == 1 else None


def pairs(before: Analysis, after: Analysis) -> list[Pair]:
    """Every piece of either script in one pair: by label, each label's in order, and then, if one
    is left on each side, those two. In the order of `after`, what has gone last."""
    ones, twos = list(before.pieces), list(after.pieces)
    found: list[Pair] = []
    for two in twos:
        one = next((one for one in ones if same_name(_label(one), _label(two))), None)
        if one:
            ones.remove(one)
        found.append(Pair(one, two))
    new = [index for index, pair in enumerate(found) if not pair.before]
    if len(ones) == len(new) == 1:
        found[new[0]] = Pair(ones.pop(), found[new[0]].after)
    return [*found, *(Pair(one, None) for one in ones)]


def label_of(view: View) -> str:
    """Its label as it is told."""
    return _label(view) or _NO_LABEL


def _label(view: View) -> str:
    return view.timeline.part.label
