"""Where the server and the colours disagree on a text, as lines to be read and to be listed."""

import unicodedata
from collections.abc import Collection, Iterable, Iterator
from itertools import groupby

from tests.grammar.escapes import quoted

from .kinds import Marked


def disagreements(
    text: str, server: Iterable[Marked], colours: Iterable[Marked], kinds: Collection[str]
) -> list[str]:
    """One line for each stretch that only one of the two takes for what the line says.

    Of the server's kinds only `kinds` are looked at. White space and characters that nobody sees
    are of no kind.
    """
    seen_by_server = _by_kind(text, (mark for mark in server if mark.kind in kinds))
    seen_by_colours = _by_kind(text, colours)
    return sorted(
        (
            *_lines(text, "server", seen_by_server, seen_by_colours),
            *_lines(text, "colours", seen_by_colours, seen_by_server),
        )
    )


def _by_kind(text: str, marked: Iterable[Marked]) -> dict[str, set[int]]:
    kinds: dict[str, set[int]] = {}
    for kind, start, end in marked:
        visible = (at for at in range(start, end) if _is_visible(text[at]))
        kinds.setdefault(kind, set()).update(visible)
    return kinds


def _is_visible(character: str) -> bool:
    return not character.isspace() and unicodedata.category(character) not in {"Cc", "Cf"}


def _lines(
    text: str, who: str, theirs: dict[str, set[int]], others: dict[str, set[int]]
) -> Iterator[str]:
    for kind in sorted(theirs):
        only_theirs = theirs[kind] - others.get(kind, set())
        for start, end in _stretches(text, only_theirs):
            yield f"only {who}: {kind} {quoted(text[start:end])}"


def _stretches(text: str, offsets: set[int]) -> Iterator[tuple[int, int]]:
    """The runs of `offsets`, with what nobody sees between two of them."""
    visible = (at for at, character in enumerate(text) if _is_visible(character))
    for is_in, run in groupby(visible, offsets.__contains__):
        if is_in:
            places = list(run)
            yield places[0], places[-1] + 1
