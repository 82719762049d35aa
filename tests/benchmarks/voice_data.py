"""The annotated sentences that the tense engine is fitted to, read from a folder elsewhere.

Two files: `finite_verbs.jsonl` (sentences with their finite verb groups) and
`ewt_train.conllu.gz` (dependency trees, from which the same is derived here). The tense of a
sentence is that of the verb group of its root, `fragment` where the root is not finite. Where the
root is quoted, it is that of the first group outside the quotes.
"""

import gzip
import json
import os
import re
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

TREES = "ewt_train.conllu.gz"
GROUPS = "finite_verbs.jsonl"
PERSONS = {1: "first", 2: "second", 3: "third"}
FINITE = frozenset(("VBD", "VBP", "VBZ", "MD"))
_QUOTES = re.compile(r"[\"“”]")


class Group(NamedTuple):
    """A finite verb group: `start` of its tense-bearing word, `role` as in `facts.Verb`."""

    start: int
    tense: str
    role: str
    is_perfect: bool
    subject: int | None
    person: str | None


class Word(NamedTuple):
    """A word of the treebank, with its tag (Penn, and VBI for an imperative)."""

    start: int
    end: int
    tag: str


class Annotated(NamedTuple):
    """A sentence; `verb` is where the verb of its `tense` starts, None for a fragment. `words` is
    empty where only the groups are known."""

    text: str
    document: str
    genre: str
    tense: str
    verb: int | None
    person: str | None
    groups: tuple[Group, ...]
    words: tuple[Word, ...] = ()


def data_folder() -> Path:
    """The folder given as first argument or in SAYWRIGHT_DATA; ends the program if it lacks."""
    given = [argument for argument in sys.argv[1:] if not argument.startswith("-")]
    folder = Path(given[0] if given else os.environ.get("SAYWRIGHT_DATA", ""))
    if not (folder / GROUPS).is_file():
        folder /= "voice"
    for name in (TREES, GROUPS):
        if not (folder / name).is_file():
            sys.exit(f"No {name}: name its folder as an argument or in SAYWRIGHT_DATA.")
    return folder


def extra_folder() -> Path | None:
    """The folder given as second argument, of data that is of help but not needed."""
    given = [argument for argument in sys.argv[1:] if not argument.startswith("-")]
    return Path(given[1]) if len(given) > 1 else None


def read_groups(folder: Path) -> list[Annotated]:
    """The sentences of `finite_verbs.jsonl`, without those that are all quoted."""
    with (folder / GROUPS).open(encoding="utf-8") as lines:
        rows = [json.loads(line) for line in lines]
    return [_from_row(row) for row in rows if row["narr"] != "quoted-only"]


def _from_row(row: dict[str, Any]) -> Annotated:
    groups = tuple(_group(group) for group in row["groups"])
    subject = row["narr_subj"]
    return Annotated(
        row["text"],
        row["doc"],
        row["genre"],
        row["narr"],
        row["narr_s"],
        PERSONS[subject["person"]] if subject else None,
        groups,
    )


def _group(row: dict[str, Any]) -> Group:
    role = "main" if row["rel"] == "root" else "under" if row["sub"] else "joined"
    subject = row["subj"]
    return Group(
        row["s"],
        row["kind"],
        role,
        "perfect" in row["comp"],
        subject["s"] if subject else None,
        PERSONS[subject["person"]] if subject else None,
    )


class Node(NamedTuple):
    """A line of a tree."""

    start: int
    end: int
    form: str
    lemma: str
    tag: str
    feats: str
    head: int
    relation: str


def read_trees(folder: Path) -> list[Annotated]:
    """The sentences of the treebank, in the same shape, without those that are all quoted."""
    found = []
    for document, text, nodes in _trees(folder / TREES):
        sentence = _from_tree(document, text, nodes)
        if sentence is not None:
            found.append(sentence)
    return found


def _trees(path: Path) -> Iterator[tuple[str, str, list[Node]]]:
    document = text = ""
    rows: list[list[str]] = []
    with gzip.open(path, "rt", encoding="utf-8") as lines:
        for line in lines:
            if line.startswith("# newdoc id = "):
                document = line[14:].strip()
            elif line.startswith("# text = "):
                text = line[9:].rstrip("\n")
            elif line.strip() and not line.startswith("#"):
                row = line.rstrip("\n").split("\t")
                if row[0].isdigit():
                    rows.append(row)
            elif rows and not line.strip():
                yield document, text, list(_placed(text, rows))
                rows = []


def _placed(text: str, rows: list[list[str]]) -> Iterator[Node]:
    at = 0
    for row in rows:
        start = text.index(row[1], at)
        at = start + len(row[1])
        yield Node(
            start,
            at,
            row[1],
            row[2],
            row[4],
            row[5],
            int(row[6]) - 1,
            row[7].split(":")[0] if not row[7].startswith(("nsubj", "csubj")) else row[7],
        )


def _finite(nodes: list[Node], index: int) -> str | None:
    node = nodes[index]
    if node.tag == "MD":
        return "future" if node.lemma in {"will", "shall"} else "modal"
    if node.tag == "VBD":
        return "past"
    if node.tag in {"VBP", "VBZ"}:
        return "present"
    return "imperative" if node.tag == "VB" and "Mood=Imp" in node.feats else None


def _predicate(nodes: list[Node], index: int) -> int:
    while nodes[index].relation in {"aux", "cop"} and nodes[index].head >= 0:
        index = nodes[index].head
    return index


_UNDER = frozenset(("advcl", "ccomp", "acl", "csubj", "xcomp", "obl", "obj", "nmod"))


def _role(nodes: list[Node], index: int) -> str:
    while nodes[index].relation == "conj":
        index = nodes[index].head
    relation = nodes[index].relation.split(":")[0]
    return "main" if relation == "root" else "under" if relation in _UNDER else "joined"


_FIRST = frozenset(("i", "we", "me", "us", "im"))
_SECOND = frozenset(("you", "ya", "u", "ye", "y'all", "thou"))


def _person(node: Node) -> str:
    if "Person=1" in node.feats or node.form.lower() in _FIRST:
        return "first"
    return "second" if "Person=2" in node.feats or node.form.lower() in _SECOND else "third"


def _subject(nodes: list[Node], index: int) -> int | None:
    for _ in nodes:
        for other, node in enumerate(nodes):
            if node.head == index and node.relation.startswith(("nsubj", "csubj")):
                return other
        if nodes[index].relation != "conj":
            return None
        index = nodes[index].head
    return None


def _from_tree(document: str, text: str, nodes: list[Node]) -> Annotated | None:
    groups: dict[int, Group] = {}
    for index in range(len(nodes)):
        tense = _finite(nodes, index)
        predicate = _predicate(nodes, index)
        if tense is None or predicate in groups:
            continue
        role = _role(nodes, predicate)
        if role == "main" and nodes[predicate].relation != "root":
            role = "joined"
        subject = None if tense == "imperative" else _subject(nodes, predicate)
        children = [n for n in nodes if n.head == predicate and n.relation == "aux"]
        groups[predicate] = Group(
            nodes[index].start,
            tense,
            role,
            any(n.lemma == "have" for n in children),
            None if subject is None else nodes[subject].start,
            None if subject is None else _person(nodes[subject]),
        )
    words = tuple(Word(n.start, n.end, _tag(n)) for n in nodes)
    root = next(index for index, node in enumerate(nodes) if node.head < 0)
    chosen = groups.get(root)
    quoted = quoted_spans(text)
    if any(start < nodes[root].start < end for start, end in quoted):
        if not _words_outside(text, quoted):
            return None
        outside = [g for g in groups.values() if not any(s < g.start < e for s, e in quoted)]
        chosen = outside[0] if outside else None
    return Annotated(
        text,
        document,
        document.split("-", maxsplit=1)[0],
        chosen.tense if chosen else "fragment",
        chosen.start if chosen else None,
        chosen.person if chosen else None,
        tuple(groups.values()),
        words,
    )


def _tag(node: Node) -> str:
    return "VBI" if node.tag == "VB" and "Mood=Imp" in node.feats else node.tag


def quoted_spans(text: str) -> list[tuple[int, int]]:
    """From each quote mark to the next; the last may be open."""
    marks = [found.start() for found in _QUOTES.finditer(text)]
    ends = [*marks[1::2], len(text)] if len(marks) % 2 else marks[1::2]
    return list(zip(marks[::2], ends, strict=True))


def _words_outside(text: str, quoted: list[tuple[int, int]]) -> bool:
    kept, at = "", 0
    for start, end in quoted:
        kept, at = kept + text[at:start], end
    return any(letter.isalpha() for letter in kept + text[at:])
