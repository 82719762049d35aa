"""An order of lines that flows: a path through all of them along the strongest links.

A line follows another well if it speaks of the same things (the rarer a word among the lines, the
more it ties), stays in the same tense, answers the other's question, takes it up with "but" or
"so", or says "she" of a person in it; and a little if it stood next after it in its draft. The
path opens with the line that says most by itself, or, where the piece has lines already, with the
one that best follows its last; a line that says "she" comes after the one that tells who she is.
Up to ten lines the path is the best there is; of more it is the
best that moving one to three lines at a time comes to, from where each line is followed by the one
that follows it best. Equals stay in the file's order. The numbers are judgement, not measured.
"""

from collections import Counter
from collections.abc import Iterable, Sequence

from saywright.cuts.planning.leaning import is_question, leans_back
from saywright.cuts.planning.words import Word, words_of
from saywright.drafting.kept_lines import KeptLine
from saywright.language.english.mentions import Mention, Mentions, Pointer, mentions
from saywright.language.english.tag import is_english
from saywright.language.sentence_facts import sentence_facts
from saywright.language.sentences import sentence_spans

_EXACT_LINES = 10
_MOST_LINES = 200  # so many are put in order at a time
_LONGEST_MOVE = 3

_SHARED = 60  # split among the lines that have the word
_SAME_TENSE = 10
_ANSWERS, _LEFT_OPEN = 40, -30
_TAKES_UP, _POINTS_BACK = 15, 40
_NEXT_IN_DRAFT = 8

_NAME, _NUMBER, _WORD = 16, 12, 10
_LEANING_OPENER, _POINTING_OPENER, _NO_SENTENCE = -60, -40, -60
_LEAST_GAIN = 1e-6

Links = Sequence[Sequence[float]]


class _Line:
    """What is asked of a line again and again."""

    def __init__(self, plain: str, language: str) -> None:
        self.words: tuple[Word, ...] = tuple(words_of(plain, language))
        self.bases = {word.base for word in self.words}
        self.asks = is_question(plain)
        english = is_english(language)
        self.leans = english and leans_back(plain)
        found = mentions(plain) if english else Mentions((), ())
        self.persons = [each for each in found.named if each.gender or (each.name and each.person)]
        self.pointers = [
            pointer
            for pointer, here in found.pointers
            if pointer.gender and not here  # nobody it may be is named before it in the line
        ]
        facts = sentence_facts(plain, language)
        self.tense = facts.tense if facts else None
        self.fragment = facts is not None and not facts.verbs

    @property
    def weight(self) -> int:
        """How much it says by itself, as a piece's opening."""
        said = {word.base: word for word in self.words}.values()
        points = sum(_NAME if w.name else _NUMBER if w.number else _WORD for w in said)
        points += self.leans * _LEANING_OPENER + self.points * _POINTING_OPENER
        return points + self.fragment * _NO_SENTENCE

    @property
    def points(self) -> bool:
        """Whether it says "he" or "she" of somebody told of before."""
        return bool(self.pointers)

    def tells_of(self, pointers: Iterable[Pointer]) -> bool:
        """Whether it tells who somebody is that one of those points to."""
        return any(pointer.agrees(person) for pointer in pointers for person in self.persons)


def in_flow(lines: Sequence[KeptLine], after: str, language: str) -> list[KeptLine]:
    """`lines` in an order that flows, after the spoken text `after` ("" where nothing is)."""
    ordered: list[KeptLine] = []
    for start in range(0, len(lines), _MOST_LINES):
        before = ordered[-1].plain if ordered else after
        ordered += _ordered(lines[start : start + _MOST_LINES], before, language)
    return ordered


def _ordered(lines: Sequence[KeptLine], after: str, language: str) -> list[KeptLine]:
    read = [_Line(line.plain, language) for line in lines]
    uses = Counter(base for line in read for base in line.bases)
    links = [
        [_link(one, other, uses) + _nearness(lines, i, j) for j, other in enumerate(read)]
        for i, one in enumerate(read)
    ]
    last = _Line(after, language) if after else None
    if last:
        uses += Counter(last.bases)
        opening = [_link(last, line, uses) for line in read]
    else:
        opening = [line.weight for line in read]
    first = max(range(len(lines)), key=lambda index: (opening[index], -index))
    order = _best_path(links, first) if len(lines) <= _EXACT_LINES else _good_path(links, first)
    ending = after[slice(*sentence_spans(after, language)[-1])] if last and last.words else ""
    told = _Line(ending, language).persons
    return [lines[index] for index in _told_first(order, read, told)]


def _told_first(order: list[int], read: Sequence[_Line], told: Iterable[Mention]) -> list[int]:
    """The order with each line that tells who "she" is put before the first that says "she",
    save where she is `told` of before them; not one that says "she" itself."""
    rest, known = list(order), list(told)
    done: list[int] = []
    while rest:
        pointers = [
            pointer for pointer in read[rest[0]].pointers if not any(map(pointer.agrees, known))
        ]
        following = next(
            (at for at in rest[1:] if not read[at].points and read[at].tells_of(pointers)), rest[0]
        )
        rest.remove(following)
        done.append(following)
        known += read[following].persons
    return done


def _link(one: _Line, other: _Line, uses: Counter[str]) -> float:
    strength = sum(_SHARED / uses[base] for base in one.bases & other.bases)
    strength += _SAME_TENSE * (one.tense is not None and one.tense == other.tense)
    if one.asks:
        strength += _LEFT_OPEN if other.asks else _ANSWERS
    strength += _TAKES_UP * other.leans
    strength += _POINTS_BACK * one.tells_of(other.pointers)
    return strength


def _nearness(lines: Sequence[KeptLine], one: int, other: int) -> float:
    """What it adds that a line was written next after another."""
    return _NEXT_IN_DRAFT * (other == one + 1 and lines[one].draft == lines[other].draft)


def _best_path(links: Links, first: int) -> list[int]:
    """The strongest path through all from `first`, over every subset of lines and its last line."""
    count = len(links)
    best: dict[tuple[int, int], tuple[float, tuple[int, ...]]] = {
        (1 << first, first): (0.0, (first,))
    }
    for _ in range(count - 1):
        longer: dict[tuple[int, int], tuple[float, tuple[int, ...]]] = {}
        for (used, last), (strength, path) in best.items():
            for other in range(count):
                if used >> other & 1:
                    continue
                key = used | 1 << other, other
                found = strength + links[last][other], (*path, other)
                known = longer.get(key)
                if known is None or _is_better(found, known):
                    longer[key] = found
        best = longer
    strongest = next(iter(best.values()))
    for each in best.values():
        if _is_better(each, strongest):
            strongest = each
    return list(strongest[1])


def _is_better(one: tuple[float, tuple[int, ...]], other: tuple[float, tuple[int, ...]]) -> bool:
    return (-one[0], one[1]) < (-other[0], other[1])


def _good_path(links: Links, first: int) -> list[int]:
    """From each line to the one that follows it best, then bettered while that helps."""
    rest = [index for index in range(len(links)) if index != first]
    path = [first]
    while rest:
        following = max(rest, key=lambda index: (links[path[-1]][index], -index))
        rest.remove(following)
        path.append(following)
    while better := _with_some_moved(links, path):
        path = better
    return path


def _with_some_moved(links: Links, path: list[int]) -> list[int] | None:
    """The path with a few lines moved to where that helps most; None where it does nowhere."""
    count, most, best = len(path), _LEAST_GAIN, None
    for start in range(1, count):
        for end in range(start + 1, min(start + _LONGEST_MOVE, count) + 1):
            before, one, other = path[start - 1], path[start], path[end - 1]
            taken = links[before][one]
            if end < count:
                taken += links[other][path[end]] - links[before][path[end]]
            for to in (*range(1, start), *range(end + 1, count + 1)):
                put = links[path[to - 1]][one]
                if to < count:
                    put += links[other][path[to]] - links[path[to - 1]][path[to]]
                if put - taken > most:
                    most, best = put - taken, (start, end, to)
    if best is None:
        return None
    start, end, to = best
    moved, rest = path[start:end], path[:start] + path[end:]
    to -= end - start if to > start else 0
    return rest[:to] + moved + rest[to:]
