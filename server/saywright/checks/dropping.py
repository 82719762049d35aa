"""Edits that take words out of a sentence and mend its commas and its capital."""

import re
from bisect import bisect_left
from collections.abc import Iterator

from saywright.checks.passage import Line, Passage
from saywright.finding import Edit
from saywright.language.english.filler_words import (
    OPEN_ENDED,
    OPENERS,
    QUESTION_WORDS,
    QUESTIONS,
    REPLIES,
    SUBJECTS,
)

_BEFORE = re.compile(r"(?:(?:(?P<second>\w+)\s+)?(?P<word>'?\w[\w'’-]*))?(?P<gap>[^\w'’]*)\Z")
_AFTER = re.compile(r"(?P<gap>[^\w'’]*)(?P<word>\w[\w'’-]*)?")
_FIRST_WORD = re.compile(r"\w[\w'’]*")
_PARTING = re.compile(r"\s*[,;:.…–—-]*\s?")
_JOINING = OPENERS | {"though", "although", "when", "if", "while", "where", "as"}
_BEFORE_NOUNS = frozenset(("a", "an", "the", "my", "your", "his", "our", "their"))
_TURNS = frozenset(("well", "alright", "okay", "ok", "hey"))
_RUNNING_ON = (OPEN_ENDED | QUESTION_WORDS) - REPLIES
_REACH = 64  # code points
_REREAD = 400_000  # code points of a paragraph that are read again, in all, to try its fixes


def most_fixes(passage: Passage) -> int:
    """How many fixes of a paragraph can be tried, each on the whole of it, while somebody types."""
    return _REREAD // max(len(passage.own[0].paragraph.text), 1)


def is_kept(line: Line, start: int, end: int) -> bool:
    """Whether anything of `line.text[start:end]`, `start` < `end`, is marked as kept."""
    keeps = line.paragraph.keeps
    first, last = line.plain(start), line.plain(end - 1)
    index = bisect_left(keeps, first + 1, key=lambda keep: keep.end)
    return index < len(keeps) and keeps[index].start <= last


def without(text: str, start: int, end: int) -> tuple[Edit, ...]:
    """Edits that take `text[start:end]`, whole words, out of the sentence `text`.

    Empty where that would leave no word, or "a" before a vowel. At a sentence's start the next
    word takes over the capital.
    """
    left = _BEFORE.search(text[max(start - _REACH, 0) : start])
    right = _AFTER.match(text, end, end + _REACH)
    assert left and right  # all parts of both may be empty
    before, after = left["word"] or "", right["word"] or ""
    if not before:
        return tuple(_at_the_start(text, start, right)) if after else ()
    if not after:
        return tuple(_at_the_end(text, start, end, left["gap"], right["gap"]))
    if _jars(before.lower(), after):
        return ()
    return (_inside(start, end, left, right),)


def _at_the_start(text: str, start: int, right: re.Match[str]) -> Iterator[Edit]:
    parting = _PARTING.match(text, right.start())
    assert parting  # it may be empty
    yield Edit(start, parting.end(), "")
    at = right.start("word")
    letter = text[at]
    has_own = any(map(str.isupper, right["word"]))  # an iPhone keeps its small letter
    if (
        not has_own
        and text[start].isupper()
        and letter.upper() != letter
        and len(letter.upper()) == 1
    ):
        yield Edit(at, at + 1, letter.upper())


def _at_the_end(text: str, start: int, end: int, gap_before: str, gap_after: str) -> Iterator[Edit]:
    kept = gap_before.rstrip(" ,;:\t\n")
    yield Edit(start - len(gap_before) + len(kept), end, "")
    if kept.strip():
        return
    first = _FIRST_WORD.search(text)
    asks = first is not None and first[0].lower().replace("’", "'") in QUESTIONS
    if gap_after.startswith("?") and not asks:
        yield Edit(end, end + 1, ".")


def _jars(before: str, after: str) -> bool:
    """Whether "a" or "an" would come to stand before the wrong sound, as far as letters tell."""
    vowel = after[0].lower() in "aeiou"
    return (before == "a" and vowel) or (before == "an" and not vowel)


def _inside(start: int, end: int, left: re.Match[str], right: re.Match[str]) -> Edit:
    gap_before, gap_after = left["gap"], right["gap"]
    comma_before, comma_after = gap_before.strip() == ",", gap_after.strip() == ","
    if gap_before.strip() and not comma_before:
        parting = _PARTING.match(gap_after)
        assert parting  # it may be empty
        return Edit(start, right.start("gap") + parting.end(), "")
    if not (comma_before or comma_after):
        return Edit(start - len(gap_before), end, "")
    word_end = start - len(gap_before)
    if gap_after.strip() and not comma_after:
        return Edit(word_end, end, "")
    if comma_before and _keeps_comma(left, right["word"], one_only=not comma_after):
        return Edit(word_end + gap_before.index(",") + 1, end + gap_after.find(",") + 1, "")
    if comma_after and not comma_before and _keeps_comma(left, right["word"]):
        return Edit(word_end, end, "")
    dropped = gap_after.find(",") + 1
    return Edit(word_end, end + dropped, "" if gap_after[dropped:] else " ")


def _keeps_comma(left: re.Match[str], after: str, *, one_only: bool = False) -> bool:
    """Whether what is left would still be said with a break.

    As between two clauses, a word and the same again, or his brother, the tall one. `one_only`: a
    comma stands on one side only, not for what is dropped; it stays unless the words before it run
    on, as in: the, um parks.
    """
    before, after = (word.lower().replace("’", "'") for word in (left["word"], after))
    if before == after:
        return True
    if before in REPLIES or left["word"] == "No":
        return True
    if one_only:
        return before not in _BEFORE_NOUNS and not before.endswith("-")
    if before in _RUNNING_ON or before.endswith("-"):
        return False
    again = {(left["second"] or "").lower(), after} <= _BEFORE_NOUNS
    return again or after in _JOINING | SUBJECTS | _TURNS
