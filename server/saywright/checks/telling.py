"""A paragraph's sentences and those near it as they are told: what stands in a quote that runs
over several sentences is not the speaker's own."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from saywright.checks.passage import Line, Passage
from saywright.checks.tense_runs import Told
from saywright.language.english.quoted_words import quotes_in


class Telling(NamedTuple):
    """Lines and what is told by them, of which those from `first` to before `end` are looked at."""

    lines: Sequence[Line]
    told: Sequence[Told]
    first: int
    end: int


def telling(passage: Passage) -> Telling:
    lines = [*passage.before, *passage.own, *passage.after]
    first = len(passage.before)
    return Telling(lines, list(_told(lines)), first, first + len(passage.own))


def _told(lines: Sequence[Line]) -> Iterator[Told]:
    is_open = False
    for line in lines:
        quotes = quotes_in(line.text, is_open and not line.opens)
        is_open = quotes.open_after
        facts = None if quotes.open_before else line.facts
        yield Told(line.text, facts, line.opens)
