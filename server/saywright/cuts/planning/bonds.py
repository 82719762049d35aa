"""What a line leans on: what it costs to keep it without the line before, or after, or far off.

A line leans on the one before where it answers it, goes on from it with "but" or "so", or says
"she" or "it" of what stands there; and on an earlier one that first told of what it comes back
to. All by plain signs: rare words in common, question marks, first words.
"""

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from saywright.cuts.planning.piece import SpokenLine
from saywright.cuts.planning.problem import Bond
from saywright.cuts.planning.value import Worth
from saywright.language.english.tag import is_english

SEAM = 20
"""What it costs to enter a line after a cut in its paragraph, if it leans on nothing there."""

_ENTER_PARAGRAPH = 10
_LEAVE = 10
_ANSWER, _UNANSWERED, _UNFINISHED = 50, 40, 40
_LINKED, _LOOSELY_LINKED = 40, 20
_POINTING = 60
_CALLED_BACK, _CALLED_BACK_BY_THE = 30, 50
_MOST_USES = 5
_FARTHEST_PRONOUN, _FARTHEST_THING = 8, 3
_MOST_BONDS_OF_A_LINE = 2
_MOST_OPEN = 5

_WORD = re.compile(r"[^\W\d_]+(?:['’][^\W\d_]+)*")
_LINKS = frozenset("but so because which therefore otherwise instead except yet".split())
_LOOSE_LINKS = frozenset("and then or still also even not".split())
_PERSONS = frozenset("he she him his hers her he's she's he'd she'd he'll she'll".split())
_THINGS = frozenset(
    "it they them this that these those it's that's they're they'd it'd it'll they'll there".split()
)
_BEFORE_NOUN = frozenset(
    "a an the my his her our their your this that these those every each some no one two".split()
)
_PEOPLE = frozenset(
    """
    man woman boy girl child mother father sister brother son daughter wife husband aunt uncle
    grandmother grandfather mum dad mama papa baby friend neighbour neighbor teacher doctor nurse
    master captain mate boss owner inspector keeper captain king queen priest stranger fellow lady
    gentleman guest widow soldier sailor driver waiter singer player somebody someone everybody
    everyone nobody whoever anyone anybody
    """.split()
)
_SO_LONG = 3  # of its first words, where a line may point back
_QUESTION = re.compile(r"\?[\"”’)\s]*$")
_LEADS_ON = re.compile(r"[:,–—-][\"”’)\s]*$")


class Leaning(NamedTuple):
    """For each line what it costs to enter it after a cut and to leave it before one, points;
    and the bonds between lines that are no neighbours."""

    enter: list[int]
    leave: list[int]
    bonds: tuple[Bond, ...]


def leanings(lines: Sequence[SpokenLine], worth: Sequence[Worth], language: str) -> Leaning:
    texts = [line.text for line in lines]
    english = is_english(language)
    enter = [SEAM] * len(lines)
    leave = [_LEAVE] * len(lines)
    for index, (before, text) in enumerate(pairwise(texts), 1):
        enter[index] = _ENTER_PARAGRAPH if lines[index - 1].ends else SEAM
        enter[index] += _on_before(before, text, english)
        leave[index - 1] += _on_after(before, text, worth[index - 1])
    costs: dict[tuple[int, int], int] = defaultdict(int)
    for early, late, cost in _called_back(texts, worth):
        costs[early, late] += cost
    if english:
        for early, late, cost in _pronouns(texts, worth):
            costs[early, late] += cost
    for (early, late), cost in costs.items():
        if late == early + 1:
            enter[late] += cost
    far = [Bond(*pair, cost) for pair, cost in costs.items() if pair[1] > pair[0] + 1]
    return Leaning(enter, leave, tuple(sorted(_strongest(far))))


def leans_back(text: str) -> bool:
    """Whether a line's first words go on from the line before (English)."""
    words = _first_words(text)
    return bool(words) and (words[0] in _LINKS or words[0] in _LOOSE_LINKS)


def is_question(text: str) -> bool:
    return bool(_QUESTION.search(text))


def _first_words(text: str) -> list[str]:
    found: list[str] = []
    for match in _WORD.finditer(text):
        found.append(match[0].lower().replace("’", "'"))
        if len(found) == _SO_LONG:
            break
    return found


def _on_before(before: str, text: str, english: bool) -> int:
    cost = _ANSWER if is_question(before) and not is_question(text) else 0
    cost += _UNFINISHED if _LEADS_ON.search(before) else 0
    if english:
        words = _first_words(text)
        if words and words[0] in _LINKS:
            cost += _LINKED
        elif words and words[0] in _LOOSE_LINKS:
            cost += _LOOSELY_LINKED
    return cost


def _on_after(text: str, after: str, worth: Worth) -> int:
    cost = _UNANSWERED if is_question(text) and not is_question(after) else 0
    cost += _UNFINISHED if worth.announces or _LEADS_ON.search(text) else 0
    return cost


def _called_back(texts: Sequence[str], worth: Sequence[Worth]) -> Iterator[tuple[int, int, int]]:
    """Where a rare word comes back: the line that said it first, the later one, and the cost."""
    uses: dict[str, list[int]] = defaultdict(list)
    for index, each in enumerate(worth):
        for base in {word.base for word in each.words}:
            uses[base].append(index)
    for base in sorted(uses):
        first, *later = uses[base]
        if len(later) < _MOST_USES:
            for late in later:
                by_the = f"the {base}" in texts[late].lower()
                yield first, late, _CALLED_BACK_BY_THE if by_the else _CALLED_BACK


def _pronouns(texts: Sequence[str], worth: Sequence[Worth]) -> Iterator[tuple[int, int, int]]:
    """Where a line says "she" or "it" of what the nearest line before holds."""
    last_person = last_thing = -1  # the line that holds one
    for index, text in enumerate(texts):
        words = [match[0].lower().replace("’", "'") for match in _WORD.finditer(text)]
        person = any(word in _PEOPLE for word in words) or any(w.name for w in worth[index].words)
        thing = person or any(
            one in _BEFORE_NOUN and other not in _BEFORE_NOUN for one, other in pairwise(words)
        )
        first = set(words[:_SO_LONG])
        if first & _PERSONS and not person and last_person >= max(index - _FARTHEST_PRONOUN, 0):
            yield last_person, index, _POINTING
        elif first & _THINGS and last_thing >= max(index - _FARTHEST_THING, 0):
            yield last_thing, index, _POINTING
        last_person = index if person else last_person
        last_thing = index if thing else last_thing


def _strongest(bonds: Iterable[Bond]) -> Iterator[Bond]:
    """The bonds that cost most: a few of each line, and no more open at any place than the
    search for the best plan can hold in hand."""
    of_line: dict[int, int] = defaultdict(int)
    open_until: dict[int, int] = {}
    for bond in sorted(bonds, key=lambda bond: (-bond.cost, bond.late - bond.early, bond)):
        until = max(open_until.get(bond.early, 0), bond.late)
        crossing = sum(
            early < bond.late and bond.early < late
            for early, late in open_until.items()
            if early != bond.early
        )
        if of_line[bond.late] < _MOST_BONDS_OF_A_LINE and crossing < _MOST_OPEN:
            of_line[bond.late] += 1
            open_until[bond.early] = until
            yield bond
