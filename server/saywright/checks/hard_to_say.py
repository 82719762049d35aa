"""Words beside each other that trip the tongue."""

from collections.abc import Iterator, Sequence
from functools import lru_cache

from saywright.checks.check import Check, Page
from saywright.checks.passage import Passage
from saywright.finding import Finding
from saywright.language.english.tag import is_english
from saywright.language.english.tongue_trips import Heard, trips
from saywright.speech.pronunciation import pronounce
from saywright.speech.spoken import SpokenWord, spoken_words

_RUNS_ON = frozenset((" ", ", "))


def find(passage: Passage) -> Iterator[Finding]:
    if not is_english(passage.language):
        return
    for line in passage.own:
        words = spoken_words(line.text, line.language)
        for first, end in trips(list(_heard(line.text, words))):
            where = line.where(words[first].start, words[end - 1].end)
            said = line.text[words[first].start : words[end - 1].end]
            message = f"“{said}” may trip the tongue. Say it aloud three times to be sure."
            yield Finding("hard-to-say", *where, message)


def _heard(text: str, words: Sequence[SpokenWord]) -> Iterator[Heard]:
    end = 0
    for start, word_end, _ in words:
        between = text[end:start]
        written = text[start:word_end]
        yield Heard(written, between == " ", between in _RUNS_ON, _has_stress(written))
        end = word_end


@lru_cache(maxsize=8192)
def _has_stress(written: str) -> bool:
    return pronounce(written.lower()).primary > 0


CHECK = Check(
    "hard-to-say",
    "hint",
    "words beside each other that trip the tongue",
    find_nearby=find,
    looks_around=False,
    page=Page(
        "Some words are easy to read and hard to say: where too many consonants meet, or where"
        " sounds made nearly alike take turns, as s and sh or r and l do. On a nervous night that"
        " is where the tongue slips. The sounds are read from the spelling, so a rare word may be"
        " heard wrongly.",
        "On the quay she sells sea shells.",
        "Say it aloud three times, quicker each time. If it goes well, leave it; if not, put"
        " another word in its place or a word between.",
    ),
)
