"""Words that trip the tongue where they meet: by the consonants of their spelling.

Two things are looked for: many consonants in a row from one word into the next; and sounds that
are made nearly alike and take turns within a few words, as s and sh do in “she sells sea shells”.
One sound again and again is no trip, but style.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from saywright.language.english.consonants import VOWEL, consonants_of

_HISSING = frozenset(("S", "SH", "TH"))
_NO_SOUND_OF_ITS_OWN = frozenset(("N", "M", "NG", "L"))  # before another consonant
_LIKE = {"Z": "S", "ZH": "SH"}
_CLASHES_WITHIN_WORDS = 4
_MOST_SYLLABLES_INSIDE = 2
_MANY_CONSONANTS = 5
_MANY_WITH_TH = 4


class _Turns(NamedTuple):
    """Sounds that take turns: so many of them, with so many changes, within so many words.

    `inside`: those in the middle of words of two syllables count too. `content`: so many different
    words must carry a stress. `distinct`: no word may come twice. `over_commas`: also past commas.
    """

    sounds: tuple[str, str]
    needed: int
    changes: int
    words: int
    inside: bool = False
    content: int = 3
    distinct: bool = False
    over_commas: bool = False


# How many are needed of each was chosen so that untouched prose has next to none.
_TURNS = (
    _Turns(("S", "SH"), 4, 2, 5, over_commas=True),
    _Turns(("R", "L"), 4, 3, 4, inside=True, over_commas=True),
    _Turns(("R", "L"), 5, 3, 3, inside=True, over_commas=True),
    _Turns(("R", "L"), 4, 2, 5, over_commas=True),
    _Turns(("R", "L"), 3, 2, 3, distinct=True),
    _Turns(("F", "TH"), 3, 2, 3, distinct=True),
    _Turns(("F", "TH"), 4, 2, 4),
    _Turns(("S", "TH"), 3, 2, 3, distinct=True),
    _Turns(("S", "TH"), 4, 2, 4),
    _Turns(("B", "P"), 4, 3, 5),
    _Turns(("W", "R"), 4, 3, 5),
    _Turns(("W", "V_"), 4, 3, 5),
    *(
        _Turns((f"{each}L", f"{each}R"), 3, 2, 3, distinct=True)
        for each in ("B", "K", "F", "G", "P")
    ),
)


class _Shape(NamedTuple):
    """`first` and `last`: the consonants before a word's first vowel and after its last. `turns`:
    by index of `_TURNS`, the sounds of it that count, in order."""

    first: tuple[str, ...]
    last: tuple[str, ...]
    turns: tuple[tuple[int, str], ...]


class Heard(NamedTuple):
    """A word as it stands in a sentence. `close`: nothing but a space parts it from the word
    before, `run`: at most a comma does. `stressed`: it has a stress of its own."""

    word: str
    close: bool
    run: bool
    stressed: bool


def trips(words: Sequence[Heard]) -> Iterator[tuple[int, int]]:
    """The words, from an index to before another, that trip the tongue; none in two at once."""
    first = end = 0
    for start, stop in sorted((*_clusters(words), *_turns(words))):
        if start >= end:
            if end:
                yield first, end
            first = start
        end = max(end, stop)
    if end:
        yield first, end


def _clusters(words: Sequence[Heard]) -> Iterator[tuple[int, int]]:
    before: tuple[str, ...] = ()
    clash = -_CLASHES_WITHIN_WORDS
    for index, heard in enumerate(words):
        shape = _shape(heard.word)
        meets = before and shape.first and heard.close
        if meets and _clash(before[-1], shape.first[0]):
            if index - clash < _CLASHES_WITHIN_WORDS - 1:
                yield clash - 1, index + 1
            clash = index
        stressed = heard.stressed and (index == 0 or words[index - 1].stressed)
        if meets and stressed and _trips(before, shape.first):
            yield index - 1, index + 1
        elif "TH" in shape.last and _has_th_between(shape.last):
            yield index, index + 1
        before = shape.last


def _clash(last: str, first: str) -> bool:
    """As in “wash six”: one hissing sound right after another."""
    return first in _HISSING and _unvoiced(last) in _HISSING and _unvoiced(last) != first


@lru_cache(maxsize=4096)
def _trips(last: tuple[str, ...], first: tuple[str, ...]) -> bool:
    if len(last) + len(first) < _MANY_WITH_TH:
        return False
    with_th = "TH" in last and len(last) > 1 and first[0] in _HISSING
    return len(_run(last, first)) >= (_MANY_WITH_TH if with_th else _MANY_CONSONANTS)


def _run(last: Sequence[str], first: Sequence[str]) -> list[str]:
    """The consonants that are said: a final t or d is lost between others, two alike are one."""
    if len(last) > 1 and last[-1] in ("T", "D"):
        last = last[:-1]
    run: list[str] = []
    for sound in map(_unvoiced, (*last, *first)):
        if run and run[-1] in _NO_SOUND_OF_ITS_OWN:
            run.pop()
        if not run or run[-1] != sound:
            run.append(sound)
    return run


def _unvoiced(sound: str) -> str:
    return _LIKE.get(sound, sound)


def _has_th_between(last: Sequence[str]) -> bool:
    """As in “sixths” and “fifths”."""
    at = last.index("TH")
    return at > 0 and last[at - 1] in ("S", "F") and last[at + 1 : at + 2] == ("S",)


def _turns(words: Sequence[Heard]) -> Iterator[tuple[int, int]]:
    heard: defaultdict[int, list[tuple[int, str]]] = defaultdict(list)
    ends: defaultdict[int, int] = defaultdict(int)
    for index, each in enumerate(words):
        if not each.close:
            _forget(heard, over_commas=each.run)
        for kind, sound in _shape(each.word).turns:
            turns = _TURNS[kind]
            sounds = heard[kind]
            sounds.append((index, sound))
            del sounds[: -turns.needed]
            goes_on = sounds[0][0] < ends[kind]
            if len(sounds) == turns.needed and _take_turns(turns, sounds, words, goes_on):
                yield sounds[0][0], index + 1
                ends[kind] = index + 1


def _forget(heard: dict[int, list[tuple[int, str]]], *, over_commas: bool) -> None:
    for kind, sounds in heard.items():
        if not (over_commas and _TURNS[kind].over_commas):
            sounds.clear()


def _take_turns(
    turns: _Turns, sounds: Sequence[tuple[int, str]], words: Sequence[Heard], goes_on: bool
) -> bool:
    """`goes_on`: some of the sounds have been found to take turns already."""
    first, last = sounds[0][0], sounds[-1][0]
    changes = sum(a[1] != b[1] for a, b in pairwise(sounds))
    if changes < turns.changes - goes_on or last - first >= turns.words:
        return False
    holding = [words[index] for index in sorted({index for index, _ in sounds})]
    texts = {each.word.lower() for each in holding}
    stressed = {each.word.lower() for each in holding if each.stressed}
    return len(stressed) >= turns.content - goes_on and (
        not turns.distinct or len(texts) == len(holding)
    )


@lru_cache(maxsize=16384)
def _shape(word: str) -> _Shape:
    sounds = consonants_of(word)
    if VOWEL not in sounds:
        return _Shape((), (), ())
    first = sounds[: sounds.index(VOWEL)]
    last = sounds[len(sounds) - sounds[::-1].index(VOWEL) :]
    turns = tuple(
        (index, sound)
        for index, kind in enumerate(_TURNS)
        for sound in (_singles(sounds) if kind.inside else _opening(first))
        if sound in kind.sounds
    )
    return _Shape(first, last, turns)


def _opening(first: Sequence[str]) -> Iterable[str]:
    """A word's first consonant, and the first two as one where the second is l or r."""
    yield from first[:1]
    if first[1:2] in (("L",), ("R",)):
        yield first[0] + first[1]


def _singles(sounds: Sequence[str]) -> Iterator[str]:
    """The consonants that stand alone before a vowel, of a word of up to two syllables."""
    if sounds.count(VOWEL) > _MOST_SYLLABLES_INSIDE:
        sounds = sounds[:2]
    before = VOWEL
    for sound, after in pairwise(sounds):
        if before == VOWEL and after == VOWEL and sound != VOWEL:
            yield sound
        before = sound
