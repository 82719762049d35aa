"""Values that a setting may be given: all there are, or a few to start from."""

from collections.abc import Iterator
from typing import NamedTuple

from saywright.analysis import Analysis
from saywright.checks.catalogue import CHECKS
from saywright.markup.settings import FORMS, PERSONS, TENSES
from saywright.markup.tree import Paragraph
from saywright.naming.at_place import speakers_of
from saywright.speech.piece_takes import same_name
from saywright.speech.vowel_nuclei import LANGUAGES

LISTS = ("speaker", "leave-out")
"""Settings whose values stand with commas between them."""

_MOST_CUES = 100
_KNOWN: dict[str, tuple[tuple[str, str], ...]] = {
    "slot": (
        ("60s", "up to a minute"),
        ("60-90s", "from a minute to a minute and a half"),
        ("90s", "up to a minute and a half"),
        ("2 min", "up to two minutes"),
        ("3 min", "up to three minutes"),
    ),
    "margin": (("2s", ""), ("3s", ""), ("5s", "")),
    "pace": (
        ("130 wpm", "unhurried, in words a minute"),
        ("150 wpm", "in words a minute"),
        ("170 wpm", "brisk, in words a minute"),
        ("4.2 syl/s", "in syllables a second"),
    ),
    "timer": (("5 min", ""), ("10 min", ""), ("15 min", "")),
    "count": (
        ("10", "items, one a line"),
        ("20", "items, one a line"),
        ("40", "items, one a line"),
    ),
}
_ENUMERATED: dict[str, dict[str, str]] = {
    "tense": {
        "present": "it happens as it is told",
        "past": "it is over",
        "free": "any, and any change",
    },
    "person": {
        "first": "told by an I",
        "second": "told by a you",
        "third": "told by someone outside it",
        "free": "any, and any change",
    },
    "form": {
        "prose": "a line's end is nothing",
        "verse": "a line's end is a small pause",
    },
}
_ORDERED = {"tense": TENSES, "person": PERSONS, "form": FORMS}


class Value(NamedTuple):
    """A value, what it is, and the check that it names, if it does."""

    text: str
    what: str = ""
    check: str | None = None


def values_of(key: str, analysis: Analysis) -> Iterator[Value]:
    """What may stand after `key`, none where it is words of the writer's own."""
    if key in _ORDERED:
        yield from (Value(each, _ENUMERATED[key][each]) for each in _ORDERED[key])
    elif key == "pace":
        yield from _readers(analysis)
        yield from (Value(*each) for each in _KNOWN[key])
    elif key in _KNOWN:
        yield from (Value(*each) for each in _KNOWN[key])
    elif key == "language":
        yield from map(Value, _tags())
    elif key == "leave-out":
        yield from (Value(check.name, check.what, check.name) for check in CHECKS)
    elif key == "speaker":
        yield from _speakers(analysis)


def usual_values(key: str) -> tuple[str, ...]:
    """Those that hold for any script, to choose from while the key is only being written."""
    if key in _ORDERED:
        return _ORDERED[key]
    if key == "language":
        return tuple(_tags())
    return tuple(text for text, _ in _KNOWN.get(key, ()))


def _tags() -> Iterator[str]:
    yield from ("en-GB", "en-US")
    yield from LANGUAGES


def _readers(analysis: Analysis) -> Iterator[Value]:
    for name, pace in analysis.project.readers.items():
        told = (
            f"{pace.words_per_minute:g} wpm"
            if pace.words_per_minute
            else f"{pace.syllables_per_second:g} syl/s"
        )
        yield Value(name, f"a reader of saywright.toml, {told}")


def _speakers(analysis: Analysis) -> Iterator[Value]:
    """Names that stand as a cue does and are not listed, and those listed elsewhere in the file."""
    listed = speakers_of(analysis)
    yield from (Value(name, "speaks in this file") for name in listed)
    for name in dict.fromkeys(_unlisted_cues(analysis)):
        if not any(same_name(name, each) for each in listed):
            yield Value(name, "looks like a cue in this file")


def _unlisted_cues(analysis: Analysis) -> Iterator[str]:
    index = 0
    for _ in range(_MOST_CUES):
        found = analysis.blocks.find(lambda sum: sum.flagged > 0, index)
        if not found:
            return
        block = found.item.block
        for finding in block.problems if isinstance(block, Paragraph) else ():
            written = block.text[finding.start : finding.end]
            if finding.check == "cue" and not written.endswith(":"):
                yield " ".join(written.split())
        index = found.index + 1
