"""The name on which a cursor stands, if it is one."""

import unicodedata
from collections.abc import Iterator

import regex

from saywright.analysis import Analysis
from saywright.language.abbreviations import stop_habits
from saywright.language.english.plain_words import is_plain_word
from saywright.language.english.tag import is_english
from saywright.markup.tree import Range
from saywright.naming.places import Place, counts, is_inside
from saywright.naming.regions import Region, Regions
from saywright.naming.spelling import Name, any_case, is_shouted, pattern
from saywright.speech.voice import language_of

_LONGEST = 80
_WORD = regex.compile(r"\p{L}[\p{L}\p{M}\p{N}]*+(?:[-‐‑'’]\p{L}[\p{L}\p{M}\p{N}]*+)*+")
_CLITIC = regex.compile(r"(?:['’](?:s|d|ll|re|ve|m))\Z", regex.I)
_ELIDED = regex.compile(r"\p{Ll}{1,2}['’](?=\p{Lu})")
_HYPHEN = regex.compile("[-‐‑]")
# beside the words that a language's sentences open with
_NO_NAMES = frozenset(
    "i am be been being than up out off down hello hey hi okay ok sorry mr mrs ms dr".split()
)


def name_at(analysis: Analysis, offset: int) -> Place | None:
    """The name that holds or touches the file offset: a listed one, or else a single word with a
    capital that it does not owe to its place."""
    regions = Regions(analysis)
    text = analysis.text
    # the cursor may stand after the last letter of what a region holds
    touched = [regions.holding(start, offset) for start in (offset, offset - 1) if start >= 0]
    for kind, start, end in filter(None, dict.fromkeys(touched)):
        near = Region(kind, max(start, offset - _LONGEST), min(end, offset + _LONGEST))
        found = _listed_at(analysis, text, near, offset) or _word_at(analysis, text, near, offset)
        if found:
            return found
    return None


def speakers_of(analysis: Analysis) -> tuple[str, ...]:
    """Whoever speaks in the file or in a part of it."""
    listed = [*analysis.settings.speakers]
    for part in analysis.parts:
        listed += part.settings.speakers
    return tuple(dict.fromkeys(listed))


def _listed_at(analysis: Analysis, text: str, near: Region, offset: int) -> Place | None:
    listed = [Name(name, is_private=True) for name in analysis.project.private_names]
    listed += map(Name, speakers_of(analysis))
    written = _folded(text[near.start : near.end])
    found = [
        Place(_as_written(name, match.group()), match.start(), match.end(), near.kind)
        for name in listed
        if _folded(name.text) in written
        for match in pattern(name).finditer(text, near.start, near.end)
        if match.start() <= offset <= match.end()
        and counts(text, match.start(), match.end(), near.kind)
    ]
    return max(found, key=lambda place: place.end - place.start, default=None)


def _folded(text: str) -> str:
    return unicodedata.normalize("NFC", " ".join(text.split())).casefold()


def _as_written(name: Name, found: str) -> Name:
    """A private name in the script's own letters: the list may have others."""
    if not name.is_private or is_shouted(found):
        return name
    return Name(" ".join(found.split()), is_private=True)


def _word_at(analysis: Analysis, text: str, near: Region, offset: int) -> Place | None:
    for match in _WORD.finditer(text, near.start, near.end):
        if match.start() <= offset <= match.end():
            start, end = _bare(text, Range(*match.span()), offset)
            if start <= offset <= end < start + _LONGEST:
                return _place(analysis, text, Region(near.kind, start, end))
            return None
    return None


def _bare(text: str, word: Range, offset: int) -> Range:
    """A word without what is only leant on it: “Ines's”, “d'Ines”, “Ines-like”."""
    start, end = word
    if clitic := _CLITIC.search(text, start, end):
        end = clitic.start()
    if elided := _ELIDED.match(text, start, end):
        start = elided.end()
    parts = list(_parts(text, start, end))
    if all(text[first].isupper() for first, _ in parts):
        return Range(start, end)
    part = next((part for part in parts if part.start <= offset <= part.end), Range(start, end))
    stands_alone = any(
        not _HYPHEN.match(text, found.end()) and not _HYPHEN.match(text, found.start() - 1)
        for found in pattern(Name(text[slice(*part)])).finditer(text)
    )
    return part if stands_alone else Range(start, end)


def _parts(text: str, start: int, end: int) -> Iterator[Range]:
    for hyphen in _HYPHEN.finditer(text, start, end):
        yield Range(start, hyphen.start())
        start = hyphen.end()
    yield Range(start, end)


def _place(analysis: Analysis, text: str, word: Region) -> Place | None:
    written = text[word.start : word.end]
    language = language_of(analysis.settings, analysis.project)
    if (
        not written[:1].isupper()
        or stop_habits(language).opens(written)
        or written.lower() in _NO_NAMES
        or not counts(text, word.start, word.end, word.kind)
    ):
        return None
    name = _name_of(analysis, text, written, language)
    return Place(name, word.start, word.end, word.kind) if name else None


def _name_of(analysis: Analysis, text: str, written: str, language: str) -> Name | None:
    """The name that a word with a capital is, told from everywhere that it stands.

    It is one if it has its capital inside a sentence. One that only opens sentences is none if it
    stands without a capital too, or is a word that everybody knows. A title tells nothing, and
    words all in capitals tell nothing but what the same word does elsewhere.
    """
    regions = Regions(analysis)
    opening = None
    is_word = is_english(language) and is_plain_word(written)
    for found in any_case(written).finditer(text):
        region = regions.holding(*found.span())
        same = found.group()
        if region is None or region.kind == "title" or is_shouted(same):
            continue
        if same.islower():
            is_word = True
        elif region.kind != "text" or is_inside(text, found.start()):
            return Name(same if is_shouted(written) else written)
        else:
            opening = opening or same
    return Name(opening) if opening and not is_word else None
