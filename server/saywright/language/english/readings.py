"""What each word of a sentence that may be a finite verb is read as.

A reading is a letter: D past, P present, M modal, I imperative; B base, N participle, O no verb.
"""

from bisect import bisect_right
from collections.abc import Callable, Sequence
from math import exp
from struct import Struct
from typing import NamedTuple

from saywright.language.english.weights import UNITS, Weights
from saywright.language.english.word_classes import VERBAL

READINGS = "DPMIBNO"
FINITE = "DPMI"
HELPING = frozenset(
    "be been being am is are was were 's 're 'm has have had 've 'd having do does did ca can "
    "could will would wo 'll shall should may might must to let get gets got getting "
    "n't not don't".split()
)
_BREAKS = frozenset(", ; : . ! ? - -- --- … ( )".split())
_GAPS = ("0", "0", "1", "2", "2")


_FINITE_WORDS = frozenset(
    "am is are was were 're 'm has had 've does did "
    "ca can could will would wo 'll shall should may might must".split()
)
_PASTS = frozenset(("was", "were", "had", "did"))
_BETWEEN = frozenset(
    ", ; : and or but that who which what when where if because as to - -- …".split()
)
_HABITS = frozenset("always every usually often sometimes whenever each never".split())
_BACK = frozenset("yesterday ago last once".split())


_SUMS = Struct(f"<{len(READINGS)}H")  # how `weights.packed` packs them


class Reading(NamedTuple):
    """Of the word at `place`; `chances` are those of the readings in `FINITE`, in that order."""

    place: int
    chances: tuple[float, float, float, float]


class _Past:
    """What has been read so far: the last verb, the last thing that may be a subject."""

    __slots__ = ("broken", "last", "place", "subject")

    def __init__(self) -> None:
        self.last, self.place, self.broken, self.subject = "^", -1, "0", "^"

    def pass_over(self, index: int, word: str, letters: str) -> None:
        """Take note of a word that can be no finite verb."""
        first = letters[0]
        if first in "GN":
            self.last, self.place, self.broken = "g", index, "0"
        elif word in _BREAKS or letters == "&":
            self.broken = "1"
        elif first in "tw" or (letters == "i" and word in {"that", "if", "because"}):
            self.broken = "2"
        if first in "pe":
            self.subject = word
        elif first in "nsucX":
            self.subject = "n"
        if word in {"to", "be", "been"}:
            self.last, self.place = word, index

    def take(self, index: int, word: str, reading: str) -> None:
        """Take note of what a word was read as."""
        if reading in FINITE:
            self.last = word if word in HELPING else reading
            self.subject = "^"
        elif reading in "BN":
            self.last = word if word in {"be", "been", "have"} else reading
        else:
            self.subject = "n"
            return
        self.place, self.broken = index, "0"

    def gap(self, index: int) -> str:
        gap = index - self.place
        return _GAPS[gap] if self.place >= 0 and gap < 5 else "3"


def read(
    words: Sequence[str], classes: Sequence[str], decide: Callable[[int, list[str]], str]
) -> None:
    """Ask `decide` for the reading of each word that may be a finite verb, in order, giving its
    index and features; what it answers is among the next ones' features."""
    padded = ["<", "<", "<", *words, ">", ">"]
    letters = ["<", "<", "<", *classes, ">", ">", ">"]
    past = _Past()
    around: _Around | None = None
    for index, (word, letter) in enumerate(zip(words, classes, strict=True)):
        if VERBAL.isdisjoint(letter):
            past.pass_over(index, word, letter)
        else:
            features = _features(padded, letters, index + 3, past)
            if "D" in letter:
                around = around or _Around(words, classes)
                features += around.features(index)
            past.take(index, word, decide(index, features))


class _Around:
    """What of a whole sentence tells whether a word that may be a past or a participle, or a past
    or a present, is one or the other: "the opinions expressed are", "they beat us every time"."""

    __slots__ = ("classes", "finite", "when", "words")

    def __init__(self, words: Sequence[str], classes: Sequence[str]) -> None:
        self.words, self.classes = words, classes
        self.finite = [
            index
            for index, (word, letters) in enumerate(zip(words, classes, strict=True))
            if word in _FINITE_WORDS or letters in {"D", "Z", "M"}
        ]
        known = {*words}
        habit = not _HABITS.isdisjoint(known) or {"all", "time"} <= known
        self.when = f"{habit:d}{not _BACK.isdisjoint(known):d}"

    def features(self, index: int) -> list[str]:
        words, letters = self.words, self.classes[index]
        finite = self.finite
        at = bisect_right(finite, index)
        before = f"{bool(finite) and finite[0] < index:d}"
        is_last = f"{at == len(finite):d}"
        gap = self._between(index, finite[at]) if at < len(finite) else "$"
        next_ = self.classes[index + 1] if index + 1 < len(words) else ">"
        found = [
            f"X{before}{gap} {letters}",
            f"Y{gap} {next_} {letters}",
            f"Z{before}{is_last}{words[-1]} {letters}",
            f"y{min(index, 4)}{min(len(words) - index, 4)}{before}{is_last} {letters}",
        ]
        if "B" in letters:
            tenses = {words[at] in _PASTS or self.classes[at] == "D" for at in finite}
            told = "".join(sorted(f"{each:d}" for each in tenses))
            found += [f"h{self.when}{told}", f"i{self.when} {letters}", f"g{told} {letters}"]
        return found

    def _between(self, index: int, after: int) -> str:
        """The signs between a word and the next that is surely finite."""
        signs: list[str] = []
        for at in range(index + 1, min(after, index + 12)):
            word, first = self.words[at], self.classes[at][0]
            sign = word if word in _BETWEEN else first if first in "pG" else ""
            if not sign and first in "nsX":
                sign = "n"
            if sign and signs[-1:] != [sign]:
                signs.append(sign)
        return " ".join(signs[-4:])


def _features(words: list[str], classes: list[str], at: int, past: _Past) -> list[str]:
    w2, w1, w, x1, x2 = words[at - 2 : at + 3]
    c3, c2, c1, c, d1, d2, d3 = classes[at - 3 : at + 4]
    near = at - 1
    while near > 2 and classes[near] == "a":
        near -= 1
    m1, m2 = words[near], words[near - 1]
    last, state = past.last, past.last + past.broken
    return [
        f"w{w}",
        f"c{c}",
        f"s{c}{w[-3:]}",
        f"a{w1} {c}",
        f"b{x1} {c}",
        f"A{c1} {c}",
        f"B{d1} {c}",
        f"C{c2} {c1} {c}",
        f"D{d1} {d2} {c}",
        f"E{c1} {c} {d1}",
        f"F{w2} {w1}",
        f"G{m1} {c}",
        f"H{m2} {m1} {c}",
        f"I{last}{past.gap(at - 3)}{past.broken} {c}",
        f"J{last} {c1} {c}",
        f"K{past.subject} {c} {last}",
        f"L{w1} {x1}",
        f"M{w} {w1}",
        f"N{w} {x1}",
        f"P{w} {c1}",
        f"Q{w} {d1}",
        f"R{last} {m1} {w}" if w in HELPING else f"R{last} {m1}",
        f"O{c3} {c2} {c1} {c}",
        f"S{c} {d1} {d2} {d3}",
        f"T{w2} {c}",
        f"U{x2} {c}",
        f"V{w} {state}",
        f"W{classes[near]} {c} {state}",
    ]


def readings(words: Sequence[str], classes: Sequence[str], learnt: Weights) -> list[Reading]:
    """The readings of the words that may be finite verbs, by what was learnt."""
    found: list[Reading] = []
    get = learnt.readings.get

    def decide(index: int, features: list[str]) -> str:
        total = sum(filter(None, map(get, features)))
        sums = _SUMS.unpack(total.to_bytes(_SUMS.size, "little"))
        best = max(sums)
        shares = [exp((each - best) / UNITS) for each in sums]
        whole = sum(shares)
        past, present, modal, imperative = (share / whole for share in shares[:4])
        found.append(Reading(index, (past, present, modal, imperative)))
        return READINGS[sums.index(best)]

    read(words, classes, decide)
    return found
