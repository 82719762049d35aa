"""Edits that take words out of a sentence and mend its commas and its capital."""

import re
from bisect import bisect_left
from collections.abc import Iterator

from saywright.checks.passage import Line
from saywright.finding import Edit
from saywright.language.english.filler_words import OPEN_ENDED, OPENERS, QUESTIONS, SUBJECTS

_BEFORE = re.compile(r"(?P<word>'?\w[\w'’-]*)?(?P<gap>[^\w'’]*)\Z")
_AFTER = re.compile(r"(?P<gap>[^\w'’]*)(?P<word>\w[\w'’-]*)?")
_FIRST_WORD = re.compile(r"\w[\w'’]*")
_JOINING = OPENERS | {"though", "although", "when", "if", "while", "where", "as"}
_REACH = 64  # code points


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
    gap_end = right.end("gap")
    opening = re.search(r"[\"“‘¿¡(]*\Z", right["gap"])
    assert opening  # it may be empty
    yield Edit(start, gap_end - len(opening[0]), "")
    letter = text[gap_end]
    if text[start].isupper() and letter.upper() != letter and len(letter.upper()) == 1:
        yield Edit(gap_end, gap_end + 1, letter.upper())


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
        return Edit(start, right.end("gap") - len(_own_mark(gap_after)), "")
    if not (comma_before or comma_after):
        return Edit(start - len(gap_before), end, "")
    word_end = start - len(gap_before)
    if gap_after.strip() and not comma_after:
        return Edit(word_end, end, "")
    if comma_before and (not comma_after or _keeps_comma(left["word"], right["word"])):
        return Edit(word_end + gap_before.index(",") + 1, end + gap_after.find(",") + 1, "")
    if comma_after and not comma_before and _keeps_comma(left["word"], right["word"]):
        return Edit(word_end, end, "")
    return Edit(word_end, end + gap_after.find(",") + 1, "")


def _own_mark(gap: str) -> str:
    """What of the gap belongs to the next word: an opening quote."""
    return gap[len(gap.rstrip('"“‘(')) :]


def _keeps_comma(before: str, after: str) -> bool:
    """Whether what is left would still be said with a break: two clauses, or a word twice."""
    before, after = (word.lower().replace("’", "'") for word in (before, after))
    if before == after:
        return True
    return before not in OPEN_ENDED and after in _JOINING | SUBJECTS
