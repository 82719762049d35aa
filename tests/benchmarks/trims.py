"""Whether what is offered to be trimmed is, in annotated trees, a part that hangs loosely.

    python -m tests.benchmarks.trims DATA [HOW_MANY] [--read]

Of the treebank's sentences (those of DATA's `ewt_train.conllu.gz`; HOW_MANY drawn, or all) every
trim is held against the tree: the words that go must be one or more whole subtrees beside each
other, with nothing outside hanging from a word inside, each hanging by a relation that a sentence
can do without. Nothing was fitted to these trees. Prints precision by kind, offers per 1,000
words, and time. `--read` prints a hundred offers to be read, what goes in brackets.

What the trees do not say: whether the rest still says the same main thing. That is for the eye.
"""

import gzip
import random
import sys
import time
from collections import Counter, defaultdict
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import NamedTuple

from saywright.language.english.tokens import tokens
from saywright.language.sentence_facts import sentence_facts
from saywright.language.trim import Trim
from saywright.language.trims import trims
from tests.benchmarks.voice_data import TREES, data_folder

LOOSE = frozenset(
    "acl:relcl acl appos amod advmod discourse parataxis advcl advcl:relcl reparandum".split()
)
# A set phrase said by the way hangs by what its first word is: "of course", "in fact", "kind of".
LOOSE_PHRASE = frozenset(("obl", "obl:unmarked", "nmod", "cc"))
PHRASES = frozenset(("aside", "opening", "filler"))


class Node(NamedTuple):
    """A word of a tree; `head` is the index of another, -1 at the root."""

    start: int
    end: int
    head: int
    relation: str
    is_mark: bool


class Tree(NamedTuple):
    text: str
    nodes: list[Node]


def read_trees(path: Path) -> Iterator[Tree]:
    text = ""
    rows: list[list[str]] = []
    with gzip.open(path, "rt", encoding="utf-8") as lines:
        for line in lines:
            if line.startswith("# text = "):
                text = line[9:].rstrip("\n")
            elif line[:1].isdigit():
                row = line.rstrip("\n").split("\t")
                if row[0].isdigit():
                    rows.append(row)
            elif rows and not line.strip():
                yield Tree(text, list(_placed(text, rows)))
                rows = []


def _placed(text: str, rows: Sequence[Sequence[str]]) -> Iterator[Node]:
    at = 0
    for _, form, _, part_of_speech, _, _, head, relation, *_ in rows:
        start = text.index(form, at)
        at = start + len(form)
        yield Node(start, at, int(head) - 1, relation, part_of_speech == "PUNCT")


def verdict(tree: Tree, trim: Trim) -> str:
    """ "right", or what speaks against it."""
    nodes = tree.nodes
    inside = {
        index
        for index, node in enumerate(nodes)
        if trim.start <= node.start and node.end <= trim.end and not node.is_mark
    }
    for index, node in enumerate(nodes):
        if index not in inside and not node.is_mark and node.head in inside:
            return f"holds {node.relation}"
    heads = [index for index in inside if nodes[index].head not in inside]
    loose = LOOSE | LOOSE_PHRASE if trim.kind in PHRASES else LOOSE
    tight = [nodes[index].relation for index in heads if nodes[index].relation not in loose]
    return f"is {tight[0]}" if tight else "right"


class Offer(NamedTuple):
    tree: Tree
    trim: Trim
    verdict: str


def offers(trees: Sequence[Tree]) -> list[Offer]:
    return [Offer(tree, trim, verdict(tree, trim)) for tree in trees for trim in trims(tree.text)]


def report(trees: Sequence[Tree]) -> list[Offer]:
    found = offers(trees)
    words = sum(not node.is_mark for tree in trees for node in tree.nodes)
    right = sum(offer.verdict == "right" for offer in found)
    print(f"{len(trees):,} sentences, {words:,} words, {len(found):,} trims offered")
    if not found:
        return found
    print(f"right by the trees {right / len(found):.3f}; {1000 * len(found) / words:.2f} per 1,000")
    by_kind: dict[str, list[str]] = defaultdict(list)
    for offer in found:
        by_kind[offer.trim.kind].append(offer.verdict)
    for kind, verdicts in sorted(by_kind.items()):
        share = verdicts.count("right") / len(verdicts)
        against = Counter(each for each in verdicts if each != "right").most_common(4)
        print(f"  {kind:11} {share:.3f} of {len(verdicts):4}  {_listed(against)}")
    _report_time([tree.text for tree in trees])
    return found


def _listed(counted: Sequence[tuple[str, int]]) -> str:
    return ", ".join(f"{name} {count}" for name, count in counted)


def _report_time(texts: Sequence[str]) -> None:
    """What a sentence costs whose facts are known, as they are wherever it is checked."""
    texts = texts[:4000]
    for text in texts:
        sentence_facts(text)
    own = min(_seconds(trims.__wrapped__, texts) for _ in range(3)) / len(texts)
    floor = min(_seconds(tokens, texts) for _ in range(3)) / len(texts)
    print(f"{1000 * own:.3f} ms a sentence, {own / floor:.1f} times as long as its words alone")


def _seconds(work: Callable[[str], object], texts: Sequence[str]) -> float:
    start = time.process_time()
    for text in texts:
        work(text)
    return time.process_time() - start


def read_aloud(found: Sequence[Offer], count: int) -> None:
    for offer in random.Random(6).sample(list(found), min(count, len(found))):
        text, (start, end, kind, _) = offer.tree.text, offer.trim
        print(f"{kind} | {offer.verdict} | {text[:start]}[{text[start:end]}]{text[end:]}")


if __name__ == "__main__":
    drawn = list(read_trees(data_folder() / TREES))
    numbers = [int(argument) for argument in sys.argv[2:] if argument.isdigit()]
    if numbers:
        drawn = random.Random(1).sample(drawn, min(numbers[0], len(drawn)))
    offered = report(drawn)
    if "--read" in sys.argv:
        read_aloud(offered, 100)
