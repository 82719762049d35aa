"""How many sentence boundaries of real prose are found, beside general-purpose splitters.

    python tests/benchmarks/sentence_boundaries.py [DATA]

DATA is a folder with `voice/finite_verbs.jsonl`, or stands in SAYWRIGHT_DATA; without it nothing is
measured. The sentences of a paragraph, as a treebank splits them, are joined by a space and split
again. A boundary is the number of characters, spaces aside, before it; a paragraph's end is none.
Splitters that are not installed are left out: pip install pysbd sentencex syntok.
Exits 1 if a splitter finds boundaries with a higher F1.
"""

import json
import os
import re
import sys
import time
from collections.abc import Callable, Iterable, Iterator
from importlib import import_module
from itertools import accumulate, pairwise
from pathlib import Path
from typing import NamedTuple

from saywright.language.sentences import sentence_spans

Splitter = Callable[[str], Iterable[str]]
ENDS_IN_STOP = re.compile(r"[.!?…]['\")\]’”]*$")
OURS = "saywright"


class Score(NamedTuple):
    found: int
    wrong: int
    missed: int

    @property
    def precision(self) -> float:
        return self.found / max(1, self.found + self.wrong)

    @property
    def recall(self) -> float:
        return self.found / max(1, self.found + self.missed)

    @property
    def f1(self) -> float:
        return 2 * self.found / max(1, 2 * self.found + self.wrong + self.missed)


def read_paragraphs(path: Path) -> Iterator[list[str]]:
    """The sentences of each paragraph; one left out of the data (a gap in `idx`) parts them too."""
    paragraph: list[str] = []
    expected: tuple[str, int] | None = None
    with path.open(encoding="utf-8") as lines:
        for line in lines:
            row = json.loads(line)
            if paragraph and (row["newpar"] or (row["doc"], row["idx"]) != expected):
                yield paragraph
                paragraph = []
            paragraph.append(row["text"])
            expected = (row["doc"], row["idx"] + 1)
    if paragraph:
        yield paragraph


def boundaries(sentences: Iterable[str]) -> list[int]:
    lengths = (len("".join(sentence.split())) for sentence in sentences)
    return list(accumulate(length for length in lengths if length))[:-1]


def score(paragraphs: list[list[str]], split: Splitter, stops_only: bool) -> Score:
    """With `stops_only`, boundaries that no mark shows are neither found nor missed."""
    found = wrong = missed = 0
    for sentences in paragraphs:
        true = boundaries(sentences)
        asked = set(true)
        if stops_only:
            pairs = zip(true, sentences, strict=False)
            asked = {at for at, sentence in pairs if ENDS_IN_STOP.search(sentence)}
        given = set(boundaries(split(" ".join(sentences))))
        found += len(given & asked)
        missed += len(asked - given)
        wrong += len(given - set(true))
    return Score(found, wrong, missed)


def split_here(text: str) -> Iterable[str]:
    return (text[start:end] for start, end in sentence_spans(text, "en"))


def pysbd() -> Splitter:
    splitter: Splitter = import_module("pysbd").Segmenter(language="en", clean=False).segment
    return splitter


def sentencex() -> Splitter:
    module = import_module("sentencex")
    return lambda text: module.segment("en", text)


def syntok() -> Splitter:
    module = import_module("syntok.segmenter")

    def split(text: str) -> Iterable[str]:
        paragraphs = module.analyze(text)
        starts = [sentence[0].offset for paragraph in paragraphs for sentence in paragraph]
        return (text[start:end] for start, end in pairwise([0, *starts[1:], len(text)]))

    return split


def uniseg() -> Splitter:
    """The standard's rules alone."""
    splitter: Splitter = import_module("uniseg.sentencebreak").sentences
    return splitter


def splitters() -> Iterator[tuple[str, Splitter]]:
    yield OURS, split_here
    for load in (pysbd, sentencex, syntok, uniseg):
        try:
            yield load.__name__, load()
        except ImportError:
            print(f"{load.__name__}: not installed, left out")


def main() -> int:
    folder = sys.argv[1] if len(sys.argv) > 1 else os.environ.get("SAYWRIGHT_DATA", "")
    path = Path(folder) / "voice" / "finite_verbs.jsonl"
    if not folder or not path.is_file():
        print("No data: give its folder as the argument or in SAYWRIGHT_DATA. Nothing measured.")
        return 0
    paragraphs = list(read_paragraphs(path))
    megabytes = sum(len(" ".join(paragraph).encode()) for paragraph in paragraphs) / 1e6
    print(f"{len(paragraphs)} paragraphs, {megabytes:.2f} MB")
    print("splitter    all: precision recall     F1   with a stop: recall     F1    MB/s")
    best: dict[str, float] = {}
    for name, split in splitters():
        start = time.perf_counter()
        every = score(paragraphs, split, stops_only=False)
        seconds = time.perf_counter() - start
        stops = score(paragraphs, split, stops_only=True)
        best[name] = every.f1
        print(
            f"{name:12}     {every.precision:9.4f} {every.recall:.4f} {every.f1:.4f}"
            f"                {stops.recall:.4f} {stops.f1:.4f} {megabytes / seconds:7.2f}"
        )
    return int(max(best.values()) > best[OURS])


if __name__ == "__main__":
    raise SystemExit(main())
