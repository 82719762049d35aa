"""Times against figures from outside the project, each with its source beside it."""

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from itertools import cycle, islice
from pathlib import Path
from statistics import correlation

import pytest

import saywright
from saywright.speech.model import coefficients, pause_seconds
from tests.benchmarks.speech_data import as_script
from tests.recording.read_aloud import need_espeak, said

SENTENCES = [
    line
    for line in Path(__file__).with_name("sentences.txt").read_text("utf-8").splitlines()
    if not line.startswith("#")
]
ORDINARY_TEXT = " ".join(SENTENCES)


def inspected(text: str, settings: str = "") -> dict[str, float]:
    script = settings + as_script(text)
    part: dict[str, float] = saywright.inspect(script)["parts"][0]
    return part


def words_a_minute(part: dict[str, float]) -> float:
    return 60 * part["words"] / part["seconds"]


def ordinary_words(count: int) -> str:
    return " ".join(islice(cycle(ORDINARY_TEXT.split()), count))


def ranks(values: Sequence[float]) -> list[float]:
    """Each value's place in their order, from 0; of equal ones the middle of their places."""
    ordered = sorted(values)
    return [(bisect_left(ordered, each) + bisect_right(ordered, each) - 1) / 2 for each in values]


# Words a minute, pauses included: what is published, and how far from it the usual pace may be.
PUBLISHED_RATES = [
    # conference talks on stage, 1,561 of them, from their published lengths and texts: one
    # standard deviation of the talks is 24.1
    ("talks", 155.5, 24.1),
    # radio monologue, British English: Tauroza and Allison 1990, Applied Linguistics 11(1);
    # value from memory
    ("radio monologue", 160, 24.1),
    # audiobooks, 9,300 words an hour: trade figure
    ("audiobooks", 155, 24.1),
    # advice for radio news, 160 to 180: Rodero 2012
    ("radio news", 170, 24.1),
]


@pytest.mark.parametrize(("_what", "published", "off"), PUBLISHED_RATES)
def test_ordinary_text_at_the_usual_pace(_what: str, published: float, off: float) -> None:
    assert words_a_minute(inspected(ORDINARY_TEXT)) == pytest.approx(published, abs=off)


def test_the_range_is_as_wide_as_talks_differ() -> None:
    # the same talks: 5th and 95th percentile 116 and 196 words a minute, each of a whole talk
    part = inspected(ordinary_words(1700))
    ratio = part["seconds_high"] / part["seconds_low"]
    assert ratio == pytest.approx(196 / 116, rel=0.15)


def test_syllables_a_minute() -> None:
    # radio monologue 250, lectures 190: Tauroza and Allison 1990, values from memory
    part = inspected(ORDINARY_TEXT)
    assert 190 <= 60 * part["syllables"] / part["seconds"] <= 250


@pytest.mark.parametrize("pace", [116, 139, 155, 171, 196])
def test_a_pace_of_words_is_that_of_ordinary_text(pace: int) -> None:
    # the percentiles of the same talks; the sentences' words are a little shorter than theirs
    part = inspected(ORDINARY_TEXT, f"pace: {pace} wpm\n\n")
    assert words_a_minute(part) == pytest.approx(pace, rel=0.1)


# Published lengths of public-domain speeches by their published counts of words.
SPEECHES = [
    # John F. Kennedy, inaugural address 1961: 13 min 42 s with its applause (an encyclopedia has
    # also had 13:59); 1,366 words (value from memory)
    (1366, 13 * 60 + 42),
    # Abraham Lincoln, Gettysburg 1863: "two minutes"; 272 words (value from memory)
    (272, 120),
]


@pytest.mark.parametrize(("words", "seconds"), SPEECHES)
def test_speeches_take_what_was_published(words: int, seconds: float) -> None:
    # at the pace of formal oratory, 80 to 140 words a minute with applause, and no other
    text = ordinary_words(words)
    slowest, quickest = (inspected(text, f"pace: {pace} wpm\n\n")["seconds"] for pace in (80, 140))
    assert quickest <= seconds * 1.1
    assert slowest >= seconds
    pace = 60 * words / seconds
    own = inspected(text, f"pace: {pace:.1f} wpm\n\n")
    assert own["seconds"] == pytest.approx(seconds, rel=0.1)
    assert own["seconds_low"] <= seconds <= own["seconds_high"]


def test_stops_are_medium_pauses() -> None:
    # short under 0.2 s, medium to 1 s: Campione and Véronis 2002, about 6,000 pauses. What a stop
    # costs is its silence and the drawing out before it.
    lengthening = coefficients().other["final_lengthening"]
    for words in (5, 16, 40):
        assert 0.2 <= pause_seconds(". ", words_before=words) + lengthening <= 1.0


def test_paragraph_pauses() -> None:
    # 0.4 to 1.3 s read fast, 0.75 to 1.8 s read slowly: Kazlauskienė 2020
    for words in (5, 16, 40):
        assert 0.75 <= pause_seconds(".\n\n", words_before=words, paragraph=True) <= 1.3


def test_longer_sentences_pause_in_the_measured_proportion() -> None:
    # 0.44 s after 1 to 5 words, 0.69 s from 16 on: measured on the tuning recordings
    short, long = (pause_seconds(". ", words_before=words) for words in (5, 16))
    assert long / short == pytest.approx(0.69 / 0.44, rel=0.02)


@pytest.mark.slow
def test_relative_durations_against_a_synthesiser() -> None:
    """espeak-ng times its phones by rules of its own, which saw none of our recordings."""
    need_espeak()
    spoken = [len(said(sentence, "en-gb", 155)) for sentence in SENTENCES]
    estimated = [inspected(sentence)["seconds"] for sentence in SENTENCES]
    linear = correlation(estimated, spoken)
    rank = correlation(ranks(estimated), ranks(spoken))
    print(f"{len(SENTENCES)} sentences: linear {linear:.4f}, rank {rank:.4f}")
    characters = [float(len(sentence)) for sentence in SENTENCES]
    assert linear >= 0.99 > correlation(characters, spoken)
    assert rank >= 0.985 > correlation(ranks(characters), ranks(spoken))
