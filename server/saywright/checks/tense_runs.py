"""Lines of a piece that fall out of its tense: which lines bear one, and the short runs of
another tense between lines that agree.

What tells nothing of when is passed over: questions, orders, fragments, what will or may be,
perfects, quoted words, and turns such as "I think".
"""

import re
from collections.abc import Iterator, Sequence
from itertools import takewhile
from typing import Literal, NamedTuple

from saywright.language.facts import Facts, Verb

Bearing = Literal["past", "present"]
OTHER: dict[Bearing, Bearing] = {"past": "present", "present": "past"}
MOST_LINES = 3  # of a slip; a longer run is a new section
NEAR_LINES = 12
LEAST_SURE = 0.5

# Whole sentences that are said as they stand in whatever time is told of
_SET_PHRASES = frozenset(
    " ".join(phrase.split())
    for phrase in """that's all; that is all; that's it; that's that; that is that; there it is;
    there you are; there we are; here we are; here you are; here it is; there you go; here goes;
    it's all right; it's alright; it's okay; that's right; that's life; that's how it is; i'm sorry;
    i am sorry; i'm afraid so; thank you; who cares; who knows; so it goes; god knows""".split(";")
)
_AROUND = " \t\r\n.,;:!?…–—\"“”‘’'()"
# In a piece told in the past these are how its speaker sees it now.
_OUTLOOK = frozenset(
    ("think", "know", "remember", "mean", "guess", "suppose", "believe", "wonder", "swear", "bet")
)
_TIME_CUE = re.compile(
    r"\b(?:yesterday|ago|last (?:night|week|month|year|time|summer|winter|spring|autumn|\w+day)"
    r"|back then|in those days|used to|in (?:19|20)\d\d|as a (?:child|boy|girl|kid)"
    r"|when (?:I|we|he|she) (?:was|were|came|started|began|left|arrived|first)|the other day"
    r"|(?:my|our|his|her) first (?:day|night|week|month|year|summer|winter|spring|autumn)"
    r"|(?:the|that) (?:day|night|week|month|year|summer|winter|spring|autumn) (?:I|we|he|she|they)"
    r"|that (?:day|night|week|year|summer|winter|spring|autumn)|once upon)\b",
    re.IGNORECASE,
)
_FEELINGS = frozenset(("hate", "love", "like", "miss", "hope", "wish", "prefer", "doubt", "fear"))
_TO_THIS_DAY = re.compile(
    r"\b(?:still|nowadays|these days|to this day|now|always|every)\b", re.IGNORECASE
)


class Told(NamedTuple):
    """A sentence, what is known of its grammar, and whether it opens its paragraph."""

    text: str
    facts: Facts | None
    opens: bool = False

    @property
    def verb(self) -> Verb | None:
        if self.facts is None or self.facts.main is None:
            return None
        return self.facts.verbs[self.facts.main]

    @property
    def subject(self) -> str | None:
        """The main verb's subject, in lower case."""
        if self.verb is None or self.verb.subject is None:
            return None
        return self.text[slice(*self.verb.subject)].lower()


class Run(NamedTuple):
    """Lines that bear `tense`, by index, with only such between as bear none. `before` and
    `after` are the nearest lines that bear the other tense, the nearest first, up to where one
    bears this one again; `cut_before` and `cut_after` say that there is such a one."""

    lines: tuple[int, ...]
    tense: Bearing
    before: tuple[int, ...]
    after: tuple[int, ...]
    cut_before: bool
    cut_after: bool

    @property
    def first(self) -> int:
        return self.lines[0]

    @property
    def end(self) -> int:
        return self.lines[-1] + 1


def bearing(told: Told) -> Bearing | None:
    """The tense that a line tells in, where it tells."""
    facts, verb = told.facts, told.verb
    if facts is None or verb is None or facts.is_question or facts.sure < LEAST_SURE:
        return None
    if verb.aspect == "perfect" or verb.quoted or _is_set_phrase(told.text):
        return None
    if facts.tense == "past":
        return "past"
    return "present" if facts.tense == "present" and not _is_outlook(told, verb) else None


def _is_set_phrase(text: str) -> bool:
    """Whether a sentence is one, after an "and" too."""
    words = " ".join(text.strip(_AROUND).replace("’", "'").casefold().split())
    return words in _SET_PHRASES or words.removeprefix("and ") in _SET_PHRASES


def _is_outlook(told: Told, verb: Verb) -> bool:
    if verb.lemma == "thank":
        return True
    return verb.lemma in _OUTLOOK and told.subject in ("i", "you")


def has_time_cue(lines: Sequence[Told], index: int) -> bool:
    """Whether a line, or the one before it, says that it looks back."""
    return any(_TIME_CUE.search(lines[at].text) for at in (index, index - 1) if at >= 0)


def holds_to_this_day(line: Told) -> bool:
    """Whether a line in the present is so still, whatever is told around it: it says so, or it is
    what the speaker feels."""
    if bearing(line) != "present" or line.verb is None:
        return False
    feels = line.subject == "i" and line.verb.lemma in _FEELINGS
    return feels or _TO_THIS_DAY.search(line.text) is not None


def runs(lines: Sequence[Told]) -> Iterator[Run]:
    """Every run of lines of one tense among lines of the other, in order."""
    bearings = [bearing(line) for line in lines]
    telling = [index for index, tense in enumerate(bearings) if tense]
    at = 0
    while at < len(telling):
        tense = bearings[telling[at]]
        assert tense
        end = at
        while end < len(telling) and bearings[telling[end]] == tense:
            end += 1
        before = telling[max(at - NEAR_LINES, 0) : at][::-1]
        after = telling[end : end + NEAR_LINES]
        agree_before = _until(bearings, before, tense)
        agree_after = _until(bearings, after, tense)
        yield Run(
            tuple(telling[at:end]),
            tense,
            agree_before,
            agree_after,
            len(agree_before) < len(before),
            len(agree_after) < len(after),
        )
        at = end


def _until(
    bearings: Sequence[Bearing | None], telling: Sequence[int], tense: Bearing
) -> tuple[int, ...]:
    """The first of the indexes `telling`, to where a line bears `tense`."""
    return tuple(takewhile(lambda index: bearings[index] != tense, telling))
