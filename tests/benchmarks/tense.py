"""How well the tense engine does on documents that its weights were not fitted to.

    python -m tests.benchmarks.tense DATA [MORE]

Fits the engine anew, once for each fifth of the documents, to the other four fifths (as
`fit_tense.py` does, whose folders it takes), and scores the fifth left out. The package's own
weights are fitted to all of them, so they are not scored here. Only the table of word classes,
which is made from the treebank alone, is that of all folds; sentences of the treebank are fitted
to, never scored. Then: speed against splitting the same sentences into words, and memory.
"""

import random
import subprocess
import sys
import time
from collections import Counter
from collections.abc import Sequence
from typing import NamedTuple

from saywright.language.english.facts_of import facts_of
from saywright.language.english.tokens import tokens
from saywright.language.facts import Facts
from tests.benchmarks.fit_tense import Fitted, fit
from tests.benchmarks.voice_data import Annotated, data_folder, extra_folder

TENSES = ("present", "past", "future", "modal", "imperative", "fragment")
RESAMPLES = 1000
_MEMORY = """
from pathlib import Path
from saywright.language.english.facts_of import facts_of
facts_of("The ferry was late, and I waited.")
status = Path("/proc/self/status").read_text()
print(int(status.split("VmHWM:")[1].split()[0]) / 1024)
"""


class Scored(NamedTuple):
    """A sentence and what the engine made of it."""

    source: Annotated
    facts: Facts

    @property
    def is_right(self) -> bool:
        return self.facts.tense == self.source.tense

    @property
    def verb_is_right(self) -> bool:
        """Whether the verb that sets the tense is the right one ("don't tell": either word)."""
        main, wanted = self.facts.main, self.source.verb
        if main is None or wanted is None:
            return main is None and wanted is None
        verb = self.facts.verbs[main]
        return verb.start <= wanted < max(verb.end, verb.head[1])


def scored(fitted: Fitted) -> list[Scored]:
    """The sentences of many kinds, each by the weights that were not fitted to its document."""
    found = []
    for number in range(fitted.groups_from, len(fitted.sentences)):
        source = fitted.sentences[number].source
        facts = facts_of(source.text, fitted.by_fold[fitted.folds[number]])
        found.append(Scored(source, facts))
    return found


def error_by_documents(rows: Sequence[Scored]) -> float:
    """The standard error of the share of right ones, when documents are drawn anew."""
    by_document: dict[str, list[int]] = {}
    for row in rows:
        sums = by_document.setdefault(row.source.document, [0, 0])
        sums[0] += row.is_right
        sums[1] += 1
    documents = list(by_document.values())
    chance = random.Random(1)
    shares = []
    for _ in range(RESAMPLES):
        drawn = chance.choices(documents, k=len(documents))
        shares.append(sum(right for right, _ in drawn) / sum(count for _, count in drawn))
    mean = sum(shares) / RESAMPLES
    return float((sum((share - mean) ** 2 for share in shares) / RESAMPLES) ** 0.5)


def share(flags: Sequence[bool]) -> float:
    return sum(flags) / len(flags) if flags else float("nan")


def report(fitted: Fitted) -> None:
    """Print every figure."""
    rows = scored(fitted)
    print(f"{len(rows)} sentences, fitted to other documents (five folds)")
    print(f"tense right {share([r.is_right for r in rows]):.4f} ± {error_by_documents(rows):.4f}")
    print(f"its verb    {share([r.verb_is_right for r in rows]):.4f}")
    for genre in sorted({row.source.genre for row in rows}):
        part = [row for row in rows if row.source.genre == genre]
        print(f"  {genre:13} {share([r.is_right for r in part]):.3f} of {len(part)}")
    print("tense        precision  recall")
    for tense in TENSES:
        said = [row.is_right for row in rows if row.facts.tense == tense]
        true = [row.is_right for row in rows if row.source.tense == tense]
        print(f"  {tense:11} {share(said):.3f}      {share(true):.3f}")
    with_person = [row for row in rows if row.source.person]
    print(
        f"person      {share([r.facts.person == r.source.person for r in with_person]):.4f} of "
        f"{len(with_person)} that have one"
    )
    for person in ("first", "second", "third"):
        said = [r.source.person == person for r in rows if r.facts.person == person]
        true = [r.facts.person == person for r in rows if r.source.person == person]
        print(f"  {person:11} {share(said):.3f}      {share(true):.3f}")
    _report_verbs(rows)
    _report_sureness(rows)
    wrong = Counter((r.source.tense, r.facts.tense) for r in rows if not r.is_right)
    print("taken for:", ", ".join(f"{a} for {b} {n}" for (a, b), n in wrong.most_common(8)))
    _report_cost([row.source.text for row in rows], fitted)


def _report_verbs(rows: Sequence[Scored]) -> None:
    wanted = found = hits = roles = tenses = 0
    for row in rows:
        true = {group.start: group for group in row.source.groups}
        wanted += len(true)
        found += len(row.facts.verbs)
        for verb in row.facts.verbs:
            group = next((g for at, g in true.items() if verb.start <= at < verb.end), None)
            if group is not None:
                hits += 1
                tenses += group.tense == verb.tense
                roles += (group.role == "under") == (verb.role == "under")
    print(
        f"all finite verbs: precision {hits / found:.3f}, recall {hits / wanted:.3f}; of those "
        f"found, tense right {tenses / hits:.3f}, hanging or not {roles / hits:.3f}"
    )


def _report_sureness(rows: Sequence[Scored]) -> None:
    for low, high in ((0.0, 0.6), (0.6, 0.8), (0.8, 0.95), (0.95, 1.01)):
        part = [row.is_right for row in rows if low <= row.facts.sure < high]
        print(f"  sure {low:.2f} to {min(high, 1):.2f}: {share(part):.3f} right of {len(part)}")


def _report_cost(texts: Sequence[str], fitted: Fitted) -> None:
    weights = fitted.by_fold[0]
    seconds = min(_seconds(lambda: [facts_of(text, weights) for text in texts]) for _ in range(3))
    split = min(_seconds(lambda: [tokens(text) for text in texts]) for _ in range(3))
    print(
        f"{len(texts) / seconds:,.0f} sentences a second; {seconds / split:.1f} times as long "
        f"as splitting them into words"
    )
    memory = subprocess.run(
        [sys.executable, "-c", _MEMORY], capture_output=True, text=True, check=True
    ).stdout
    print(f"peak memory of a process with the engine and nothing else: {float(memory):.1f} MiB")


def _seconds(run: object) -> float:
    start = time.perf_counter()
    run()  # type: ignore[operator]
    return time.perf_counter() - start


if __name__ == "__main__":
    report(fit(data_folder(), extra_folder(), lambda line: print(line, flush=True), final=False))
