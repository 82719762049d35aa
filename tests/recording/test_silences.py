"""Tones between silences of known length: where speech starts and ends, and its pauses."""

import random
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from saywright.recording.hearing import hear
from saywright.recording.silences import Heard, find_speech
from saywright.recording.sound import UnusableRecordingError
from saywright.recording.wav import read_wav
from tests.recording.read_aloud import Recording, joined, tone, wav

RATE = 8000
NEAR_SECONDS = 0.025


def recorded(
    sounds: list[float],
    gaps: list[float],
    lead: float = 0.5,
    tail: float = 0.5,
    noise_decibels: float = -60.0,
) -> Recording:
    return joined(
        [tone(seconds, RATE) for seconds in sounds],
        gaps,
        samples_per_second=RATE,
        lead_seconds=lead,
        tail_seconds=tail,
        noise_decibels=noise_decibels,
    )


def heard(recording: Recording) -> Heard:
    return hear(read_wav(recording.wav()))


def assert_found(found: Heard, recording: Recording) -> None:
    first, last = recording.parts[0][0], recording.parts[-1][1]
    assert found.start_seconds == pytest.approx(first, abs=NEAR_SECONDS)
    assert found.end_seconds == pytest.approx(last, abs=NEAR_SECONDS)
    gaps = [(end, start) for (_, end), (start, _) in pairwise(recording.parts)]
    clear = [(end, start) for end, start in gaps if start - end > 0.15]
    assert len(found.pauses) == len(clear)
    for pause, (start, end) in zip(found.pauses, clear, strict=True):
        assert pause.start_seconds == pytest.approx(start, abs=NEAR_SECONDS)
        assert pause.end_seconds == pytest.approx(end, abs=NEAR_SECONDS)


# between 0.1 and 0.2 s a silence may or may not be long enough for a pause
clear_gaps = st.one_of(st.floats(0.01, 0.1), st.floats(0.2, 1.5))
sounding = st.floats(0.2, 1.5)


@settings(max_examples=40)
@given(
    st.lists(st.tuples(sounding, clear_gaps), min_size=1, max_size=6),
    sounding,
    st.floats(0.4, 3),
    st.floats(0.4, 3),
    st.floats(-90, -40),
)
def test_any_pattern_of_tones_is_found(
    pattern: list[tuple[float, float]], last: float, lead: float, tail: float, noise: float
) -> None:
    sounds, gaps = [each[0] for each in pattern], [each[1] for each in pattern]
    recording = recorded([*sounds, last], gaps, lead, tail, noise)
    assert_found(heard(recording), recording)


def test_a_gap_without_any_noise() -> None:
    recording = recorded([1.0, 1.0], [0.5], noise_decibels=-120)
    assert_found(heard(recording), recording)


def test_a_long_silence_around_little_speech() -> None:
    recording = recorded([0.6, 0.9], [0.4], lead=20, tail=25)
    assert_found(heard(recording), recording)


@pytest.mark.parametrize("decibels", [-96.0, -50.0, -20.0])
def test_noise_alone_is_no_speech(decibels: float) -> None:
    chance = random.Random(5)
    levels = [chance.gauss(decibels, 0.7) for _ in range(2000)]
    with pytest.raises(UnusableRecordingError, match="No speech"):
        find_speech(levels)


def test_speech_far_away_is_no_speech() -> None:
    with pytest.raises(UnusableRecordingError, match="No speech"):
        find_speech([-90.0] * 100 + [-65.0] * 300 + [-90.0] * 100)


def test_a_click_is_no_speech() -> None:
    levels = [-60.0] * 400
    levels[20:24] = [-10.0] * 4
    levels[100:200] = [-20.0] * 100
    levels[250:350] = [-20.0] * 100
    found = find_speech(levels)
    assert found.start_seconds == pytest.approx(1.0, abs=0.02)
    assert len(found.pauses) == 1


def test_a_breath_leaves_its_pause_whole() -> None:
    levels = [-60.0] * 50 + [-20.0] * 100 + [-60.0] * 100 + [-20.0] * 100 + [-60.0] * 50
    levels[180:210] = [-42.0] * 30
    assert [pause.seconds for pause in find_speech(levels).pauses] == [pytest.approx(1.0, abs=0.03)]


def test_the_faint_end_of_a_word_belongs_to_it() -> None:
    levels = [-60.0] * 50 + [-20.0] * 100 + [-42.0] * 20 + [-60.0] * 80
    assert find_speech(levels).end_seconds == pytest.approx(1.7, abs=0.02)


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (wav(bytes(16000 * 2), 16000), "No speech"),
        (tone(0.8, RATE).tobytes(), "shorter than a second"),
        (b"", "shorter than a second"),
        (tone(2.0, RATE, amplitude=1.0).tobytes(), None),
        (tone(2.0, RATE, amplitude=0.99).tobytes(), None),
    ],
)
def test_recordings_that_are_of_no_use(content: bytes, says: str | None) -> None:
    if says is None:
        content = wav(bytes(RATE) + content + bytes(RATE), RATE)
        assert hear(read_wav(content)).seconds == pytest.approx(2.0, abs=0.03)
        return
    content = content if content.startswith(b"RIFF") else wav(content, RATE)
    with pytest.raises(UnusableRecordingError, match=says):
        hear(read_wav(content))


def test_a_clipped_recording_is_of_no_use() -> None:
    loud = tone(2.0, RATE, amplitude=0.9)
    for index, sample in enumerate(loud):
        loud[index] = max(min(2 * sample, 32767), -32768)
    with pytest.raises(UnusableRecordingError, match="clipped"):
        hear(read_wav(wav(bytes(RATE) + loud.tobytes() + bytes(RATE), RATE)))
