"""The known word that a misspelt one was most likely meant to be."""

from collections.abc import Iterable


def nearest(word: str, known: Iterable[str], *, most: int | None = None) -> str | None:
    """The closest of `known` to `word`, case aside, or None if none is a slip or two away.

    A slip is a letter left out, put in, changed, or swapped with its neighbour. How many are
    forgiven grows with the known word: none below three letters, one below five, else two;
    `most` lowers that.
    """
    folded = word.casefold()
    best: tuple[int, str] | None = None
    for candidate in known:
        allowed = (
            _forgiven(len(candidate)) if most is None else min(most, _forgiven(len(candidate)))
        )
        slips = _slips(folded, candidate.casefold(), allowed)
        if slips is not None and (best is None or slips < best[0]):
            best = slips, candidate
    return best[1] if best else None


def _forgiven(length: int) -> int:
    return 0 if length < 3 else 1 if length < 5 else 2


def _slips(word: str, other: str, allowed: int) -> int | None:
    """Restricted Damerau-Levenshtein distance, or None where it is more than `allowed`."""
    if abs(len(word) - len(other)) > allowed:
        return None
    before: list[int] = []
    row = list(range(len(other) + 1))
    for i, letter in enumerate(word, 1):
        before, above, row = row, before, [i]
        for j, goal in enumerate(other, 1):
            cost = min(before[j] + 1, row[j - 1] + 1, before[j - 1] + (letter != goal))
            if i > 1 and j > 1 and letter == other[j - 2] and word[i - 2] == goal:
                cost = min(cost, above[j - 2] + 1)
            row.append(cost)
    return row[-1] if row[-1] <= allowed else None
