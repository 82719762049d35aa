"""Clauses that are added to a sentence that is whole without them: ", who was asleep"."""

from collections.abc import Iterator

from saywright.language.english.filler_words import HESITATIONS
from saywright.language.english.trim_reading import (
    Read,
    can_have_comma,
    goes_on,
    is_fronted,
    is_nominal,
    is_pointed_at,
    joins_clause,
    joins_verb,
    matters,
    may_hold_verb,
    tells,
)
from saywright.language.english.trim_words import (
    AMOUNTS,
    ASKING,
    BEFORE_RELATIVES,
    CONCEDING,
    FOCUS,
    JOINING,
    LIKE_PREPOSITIONS,
    NEEDING_MORE,
    NO_ANTECEDENT,
    POSSESSIVES,
    RELATIVES,
)
from saywright.language.trim import Trim

_IN_TWO_WORDS = frozenset((("as", "if"), ("as", "though"), ("even", "though"), ("the", "way")))
_EMPTY_SUBJECTS = frozenset(("it", "there", "that", "this", "what", "'s"))


def relatives(read: Read) -> Iterator[Trim]:
    """As in: I rang my aunt, who was asleep. Only one that a comma or a dash sets off."""
    for place in range(2, read.end - 1):
        start = read.set_off(place)
        opening = _relative_at(read, place)
        if start is None or opening is None or not _has_antecedent(read, place, opening):
            continue
        end = _end_of_relative(read, place, opening)
        if end and (start == place or end == read.end) and not matters(read, place, end):
            yield read.trim(start, end, "relative", "the added clause")


def _relative_at(read: Read, place: int) -> int | None:
    """The place of the relative word of a clause that begins at `place`: most of which."""
    word = read.words[place]
    if word in RELATIVES:
        corrects = read.words[place : place + 3] == ["which", "is", "to"]
        return None if corrects else place
    if word in BEFORE_RELATIVES and read.word(place + 1) in {"which", "whom"}:
        return place + 1
    counted = word in AMOUNTS and read.word(place + 1) == "of"
    return place + 2 if counted and read.word(place + 2) in {"which", "whom"} else None


def _has_antecedent(read: Read, place: int, opening: int) -> bool:
    """Whether it can say more about what stands right before it, or about the whole clause."""
    before, relative = place - 2, read.words[opening]
    if not tells(read, 0, place) and not is_fronted(read, place):
        return False
    if read.asks or read.word(before) in NO_ANTECEDENT or _asks_or_points(read, before, opening):
        return False
    if is_nominal(read, before):
        return True
    adds = relative == "which" and opening == place
    return adds and before not in read.verbs and read.letters(before)[0] in "jariNDue"


def _asks_or_points(read: Read, before: int, opening: int) -> bool:
    """Whether it may be what is asked or pointed out: he asked the pilot which boat; it was Ada,
    my own aunt, who took it; I know who came, who left."""
    relative = read.words[opening]
    if any(word in ASKING or word == relative for word in read.words[1:before]):
        return True
    if relative == "which":
        return read.letters(opening + 1)[0] in "ns"
    return read.words[0] == "it" and 1 in read.verbs


def _end_of_relative(read: Read, start: int, opening: int) -> int | None:
    """The place after what goes, the comma after it included; None if that cannot be told."""
    end = read.next_break(start)
    if not may_hold_verb(read, opening + 1, end) or goes_on(read, opening + 1, end):
        return None
    if end == read.end:
        return end if read.stops and tells(read, 0, start) else None
    if read.words[end] != ",":
        return None
    if read.word(end + 1) in RELATIVES and read.next_break(end + 1) == read.end:
        return read.end if read.stops and tells(read, 0, start) else None
    if is_pointed_at(read, start, end):
        return None
    return end + 1 if can_have_comma(read, start, end + 1) else None


def adjuncts(read: Read) -> Iterator[Trim]:
    """As in: she stood there, counting the coins. At a sentence's end, or before: and left."""
    for place in range(2, read.end):
        if read.words[place - 1] != "," or not _hangs(read, place):
            continue
        end = read.next_break(place)
        if goes_on(read, place, end) or matters(read, place, end):
            continue
        if end == read.end and read.stops:
            yield read.trim(place, end, "adjunct", "the added words")
        elif read.word(end) == "," and _is_resumed(read, place, end):
            yield read.trim(place, end + 1, "adjunct", "the added words")


def _is_resumed(read: Read, start: int, end: int) -> bool:
    """Whether the sentence goes on after the comma at `end` as if nothing had come between."""
    joined = joins_verb(read, end + 1) or joins_clause(read, end + 1)
    return joined and not is_pointed_at(read, start, end)


def _hangs(read: Read, place: int) -> bool:
    kinds = (_is_participle, _is_clause, _is_with)
    return any(is_one(read, place) for is_one in kinds) and _is_whole(read, place)


def _is_participle(read: Read, place: int) -> bool:
    word = read.words[place]
    if not word.endswith("ing") or "G" not in read.letters(place) or word in LIKE_PREPOSITIONS:
        return False
    before = read.letters(place - 2)
    if any(read.verbs[at].lemma in NEEDING_MORE for at in read.finite(0, place)):
        return False
    if read.word(place + 1) in JOINING or "j" in before or before[0] in "NDG":
        return False
    return not any(
        read.words[at].endswith("ing") and "G" in read.letters(at) for at in range(place)
    )


def _is_clause(read: Read, place: int) -> bool:
    """As in: as if nothing had happened, although it rained, because it rained."""
    word, after = read.words[place], read.word(place + 1)
    opens = word in CONCEDING or (word, after) in _IN_TWO_WORDS
    if word == "because":
        opens = after != "of" and FOCUS.isdisjoint(read.words[:place])
    return opens and bool(read.finite(place + 1, read.next_break(place)))


def _is_with(read: Read, place: int) -> bool:
    """As in: with her hand on the lamp."""
    after = read.word(place + 1)
    opens = after in POSSESSIVES or read.letters(place + 1)[0] == "d"
    return read.words[place] == "with" and opens and "with" not in read.words[:place]


def _is_whole(read: Read, place: int) -> bool:
    """Whether what stands before `place` needs nothing more."""
    told = [at for at in read.finite(0, place) if read.verbs[at].role != "under"]
    last = read.words[place - 2]
    if not told or place - 2 in read.verbs or last in HESITATIONS:
        return False
    if read.letters(place - 2)[0] in "tdo":
        return False
    before = read.last_break(place - 1)
    if before in read.verbs or before - 1 in read.verbs or read.word(before + 1) == "let":
        return False
    subject = read.verbs[told[0]].subject
    return subject is None or read.text[slice(*subject)].lower() not in _EMPTY_SUBJECTS
