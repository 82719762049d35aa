"""WAV files of every kind, whole and damaged; those of the standard library are the reference."""

import struct

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saywright.recording.sound import UnusableRecordingError
from saywright.recording.wav import read_wav
from tests.recording.read_aloud import wav

WHOLE = wav(bytes(range(200)) * 40, 8000)


def chunk(name: bytes, data: bytes) -> bytes:
    return name + struct.pack("<I", len(data)) + data + b"\0" * (len(data) % 2)


def riff(*chunks: bytes) -> bytes:
    content = b"WAVE" + b"".join(chunks)
    return b"RIFF" + struct.pack("<I", len(content)) + content


def header(code: int, channels: int, rate: int, bits: int, more: bytes = b"") -> bytes:
    block = channels * bits // 8
    return chunk(
        b"fmt ", struct.pack("<HHIIHH", code, channels, rate, rate * block, block, bits) + more
    )


def extensible(code: int, channels: int, rate: int, bits: int) -> bytes:
    guid = struct.pack("<H", code) + bytes.fromhex("000000001000800000aa00389b71")
    return header(0xFFFE, channels, rate, bits, struct.pack("<HHI", 22, bits, 0) + guid)


@pytest.mark.parametrize("width", [1, 2, 3, 4])
@pytest.mark.parametrize("channels", [1, 2])
@pytest.mark.parametrize("rate", [8000, 11025, 44100, 96000])
def test_what_the_standard_library_writes(width: int, channels: int, rate: int) -> None:
    data = bytes(range(240)) * channels
    sound = read_wav(wav(data, rate, channels, width))
    assert bytes(sound.data) == data
    assert (sound.samples_per_second, sound.channels) == (rate, channels)
    assert sound.bytes_per_sample == width
    assert sound.encoding == ("unsigned" if width == 1 else "signed")
    assert sound.seconds == pytest.approx(240 / width / rate)


@pytest.mark.parametrize(
    ("code", "bits", "encoding"),
    [(1, 24, "signed"), (1, 16, "signed"), (3, 32, "float"), (3, 64, "float")],
)
def test_an_extensible_header(code: int, bits: int, encoding: str) -> None:
    data = bytes(48)
    sound = read_wav(riff(extensible(code, 2, 48000, bits), chunk(b"data", data)))
    assert (sound.encoding, sound.bytes_per_sample) == (encoding, bits // 8)
    assert bytes(sound.data) == data


def test_other_chunks_are_passed_over() -> None:
    odd = chunk(b"LIST", b"odd")
    content = riff(odd, header(1, 1, 8000, 16), odd, chunk(b"data", b"abcd"), odd)
    assert bytes(read_wav(content).data) == b"abcd"


@pytest.mark.parametrize("size", [0xFFFFFFFF, 0x7FFFF000])
def test_a_size_that_a_pipe_could_not_know(size: int) -> None:
    start = riff(header(1, 1, 8000, 16))
    content = start + b"data" + struct.pack("<I", size) + b"abcde"
    assert bytes(read_wav(content).data) == b"abcd"


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"", "empty"),
        (b"ID3\x04" + bytes(400), "not a WAV file"),
        (b"RIFF\x04\0\0\0AVI ", "not a WAV file"),
        (WHOLE[:12], "holds no sound"),
        (WHOLE[:30], "header is damaged"),
        (WHOLE[:40], "holds no sound"),
        (WHOLE[:4044], r"breaks off: 0\.2 s of 0\.5 s"),
        (WHOLE[:-1], "breaks off"),
        (b"RF64" + WHOLE[4:], "64-bit"),
        (riff(header(1, 0, 8000, 16), chunk(b"data", b"abcd")), "header is damaged"),
        (riff(header(1, 1, 0, 16), chunk(b"data", b"abcd")), "header is damaged"),
        (riff(header(6, 1, 8000, 8), chunk(b"data", b"abcd")), "another kind"),
        (riff(header(1, 1, 8000, 0), chunk(b"data", b"abcd")), "another kind"),
        (riff(chunk(b"data", b"abcd"), header(1, 1, 8000, 16)), "holds no sound"),
    ],
)
def test_what_cannot_be_read_says_why(content: bytes, says: str) -> None:
    with pytest.raises(UnusableRecordingError, match=says):
        read_wav(content)


@given(st.integers(0, len(WHOLE) - 1), st.binary(max_size=20))
def test_any_damage_is_read_or_reported(at: int, bytes_there: bytes) -> None:
    damaged = WHOLE[:at] + bytes_there + WHOLE[at + len(bytes_there) :]
    try:
        sound = read_wav(damaged)
    except UnusableRecordingError:
        return
    assert sound.seconds >= 0


@given(st.integers(0, len(WHOLE) - 1))
def test_no_truncated_file_is_taken_for_a_whole_one(length: int) -> None:
    with pytest.raises(UnusableRecordingError):
        read_wav(WHOLE[:length])
