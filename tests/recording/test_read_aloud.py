"""Scripts that a synthesiser reads aloud, with gaps of known length: are they told right?"""

import pytest

from tests.recording.agreement import (
    FRESH_READERS,
    PATTERNS,
    READERS,
    SCRIPTS,
    Agreement,
    Reader,
    tried,
)
from tests.recording.read_aloud import need_espeak

LONGEST_ERROR_SECONDS = 0.1
LEAST_SHARE_RIGHT = 0.9


@pytest.fixture(autouse=True)
def _espeak() -> None:
    need_espeak()


def assert_right(results: list[Agreement]) -> None:
    for result in results:
        assert abs(result.length_error_seconds) < LONGEST_ERROR_SECONDS
    right, gaps = (sum(counts) for counts in zip(*(each[1:] for each in results), strict=True))
    assert gaps
    assert right >= LEAST_SHARE_RIGHT * gaps, f"{right} of {gaps}"


USUAL = [PATTERNS[name] for name in ("as_expected", "even", "at_random")]


@pytest.mark.parametrize("script", SCRIPTS, ids=lambda script: " ".join(map(str, script)))
def test_length_and_gaps(script: tuple[str, int]) -> None:
    number = SCRIPTS.index(script)
    reader, pattern = READERS[number % len(READERS)], USUAL[number % len(USUAL)]
    assert_right([tried(*script, reader, pattern)])


@pytest.mark.parametrize("pattern", ["breathless", "hardly_pausing"])
def test_one_who_runs_on(pattern: str) -> None:
    assert_right([tried(*script, READERS[1], PATTERNS[pattern]) for script in SCRIPTS[::3]])


def test_another_language() -> None:
    assert_right([tried("faehrmann.say", 0, Reader("de", 150), pattern) for pattern in USUAL])


@pytest.mark.slow
@pytest.mark.parametrize("script", SCRIPTS, ids=lambda script: " ".join(map(str, script)))
@pytest.mark.parametrize("reader", READERS, ids=lambda reader: reader.voice)
def test_every_voice_and_pattern(script: tuple[str, int], reader: Reader) -> None:
    assert_right([tried(*script, reader, pattern, seed=2) for pattern in PATTERNS.values()])


@pytest.mark.slow
@pytest.mark.parametrize("pattern", PATTERNS)
@pytest.mark.parametrize("reader", FRESH_READERS, ids=lambda reader: reader.voice)
def test_a_fresh_voice(reader: Reader, pattern: str) -> None:
    assert_right([tried(*script, reader, PATTERNS[pattern], seed=3) for script in SCRIPTS[::2]])
