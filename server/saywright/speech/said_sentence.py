"""What is written, spelled out as it is spoken: “4:30” is “four thirty”."""

from collections.abc import Iterator
from typing import NamedTuple

from saywright.speech.spoken import spoken_words


class SpelledOut(NamedTuple):
    """A written word that is said otherwise than it is written: half-open code points of the
    text given, and what is said."""

    start: int
    end: int
    said: str


def spelled_out(text: str, language: str) -> Iterator[SpelledOut]:
    """The words of `text`, in order, that are said otherwise than they are written.

    `text` is plain text, its marks taken off; `language` is a BCP 47 tag.
    """
    for word in spoken_words(text, language):
        said = " ".join(word.said)
        if said.casefold() != text[word.start : word.end].casefold():
            yield SpelledOut(word.start, word.end, said)


def said_sentence(text: str, language: str) -> str | None:
    """The whole of `text` as it is spoken, or None where that is what is written.

    Punctuation stays: a sentence that ends in an abbreviation keeps its full stop.
    """
    pieces: list[str] = []
    end = 0
    for start, word_end, said in spelled_out(text, language):
        opens = not pieces and not any(map(str.isalnum, text[:start]))
        pieces += text[end:start], said[:1].upper() + said[1:] if opens else said
        end = word_end
    if not pieces:
        return None
    rest = text[end:]
    lost_stop = text[end - 1] == "." and not any(map(_goes_on, rest))
    return "".join((*pieces, "." if lost_stop else "", rest))


def _goes_on(character: str) -> bool:
    return character.isalnum() or character in ".!?…"
