"""A recording → the speech in it, or why it cannot be measured."""

from collections.abc import Callable

from saywright.recording.levels import measure
from saywright.recording.silences import Heard, find_speech
from saywright.recording.sound import Sound, UnusableRecordingError

SHORTEST_SECONDS = 1.0
MOST_CLIPPED = 0.01


def hear(sound: Sound, progress: Callable[[float], None] = lambda _seconds: None) -> Heard:
    """Speech and pauses. `progress` is told how many seconds have been measured.

    Raises `UnusableRecordingError` for a recording that is too short, clipped or silent.
    """
    if sound.seconds < SHORTEST_SECONDS:
        raise UnusableRecordingError(
            "The recording is shorter than a second. Was it stopped too soon?"
        )
    levels = measure(sound, progress)
    if levels.clipped > MOST_CLIPPED:
        raise UnusableRecordingError(
            f"The recording is clipped: {levels.clipped:.0%} of it is as loud as a file can hold, "
            "so words and silences cannot be told apart. Record again at a lower level."
        )
    return find_speech(levels.decibels)
