"""Pauses laid beside phrases: invariants for anything heard, and readings whose truth is known."""

import random
from itertools import pairwise

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from saywright.analysis import analyse
from saywright.project import NO_PROJECT
from saywright.recording.alignment import align
from saywright.recording.phrases import expected
from saywright.recording.read_through import read_through
from saywright.recording.silences import Heard, Pause
from saywright.speech.timeline import Timeline
from tests.recording.agreement import SCRIPTS, timeline_of
from tests.strategies import scripts

ALL = [pytest.param(timeline_of(*script), id=" ".join(map(str, script))) for script in SCRIPTS]


@st.composite
def anything_heard(draw: st.DrawFn) -> Heard:
    clock = start = draw(st.floats(0, 5))
    pauses = []
    for sound, silence in draw(
        st.lists(st.tuples(st.floats(0.1, 6), st.floats(0.15, 4)), max_size=25)
    ):
        pauses.append(Pause(clock + sound, silence))
        clock += sound + silence
    return Heard(start, clock + draw(st.floats(0.1, 9)), tuple(pauses))


def performed(timeline: Timeline, pace: float, chance: random.Random | None = None) -> Heard:
    """The script's phrases at a pace, every silence of 0.2 s or more made; by chance, roughly."""
    clock = 1.0
    pauses = []
    phrases = expected(timeline).phrases
    for phrase in phrases[:-1]:
        clock += phrase.sound_seconds * pace * (chance.uniform(0.85, 1.15) if chance else 1.0)
        if phrase.pause_seconds >= 0.2:
            seconds = phrase.pause_seconds * (chance.uniform(0.8, 2.0) if chance else 1.0)
            pauses.append(Pause(clock, seconds))
            clock += seconds
    return Heard(1.0, clock + phrases[-1].sound_seconds * pace, tuple(pauses))


@pytest.mark.parametrize("timeline", ALL)
@pytest.mark.parametrize("pace", [0.7, 1.0, 1.4])
def test_a_reading_to_the_letter_is_matched_to_the_letter(timeline: Timeline, pace: float) -> None:
    script = expected(timeline)
    heard = performed(timeline, pace)
    made = [index for index, each in enumerate(script.phrases[:-1]) if each.pause_seconds >= 0.2]
    assert [tuple(match) for match in align(script.phrases, heard)] == [
        (phrase, pause) for pause, phrase in enumerate(made)
    ]


@pytest.mark.parametrize("timeline", ALL)
def test_a_rough_reading_is_matched_but_for_one_in_ten(timeline: Timeline) -> None:
    script = expected(timeline)
    made = [index for index, each in enumerate(script.phrases[:-1]) if each.pause_seconds >= 0.2]
    right = of = 0
    for seed in range(5):
        heard = performed(timeline, 1.1, random.Random(seed))
        matches = {match.phrase: match.pause for match in align(script.phrases, heard)}
        right += sum(matches.get(phrase) == pause for pause, phrase in enumerate(made))
        of += len(made)
    assert right >= 0.9 * of


def test_the_phrases_add_up_to_the_estimate() -> None:
    for script in SCRIPTS:
        timeline = timeline_of(*script)
        *phrases, last = expected(timeline).phrases
        total = sum(each.sound_seconds + each.pause_seconds for each in phrases)
        assert total + last.sound_seconds == pytest.approx(timeline.stretch.sound_seconds)


@pytest.mark.parametrize("timeline", ALL)
@settings(max_examples=25)
@given(heard=anything_heard())
def test_anything_heard_gives_times_in_order(timeline: Timeline, heard: Heard) -> None:
    assert_in_order(timeline, heard)


@settings(max_examples=100)
@given(text=scripts, heard=anything_heard())
def test_any_script_gives_times_in_order(text: str, heard: Heard) -> None:
    pieces = [view.timeline for view in analyse(text).pieces if view.timeline.stretch.sounds]
    assume(pieces)
    for timeline in pieces:
        assert_in_order(timeline, heard)


def assert_in_order(timeline: Timeline, heard: Heard) -> None:
    reading = read_through(timeline, NO_PROJECT, heard)
    spoken = [each for each in timeline.sentences if each.sentence.words and not each.sentence.cut]
    assert [each.placed.start for each in reading.sentences] == [each.start for each in spoken]
    assert reading.seconds == heard.seconds
    assert reading.sentences[0].start_seconds == heard.start_seconds
    assert reading.sentences[-1].end_seconds == pytest.approx(heard.end_seconds)
    made = {pause.seconds for pause in heard.pauses}
    for sentence in reading.sentences:
        assert sentence.start_seconds <= sentence.end_seconds + 1e-6
        assert sentence.pause_seconds in made or sentence.pause_seconds == 0
    for before, after in pairwise(reading.sentences):
        assert before.end_seconds + before.pause_seconds == after.start_seconds
