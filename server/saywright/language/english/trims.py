"""The parts of an English sentence that can go while the rest still stands.

Read off the words and the finite verbs around a comma, without a parse: in doubt there is none.
"""

import re
from bisect import bisect_left

from saywright.language.english.fillers import fillers
from saywright.language.english.quoted_words import Quotes, quotes_in
from saywright.language.english.trim_asides import asides, dashed, loose_fillers, openings
from saywright.language.english.trim_clauses import adjuncts, relatives
from saywright.language.english.trim_phrases import appositives, doubled
from saywright.language.english.trim_reading import Read, read
from saywright.language.facts import Facts
from saywright.language.trim import Trim

_KINDS = (
    openings,
    doubled,
    relatives,
    appositives,
    adjuncts,
    asides,
    dashed,
    loose_fillers,
)
_SIGNS = re.compile(r",| [–—-]+ |\b(very|so|really|much|far|too|many|long) \1\b", re.IGNORECASE)


def may_hold_trims(text: str) -> bool:
    """Whether it is worth reading the sentence for trims."""
    return _SIGNS.search(text) is not None or next(fillers(text), None) is not None


def trims_of(text: str, facts: Facts) -> tuple[Trim, ...]:
    """The trims of a sentence in order; `facts` are its own. What is quoted is left alone."""
    found = read(text, facts)
    quotes = quotes_in(text)
    offered: dict[tuple[int, int], Trim] = {}
    for kind in _KINDS:
        for trim in kind(found):
            if (
                _is_parted(text, trim)
                and not _is_quoted(trim, quotes)
                and not _leaves_insertion(found, trim)
            ):
                offered.setdefault((trim.start, trim.end), trim)
    return tuple(sorted(offered.values()))


def _is_parted(text: str, trim: Trim) -> bool:
    """Whether it begins after a blank, and no word runs on after it."""
    begins = not trim.start or text[trim.start - 1].isspace()
    return begins and not text[trim.end : trim.end + 1].isalnum()


def _leaves_insertion(found: Read, trim: Trim) -> bool:
    """Whether what is left ends in words between two commas, so that one hears it has not ended:
    they cut ice, the two of them, [with a saw]."""
    place = bisect_left(found.spans, (trim.start, 0))
    if place < 2 or trim.end != found.spans[found.end - 1][1] or found.words[place - 1] != ",":
        return False
    before = found.last_break(place - 1)
    return before >= 0 and found.words[before] == "," and not found.finite(before, place)


def _is_quoted(trim: Trim, quotes: Quotes) -> bool:
    """Whether somebody else's words would go, or half of them."""
    first, last = (bisect_left(quotes.marks, at) for at in (trim.start, trim.end))
    return first != last or quotes.hold(trim.start) or quotes.open_after
