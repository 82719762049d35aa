"""`saywright take` as a shell runs it: what it prints and writes, and its errors."""

import os
import re
import subprocess
import sys
from datetime import date
from pathlib import Path

import pytest

from tests.commands.running import run_here
from tests.recording.read_aloud import joined, tone, wav

RATE = 8000
SCRIPT = (
    "slot: 5s\n\n---- piece: short; slot 4s\n(1s)\nI weigh the salt for the ferry. It never lies.\n"
    "---- piece: long\nI weigh the salt for the ferry. It never lies. I have a lamp, and a scale.\n"
    "\n---- takes: short\n4s 2026-01-02 Emeka\n\n---- notes\nslow  down \n"
)


def take(script: Path, audio: Path, *more: str) -> subprocess.CompletedProcess[str]:
    return run_here("take", script, "--audio", audio, *more)


@pytest.fixture
def script(tmp_path: Path) -> Path:
    path = tmp_path / "a.say"
    path.write_bytes(SCRIPT.encode())
    return path


@pytest.fixture
def audio(tmp_path: Path) -> Path:
    path = tmp_path / "take.wav"
    parts = [tone(seconds, RATE) for seconds in (2.0, 0.9)]
    path.write_bytes(joined(parts, [1.6], samples_per_second=RATE).wav())
    return path


def test_one_line_is_added_and_nothing_else(script: Path, audio: Path) -> None:
    done = take(script, audio, "--part", "short", "--reader", "Ana", "--date", "2026-11-25")
    assert (done.returncode, done.stderr) == (0, "")
    before = SCRIPT.splitlines(keepends=True)
    after = script.read_bytes().decode().splitlines(keepends=True)
    at = before.index("4s 2026-01-02 Emeka\n") + 1
    assert after[:at] + after[at + 1 :] == before
    written = re.fullmatch(r"([\d.]+)s of ([\d.]+)s 2026-11-25 Ana\n", after[at])
    assert written
    assert float(written[1]) == pytest.approx(4.5, abs=0.1)
    assert [path.name for path in script.parent.iterdir() if path != audio] == ["a.say"]


def test_what_it_tells(script: Path, audio: Path) -> None:
    lines = take(script, audio, "--part", "Short").stdout.splitlines()
    assert lines[2] == "You took 4.5 s from the first word to the last."
    assert "With the 1.0 s of silence marked before and after it is 5.5 s." in lines
    assert "The slot is 0:04: 1.5 s too long." in lines
    pause = next(line for line in lines if "longer pause" in line)
    assert "1.6 s" in pause
    assert pause.endswith("after I weigh the salt for the ferry.")
    assert all(len(line) <= 80 for line in lines[1:])


def test_the_day_is_today_and_a_new_part_keeps_the_line_ends(script: Path, audio: Path) -> None:
    before = SCRIPT.replace("\n", "\r\n").encode()
    script.write_bytes(before)
    assert take(script, audio, "--part", "long").returncode == 0
    after = script.read_bytes()
    assert after.startswith(before + b"\r\n---- takes: long\r\n")
    added = after[len(before) :].decode().splitlines()
    assert added[-1].endswith(f"s {date.today().isoformat()}")
    assert after.count(b"\n") == after.count(b"\r\n")


def test_the_estimate_is_the_usual_readers_whatever_pace_is_set(script: Path, audio: Path) -> None:
    lines = []
    for setting in ("slot: 5s", "pace: 90 wpm"):
        script.write_bytes(f"{setting}\n\nI weigh the salt. It never lies.\n".encode())
        done = take(script, audio, "--date", "2026-11-25")
        again = take(script, audio, "--date", "2026-11-25")
        assert (done.returncode, again.returncode) == (0, 0)
        lines += script.read_text("utf-8").splitlines()[-2:]
        assert ("By its pace" in done.stdout) == (setting != "slot: 5s")
    assert len(set(lines)) == 1


def test_a_reader_named_over_two_lines_writes_one(script: Path, audio: Path) -> None:
    assert take(script, audio, "--part", "long", "--reader", "Ana\n---- draft").returncode == 0
    assert script.read_bytes().decode().endswith(" Ana ---- draft\n")


LOUD = wav(b"\xff\x7f" * RATE + b"\x00\x80" * RATE, RATE)
TONE = wav(bytes(RATE) + tone(3, RATE).tobytes() + bytes(RATE), RATE)


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (None, "cannot be read"),
        (b"", "empty file"),
        (b"not a recording at all", "WAV"),
        (b"RIFF\0\0\0\0WAVEfmt \x10\0\0\0" + bytes(16), "damaged|another kind"),
        (TONE[:-4000], "breaks off"),
        (wav(bytes(4 * RATE), RATE), "No speech"),
        (LOUD, "clipped"),
        (wav(tone(0.5, RATE).tobytes(), RATE), "shorter than a second"),
    ],
)
def test_a_recording_of_no_use_leaves_the_script_alone(
    script: Path, content: bytes | None, says: str
) -> None:
    audio = script.with_name("bad.wav")
    if content is not None:
        audio.write_bytes(content)
    assert_refused(script, audio, says, "--part", "short")


@pytest.mark.parametrize(
    ("content", "says", "more"),
    [
        (b"", "no piece", ()),
        (b"---- draft\nI go.\n", "no piece", ()),
        (SCRIPT.encode(), "short; long", ()),
        (SCRIPT.encode(), "short; long", ("--part", "middle")),
        (SCRIPT.encode("utf-16"), "UTF-16", ()),
        (b"I g\xff.", "UTF-8", ()),
        (b"(beat)\n", "no piece|Nothing is spoken", ()),
        (b"I go.", "2026-11-25", ("--date", "yesterday")),
        (b"I go.", "2026-11-25", ("--date", "2026-02-30")),
        (b"I go.", "2026-11-25", ("--date", "20261125")),
    ],
)
def test_a_script_that_cannot_take_it_stays_as_it_was(
    script: Path, audio: Path, content: bytes, says: str, more: tuple[str, ...]
) -> None:
    script.write_bytes(content)
    assert_refused(script, audio, says, *more)


def assert_refused(script: Path, audio: Path, says: str, *more: str) -> None:
    before = script.read_bytes()
    done = take(script, audio, *more)
    assert done.returncode == 2
    assert re.search(says, done.stderr), done.stderr
    assert "Traceback" not in done.stderr
    assert done.stdout == ""
    assert script.read_bytes() == before
    assert {path.name for path in script.parent.iterdir()} <= {"a.say", "take.wav", "bad.wav"}


def test_a_script_that_is_not_there(script: Path, audio: Path) -> None:
    done = take(script.with_name("b.say"), audio)
    assert done.returncode == 2
    assert "b.say: It cannot be read" in done.stderr
    assert not script.with_name("b.say").exists()


@pytest.mark.skipif(os.name != "posix", reason="needs a pseudo-terminal")
@pytest.mark.parametrize(("seconds", "shown"), [(40.0, True), (5.0, False)])
def test_progress_on_a_terminal(script: Path, seconds: float, shown: bool) -> None:
    import pty  # noqa: PLC0415

    audio = script.with_name("take.wav")
    part = tone(1.0, RATE)
    count = int(seconds / 1.5)
    audio.write_bytes(joined([part] * count, [0.5] * (count - 1), samples_per_second=RATE).wav())
    ours, theirs = pty.openpty()
    command = [sys.executable, "-m", "saywright", "take", str(script), "--audio", str(audio)]
    subprocess.run(
        [*command, "--part", "long"],
        stdout=subprocess.DEVNULL,
        stderr=theirs,
        check=True,
        timeout=60,
    )
    os.close(theirs)
    os.set_blocking(ours, False)
    try:
        told = os.read(ours, 100_000)
    except OSError:
        told = b""
    os.close(ours)
    assert (b"Listening: 50%" in told) == shown


def test_a_recording_of_another_kind(script: Path) -> None:
    soundfile = pytest.importorskip("soundfile", reason="soundfile is optional")
    part = tone(1.5, RATE)
    recording = joined([part, part], [0.5], samples_per_second=RATE)
    audio = script.with_name("take.flac")
    with soundfile.SoundFile(str(audio), "w", RATE, 1, "PCM_16") as file:
        file.buffer_write(recording.samples.tobytes(), "int16")
    done = take(script, audio, "--part", "long", "--date", "2026-11-25")
    assert done.returncode == 0, done.stderr
    assert "3.5s of" in script.read_text("utf-8")
