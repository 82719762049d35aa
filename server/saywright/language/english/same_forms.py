"""Verbs whose past is spelled as their present is, told apart by a word of time in the sentence:
"they beat us last night" past, "they beat us all the time" present."""

from collections.abc import Sequence
from itertools import pairwise

from saywright.language.english.readings import Reading

_VERBS = frozenset(
    "beat bet bid burst cast cost cut fit hit hurt let put quit read rid set shed shut "
    "split spread thrust".split()
)
_BACK = frozenset(("yesterday", "ago"))
_SPANS = frozenset(
    "night week month year time summer winter spring autumn sunday monday tuesday wednesday "
    "thursday friday saturday".split()
)
_HABITS = frozenset("always every usually often sometimes whenever nowadays".split())
_LIKELIER = 8.0


def timed(words: Sequence[str], found: Sequence[Reading]) -> Sequence[Reading]:
    """The readings, with those of such verbs moved to the past or the present."""
    if _VERBS.isdisjoint(words):
        return found
    pairs = {*pairwise(words)}
    back = not _BACK.isdisjoint(words) or any(("last", span) in pairs for span in _SPANS)
    habit = not _HABITS.isdisjoint(words) or {("all", "the"), ("the", "time")} <= pairs
    if back == habit:
        return found
    return [_moved(each, back) if words[each.place] in _VERBS else each for each in found]


def _moved(reading: Reading, back: bool) -> Reading:
    past, present, modal, imperative = reading.chances
    both = past + present
    if back:
        past *= _LIKELIER
    else:
        present *= _LIKELIER
    scale = both / (past + present) if both else 0.0
    return reading._replace(chances=(past * scale, present * scale, modal, imperative))
