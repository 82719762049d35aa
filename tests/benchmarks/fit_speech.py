"""Fit the coefficients of speech/coefficients.toml to recordings.

    python -m tests.benchmarks.fit_speech FOLDER

prints the [sounds] and [pauses] to put there. Needs numpy and scipy.

What is made least is the mean of the absolute logarithm of true over estimated time (rounded off
near zero), after one factor a speaker, or a chapter of the one reader, over her clips and the
stretches of each of the many speakers. Her pace drifts from book to book; with one factor for all
of it the coefficients make up for that, which costs 0.06 points on minutes of a book left out and
0.05 on the many speakers. A free fit on the many speakers alone carries over badly; so both share
one set of few coefficients, none negative, and proportions that the data cannot settle are fixed.
The level is then set by the many speakers: the geometric mean of true over estimated time is 1, so
that no speaker counts for more by being slow.

The vowel of "the" is a sound of its own: it is worth 0.13 points (standard error of the difference
0.04) on clips. How rare a word is, by a syllable, is worth 0.19 points on clips and 0.2 on minutes
of the one reader, and nothing on the many speakers; a table of the commonest 7,000 words does as
well as one of 100,000, steps of a half as well as finer ones. A comma beside "um", or in "the,
the", is none: that takes 0.05 points off clips and 0.06 off minutes, since the comma in earnest is
then as long as it was measured. Tried and left out, since they changed held-out errors by less than
their standard error: a constant a word, or a word of one syllable; secondary stress apart from no
stress; classes of consonants (fricatives, affricates); unstressed long vowels; names; "I", "you"
and the like; a comma after one word or two; words of four syllables; question marks apart from full
stops; a share for the length of a run without punctuation; minutes of the one reader as a third
part of what is fitted; a pause before "and", "but" or a relative word, and one that depends on how
far the last mark is; a comma's that depends on the phrases beside it; numerals; words of one
syllable side by side; sibilants and short vowels by kind. A word that has been said before is said
faster (0.07 points on minutes of the one reader), but a sentence would then take longer when
another is cut. A machine of many trees on all of these together gains 0.2 points more on clips,
most of it because clips of the one reader were none longer than ten seconds. The drawing out of the
last word before a stop, fitted freely, is 0.16 s, worth 0.09 points on clips and 0.1 on minutes,
but leaves a stop's own silence shorter than a comma's; it is held in proportion to that silence
instead (`LENGTHENING_OF_STOP`), for about the same errors.
"""

from collections.abc import Mapping, Sequence

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import minimize  # type: ignore[import-untyped, unused-ignore]

from saywright.speech.model import SOUND_NAMES, WordSounds, gap_kind, sentence_share, word_sounds
from tests.benchmarks.speech_data import Corpus, Recording, gaps, read_corpus, read_words

Floats = NDArray[np.float64]

SHORT_STOP, LONG_STOP = 0.44, 0.69  # mean measured seconds; their proportion is kept
QUOTATION_OF_BRACKET = 0.5
LENGTHENING_OF_STOP = 0.25
WEIGHTS = {"clips": 1.0, "stretches": 3.0}
ROUNDED_OFF_BELOW = 0.05
LEAST_SECONDS_A_READER = 120.0

PAUSES = ("comma", "clause", "bracket", "stop")
COLUMNS = (*WordSounds._fields, *PAUSES)
_START = (0.2, 0.05, 0.1, 0.12, 0.05, 0.06, 0.02, 0.2, 0.2, 0.4, 0.4, 0.8)


def counts(text: str) -> list[float]:
    """How often each of `COLUMNS` is in a text."""
    words = read_words(text)
    sounds = [0.0] * len(WordSounds._fields)
    for word in words:
        for index, count in enumerate(word_sounds(word.said)):
            sounds[index] += count
    pauses = dict.fromkeys(PAUSES, 0.0)
    pauses["stop"] = LENGTHENING_OF_STOP  # of the text's last word
    for between, before, stumbles in gaps(text, words):
        kind = gap_kind(between)
        if stumbles and kind == "comma":
            continue
        if kind == "stop":
            pause = SHORT_STOP + (LONG_STOP - SHORT_STOP) * sentence_share(before)
            pauses["stop"] += pause + LENGTHENING_OF_STOP
        elif kind == "quotation":
            pauses["bracket"] += QUOTATION_OF_BRACKET
        elif kind:
            pauses[kind] += 1
    return [*sounds, *pauses.values()]


class Sample:
    """Counts and seconds of recordings, each with the number of the reader that it is of."""

    def __init__(self, rows: Floats, seconds: Floats, readers: NDArray[np.int64]) -> None:
        self.rows, self.seconds, self.readers = rows, seconds, readers

    def where(self, kept: NDArray[np.bool_]) -> "Sample":
        readers = np.unique(self.readers[kept], return_inverse=True)[1].astype(np.int64)
        return Sample(self.rows[kept], self.seconds[kept], readers)

    def of_readers_with_enough(self) -> "Sample":
        totals = np.bincount(self.readers, self.seconds)
        return self.where(totals[self.readers] >= LEAST_SECONDS_A_READER)

    def loss(self, coefficients: Floats) -> tuple[float, Floats]:
        """The mean error as said above, and its slope by each coefficient."""
        estimated = self.rows @ np.maximum(coefficients, 1e-6)
        totals = np.bincount(self.readers, estimated)
        factors = np.bincount(self.readers, self.seconds) / totals
        error = np.log(self.seconds / (estimated * factors[self.readers]))
        rounded = np.sqrt(error**2 + ROUNDED_OFF_BELOW**2)
        share = error / rounded / len(error)
        by_factor = np.bincount(self.readers, share) / totals
        slope = (by_factor[self.readers] - share / estimated) @ self.rows
        return float(np.mean(rounded) - ROUNDED_OFF_BELOW), slope


def samples(corpus: Corpus) -> dict[str, Sample]:
    clips = np.array([counts(clip.text) for clip in corpus.clips])
    seconds = np.array([clip.seconds for clip in corpus.clips])
    many = np.array([counts(stretch.text) for stretch in corpus.stretches])
    return {
        "clips": Sample(clips, seconds, numbered([clip.group for clip in corpus.clips])),
        "stretches": Sample(
            many,
            np.array([stretch.seconds for stretch in corpus.stretches]),
            numbered([stretch.group for stretch in corpus.stretches]),
        ),
    }


def numbered(groups: Sequence[str]) -> NDArray[np.int64]:
    """Each group's place in the sorted order of all."""
    order = {group: index for index, group in enumerate(sorted(set(groups)))}
    return np.array([order[group] for group in groups], np.int64)


def fit(parts: Mapping[str, Sample], weights: Mapping[str, float]) -> Floats:
    """The coefficients, in the order of `COLUMNS`, at the level of the many speakers."""
    many = parts["stretches"]
    fitted = {**parts, "stretches": many.of_readers_with_enough()}

    def total_loss(coefficients: Floats) -> tuple[float, Floats]:
        total, slope = 0.0, np.zeros(len(COLUMNS))
        for name, sample in fitted.items():
            loss, own_slope = sample.loss(coefficients)
            total += weights[name] * loss
            slope += weights[name] * own_slope
        return total, slope

    bounds = [(0.0, None)] * len(COLUMNS)
    found = minimize(total_loss, np.array(_START), jac=True, method="L-BFGS-B", bounds=bounds).x
    level = np.exp(np.mean(np.log(many.seconds / (many.rows @ found))))
    return np.asarray(found * level, np.float64)


def seconds_per_syllable(coefficients: Floats, sample: Sample) -> float:
    """Seconds of sound a syllable, but for the drawing out of hesitations."""
    sounds = [COLUMNS.index(name) for name in WordSounds._fields if name != "hesitations"]
    spoken = (sample.rows[:, sounds] @ coefficients[sounds]).sum()
    return float(spoken / syllables(sample.rows))


def syllables(rows: Floats) -> float:
    names = ("stressed", "other", "light", "faint")
    return float(rows[:, [COLUMNS.index(name) for name in names]].sum())


def _words(recordings: Sequence[Recording]) -> int:
    return sum(len(read_words(each.text)) for each in recordings)


def main() -> None:
    corpus = read_corpus()
    parts = samples(corpus)
    found = fit(parts, WEIGHTS)
    many = parts["stretches"]
    estimated = float((many.rows @ found).sum())
    value = dict(zip(COLUMNS, found, strict=True))
    print("[sounds]")
    for name, column in zip(SOUND_NAMES, WordSounds._fields, strict=True):
        print(f"{name} = {value[column]:.3f}")
    print("[pauses]")
    for name in ("comma", "clause", "bracket"):
        print(f"{name} = {value[name]:.3f}")
    print(f"quotation = {value['bracket'] * QUOTATION_OF_BRACKET:.3f}")
    print(f"stop_after_5_words = {value['stop'] * SHORT_STOP:.3f}")
    print(f"stop_after_16_words = {value['stop'] * LONG_STOP:.3f}")
    print("[other]")
    print(f"words_per_minute = {60 * _words(corpus.stretches) / estimated:.1f}")
    print(f"syllables_per_second = {syllables(many.rows) / estimated:.2f}")
    print(f"final_lengthening = {value['stop'] * LENGTHENING_OF_STOP:.3f}")
    print(f"seconds_per_english_syllable = {seconds_per_syllable(found, many):.3f}")


if __name__ == "__main__":
    main()
