"""What became of a sentence from one version to the next."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from saywright.comparing.alignment import Match, align
from saywright.comparing.lines import Line
from saywright.comparing.words import How, WordChange, word_changes

Kind = Literal[
    "unchanged",
    "cut",
    "restored",
    "trimmed",
    "partly restored",
    "added",
    "taken out",
    "reworded",
    "split",
    "joined",
    "punctuation",
    "moved",
    "kept",
    "released",
    "silences",
]
"""`cut`: spoken before, marked as cut now, and `restored` the other way; `trimmed`: some of its
words are marked as cut now. `taken out`: gone from the file, not even marked. `kept`: marked now
as one to keep, and `released` no longer. `silences`: what is marked of silence is not the same.
`split`, `joined`: the same words, as two sentences or as one."""


@dataclass(frozen=True)
class Change:
    """A sentence in both versions, or in the one that has it. Two on a side where one was split,
    or two joined.

    `kind` is what matters most, `also` which other kinds are true of it.
    """

    kind: Kind
    also: tuple[Kind, ...]
    before: tuple[Line, ...]
    after: tuple[Line, ...]
    words: tuple[WordChange, ...] = ()

    @property
    def seconds(self) -> float:
        """By how much the piece is longer for it."""
        return sum(line.seconds for line in self.after) - sum(line.seconds for line in self.before)


def changes(before: Sequence[Line], after: Sequence[Line]) -> tuple[Change, ...]:
    """Every sentence of either version, in order; what is unchanged too."""
    matches = align([line.known_by for line in before], [line.known_by for line in after])
    return tuple(_change(match, before, after) for match in matches)


def _change(match: Match, before: Sequence[Line], after: Sequence[Line]) -> Change:
    ones = tuple(before[index] for index in match.before)
    twos = tuple(after[index] for index in match.after)
    if not ones:
        return Change("added", ("cut",) if twos[0].cut else (), ones, twos)
    if not twos:
        return Change("taken out", ("cut",) if ones[0].cut else (), ones, twos)
    words = word_changes(ones, twos)
    kinds = sorted({*_kinds(ones, twos, words), *_places(match)}, key=_ORDER.index)
    if len(ones) != len(twos):
        kinds = [kind for kind in kinds if kind != "punctuation"]  # of course there is another
    return Change(kinds[0] if kinds else "unchanged", tuple(kinds[1:]), ones, twos, words)


_ORDER: tuple[Kind, ...] = (
    *("cut", "restored", "trimmed", "partly restored", "reworded", "split", "joined"),
    *("punctuation", "moved", "kept", "released", "silences"),
)


def _kinds(
    ones: Sequence[Line], twos: Sequence[Line], words: Sequence[WordChange]
) -> Iterator[Kind]:
    was_heard, is_heard = (any(line.heard for line in lines) for lines in (ones, twos))
    if was_heard != is_heard:
        yield "restored" if is_heard else "cut"
    if _words_of(ones) != _words_of(twos):
        yield "reworded"
    else:
        hows = {change.how for change in words}
        if was_heard and is_heard and hows & {"cut", "restored"}:
            yield _marked(hows)
        if _written(ones) != _written(twos):
            yield "punctuation"
    was_kept, is_kept = (any(line.kept for line in lines) for lines in (ones, twos))
    if was_kept != is_kept:
        yield "kept" if is_kept else "released"
    if was_heard == is_heard and _silences(ones) != _silences(twos):
        yield "silences"


def _marked(hows: set[How]) -> Kind:
    if {"cut", "restored"} <= hows:
        return "reworded"
    return "trimmed" if "cut" in hows else "partly restored"


def _words_of(lines: Sequence[Line]) -> list[str]:
    return [word for line in lines for word in line.known_by]


def _written(lines: Sequence[Line]) -> list[str]:
    return [token.text for line in lines for token in line.tokens]


def _silences(lines: Sequence[Line]) -> list[float]:
    return [seconds for line in lines for seconds in line.silences]


def _places(match: Match) -> Iterator[Kind]:
    if len(match.after) > 1:
        yield "split"
    if len(match.before) > 1:
        yield "joined"
    if match.moved:
        yield "moved"
