"""What a word may be, as letters, the likeliest first.

n noun, s plural, c number, X name, p pronoun, o possessive, d article, w question word,
i preposition, t to, r particle, a adverb, j adjective, & joining word, h exclamation, e there,
' possessive ending; M modal, B base or present, Z third person, D past, N participle, G gerund;
u (first) a word not seen often. The class of a mark is the mark.
"""

from collections.abc import Mapping, Sequence
from functools import lru_cache

from saywright.language.english.verb_forms import readings_of

VERBAL = frozenset("BZDM")
LETTER_OF_FORM = {"base": "B", "third": "Z", "past": "D", "participle": "N", "gerund": "G"}
_ENDINGS = (
    (("ed",), "uDN"),
    (("ly",), "ua"),
    (("ing",), "uG"),
    (("ss",), "un"),
    (("s",), "us"),
    (("ous", "ful", "able", "ible", "ive", "less", "ish", "al", "ic"), "uj"),
)
_OPENERS = frozenset('"(:-.!?—–')


@lru_cache(maxsize=8192)
def unseen_class(word: str) -> str:
    """The class of a word that is not among the known ones."""
    first = word[0]
    if not first.isalnum() and first != "'":
        return word[:2]
    if first.isdigit():
        return "c"
    letters = verb_letters(word)
    if letters:
        return "u" + letters
    return next((found for endings, found in _ENDINGS if word.endswith(endings)), "un")


def verb_letters(word: str) -> str:
    """The letters of the verb forms that `word` may be."""
    return "".join(dict.fromkeys(LETTER_OF_FORM[reading.form] for reading in readings_of(word)))


def classes_of(
    text: str,
    spans: Sequence[tuple[int, int]],
    words: Sequence[str],
    known: Mapping[str, str],
) -> list[str]:
    """The class of each word; a capital inside a sentence makes a name (X, then what else)."""
    classes = [known.get(word) or unseen_class(word) for word in words]
    capitals = [
        index
        for index, (start, _) in enumerate(spans)
        if text[start].isupper() and words[index] != "i"
    ]
    if len(capitals) * 2 < len(spans):
        for index in capitals:
            start, end = spans[index]
            if end - start == 1 or not text[start:end].isupper():
                classes[index] = _name(classes, words, index)
            elif words[index] == "us":
                classes[index] = "X"  # the country
            elif VERBAL.isdisjoint(classes[index][:1]):  # a verb is only said louder: "I LOVED it"
                classes[index] = _name(classes, words, index)
    return classes


def _name(classes: Sequence[str], words: Sequence[str], index: int) -> str:
    found = classes[index]
    verbal = not VERBAL.isdisjoint(found)
    if index > 0 and words[index - 1][0] not in _OPENERS:
        if found[0] in "nuszjcGBZND":
            return "X" + found if verbal else "X"
        return found
    return "X" if found[0] == "u" and not verbal else found
