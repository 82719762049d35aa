"""How far off estimated times are, beside counting words, characters or syllables.

    python -m tests.benchmarks.speech_time FOLDER

Each chapter and each speaker is scored with coefficients fitted on the others only, in five folds.
An error is the absolute difference of estimated and true time, in % of the true: its median, with
the standard error of the median over readings drawn anew, and its 90th percentile. "Scaled" is
after one factor a reader: the sum of the true over the sum of the estimated times, for readers with
at least two minutes; "second half" after the factor learned on the first half of a speaker's
stretches. No estimate has a constant term. "As shipped" is what `saywright.inspect` gives.

Below the table: the one reader's last twelve chapters, which are of one book, by a fit on the books
before it; then how many stretches lie in the ranges, before any take and with the first half of the
speaker's as takes. Needs numpy and scipy.
"""

from collections.abc import Iterator

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


def summary(found: Floats) -> str:
    draws = np.random.default_rng(1)
    medians = [np.median(draws.choice(found, len(found))) for _ in range(DRAWS)]
    return f"{np.median(found):.2f}±{np.std(medians):.2f}/{np.percentile(found, 90):.1f}"


def line(corpus: Corpus, parts: dict[str, Sample], estimates: Estimates) -> list[str]:
    clips, stretches = estimates
    joined = np.array([clips[minute].sum() for minute in corpus.minutes])
    joined_true = np.array([parts["clips"].seconds[minute].sum() for minute in corpus.minutes])
    many = parts["stretches"]
    own = list(by_speaker(many.readers, many.seconds))
    return [
        summary(scaled(clips, parts["clips"].seconds)),
        summary(scaled(joined, joined_true)),
        summary(np.concatenate([scaled(stretches[i], many.seconds[i]) for i in own])),
        summary(errors(stretches, many.seconds)),
        summary(np.concatenate([second_half(stretches[i], many.seconds[i]) for i in own])),
        f"{stretches.sum() / many.seconds.sum():.3f}",
    ]


def last_book(corpus: Corpus, parts: dict[str, Sample]) -> str:
    """Clip and minute of the one reader's last book, which the fit and the factor do not share
    with another."""
    chapters = numbered([clip.group for clip in corpus.clips])
    last = chapters > chapters.max() - CHAPTERS_OF_LAST_BOOK
    found = fit({**parts, "clips": parts["clips"].where(~last)}, WEIGHTS)
    estimated, true = parts["clips"].rows @ found, parts["clips"].seconds
    minutes = [minute for minute in corpus.minutes if last[minute[0]]]
    joined = np.array([estimated[minute].sum() for minute in minutes])
    joined_true = np.array([true[minute].sum() for minute in minutes])
    clip, minute = scaled(estimated[last], true[last]), scaled(joined, joined_true)
    return f"clip {summary(clip)}, minute {summary(minute)}"


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
    print(f"{'':22}" + "".join(f"{head:>18}" for head in heads))
    for name, estimates in rows.items():
        print(f"{name:22}" + "".join(f"{cell:>18}" for cell in line(corpus, parts, estimates)))
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
