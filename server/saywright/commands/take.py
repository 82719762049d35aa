"""`saywright take`: measures a recorded read-through, notes it in the script, and tells of it."""

import io
import sys
from collections.abc import Callable
from datetime import date as calendar
from importlib import import_module
from pathlib import Path
from typing import NamedTuple

from saywright.analysis import Analysis, analyse
from saywright.files import (
    NotTextError,
    UnreadableFileError,
    nearest_project,
    read_script,
    replace_script,
)
from saywright.recording.chosen_piece import NoPieceError, chosen_piece
from saywright.recording.hearing import hear
from saywright.recording.read_through import read_through
from saywright.recording.silences import Heard
from saywright.recording.sound import Sound, UnusableRecordingError
from saywright.recording.take_line import UnwritableTakeError, take_line, with_take
from saywright.recording.telling import telling
from saywright.recording.wav import HOW_TO_SAVE, is_wav, read_wav

_COULD_NOT_RUN = 2
_LONG_SECONDS = 30.0


class Told(NamedTuple):
    """What the command line says: paths, and the piece, reader and day where they are named."""

    script: Path
    audio: Path
    part: str | None
    reader: str | None
    date: str | None


def run(told: Told) -> int:
    """Measure a reading and write it into its script; returns the exit code."""
    try:
        analysis = analyse(read_script(told.script), nearest_project(told.script)[0])
        piece = chosen_piece(analysis, told.part)
    except (UnreadableFileError, NotTextError, NoPieceError) as error:
        return _could_not(told.script, error)
    try:
        heard = _heard(told.audio)
    except (UnreadableFileError, UnusableRecordingError) as error:
        return _could_not(told.audio, error)
    reading = read_through(piece, analysis.project, heard)
    line = take_line(reading, told.date or calendar.today().isoformat(), told.reader or "")
    try:
        _write(told.script, analysis, piece.part.label, line)
    except (UnreadableFileError, NotTextError, UnwritableTakeError) as error:
        return _could_not(told.script, error)
    print(f"{told.script}: {line}\n")
    print("\n".join(telling(reading, piece.part.settings.slot)))
    return 0


def _could_not(path: Path, error: Exception) -> int:
    print(f"{path}: {error}", file=sys.stderr)
    return _COULD_NOT_RUN


def _heard(audio: Path) -> Heard:
    try:
        content = audio.read_bytes()
    except OSError as error:
        raise UnreadableFileError(f"It cannot be read: {error.strerror or error}.") from error
    sound = read_wav(content) if is_wav(content) or not content else _other_sound(content)
    shown = sound.seconds > _LONG_SECONDS and sys.stderr.isatty()
    try:
        return hear(sound, _shower(sound.seconds)) if shown else hear(sound)
    finally:
        if shown:
            print("\r\033[K", end="", file=sys.stderr, flush=True)


def _other_sound(content: bytes) -> Sound:
    """What is no WAV file, read by `soundfile` if that is installed."""
    try:
        soundfile = import_module("soundfile")
    except (ImportError, OSError) as error:
        raise UnusableRecordingError(
            f"This is not a WAV file. {HOW_TO_SAVE} With the Python package soundfile installed "
            "beside saywright, FLAC, OGG and MP3 are read too."
        ) from error
    try:
        with soundfile.SoundFile(io.BytesIO(content)) as file:
            samples = memoryview(file.buffer_read(dtype="int16")).cast("B")
            return Sound(samples, file.samplerate, file.channels, "signed", 2)
    except (soundfile.SoundFileError, RuntimeError) as error:
        raise UnusableRecordingError(
            f"This is no recording that can be read. {HOW_TO_SAVE}"
        ) from error


def _shower(seconds: float) -> Callable[[float], None]:
    def show(done_seconds: float) -> None:
        percent = min(round(100 * done_seconds / seconds), 100)
        print(f"\rListening: {percent}%", end="", file=sys.stderr, flush=True)

    return show


def _write(script: Path, analysis: Analysis, label: str, line: str) -> None:
    text = with_take(analysis, label, line)
    if read_script(script) != analysis.text:
        raise UnwritableTakeError("It was changed while the recording was measured. Try again.")
    replace_script(script, text)
