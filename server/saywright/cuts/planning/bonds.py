"""What a line leans on: what it costs to keep it without the line before, or after, or far off.

A line leans on the one before where it answers it, goes on from it or leaves out what that said
(`leaning`), on an earlier one that names what it points back to (`references`) or that said before
what it says again (`echoes`), and on those that it is set together with (`ties`).
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import pairwise
from typing import NamedTuple

from saywright.cuts.planning.echoes import echoes
from saywright.cuts.planning.leaning import on_after, on_before
from saywright.cuts.planning.piece import SpokenLine, TrimmedLine
from saywright.cuts.planning.predicates import events
from saywright.cuts.planning.problem import Bond
from saywright.cuts.planning.references import Reference, references
from saywright.cuts.planning.ties import ties
from saywright.cuts.planning.value import Worth
from saywright.cuts.planning.words import words_of
from saywright.language.english.mentions import mentions
from saywright.language.english.tag import is_english

SEAM = 20
"""What it costs to enter a line after a cut in its paragraph, if it leans on nothing there."""

_ENTER_PARAGRAPH = 10
_LEAVE = 10
_BY_KEPT = 40  # what happens right before or after a kept line
_MOST_BONDS_OF_A_LINE = 3
_MOST_OPEN, _MOST_OPEN_IN_SHORT, _SHORT_LINES = 3, 4, 45  # what a search has time for
_LEAST_BOND = 40
_SURE = 2.5  # times the mean worth of a second


class Leaning(NamedTuple):
    """For each line what it costs to enter it after a cut and to leave it before one, points;
    the bonds between lines that are no neighbours; what a line is worth besides because a kept
    line needs it, or others do and it stays in any plan; and for each of a line's trims what it
    costs that later lines point to what goes."""

    enter: list[int]
    leave: list[int]
    bonds: tuple[Bond, ...]
    needed: list[int]
    trims: list[tuple[int, ...]]
    references: list[Reference]


def leanings(
    lines: Sequence[SpokenLine], worth: Sequence[Worth], language: str, *, verse: bool = False
) -> Leaning:
    texts = [line.text for line in lines]
    enter, leave = _next_to(lines, worth, language)
    found = echoes(lines, worth, language)
    if is_english(language):
        found += references(texts)
    costs: dict[tuple[int, int], int] = defaultdict(int)
    pointed_to: dict[int, list[Reference]] = defaultdict(list)
    for each in found:
        costs[each.early, each.late] += each.cost
        pointed_to[each.early].append(each)
    for tie in ties(lines, language, verse=verse):
        if tie.without < tie.stays:
            costs[tie.without, tie.stays] += tie.cost
        else:
            leave[tie.stays] += tie.cost
    needed, far = _placed(lines, costs, enter)
    far = _without_the_sure(far, lines, worth, needed)
    trims = [
        tuple(_lost(trim, pointed_to[index], language) for trim in line.trims)
        for index, line in enumerate(lines)
    ]
    most_open = _MOST_OPEN_IN_SHORT if len(lines) <= _SHORT_LINES else _MOST_OPEN
    bonds = tuple(sorted(_strongest(far, most_open)))
    return Leaning(enter, leave, bonds, needed, trims, found)


def _next_to(
    lines: Sequence[SpokenLine], worth: Sequence[Worth], language: str
) -> tuple[list[int], list[int]]:
    """What it costs to enter each line after a cut, and to leave it before one."""
    enter, leave = [SEAM] * len(lines), [_LEAVE] * len(lines)
    for index, (one, other) in enumerate(pairwise(lines), 1):
        before, text = one.text, other.text
        enter[index] = _ENTER_PARAGRAPH if one.ends else SEAM
        enter[index] += on_before(before, text, language)
        leave[index - 1] += on_after(before, text, language, announces=worth[index - 1].announces)
        if other.sentence.kept and events(before, language):
            enter[index] += _BY_KEPT
        if one.sentence.kept and events(text, language):
            leave[index - 1] += _BY_KEPT
    return enter, leave


def _placed(
    lines: Sequence[SpokenLine], costs: Mapping[tuple[int, int], int], enter: list[int]
) -> tuple[list[int], list[Bond]]:
    """What a line is worth besides because one needs it that never goes, and the bonds of those
    that may go; what joins neighbours is added to `enter`."""
    needed = [0] * len(lines)
    far: list[Bond] = []
    for (early, late), cost in costs.items():
        if lines[early].places is None:
            continue  # it never goes
        if late == early + 1:
            enter[late] += cost
        elif lines[late].places is None:
            needed[early] += cost
        elif cost >= _LEAST_BOND:
            far.append(Bond(early, late, cost))
    return needed, far


def _without_the_sure(
    bonds: Sequence[Bond],
    lines: Sequence[SpokenLine],
    worth: Sequence[Worth],
    needed: list[int],
) -> list[Bond]:
    """The bonds without those of early lines that are worth so much for their length that they stay
    in any plan; for those, what the bonds ask for is added to what they are `needed` for."""
    seconds = sum(line.sentence.speech_seconds for line in lines)
    mean = sum(each.points for each in worth) / max(seconds, 1.0)
    sure = {
        bond.early
        for bond in bonds
        if worth[bond.early].points + needed[bond.early]
        > _SURE * mean * lines[bond.early].sentence.speech_seconds
    }
    rest: list[Bond] = []
    for bond in bonds:
        if bond.early in sure:
            needed[bond.early] += bond.cost
        else:
            rest.append(bond)
    return rest


def _lost(trim: TrimmedLine, references: Iterable[Reference], language: str) -> int:
    """The points of what points to a word that is not in the trimmed line."""
    found = list(references)
    if not found:
        return 0
    left = {word.base for word in words_of(trim.line.text, language)}
    left |= {mention.word for mention in mentions(trim.line.text).named}
    return sum(each.cost for each in found if each.word not in left)


def _strongest(bonds: Iterable[Bond], most_open: int) -> Iterator[Bond]:
    """The bonds that cost most: a few of each line, and no more open at any place than the
    search for the best plan can hold in hand."""
    of_line: dict[int, int] = defaultdict(int)
    open_until: dict[int, int] = {}
    open_at: dict[int, int] = defaultdict(int)
    for bond in sorted(bonds, key=lambda bond: (-bond.cost, bond.late - bond.early, bond)):
        places = range(open_until.get(bond.early, bond.early) + 1, bond.late + 1)
        crossing = max((open_at[place] for place in places), default=0)
        if of_line[bond.late] < _MOST_BONDS_OF_A_LINE and crossing < most_open:
            of_line[bond.late] += 1
            open_until[bond.early] = max(open_until.get(bond.early, 0), bond.late)
            for place in places:
                open_at[place] += 1
            yield bond
