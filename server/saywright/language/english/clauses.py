"""The clauses of a sentence, one for each finite verb, and which of them carries the sentence."""

from collections.abc import Container, Sequence
from math import exp
from typing import NamedTuple

from saywright.language.english.readings import FINITE, HELPING, Reading
from saywright.language.english.weights import CLAUSE_UNITS, Weights

LEAST_CHANCE = 0.1
HANGING = frozenset(
    "if when because that which who whom whose as while although though since after before until "
    "unless where what how why whether than once whatever whenever so cuz cause 'cause like".split()
)
_JOINING = frozenset(("and", "or", "but", ",", ";", ":", "--", "-", "–", "—", "(", '"'))
_CUES = (
    HANGING | _JOINING | frozenset(". ! ? --- … ) to not n't never let please then and/or".split())
)
NOMINATIVE = frozenset(
    "i you he she it we they this that there these those who which what u".split()
)
_SAME = {"–": "--", "—": "--", "...": "…"}


class Clause(NamedTuple):
    """`place` is that of its finite verb among the words, `opening` the signs between the verb
    before and it, `quoted` whether a quote is open at it."""

    place: int
    chances: tuple[float, float, float, float]
    letter: str
    opening: tuple[str, ...]
    quoted: bool

    @property
    def chance(self) -> float:
        """The chance that its verb is finite at all."""
        return sum(self.chances)


class Sentence(NamedTuple):
    """The words of a sentence and their classes, and its clauses."""

    words: Sequence[str]
    classes: Sequence[str]
    clauses: tuple[Clause, ...]
    signs: tuple[str, ...]


def _sign(word: str, letters: str) -> str:
    if word in _CUES or word in NOMINATIVE:
        return _SAME.get(word, word)
    first = letters[0]
    if first in "nscX" or letters in {"un", "us"}:
        return "n"
    if first in "po":
        return first
    if first == "u":
        return "u"
    if first == "G":
        return "g"
    return word if first == "w" else ""


def clauses(
    words: Sequence[str], classes: Sequence[str], found: Sequence[Reading], quoted_before: bool
) -> Sentence:
    """The sentence with a clause for each word that is likely enough to be a finite verb;
    `quoted_before`: it begins inside a quote."""
    signs = [_sign(word, letters) for word, letters in zip(words, classes, strict=True)]
    quoted, inside = [], quoted_before
    for word in words:
        inside ^= word == '"'
        quoted.append(inside)
    clauses_, after = [], 0
    for index, chances in found:
        chance = sum(chances)
        if chance > LEAST_CHANCE:
            letter = FINITE[chances.index(max(chances))]
            opening = tuple([sign for sign in signs[after:index] if sign])
            clauses_.append(Clause(index, chances, letter, opening, quoted[index]))
            after = index + 1
    return Sentence(words, classes, tuple(clauses_), tuple(signs))


def names_of(sentence: Sentence, known: Container[str]) -> list[str]:
    """What the verb of each clause is called among the features: its word if it is a known one."""
    words, classes, found, _ = sentence
    return [
        word if (word := words[index]) in HELPING or word in known else classes[index]
        for index, *_ in found
    ]


def _tenth(chance: float) -> int:
    return min(9, int(chance * 10))


_NONE = ("^",)
_END = ("$",)


def features_of_clause(sentence: Sentence, names: Sequence[str], number: int) -> list[str]:
    """Features of the sentence's clause `number`; `names` are those of the clauses' verbs."""
    all_ = sentence.clauses
    clause = all_[number]
    index, _, letter, opening, quoted = clause
    name = names[number]
    words, classes = sentence.words, sentence.classes
    before = all_[number - 1] if number else None
    after = all_[number + 1] if number + 1 < len(all_) else None
    strong = min(sum([each.chance > 0.5 for each in all_[:number]]), 2)
    chance = _tenth(clause.chance)
    two, three = " ".join(opening[-2:]), " ".join(opening[-3:])
    cues = [sign for sign in opening if sign in HANGING or sign in _JOINING]
    hanging = [sign for each in all_[:number] for sign in each.opening if sign in HANGING]
    before_name = names[number - 1] if before else "^"
    before_opening = " ".join((before.opening if before else _NONE)[:2])
    after_opening = " ".join((after.opening if after else _END)[:3])
    w1 = words[index - 1] if index else "<"
    w2 = words[index - 2] if index > 1 else "<"
    c1 = classes[index - 1] if index else "<"
    x1 = words[index + 1] if index + 1 < len(words) else ">"
    d1 = classes[index + 1] if index + 1 < len(words) else ">"
    end = words[-1]
    size = len(opening)
    nominal = "p" if not NOMINATIVE.isdisjoint(opening) else "n" if "n" in opening else "0"
    features = [
        "b",
        f"l{letter}",
        f"p{chance}",
        f"P{chance}{letter}",
        f"r{min(number, 3)}",
        f"s{strong}{chance}",
        f"w{name}",
        f"W{name}{letter}{strong}",
        f"4{' '.join(opening[-4:])}",
        f"3{three}",
        f"2{two}",
        f"o{' '.join(opening[:3])}",
        f"T{three}{strong}",
        f"t{two}{strong}{letter}",
        f"c{' '.join(cues[-3:])}{strong}",
        f"C{cues[-1] if cues else ''}{strong}{letter}",
        f"f{cues[0] if cues else ''}{strong}",
        f"v{before_name}",
        f"V{before_name} {two}",
        f"g{before_name} {min(size, 3)}",
        f"O{before_opening}|{two}",
        f"h{' '.join(hanging[-2:])}|{' '.join(cues[-2:])}",
        f"n{names[number + 1] if after else '$'}{strong}",
        f"N{after_opening}{strong}",
        f"M{after_opening}|{two}",
        f"L{before.letter if before else '^'}{letter}{after.letter if after else '$'}",
        f"q{quoted}{strong}",
        f"e{end}{strong}{letter}",
        f"a{w1}",
        f"A{w1} {name}",
        f"B{w2} {w1}",
        f"d{c1} {classes[index]}",
        f"x{name} {x1}",
        f"X{c1}{letter}{d1}",
        f"1{words[0] if index else '='}{strong}",
        f"@{index if index < 3 else 3 if index < 7 else 7}{letter}",
        f"z{min(size, 5)}{strong}{letter}",
        f"S{nominal}{letter}{strong}",
    ]
    features += [f"i{sign}{strong}" for sign in set(opening)]
    if before and before.chance > 0.5:
        features.append(f"D{before.letter}{letter}{two}")
    return features


def features_of_none(sentence: Sentence, names: Sequence[str]) -> list[str]:
    """Features that speak for or against the sentence being a fragment; it has a word."""
    words, classes, clauses_, signs = sentence
    size = len(words)
    length = str(size) if size < 6 else "6" if size < 9 else "9" if size < 15 else "x"
    end = words[-1]
    features = [
        "F",
        f"Fn{length}",
        f"Fm{min(len(clauses_), 3)}",
        f"Fw{words[0]}",
        f"Fc{classes[0]}",
        f"Fe{end}",
        f"FC{' '.join(classes[:2])}",
        f"FW{' '.join(words[:2])}",
        f"Fl{classes[-1]}",
        f"Fs{' '.join([sign for sign in signs[:16] if sign])[:24]}",
        f"FE{words[-2] if size > 1 else ''}",
        f"Fh{next((sign for sign in signs if sign in HANGING), '^')}{min(len(clauses_), 2)}",
    ]
    if not clauses_:
        return features
    best = max(clauses_, key=_chance)
    first = clauses_[0]
    opening = first.opening
    return [
        *features,
        f"Fp{int(best.chance * 10)}",
        f"Fq{best.quoted}",
        f"Fu{' '.join([sign for sign in opening if sign in _CUES])}",
        f"Fo{' '.join(opening[:2])}",
        f"FO{' '.join(opening[-2:])}",
        f"Fv{names[0]}{first.letter}",
        f"FV{classes[0]}{first.letter}{min(len(clauses_), 2)}",
        f"Fa{' '.join([each.letter for each in clauses_[:3]])}{end}",
    ]


def _chance(clause: Clause) -> float:
    return clause.chance


class Shares(NamedTuple):
    """How likely each clause is the one that carries the sentence, how likely none is, and
    whether each clause, if it is not the one, hangs under another (not asked of a lone one)."""

    main: tuple[float, ...]
    none: float
    hangs: tuple[bool, ...]


def shares(sentence: Sentence, learnt: Weights) -> Shares:
    """By what was learnt; the sentence has a word."""
    if not sentence.clauses:
        return Shares((), 1.0, ())
    names = names_of(sentence, learnt.classes)
    main, under = learnt.main.get, learnt.under.get
    rows = [features_of_clause(sentence, names, number) for number in range(len(names))]
    scores = [sum(filter(None, map(main, row))) for row in rows]
    hangs = [False]
    if len(rows) > 1:
        hangs = [sum(filter(None, map(under, row))) > 0 for row in rows]
    scores.append(sum(filter(None, map(main, features_of_none(sentence, names)))))
    best = max(scores)
    powers = [exp((score - best) / CLAUSE_UNITS) for score in scores]
    whole = sum(powers)
    *parts, none = [power / whole for power in powers]
    return Shares(tuple(parts), none, tuple(hangs))
