"""Which sentences of one version are which of another: the alignment that shares most.

Sentences that stand once in either version are anchors where their order agrees. What lies
between two anchors is aligned by dynamic programming (`chain`). What is left over on both sides
and is much alike has moved.
"""

import math
from bisect import bisect_left
from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from itertools import chain as joined
from itertools import pairwise
from typing import NamedTuple

from saywright.comparing.chain import best_chain
from saywright.comparing.likeness import Words, letters, share, shared_letters

_ANCHOR_WORDS = 3
# so many pairs are aligned at once, and in all; beyond, stretches are aligned with stretches
_MOST_PAIRS, _MOST_IN_ALL = 90_000, 2_000_000
_MUCH_ALIKE = 0.7
_MOVED_LETTERS = 8  # shorter ones are like too many
_COMMON = 24  # a word in more lines than this tells nothing of which has moved


class Match(NamedTuple):
    """Sentences that are the same, by their numbers in either version: one and one, one and two
    where it was split, two and one where they were joined, or none on the side that lacks it."""

    before: tuple[int, ...]
    after: tuple[int, ...]
    moved: bool = False


def align(before: Sequence[Words], after: Sequence[Words]) -> list[Match]:
    """Every sentence of either version in exactly one match, in the order of `after`; one that is
    gone stands after what stood before it.

    Whichever of the two is called `before`, the same belong together.
    """
    if tuple(after) < tuple(before):
        swapped = _matches(after, before)
        matches = [Match(each.after, each.before, each.moved) for each in swapped]
    else:
        matches = _matches(before, after)
    return list(_in_order(matches, len(before)))


def _matches(before: Sequence[Words], after: Sequence[Words]) -> list[Match]:
    chain = [
        Match(ones, twos)
        for (first, last), (other_first, other_last) in _blocks(before, after)
        for ones, twos in best_chain(
            before[first:last], after[other_first:other_last], first, other_first
        )
    ]
    return _with_the_rest(before, after, chain)


_Block = tuple[tuple[int, int], tuple[int, int]]


def _blocks(before: Sequence[Words], after: Sequence[Words]) -> Iterator[_Block]:
    """The stretches to align, in order: anchors, and what lies between them."""
    first = other = 0
    for anchor, other_anchor in [*_anchors(before, after), (len(before), len(after))]:
        # what is equal at either end belongs together: nothing could be worth more
        while first < anchor and other < other_anchor and before[first] == after[other]:
            yield (first, first + 1), (other, other + 1)
            first, other = first + 1, other + 1
        last, other_last = anchor, other_anchor
        while last > first and other_last > other and before[last - 1] == after[other_last - 1]:
            last, other_last = last - 1, other_last - 1
        yield from _small_enough((first, last), (other, other_last))
        while last <= anchor and last < len(before):
            yield (last, last + 1), (other_last, other_last + 1)
            last, other_last = last + 1, other_last + 1
        first, other = last, other_last


def _small_enough(one: tuple[int, int], two: tuple[int, int]) -> Iterator[_Block]:
    length, other_length = one[1] - one[0], two[1] - two[0]
    pairs = length * other_length
    pieces = max(1, math.ceil(math.sqrt(pairs / _MOST_PAIRS)), math.ceil(pairs / _MOST_IN_ALL))
    cuts = [one[0] + length * piece // pieces for piece in range(pieces + 1)]
    other_cuts = [two[0] + other_length * piece // pieces for piece in range(pieces + 1)]
    yield from zip(pairwise(cuts), pairwise(other_cuts), strict=True)


def _anchors(before: Sequence[Words], after: Sequence[Words]) -> list[tuple[int, int]]:
    """Pairs of equal sentences that stand once on either side, the most that are in order."""
    counts, other_counts = Counter(before), Counter(after)
    where = {words: index for index, words in enumerate(after) if other_counts[words] == 1}
    pairs = [
        (index, where[words])
        for index, words in enumerate(before)
        if len(words) >= _ANCHOR_WORDS and counts[words] == 1 and words in where
    ]
    return _longest_rising(pairs)


def _longest_rising(pairs: Sequence[tuple[int, int]]) -> list[tuple[int, int]]:
    """The most pairs whose second numbers rise as the first do."""
    ends: list[int] = []  # the least second number in which a row of each length ends
    last: list[int] = []  # and the pair that ends it
    previous: list[int] = []
    for index, (_, other) in enumerate(pairs):
        length = bisect_left(ends, other)
        previous.append(last[length - 1] if length else -1)
        ends[length : length + 1] = [other]
        last[length : length + 1] = [index]
    row: list[tuple[int, int]] = []
    at = last[-1] if last else -1
    while at >= 0:
        row.append(pairs[at])
        at = previous[at]
    return row[::-1]


def _with_the_rest(
    before: Sequence[Words], after: Sequence[Words], chain: Sequence[Match]
) -> list[Match]:
    """The chain, and what is in no match of it: the much alike in pairs, the rest alone."""
    gone = set(range(len(before))).difference(*(each.before for each in chain))
    new = set(range(len(after))).difference(*(each.after for each in chain))
    matches = list(chain)
    for one, two in _much_alike(before, after, gone, new):
        matches.append(Match((one,), (two,), _crosses(chain, one, two)))
    in_match = set(joined.from_iterable(each.before for each in matches))
    in_other = set(joined.from_iterable(each.after for each in matches))
    matches += (Match((one,), ()) for one in gone - in_match)
    matches += (Match((), (two,)) for two in new - in_other)
    return matches


def _crosses(chain: Sequence[Match], one: int, two: int) -> bool:
    """Whether the two stand between different neighbours."""
    place = bisect_left(chain, one, key=lambda each: each.before[0])
    return place != bisect_left(chain, two, key=lambda each: each.after[0])


def _much_alike(
    before: Sequence[Words], after: Sequence[Words], gone: set[int], new: set[int]
) -> list[tuple[int, int]]:
    """Pairs of those left over, the most alike first, each in one pair at most."""
    near = _Near(after, sorted(new))
    found: set[tuple[float, int, int]] = set()
    for one in gone:
        words = before[one]
        for two in near.to(words):
            alike = share(shared_letters(words, after[two]), letters(words), letters(after[two]))
            if alike >= _MUCH_ALIKE:
                found.add((-alike, one, two))
    pairs: dict[int, int] = {}
    taken: set[int] = set()
    for _, one, two in sorted(found):
        if one not in pairs and two not in taken:
            pairs[one] = two
            taken.add(two)
    return list(pairs.items())


class _Near:
    """Where among some sentences those stand that share a rare word with another."""

    def __init__(self, sentences: Sequence[Words], numbers: Sequence[int]) -> None:
        self._same: defaultdict[Words, list[int]] = defaultdict(list)
        self._with: defaultdict[str, list[int]] = defaultdict(list)
        for number in numbers:
            self._same[sentences[number]].append(number)
            for word in set(sentences[number]):
                self._with[word].append(number)

    def to(self, words: Words) -> Iterator[int]:
        if letters(words) < _MOVED_LETTERS:
            return
        yield from self._same.get(words, ())[:_COMMON]
        for word in set(words):
            if len(self._with.get(word, ())) <= _COMMON:
                yield from self._with.get(word, ())


def _in_order(matches: Sequence[Match], length: int) -> Iterator[Match]:
    alone = {each.before[0]: each for each in matches if not each.after}
    staying = {each.before[0] for each in matches if each.after and not each.moved and each.before}
    said = 0

    def gone() -> Iterator[Match]:
        nonlocal said
        while said < length and said not in staying:
            if said in alone:
                yield alone[said]
            said += 1

    yield from gone()
    for each in sorted((each for each in matches if each.after), key=lambda each: each.after[0]):
        yield each
        if each.before and not each.moved:
            said = each.before[-1] + 1
            yield from gone()
