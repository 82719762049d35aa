"""The bytes of a WAV file → its samples.

Source: Microsoft, "Multiple Channel Audio Data and WAVE Files" (2007), and RFC 2361. The standard
library's `wave` is not used: before Python 3.12 it knows no extensible header, which most programs
write for 24 bits, it knows no floating point, and it takes a truncated file for a whole one.
"""

import struct
from collections.abc import Iterator
from typing import NamedTuple

from saywright.recording.sound import Encoding, Sound, UnusableRecordingError

HOW_TO_SAVE = "Save or export the recording as WAV (PCM, 16 bits) and try again."

_PCM, _FLOAT, _EXTENSIBLE = 1, 3, 0xFFFE
_ENCODINGS: dict[tuple[int, int], Encoding] = {
    (_PCM, 8): "unsigned",
    (_PCM, 16): "signed",
    (_PCM, 24): "signed",
    (_PCM, 32): "signed",
    (_FLOAT, 32): "float",
    (_FLOAT, 64): "float",
}
_FASTEST_SAMPLES_PER_SECOND = 768_000
_MOST_CHANNELS = 64
# a program that writes into a pipe cannot know the size, and gives one beyond any file
_UNKNOWN_SIZE = 0x7FFF0000


class _Chunk(NamedTuple):
    """`size` is what the header says; `data` what is there."""

    name: bytes
    size: int
    data: memoryview


class _Format(NamedTuple):
    encoding: Encoding
    channels: int
    samples_per_second: int
    bits: int


def is_wav(content: bytes) -> bool:
    return content[:4] in (b"RIFF", b"RF64") and content[8:12] == b"WAVE"


def read_wav(content: bytes) -> Sound:
    """The samples of a WAV file: 8, 16, 24 or 32 bits, or floating point, any rate.

    Raises `UnusableRecordingError` for what is no WAV file, or a damaged or truncated one.
    """
    if not content:
        raise UnusableRecordingError("The recording is an empty file.")
    if not is_wav(content):
        raise UnusableRecordingError(f"This is not a WAV file. {HOW_TO_SAVE}")
    if content[:4] == b"RF64":
        raise UnusableRecordingError(f"This WAV file is of the 64-bit kind. {HOW_TO_SAVE}")
    form: _Format | None = None
    for chunk in _chunks(content):
        if chunk.name == b"fmt ":
            form = _format(chunk.data)
        elif chunk.name == b"data" and form:
            return _sound(chunk, form)
    raise UnusableRecordingError(f"The WAV file is damaged: it holds no sound. {HOW_TO_SAVE}")


def _chunks(content: bytes) -> Iterator[_Chunk]:
    view = memoryview(content)
    offset = 12
    while offset + 8 <= len(content):
        name, size = struct.unpack_from("<4sI", content, offset)
        yield _Chunk(name, size, view[offset + 8 : offset + 8 + size])
        offset += 8 + size + size % 2


def _format(data: memoryview) -> _Format:
    if len(data) < 16:
        raise UnusableRecordingError(f"The WAV file's header is damaged. {HOW_TO_SAVE}")
    code, channels, rate, _, block_bytes, bits = struct.unpack_from("<HHIIHH", data)
    if code == _EXTENSIBLE and len(data) >= 26:
        (code,) = struct.unpack_from("<H", data, 24)
    bits = (bits + 7) // 8 * 8
    encoding = _ENCODINGS.get((code, bits))
    if not encoding:
        raise UnusableRecordingError(f"The WAV file's samples are of another kind. {HOW_TO_SAVE}")
    possible = 0 < channels <= _MOST_CHANNELS and 100 <= rate <= _FASTEST_SAMPLES_PER_SECOND
    if not possible or block_bytes != channels * bits // 8:
        raise UnusableRecordingError(f"The WAV file's header is damaged. {HOW_TO_SAVE}")
    return _Format(encoding, channels, rate, bits)


def _sound(chunk: _Chunk, form: _Format) -> Sound:
    block_bytes = form.channels * form.bits // 8
    if len(chunk.data) < chunk.size < _UNKNOWN_SIZE:
        per_second = block_bytes * form.samples_per_second
        raise UnusableRecordingError(
            f"The recording breaks off: {len(chunk.data) / per_second:.1f} s of "
            f"{chunk.size / per_second:.1f} s are there. Copy or export it again."
        )
    whole = len(chunk.data) // block_bytes * block_bytes
    return Sound(
        chunk.data[:whole], form.samples_per_second, form.channels, form.encoding, form.bits // 8
    )
