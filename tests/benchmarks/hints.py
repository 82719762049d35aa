"""How often the checks of the voice speak up in documents that nobody asked them about.

    python tests/benchmarks/hints.py [DATA] [--show CHECK]

DATA is a folder with `voice/finite_verbs.jsonl`, or that file's own, or stands in SAYWRIGHT_DATA;
without it nothing is measured. Its documents (letters, reviews, talk, speeches), written by many
people, are read as pieces, a paragraph where theirs is, with every mark taken as plain text.
Findings are counted before any limit to how many are said. `--show` prints those of one check.
"""

import json
import os
import re
import sys
import time
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from saywright.analysis import analyse
from saywright.checks.catalogue import CHECKS
from saywright.finding import Finding

NEARBY = tuple(check.name for check in CHECKS if check.find_nearby)
NOT_COUNTED_TOGETHER = ("tense", "filler")
_MARK = re.compile(r"[\\()|*_~#:]|^-(?=---)", re.MULTILINE)


class Document(NamedTuple):
    genre: str
    text: str
    words: int


def data_file() -> Path | None:
    given = [argument for argument in sys.argv[1:] if not argument.startswith("--")]
    folder = Path(given[0] if given else os.environ.get("SAYWRIGHT_DATA", ""))
    tried = (folder / "voice" / "finite_verbs.jsonl", folder / "finite_verbs.jsonl")
    return next((path for path in tried if path.is_file()), None)


def read_documents(path: Path) -> Iterator[Document]:
    by_document: dict[str, list[dict[str, object]]] = {}
    with path.open(encoding="utf-8") as lines:
        for line in lines:
            row = json.loads(line)
            by_document.setdefault(row["doc"], []).append(row)
    for rows in by_document.values():
        rows.sort(key=lambda row: int(str(row["idx"])))
        text = "".join(
            f"{'' if not at else _gap(row)}{_plain(str(row['text']))}"
            for at, row in enumerate(rows)
        )
        words = sum(len(str(row["text"]).split()) for row in rows)
        yield Document(str(rows[0]["genre"]), f"---- piece\n{text}\n", words)


def _gap(row: dict[str, object]) -> str:
    return "\n\n" if row["newpar"] else " "


def _plain(text: str) -> str:
    """`text` so that the markup reads nothing but speech in it."""
    return _MARK.sub(lambda mark: f"\\{mark[0]}", " ".join(text.split()))


def findings_of(text: str) -> Iterator[Finding]:
    """What the checks of the voice find, with the file's offsets."""
    start = 0
    for each in analyse(text).blocks.items():
        for finding in (*each.findings, *each.findings_nearby):
            if finding.check in NEARBY:
                yield finding.shifted(start)
        start += len(each.block.text)


def told(text: str, finding: Finding) -> str:
    around = text[max(finding.start - 90, 0) : finding.start].replace("\n", "⏎")
    words = text[finding.start : finding.end].replace("\n", "⏎")
    after = text[finding.end : finding.end + 30].replace("\n", "⏎")
    fixes = "; ".join(fix.title for fix in finding.fixes)
    return f"{around}[{words}]{after}\n    {finding.message} {fixes}"


def main() -> int:
    path = data_file()
    if path is None:
        print("No data: give its folder as the argument or in SAYWRIGHT_DATA. Nothing measured.")
        return 0
    shown = sys.argv[sys.argv.index("--show") + 1] if "--show" in sys.argv else None
    documents = list(read_documents(path))
    words: Counter[str] = Counter()
    found: Counter[tuple[str, str]] = Counter()
    began = time.perf_counter()
    for document in documents:
        words[document.genre] += document.words
        for finding in findings_of(document.text):
            found[finding.check, document.genre] += 1
            if finding.check == shown:
                print(told(document.text, finding))
    seconds = time.perf_counter() - began
    print_table(words, found)
    print(f"{len(documents)} documents, {words.total()} words, read in {seconds:.1f} s")
    return 0


def print_table(words: Counter[str], found: Counter[tuple[str, str]]) -> None:
    genres = sorted(words)
    print(f"{'findings in 1,000 words':24}{'all':>8}", *(f"{genre:>13}" for genre in genres))
    for name in NEARBY:
        print_row(name, (name,), words, found)
    together = tuple(name for name in NEARBY if not name.startswith(NOT_COUNTED_TOGETHER))
    print_row("all but tense, fillers", together, words, found)


def print_row(
    title: str, names: tuple[str, ...], words: Counter[str], found: Counter[tuple[str, str]]
) -> None:
    genres = sorted(words)
    counts = [sum(found[name, genre] for name in names) for genre in genres]
    rates = (
        f"{1000 * count / words[genre]:13.2f}" for count, genre in zip(counts, genres, strict=True)
    )
    print(f"{title:24}{1000 * sum(counts) / words.total():8.2f}", *rates)


if __name__ == "__main__":
    raise SystemExit(main())
