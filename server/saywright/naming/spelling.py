"""How a name may be written in a script, and how another is written in its place."""

import re
import unicodedata
from dataclasses import dataclass
from functools import lru_cache

import regex

from saywright.language.name_letters import name_letters

# “Ann” is not “Ann-Marie”, nor “Neill” “O'Neill”, nor “Don” “Don't”
_ALONE_BEFORE = (
    r"(?<![\p{L}\p{N}\p{M}])(?<!\p{Lu}[\p{L}\p{M}]*[-‐‑])(?<!(?<![\p{L}\p{N}\p{M}])O['’])"
)
_ALONE_AFTER = (
    r"(?![\p{L}\p{N}\p{M}])(?![-‐‑]\p{Lu})(?!['’](?!(?i:s|d|ll|re|ve|m)(?![\p{L}\p{M}]))\p{L})"
)
_WORD_BEFORE, _WORD_AFTER = r"(?<![\p{L}\p{N}])", r"(?![\p{L}\p{N}\p{M}])"
_GAP = re.compile(r"\s+")


@dataclass(frozen=True, slots=True)
class Name:
    """A name as it is written where nobody shouts. `is_private`: it stands on the private list,
    and so is met however its capitals are written, and inside longer names too."""

    text: str
    is_private: bool = False


@lru_cache(maxsize=256)
def pattern(name: Name) -> regex.Pattern[str]:
    """The name as whole words: as it is, in capitals, with a capital that opens a sentence.
    Blanks between its words may be any, a line break too; accents composed or not."""
    if name.is_private:
        return regex.compile(f"{_WORD_BEFORE}(?:{name_letters(name.text)}){_WORD_AFTER}", regex.I)
    spellings = {name.text, name.text.upper(), _with_capital(name.text)}
    longest_first = sorted(spellings, key=lambda spelling: (-len(spelling), spelling))
    return regex.compile(
        f"{_ALONE_BEFORE}(?:{'|'.join(map(name_letters, longest_first))}){_ALONE_AFTER}"
    )


@lru_cache(maxsize=64)
def any_case(word: str) -> regex.Pattern[str]:
    """A whole word however its capitals are written."""
    return regex.compile(f"{_WORD_BEFORE}(?:{name_letters(word)}){_WORD_AFTER}", regex.I)


def is_shouted(written: str) -> bool:
    """Whether more than one letter is there and all are capitals."""
    return written.isupper() and sum(map(str.isalpha, written)) > 1


def written_alike(name: Name, new: str, found: str) -> str:
    """`new` in the place of `found`, a spelling of `name`: capitals and blanks are kept."""
    as_it_is = unicodedata.normalize("NFC", " ".join(found.split()))
    old = unicodedata.normalize("NFC", name.text)
    if is_shouted(found) and not is_shouted(old):
        new = new.upper()
    elif as_it_is != old and as_it_is == _with_capital(old):
        new = _with_capital(new)
    words = new.split()
    gaps: list[str] = _GAP.findall(found)
    gaps += [" "] * (len(words) - 1 - len(gaps))
    return "".join(
        word + gap for word, gap in zip(words, [*gaps[: len(words) - 1], ""], strict=True)
    )


def _with_capital(text: str) -> str:
    return text[:1].upper() + text[1:]
