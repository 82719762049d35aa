"""How often the check of tense is wrong, and how many slips it finds.

    python tests/benchmarks/drift.py DATA [--list]

False alarms are what it tells of the spoken-like documents as they are, for every 1,000 words; a
few may be true slips of their writers. Slips are made one sentence at a time (see `drift_data`)
and found if the run that holds the changed sentence is told of. Of sentences with two verbs
joined under one subject a second kind changes one of the two alone. Each document is looked at
whole, as one part. `--list` names the false alarms by document and sentence. DATA is the folder of
`voice_data`, from SAYWRIGHT_DATA if it is not given.
"""

import sys
from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

if __package__ in (None, ""):
    sys.path.insert(0, str(Path(__file__).parents[2]))

from saywright.checks.tense_runs import Bearing, Told
from saywright.checks.tense_slips import ClashAt, drifts
from tests.benchmarks.drift_data import (
    Document,
    half_of,
    half_slips,
    read_documents,
    slips,
    spoken_like,
    told,
    told_in,
    words_in,
)
from tests.benchmarks.voice_data import data_folder

HALVES = ("tune", "check", "both")


def alarms(lines: Sequence[Told], declared: Bearing | None = None) -> Iterator[tuple[str, int]]:
    """What is told of a document: its kind, and the line it stands on."""
    for drift in drifts(lines, 0, len(lines), declared):
        kind = type(drift).__name__
        yield kind, drift.line if isinstance(drift, ClashAt) else drift.run.first


def is_found(lines: Sequence[Told], at: int, declared: Bearing | None = None) -> bool:
    return any(
        at == drift.line if isinstance(drift, ClashAt) else at in drift.run.lines
        for drift in drifts(lines, 0, len(lines), declared)
    )


def report_alarms(documents: Mapping[str, Document], declare: bool, listed: bool) -> None:
    words: Counter[str] = Counter()
    seen: Counter[tuple[str, str]] = Counter()
    by_genre: dict[str, list[int]] = defaultdict(lambda: [0, 0])
    for name, document in documents.items():
        declared = told_in(document) if declare else None
        if declare and not declared:
            continue
        found = list(alarms(told(document), declared))
        genre = by_genre[document[0].genre]
        genre[0] += words_in(document)
        genre[1] += len(found)
        for half in (half_of(name), "both"):
            words[half] += words_in(document)
            seen.update((half, kind) for kind, _ in found)
        for kind, at in found if listed else ():
            print(f"  {kind} {name} {at}")
    for half in HALVES:
        kinds = {kind: count for (of, kind), count in sorted(seen.items()) if of == half}
        rate = 1000 * sum(kinds.values()) / words[half]
        each = ", ".join(f"{count} {kind}" for kind, count in kinds.items())
        print(f"  {half}: {rate:.2f} in 1,000 of {words[half]} words ({each})")
    rates = (f"{name} {1000 * n / of:.2f}" for name, (of, n) in sorted(by_genre.items()))
    print(f"  by genre: {', '.join(rates)}")


def report_slips(made: Mapping[tuple[str, str], Sequence[bool]]) -> None:
    for (kind, half), found in sorted(made.items()):
        print(f"  {kind}, {half}: {sum(found) / len(found):.3f} of {len(found)} found")


def main() -> None:
    documents = spoken_like(read_documents(data_folder()))
    print("false alarms:")
    report_alarms(documents, False, "--list" in sys.argv)
    print("false alarms where the document's tense is declared:")
    report_alarms(documents, True, False)
    made: dict[tuple[str, str], list[bool]] = defaultdict(list)
    for slip in slips(documents):
        for half in (half_of(slip.document), "both"):
            made[f"{slip.piece} pieces", half].append(is_found(slip.lines, slip.at))
            declared = is_found(slip.lines, slip.at, slip.piece)
            made[f"{slip.piece} pieces that declare it", half].append(declared)
    for slip in half_slips(documents):
        for half in (half_of(slip.document), "both"):
            found = is_found(slip.lines, slip.at)
            made["one of two joined verbs", half].append(found)
    print("slips:")
    report_slips(made)


if __name__ == "__main__":
    main()
