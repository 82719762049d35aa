"""Annotated documents as a piece's lines, and the same with one sentence in the other tense.

The documents are those of `voice_data` with their paragraphs. Spoken-like are the conversations,
speeches and vlogs, and every other in which three in ten of the sentences in the past or present
are about "I" or "we", if at least eight are in the past or present. A document is told in the
past if seven in ten of these are in the past, in the present if three in ten or fewer.

A slip is one sentence of a spoken-like document, of the document's tense by the annotation, put
into the other by `retensed` on the facts that `sentence_facts` finds, and then analysed anew as
it stands. Every sentence that can be put so is one slip, each in its document otherwise
untouched; there is no chance in it. Documents fall into halves by the first byte of the SHA-256
of their name: even to fit (tune), odd to check.
"""

import gzip
import hashlib
import json
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

from saywright.checks.tense_runs import OTHER, Bearing, Told
from saywright.finding import applied
from saywright.language.english.retensing import retensed
from saywright.language.sentence_facts import sentence_facts
from tests.benchmarks.voice_data import GROUPS, PERSONS, TREES, read_trees

SPOKEN = frozenset(("conversation", "speech", "vlog"))
LEAST_TENSED = 8
LEAST_FIRST = 0.3
LEAST_SHARE = 0.7


class Sentence(NamedTuple):
    """`tense` and `person` are the annotation's."""

    text: str
    opens: bool
    genre: str
    tense: str
    person: str | None


Document = Sequence[Sentence]


class Slip(NamedTuple):
    """The lines of a document of which the one at `at` is in another tense than `piece`."""

    document: str
    at: int
    piece: Bearing
    lines: Sequence[Told]


def read_documents(folder: Path) -> Mapping[str, Document]:
    documents: dict[str, list[Sentence]] = defaultdict(list)
    with (folder / GROUPS).open(encoding="utf-8") as rows:
        for row in map(json.loads, rows):
            subject = row["narr_subj"]
            person = PERSONS[subject["person"]] if subject else None
            sentence = Sentence(row["text"], row["newpar"], row["genre"], row["narr"], person)
            documents[row["doc"]].append(sentence)
    known = {(each.document, each.text): each for each in read_trees(folder)}
    for document, text, opens in _sentences(folder / TREES):
        found = known.get((document, text))
        tense, person = (found.tense, found.person) if found else ("quoted-only", None)
        genre = document.split("-")[0]
        documents[document].append(Sentence(text, opens, genre, tense, person))
    return documents


def _sentences(path: Path) -> Iterator[tuple[str, str, bool]]:
    document, opens = "", False
    with gzip.open(path, "rt", encoding="utf-8") as lines:
        for line in lines:
            if line.startswith("# newdoc id = "):
                document, opens = line[14:].strip(), True
            elif line.startswith("# newpar"):
                opens = True
            elif line.startswith("# text = "):
                yield document, line[9:].rstrip("\n"), opens
                opens = False


def spoken_like(documents: Mapping[str, Document]) -> dict[str, Document]:
    return {name: each for name, each in documents.items() if _is_spoken_like(each)}


def _is_spoken_like(document: Document) -> bool:
    tensed = [sentence for sentence in document if sentence.tense in OTHER]
    first = sum(sentence.person == "first" for sentence in tensed)
    is_spoken = document[0].genre in SPOKEN or first >= LEAST_FIRST * len(tensed)
    return len(tensed) >= LEAST_TENSED and is_spoken


def half_of(name: str) -> str:
    return "check" if hashlib.sha256(name.encode()).digest()[0] % 2 else "tune"


def words_in(document: Document) -> int:
    return sum(len(sentence.text.split()) for sentence in document)


def told(document: Document) -> list[Told]:
    return [Told(each.text, sentence_facts(each.text), each.opens) for each in document]


def told_in(document: Document) -> Bearing | None:
    """The tense of nearly all of a document."""
    tenses = [sentence.tense for sentence in document if sentence.tense in OTHER]
    share = tenses.count("past") / len(tenses)
    return "past" if share >= LEAST_SHARE else "present" if share <= 1 - LEAST_SHARE else None


def slips(documents: Mapping[str, Document]) -> Iterator[Slip]:
    """Every slip that can be made, each of its document's sentences in turn."""
    for name, document in documents.items():
        piece = told_in(document)
        if piece:
            lines = told(document)
            for index, sentence in enumerate(document):
                changed = _changed(lines[index], piece) if sentence.tense == piece else None
                if changed:
                    yield Slip(name, index, piece, [*lines[:index], changed, *lines[index + 1 :]])


def _changed(line: Told, piece: Bearing) -> Told | None:
    if line.facts is None or line.facts.tense != piece:
        return None
    edits = retensed(line.text, line.facts, OTHER[piece])
    text = applied(line.text, edits) if edits else None
    return Told(text, sentence_facts(text), line.opens) if text else None


def half_slips(documents: Mapping[str, Document]) -> Iterator[Slip]:
    """Every sentence of two joined verbs, in one tense and under one subject, with its second verb
    put into the other."""
    for name, document in documents.items():
        lines = told(document)
        for index, line in enumerate(lines):
            tense, changed = _half_changed(line)
            if tense and changed:
                yield Slip(name, index, tense, [*lines[:index], changed, *lines[index + 1 :]])


def _half_changed(line: Told) -> tuple[Bearing | None, Told | None]:
    """The line with the second of its joined verbs changed: the first is taken to be there
    already."""
    facts, main = line.facts, line.verb
    if facts is None or facts.main is None or main is None or main.aspect != "simple":
        return None, None
    later = facts.verbs[facts.main + 1 : facts.main + 2]
    if not later or later[0].role != "joined" or later[0].subject not in (None, main.subject):
        return None, None
    if later[0].tense != main.tense or later[0].aspect != "simple" or main.tense not in OTHER:
        return None, None
    piece: Bearing = "past" if main.tense == "past" else "present"
    there = main._replace(tense=OTHER[piece])
    verbs = (*facts.verbs[: facts.main], there, *facts.verbs[facts.main + 1 :])
    edits = retensed(line.text, facts._replace(verbs=verbs), OTHER[piece])
    if not edits:
        return None, None
    text = applied(line.text, edits)
    return piece, Told(text, sentence_facts(text), line.opens)
