"""What a piece is called: its label, or its number where that does not tell it from others."""

from collections.abc import Sequence

from saywright.speech.piece_takes import same_name


class NoSuchPieceError(Exception):
    """No piece, or more than one, is called so; the message says what there is instead."""


def piece_called(name: str, labels: Sequence[str]) -> int:
    """The index of the piece called `name` among all of a script's, whose labels these are.

    A number, from 1, names a piece where none has it for a label. Raises `NoSuchPieceError`.
    """
    found = [index for index, label in enumerate(labels) if same_name(label, name)]
    if not found and name.strip().isascii() and name.strip().isdigit():
        number = int(name.strip()[:9])
        found = [number - 1] if 0 < number <= len(labels) else []
    if len(found) == 1:
        return found[0]
    if found:
        called = f"called “{name}”" if name.strip() else "without a label"
        raise NoSuchPieceError(
            f"There are {len(found)} pieces {called}. Name one by its number: "
            f"{listed(labels, found)}"
        )
    raise NoSuchPieceError(f"There is no piece called “{name}”. {_what_there_is(labels)}")


def listed(labels: Sequence[str], which: Sequence[int] | None = None) -> str:
    """What to call each piece by, or each of `which`: its label, or its number where it has none
    or not alone."""
    indexes = range(len(labels)) if which is None else which
    return "; ".join(_by_name(index, labels) for index in indexes) or "none"


def _by_name(index: int, labels: Sequence[str]) -> str:
    label = labels[index]
    if not label:
        return f"{index + 1} (no label)"
    alike = sum(same_name(label, other) for other in labels)
    return label if alike == 1 else f"{index + 1} (“{label}”)"


def _what_there_is(labels: Sequence[str]) -> str:
    if len(labels) == 1 and not labels[0]:
        return "There is one piece, without a label: leave out its name."
    if len(labels) == 1:
        return f"There is one piece: {labels[0]}"
    return f"There are: {listed(labels)}" if labels else "There are: none"
