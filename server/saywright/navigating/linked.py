"""What a place in a script leads to."""

from collections.abc import Iterable
from typing import NamedTuple

from saywright.markup.tree import Range


class Target(NamedTuple):
    """A place to go to, and the whole that it is of, by their file offsets."""

    place: Range
    whole: Range


class Linked(NamedTuple):
    """What is pointed at, by its range; where it leads to, best first; every place where the same
    stands or is meant, those of `home` being where it comes from; and the reader of
    `saywright.toml` that it names, if it does."""

    pointed: Range
    targets: tuple[Target, ...] = ()
    everywhere: tuple[Range, ...] = ()
    home: frozenset[Range] = frozenset()
    reader: str | None = None


def linked(
    pointed: Range,
    targets: Iterable[Target],
    everywhere: Iterable[Range],
    home: Iterable[Range] = (),
    reader: str | None = None,
) -> Linked:
    """The same in order, each place once."""
    places = tuple(sorted(set(everywhere)))
    return Linked(pointed, tuple(dict.fromkeys(targets)), places, frozenset(home), reader)


def at(place: Range) -> Target:
    return Target(place, place)
