"""Of the fillers that are pencilled in real documents, how many are fillers.

    python -m tests.benchmarks.fillers [DATA] [--show]

DATA is a folder with `voice/finite_verbs.jsonl`, or that file's own, or stands in SAYWRIGHT_DATA;
without it nothing is measured. Fillers are looked for in each of its sentences, quotes left out, as
the check does. `filler_verdicts.tsv` holds for each whether, reading its sentence, it was found to
be a filler or real words. `--show` prints those that nobody has judged, and those that are real.
Exits 1 if fewer than 95 in 100 are fillers, of the first 200 or of all, or if any of the first 200
is not judged.
"""

import csv
import json
import sys
from collections import Counter
from collections.abc import Iterator
from itertools import groupby
from pathlib import Path
from typing import Any, NamedTuple

from saywright.language.english.fillers import fillers
from saywright.language.english.quoted_words import quotes_in
from tests.benchmarks.hints import data_file

VERDICTS = Path(__file__).with_name("filler_verdicts.tsv")
LEAST_PRECISION = 0.95
FIRST = 200


class Place(NamedTuple):
    """Where a filler is raised; offsets are those of the sentence."""

    document: str
    sentence: int
    start: int
    end: int


class Raised(NamedTuple):
    place: Place
    text: str


def read_rows(path: Path) -> list[list[dict[str, Any]]]:
    """The sentences of each document in their order."""
    with path.open(encoding="utf-8") as lines:
        rows = [json.loads(line) for line in lines]
    order = {row["doc"]: at for at, row in reversed(list(enumerate(rows)))}
    rows.sort(key=lambda row: (order[row["doc"]], row["idx"]))
    return [list(group) for _, group in groupby(rows, key=lambda row: row["doc"])]


def raised_in(document: list[dict[str, Any]]) -> Iterator[Raised]:
    in_quotes = False
    for row in document:
        text = str(row["text"])
        quotes = quotes_in(text, in_quotes and not row["newpar"])
        in_quotes = quotes.open_after
        for start, end in fillers(text):
            if not quotes.hold(start):
                yield Raised(Place(row["doc"], row["idx"], start, end), text)


def read_verdicts() -> dict[Place, str]:
    with VERDICTS.open(encoding="utf-8", newline="") as lines:
        return {
            Place(row["document"], int(row["sentence"]), int(row["start"]), int(row["end"])): row[
                "verdict"
            ]
            for row in csv.DictReader(lines, delimiter="\t")
        }


def tell(title: str, raised: list[Raised], verdicts: dict[Place, str]) -> bool:
    """Prints the precision; whether it is high enough."""
    count = Counter(verdicts.get(each.place, "unjudged") for each in raised)
    judged = count["filler"] + count["real"]
    precision = count["filler"] / max(1, judged)
    print(
        f"{title:10}{len(raised):5} raised, {judged} judged: "
        f"{count['filler']} fillers, {count['real']} real, precision {precision:.3f}"
    )
    return precision >= LEAST_PRECISION


def main() -> int:
    path = data_file()
    if path is None:
        print("No data: give its folder as the argument or in SAYWRIGHT_DATA. Nothing measured.")
        return 0
    documents = read_rows(path)
    raised = [each for document in documents for each in raised_in(document)]
    words = sum(len(str(row["text"]).split()) for document in documents for row in document)
    verdicts = read_verdicts()
    enough = tell(f"first {FIRST}", raised[:FIRST], verdicts), tell("all", raised, verdicts)
    print(f"{1000 * len(raised) / words:.2f} raised in 1,000 words ({words} words)")
    if "--show" in sys.argv:
        show(raised, verdicts)
    judged = all(each.place in verdicts for each in raised[:FIRST])
    return 0 if all(enough) and judged else 1


def show(raised: list[Raised], verdicts: dict[Place, str]) -> None:
    for (document, sentence, start, end), text in raised:
        verdict = verdicts.get(Place(document, sentence, start, end), "unjudged")
        if verdict != "filler":
            before, after = text[max(start - 60, 0) : start], text[end : end + 60]
            print(f"{verdict}: {document} {sentence}: {before}[{text[start:end]}]{after}")


if __name__ == "__main__":
    raise SystemExit(main())
