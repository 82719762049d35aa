"""How far off estimated times are, beside counting words, characters or syllables.

    python -m tests.benchmarks.speech_time FOLDER

Each chapter and each speaker is scored with coefficients fitted on the others only, in five folds.
An error is the absolute difference of estimated and true time, in % of the true: its median and its
90th percentile, each with its standard error over chapters, or speakers, drawn anew as wholes (the
errors of one speaker are alike, so that errors drawn one by one would seem surer than they are).
"Less than characters" is by how much the errors are below those of counting characters, over the
same draws. "Scaled" is after one factor a reader: the sum of the true over the sum of the estimated
times, for readers with at least two minutes; "second half" after the factor learned on the first
half of a speaker's stretches. No estimate has a constant term. "As shipped" is what
`saywright.inspect` gives.

Below the table: the one reader's last twelve chapters, which are of one book, by a fit on the books
before it; then how many stretches lie in the ranges, before any take and with the first half of the
speaker's as takes, and the errors of the estimates that the product makes then. Needs numpy and
scipy.
"""

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

import saywright
from tests.benchmarks import range_coverage
from tests.benchmarks.fit_speech import (
    COLUMNS,
    LEAST_SECONDS_A_READER,
    WEIGHTS,
    Floats,
    Sample,
    fit,
    numbered,
    samples,
)
from tests.benchmarks.speech_data import Corpus, Recording, as_script, read_corpus

FOLDS = 5
CHAPTERS_OF_LAST_BOOK = 12
DRAWS = 400
CHARACTERS_PER_SECOND = 15.0

Estimates = tuple[Floats, Floats]


def shipped_seconds(text: str) -> float:
    """The product's own estimate."""
    return float(saywright.inspect(as_script(text))["parts"][0]["seconds"])


def held_out(corpus: Corpus, parts: dict[str, Sample]) -> tuple[Estimates, list[float]]:
    """Each recording's estimate by a fit that left its fold out, and the levels found."""
    chapters = numbered([clip.group for clip in corpus.clips]) % FOLDS
    speakers = parts["stretches"].readers % FOLDS
    clips = np.zeros(len(chapters))
    stretches = np.zeros(len(speakers))
    totals = []
    for fold in range(FOLDS):
        training = {
            "clips": parts["clips"].where(chapters != fold),
            "stretches": parts["stretches"].where(speakers != fold),
        }
        found = fit(training, WEIGHTS)
        clips[chapters == fold] = parts["clips"].rows[chapters == fold] @ found
        stretches[speakers == fold] = parts["stretches"].rows[speakers == fold] @ found
        true = parts["stretches"].seconds[speakers == fold].sum()
        totals.append(float(stretches[speakers == fold].sum() / true))
    return (clips, stretches), totals


def errors(estimated: Floats, true: Floats) -> Floats:
    return np.abs(estimated / true - 1) * 100


def scaled(estimated: Floats, true: Floats) -> Floats:
    return errors(estimated * true.sum() / estimated.sum(), true)


def by_speaker(readers: NDArray[np.int64], true: Floats) -> Iterator[NDArray[np.intp]]:
    for reader in np.unique(readers):
        own = np.flatnonzero(readers == reader)
        if true[own].sum() >= LEAST_SECONDS_A_READER:
            yield own


def second_half(estimated: Floats, true: Floats) -> Floats:
    half = len(true) // 2
    factor = true[:half].sum() / estimated[:half].sum()
    return errors(estimated[half:] * factor, true[half:])


class Errors(NamedTuple):
    """Errors in %, each with the number of the chapter or the speaker that it is of."""

    found: Floats
    groups: NDArray[np.int64]

    def drawn(self) -> Floats:
        """Median and 90th percentile over groups drawn anew, a row a draw; the same draws for
        errors of the same groups."""
        draws = np.random.default_rng(1)
        members = [np.flatnonzero(self.groups == group) for group in np.unique(self.groups)]
        rows = []
        for _ in range(DRAWS):
            chosen = draws.integers(len(members), size=len(members))
            rows.append(middle_and_most(self.found[np.concatenate([members[i] for i in chosen])]))
        return np.array(rows)

    def __str__(self) -> str:
        return told(middle_and_most(self.found), self.drawn())

    def less_than(self, other: "Errors") -> str:
        less = middle_and_most(other.found) - middle_and_most(self.found)
        return told(less, other.drawn() - self.drawn())


def middle_and_most(found: Floats) -> Floats:
    return np.array([np.median(found), np.percentile(found, 90)])


def told(figures: Floats, drawn: Floats) -> str:
    (middle, most), (middle_error, most_error) = figures, drawn.std(axis=0)
    return f"{middle:.2f}±{middle_error:.2f}/{most:.1f}±{most_error:.1f}"


def all_errors(corpus: Corpus, parts: dict[str, Sample], estimates: Estimates) -> list[Errors]:
    """Those of each column but the last."""
    clips, stretches = estimates
    one, many = parts["clips"], parts["stretches"]
    chapters = numbered([clip.group for clip in corpus.clips])
    own = list(by_speaker(many.readers, many.seconds))
    later = [i[len(i) // 2 :] for i in own]
    halves = [second_half(stretches[i], many.seconds[i]) for i in own]
    each = [scaled(stretches[i], many.seconds[i]) for i in own]
    return [
        Errors(scaled(clips, one.seconds), chapters),
        minute_errors(corpus.minutes, clips, one.seconds, chapters),
        Errors(np.concatenate(each), many.readers[np.concatenate(own)]),
        Errors(errors(stretches, many.seconds), many.readers),
        Errors(np.concatenate(halves), many.readers[np.concatenate(later)]),
    ]


def minute_errors(
    minutes: list[list[int]], clips: Floats, true: Floats, chapters: NDArray[np.int64]
) -> Errors:
    joined = np.array([clips[minute].sum() for minute in minutes])
    joined_true = np.array([true[minute].sum() for minute in minutes])
    return Errors(scaled(joined, joined_true), chapters[[minute[0] for minute in minutes]])


def total(parts: dict[str, Sample], estimates: Estimates) -> str:
    return f"{estimates[1].sum() / parts['stretches'].seconds.sum():.3f}"


def last_book(corpus: Corpus, parts: dict[str, Sample]) -> str:
    """Clip and minute of the one reader's last book, which the fit and the factor do not share
    with another."""
    chapters = numbered([clip.group for clip in corpus.clips])
    last = chapters > chapters.max() - CHAPTERS_OF_LAST_BOOK
    found = fit({**parts, "clips": parts["clips"].where(~last)}, WEIGHTS)
    estimated, true = parts["clips"].rows @ found, parts["clips"].seconds
    minutes = [minute for minute in corpus.minutes if last[minute[0]]]
    clip = Errors(scaled(estimated[last], true[last]), chapters[last])
    return f"clip {clip}, minute {minute_errors(minutes, estimated, true, chapters)}"


def plain_counts(corpus: Corpus, parts: dict[str, Sample]) -> dict[str, Estimates]:
    def characters(recordings: list[Recording]) -> Floats:
        return np.array([len(each.text) / CHARACTERS_PER_SECOND for each in recordings])

    def words(recordings: list[Recording]) -> Floats:
        return np.array([len(each.text.split()) / 2.5 for each in recordings])

    def syllables(sample: Sample) -> Floats:
        columns = [COLUMNS.index(name) for name in ("stressed", "other", "light", "faint")]
        return np.asarray(sample.rows[:, columns].sum(axis=1) / 4.0, np.float64)

    both = (corpus.clips, corpus.stretches)
    return {
        "words": (words(both[0]), words(both[1])),
        "characters": (characters(both[0]), characters(both[1])),
        "syllables": (syllables(parts["clips"]), syllables(parts["stretches"])),
    }


def main() -> None:
    corpus = read_corpus()
    parts = samples(corpus)
    rows = plain_counts(corpus, parts)
    rows["Saywright, held out"], totals = held_out(corpus, parts)
    rows["Saywright as shipped"] = (
        np.array([shipped_seconds(clip.text) for clip in corpus.clips]),
        np.array([shipped_seconds(stretch.text) for stretch in corpus.stretches]),
    )
    heads = ("one reader, clip", "minute", "many, scaled", "unscaled", "second half", "total")
    print(f"{'':22}" + "".join(f"{head:>22}" for head in heads))
    columns = {name: all_errors(corpus, parts, found) for name, found in rows.items()}
    for name, cells in columns.items():
        told_cells = [*map(str, cells), total(parts, rows[name])]
        print(f"{name:22}" + "".join(f"{cell:>22}" for cell in told_cells))
    pairs = zip(columns["Saywright, held out"], columns["characters"], strict=True)
    less = [ours.less_than(theirs) for ours, theirs in pairs]
    print(f"{'less than characters':22}" + "".join(f"{cell:>22}" for cell in less))
    totals_told = ", ".join(f"{total:.3f}" for total in totals)
    print(f"Total over the speakers of each fold left out: {totals_told}")
    print(f"One reader, the last book by a fit on those before: {last_book(corpus, parts)}")
    many = parts["stretches"]
    spoken = range_coverage.Spoken(
        [each.text for each in corpus.stretches], many.seconds, many.readers
    )
    print("90% ranges hold, before any take / with the first half as takes:")
    print(f"  as shipped, through inspect  {range_coverage.shipped(spoken)}")
    estimated = rows["Saywright, held out"][1]
    told = range_coverage.held_out(spoken, estimated, many.readers % FOLDS)
    print(f"  held out by speaker          {told}")


if __name__ == "__main__":
    main()
