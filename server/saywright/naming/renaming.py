"""One name for another, everywhere in a script. What would not read as meant is refused."""

import unicodedata

import regex

from saywright.analysis import Analysis
from saywright.finding import Edit, applied
from saywright.naming.at_place import speakers_of
from saywright.naming.places import Place, places
from saywright.naming.same_reading import reads_the_same
from saywright.naming.spelling import Name, pattern, written_alike

_MARKS = "*_~|\\()#:"
_ENDS_A_LINE = frozenset(("Cc", "Zl", "Zp"))
# “James' lamp” is no “Tove' lamp”; a quotation's end looks the same
_OWNER = regex.compile(r"['’](?=[ \t]+\p{L})")
_LONGEST_QUOTATION = 300
_QUOTED = regex.compile(r"(?<![\p{L}\p{N}])['‘](?=\p{L})")


class Refused(Exception):
    """The message says why, in words for a writer."""


def renamed(analysis: Analysis, name: Name, new: str) -> tuple[Edit, ...]:
    """The edits that write `new` wherever `name` stands. Raises `Refused`."""
    found = list(places(analysis, name))
    new = _checked(new, found)
    _check_speakers(analysis, name, new)
    text = analysis.text
    edits = tuple(
        edit for place in found if (edit := _edit(text, place, new)).text != _old(text, edit)
    )
    if not reads_the_same(analysis, applied(text, edits)):
        raise Refused("With this name the script would be read otherwise, so nothing is changed.")
    return edits


def _checked(new: str, found: list[Place]) -> str:
    new = new.strip()
    marks = [mark for mark in _MARKS if mark in new]
    if not new:
        raise Refused("Write a name.")
    if any(unicodedata.category(character) in _ENDS_A_LINE for character in new):
        raise Refused("A name stands on one line.")
    if marks:
        raise Refused(f"A name has no {' '.join(marks)} in it: these are marks.")
    if not any(map(str.isalpha, new)):
        raise Refused("A name has a letter in it.")
    if "," in new and any(place.kind == "speaker" for place in found):
        raise Refused("A comma would make two speakers of this one.")
    return " ".join(new.split())


def _check_speakers(analysis: Analysis, name: Name, new: str) -> None:
    """Two who speak stay two, and nobody takes a speaker's name."""
    seen: dict[str, str] = {}
    for speaker in speakers_of(analysis):
        after = pattern(name).sub(lambda found: written_alike(name, new, found.group()), speaker)
        first = seen.setdefault(after.casefold(), speaker.casefold())
        is_other = after == speaker and not pattern(name).fullmatch(speaker)
        if first != speaker.casefold() or (is_other and after.casefold() == new.casefold()):
            raise Refused(f"{after} speaks already.")


def _edit(text: str, place: Place, new: str) -> Edit:
    written = written_alike(place.name, new, text[place.start : place.end])
    if mark := _bare_possessive(text, place, new):
        s = "S" if written.isupper() and len(written) > 1 else "s"
        return Edit(place.start, place.end + 1, f"{written}{mark}{s}")
    return Edit(place.start, place.end, written)


def _old(text: str, edit: Edit) -> str:
    return text[edit.start : edit.end]


def _bare_possessive(text: str, place: Place, new: str) -> str | None:
    """The apostrophe that stands alone after a name in s, where the new one needs an s too."""
    if new[-1:].lower() == "s" or text[place.end - 1].lower() != "s":
        return None
    mark = _OWNER.match(text, place.end)
    near = max(text.rfind("\n", 0, place.start) + 1, place.start - _LONGEST_QUOTATION)
    if not mark or _QUOTED.search(text, near, place.end):
        return None
    return str(mark.group())
