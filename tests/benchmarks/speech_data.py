"""The recordings that the speech model is tuned on, read from a folder outside the project.

Two files of tab-separated values: `one_reader_clips.tsv` (text, spelled_out, seconds, clip,
inner_pause; a clip's chapter is the part of its name before the dash) and
`many_speakers_150words.tsv` (text, seconds, speaker). Seconds run from the first sound to the last.
"""

import os
import re
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path

from saywright.speech.model import is_stumble
from saywright.speech.spoken import SpokenWord, spoken_words

MINUTE_SECONDS = 60.0
LEAST_MINUTE_SECONDS = 50.0


@dataclass(frozen=True, slots=True)
class Recording:
    """A stretch of speech; `group` is its chapter or its speaker."""

    text: str
    seconds: float
    group: str


@dataclass(frozen=True, slots=True)
class Corpus:
    """`minutes` are the indexes of consecutive clips of a chapter that make about a minute."""

    clips: list[Recording]
    minutes: list[list[int]]
    stretches: list[Recording]


def read_corpus() -> Corpus:
    """The recordings of the folder given as first argument or in SAYWRIGHT_DATA; ends if none."""
    folder = Path(sys.argv[1] if len(sys.argv) > 1 else os.environ.get("SAYWRIGHT_DATA", ""))
    if not (folder / "one_reader_clips.tsv").is_file():
        sys.exit("No recordings: name their folder as an argument or in SAYWRIGHT_DATA.")
    clips = [
        Recording(text, float(seconds), clip.split("-")[0])
        for text, _, seconds, clip, _ in _rows(folder / "one_reader_clips.tsv")
    ]
    stretches = [
        Recording(text, float(seconds), speaker)
        for text, seconds, speaker in _rows(folder / "many_speakers_150words.tsv")
    ]
    return Corpus(clips, list(_minutes(clips)), stretches)


def _rows(path: Path) -> Iterator[list[str]]:
    for line in path.read_text(encoding="utf-8").split("\n")[1:]:
        if line:
            yield line.split("\t")


def _minutes(clips: Sequence[Recording]) -> Iterator[list[int]]:
    joined: list[int] = []
    seconds = 0.0
    for index, clip in enumerate(clips):
        if joined and (clips[joined[0]].group != clip.group or seconds >= MINUTE_SECONDS):
            if seconds >= LEAST_MINUTE_SECONDS:
                yield joined
            joined, seconds = [], 0.0
        joined.append(index)
        seconds += clip.seconds
    if seconds >= LEAST_MINUTE_SECONDS:
        yield joined


def gaps(text: str, words: Sequence[SpokenWord]) -> Iterator[tuple[str, int, bool]]:
    """The text between each two words, how many words of its sentence stand before it, and whether
    the speaker stumbles over it."""
    before = 0
    for word, following in pairwise(words):
        before += 1
        between = text[word.end : following.start]
        one, other = text[word.start : word.end], text[following.start : following.end]
        yield between, before, is_stumble(one, other)
        if any(mark in between for mark in ".!?…"):
            before = 0


_MARK = re.compile(r"[\\()|*_~#:]|^-")


def as_script(text: str) -> str:
    """A script of one piece whose words are all of `text`, with nothing read as a mark."""
    escaped = _MARK.sub(lambda mark: "\\" + mark[0], text)
    return f"---- piece\n{escaped}\n"


def read_words(text: str) -> tuple[SpokenWord, ...]:
    return spoken_words(text)
