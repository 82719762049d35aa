"""Whether what a plan leaves still says what its "she", "it" and "the wagon" refer to.

    python -m tests.benchmarks.cut_worth DATA [--tune]

DATA is the folder with the treebank (see `voice_data`). Each of its documents of 12 to 60
sentences becomes a piece, whose lines are the tool's own, and is planned to two thirds of its
time; the first plan is held against 40 random ones of the same time. Half of the documents, every
second one by name, were looked at while the planner was made (`--tune`); reported is the other
half. The classes of words that the planner reads by come from the same treebank; its rules of who
refers to whom do not.

How it is counted, from the treebank's features only, by no rule of the planner's own:

- A reference is a personal pronoun of the third person (PronType=Prs, Person=3, no reflexive, no
  `expl`), a pronoun "this", "that", "these", "those" (PronType=Dem), or a noun with "the" or one
  of those four before it (`det` with Definite=Def or PronType=Dem).
- What a pronoun refers to is taken to be the nearest noun or name before it that is the head of
  its phrase (no `compound`, no `flat`) and agrees: for "she" and "he", with Gender in the
  treebank, one in the singular that is a name, or a noun that is a subject; for the others one of
  the same Number. What a definite noun refers to is the nearest noun or name before it with the
  same lemma; where there is none it introduces itself and is not counted.
- A reference counts where the two stand in different lines; several of one line to the same word
  count as one. It is left without what it refers to where its line stays, that of the other goes,
  and no line that stays before it has the other's lemma. A line of which a part goes stays with
  the words of its rest.
- A random plan takes lines in random order as long as the time of the first plan allows, and is
  drawn again where it ends more than 2% below that.

Printed are the references left so, in all of our plans and the mean of the random ones, their
ratio, and its 95% interval from 2,000 resamplings of the documents; then the same for each sort.
"""

import gzip
import random
import re
import sys
from bisect import bisect_right
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from saywright.analysis import analyse
from saywright.cuts.planning.material import material_of
from saywright.cuts.planning.piece import Piece
from saywright.cuts.planning.plans import plan
from saywright.cuts.planning.problem import Kept
from tests.benchmarks.voice_data import TREES, data_folder

LEAST_LINES, MOST_LINES = 12, 60
RANDOM_PLANS, RESAMPLES = 40, 2000
SHARE = 1 / 1.5
_NEAR = 0.98
_MARKS = re.compile(r"[\\()|*_~#:-]")
_NOMINAL = frozenset(("NOUN", "PROPN"))
_PART_OF_NAME = ("compound", "flat", "goeswith")
_SUBJECTS = ("nsubj", "nsubj:pass")


class Token(NamedTuple):
    """A word of a document: its sentence, where it starts and ends there, and its features."""

    sentence: int
    start: int
    end: int
    lemma: str
    tag: str
    features: dict[str, str]
    relation: str
    determiner: dict[str, str]


@dataclass
class Document:
    """Sentences as they are written, which of them open a paragraph, and their words."""

    name: str
    texts: list[str] = field(default_factory=list)
    opens: list[bool] = field(default_factory=list)
    tokens: list[Token] = field(default_factory=list)


class Reference(NamedTuple):
    """A word by index, what it refers to, and what sort it is."""

    word: int
    antecedent: int
    sort: str


class Counted(NamedTuple):
    """References left without what they refer to, by sort: in the plan, and in the mean of the
    random ones; and how many there are in all."""

    plan: Counter[str]
    random: dict[str, float]
    references: int


def documents(path: str) -> Iterator[Document]:
    document = Document("")
    rows: list[list[str]] = []
    opens = True
    with gzip.open(path, "rt", encoding="utf-8") as lines:
        for line in lines:
            if line.startswith("# newdoc id = "):
                if document.texts:
                    yield document
                document, opens = Document(line.split("= ")[1].strip()), True
            elif line.startswith("# newpar"):
                opens = True
            elif line.startswith("# text = "):
                document.texts.append(line.removeprefix("# text = ").rstrip("\n"))
                document.opens.append(opens)
                opens = False
            elif line.strip() and not line.startswith("#"):
                rows.append(line.rstrip("\n").split("\t"))
            elif rows:
                document.tokens += _tokens(document, rows)
                rows = []
    yield document


def _tokens(document: Document, rows: Sequence[Sequence[str]]) -> Iterator[Token]:
    text, sentence = document.texts[-1], len(document.texts) - 1
    words = [row for row in rows if row[0].isdigit()]
    determiners = {
        row[6]: _features(row[5]) for row in words if row[7] == "det" and row[3] == "DET"
    }
    at = 0
    for row in words:
        found = text.find(row[1], at)
        start, at = (found, found + len(row[1])) if found >= 0 else (at, at)
        features, determiner = _features(row[5]), determiners.get(row[0], {})
        yield Token(sentence, start, at, row[2].lower(), row[3], features, row[7], determiner)


def _features(column: str) -> dict[str, str]:
    return dict(each.split("=", 1) for each in column.split("|")) if column != "_" else {}


def references(tokens: Sequence[Token]) -> Iterator[Reference]:
    for index, token in enumerate(tokens):
        sort = _sort(token)
        if not sort:
            continue
        for before in range(index - 1, -1, -1):
            if _is_meant(tokens[before], token, sort):
                yield Reference(index, before, sort)
                break


def _sort(token: Token) -> str:
    features = token.features
    if token.tag == "PRON" and not token.relation.startswith("expl"):
        if features.get("PronType") == "Dem":
            return "this, that"
        is_third = features.get("PronType") == "Prs" and features.get("Person") == "3"
        if is_third and features.get("Reflex") != "Yes":
            return "she, he" if features.get("Gender") in ("Masc", "Fem") else "it, they"
    if token.tag == "NOUN" and not token.relation.startswith(_PART_OF_NAME):
        is_definite = token.determiner.get("Definite") == "Def"
        if is_definite or token.determiner.get("PronType") == "Dem":
            return "the noun"
    return ""


def _is_meant(candidate: Token, token: Token, sort: str) -> bool:
    if candidate.tag not in _NOMINAL or candidate.relation.startswith(_PART_OF_NAME):
        return False
    if sort == "the noun":
        return candidate.lemma == token.lemma
    number = candidate.features.get("Number")
    if sort == "she, he":
        is_person = candidate.tag == "PROPN" or candidate.relation in _SUBJECTS
        return number == "Sing" and is_person
    return number == token.features.get("Number")


def script_of(document: Document) -> tuple[str, list[list[int]]]:
    """The document as a script, and where in it each code point of each sentence stands."""
    script = "title: a document\n"
    places: list[list[int]] = []
    for text, opens in zip(document.texts, document.opens, strict=True):
        script += "\n\n" if opens else " "
        own: list[int] = []
        for letter in text:
            script += "\\" if _MARKS.match(letter) else ""
            own.append(len(script))
            script += letter
        places.append(own)
    return f"{script}\n", places


def counted(document: Document, seed: int) -> Counted | None:
    """None where no plan is found."""
    script, places = script_of(document)
    analysis = analyse(script)
    view = analysis.views[0]
    aim = view.timeline.seconds * SHARE
    piece = material_of(analysis, view, aim).piece
    lines = lines_of(document, piece, places)
    planned = plan(analysis, view, aim, 1)
    if not planned.plans or planned.kept_seconds is not None:
        return None
    ours = planned.plans[0]
    gone = {cut.line for cut in ours.cuts if not cut.trim}
    trims = [cut.places for cut in ours.cuts if cut.trim]
    lost = {
        index
        for index, token in enumerate(document.tokens)
        if lines[index] in gone or _is_marked(_place(places, token), trims)
    }
    refs = across(references(document.tokens), lines)
    dice = random.Random(seed)
    others: Counter[str] = Counter()
    for _ in range(RANDOM_PLANS):
        kept = _random_plan(piece, ours.seconds, dice)
        away = {index for index, line in enumerate(lines) if line is not None and not kept[line]}
        others += left_without(document.tokens, refs, away)
    mean = {sort: number / RANDOM_PLANS for sort, number in others.items()}
    return Counted(left_without(document.tokens, refs, lost), mean, len(refs))


def lines_of(document: Document, piece: Piece, places: Sequence[Sequence[int]]) -> list[int | None]:
    """The piece's line in which each word stands; None for a mark between lines."""
    starts = [line.at + line.sentence.start for line in piece.lines]
    found: list[int | None] = []
    for token in document.tokens:
        at = _place(places, token)
        line = bisect_right(starts, at) - 1
        is_inside = line >= 0 and at < piece.lines[line].at + piece.lines[line].sentence.end
        found.append(line if is_inside else None)
    return found


def _place(places: Sequence[Sequence[int]], token: Token) -> int:
    own = places[token.sentence]
    return own[min(token.start, len(own) - 1)]


def across(found: Iterator[Reference], lines: Sequence[int | None]) -> list[Reference]:
    """Those whose antecedents stand in other lines, of a line and an antecedent the first."""
    firsts: dict[tuple[int | None, int], Reference] = {}
    for each in found:
        if lines[each.word] != lines[each.antecedent]:
            firsts.setdefault((lines[each.word], each.antecedent), each)
    return list(firsts.values())


def _is_marked(at: int, cuts: Sequence[tuple[tuple[int, int], ...]]) -> bool:
    return any(start <= at < end for cut in cuts for start, end in cut)


def left_without(
    tokens: Sequence[Token], refs: Sequence[Reference], away: set[int]
) -> Counter[str]:
    found: Counter[str] = Counter()
    for word, antecedent, sort in refs:
        if word not in away and antecedent in away:
            lemma = tokens[antecedent].lemma
            if not any(
                tokens[other].lemma == lemma and tokens[other].tag in _NOMINAL
                for other in range(word)
                if other not in away
            ):
                found[sort] += 1
    return found


def _random_plan(piece: Piece, seconds: float, dice: random.Random) -> Kept:
    while True:
        kept = [0] * len(piece.lines)
        for index in dice.sample(range(len(kept)), len(kept)):
            kept[index] = 1
            if piece.seconds_of(kept) > seconds:
                kept[index] = 0
        if piece.seconds_of(kept) >= _NEAR * seconds:
            return kept


def ratio_of(found: Sequence[Counted], sort: str | None = None) -> tuple[float, float, float]:
    """References left without in our plans, in random ones, and the ratio."""
    ours = sum(n for each in found for s, n in each.plan.items() if sort in (None, s))
    others = sum(n for each in found for s, n in each.random.items() if sort in (None, s))
    return ours, others, ours / others if others else float("nan")


def main() -> None:
    folder = data_folder()
    every = sorted(documents(str(folder / TREES)), key=lambda document: document.name)
    half = every[::2] if "--tune" in sys.argv else every[1::2]
    fitting = [each for each in half if LEAST_LINES <= len(each.texts) <= MOST_LINES]
    found = [each for n, document in enumerate(fitting) if (each := counted(document, n))]
    ours, others, ratio = ratio_of(found)
    dice = random.Random(0)
    ratios = sorted(ratio_of(dice.choices(found, k=len(found)))[2] for _ in range(RESAMPLES))
    low, high = ratios[RESAMPLES // 40], ratios[-RESAMPLES // 40]
    print(
        f"{len(found)} of {len(fitting)} documents, {sum(each.references for each in found)} "
        f"references to other lines: left without what they refer to {ours:.0f} in our plans, "
        f"{others:.1f} in the mean of {RANDOM_PLANS} random ones; {ratio:.3f} ({low:.3f} to "
        f"{high:.3f})"
    )
    for sort in ("she, he", "it, they", "this, that", "the noun"):
        print(f"  {sort}: {{:.0f}} to {{:.1f}}, {{:.3f}}".format(*ratio_of(found, sort)))


if __name__ == "__main__":
    main()
