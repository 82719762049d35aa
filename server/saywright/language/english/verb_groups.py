"""A finite verb with what belongs to it: "didn't ... walk", "has been walking"."""

from collections.abc import Sequence
from typing import NamedTuple

from saywright.language.english.verb_forms import readings_of
from saywright.language.facts import Aspect

NEGATIONS = frozenset(("n't", "not"))
BE = frozenset("am is are was were be been being 's 're 'm s m re".split())
HAVE = frozenset("have has had 've ve haven hasn hadn".split())
DO = frozenset("do does did don doesn didn".split())
_LEMMAS = {
    **dict.fromkeys(BE, "be"),
    **dict.fromkeys(("'ve", "ve"), "have"),
    **dict.fromkeys(("'ll", "wo"), "will"),
    **{"ca": "can", "cannot": "can", "sha": "shall", "'d": "would", "gonna": "go"},
}
# Of "she's gone" the "'s" is "has": nobody is gone by anybody.
_NOBODYS_DOING = frozenset(
    "been gone come become got had happened fallen grown left arrived died risen begun started "
    "changed lived stayed slept waited stopped disappeared vanished turned said felt kept".split()
)
_REACH = 8


class Group(NamedTuple):
    """`head` is the index of its last verb, `lemma` that verb's dictionary form. `inverted`: the
    subject may stand between ("did you walk")."""

    head: int
    lemma: str
    aspect: Aspect
    is_have: bool


def group_at(
    words: Sequence[str], classes: Sequence[str], index: int, letter: str, inverted: bool
) -> Group:
    """The group whose finite verb stands at `index`, read as `letter` (see `readings`)."""
    word = words[index]
    helper = _kind(words, classes, index, letter)
    is_have = helper == "have"
    if helper is None:
        return Group(index, _lemma(word, letter), "simple", False)
    head, aspect = index, "simple"
    for at in _reached(words, classes, index, inverted):
        ahead, letters = words[at], classes[at]
        step = _step(helper, ahead, letters)
        if step is None:
            break
        if aspect == "simple" and step[0] != "simple":
            aspect = step[0]
        head, helper = at, step[1]
        if helper is None:
            break
    lemma = _lemma(words[head], _LETTER_OF.get(aspect, "B")) if head != index else None
    return Group(head, lemma or _own_lemma(word, is_have), _aspect(aspect), is_have)


_LETTER_OF = {"perfect": "N", "passive": "N", "progressive": "G"}


def _aspect(found: str) -> Aspect:
    return found if found in ("perfect", "progressive", "passive") else "simple"  # type: ignore[return-value]


def _own_lemma(word: str, is_have: bool) -> str:
    if word in HAVE or (is_have and word in {"'s", "'d", "s"}):
        return "have"
    return _LEMMAS.get(word) or ("do" if word in DO else _lemma(word, "B"))


def _kind(words: Sequence[str], classes: Sequence[str], index: int, letter: str) -> str | None:
    """What the word at `index` helps as: "be", "have", "do" for all that stand before a base."""
    word = words[index]
    if word in {"'s", "s"}:
        return "have" if _is_has(words, classes, index) else "be"
    if word in BE:
        return "be"
    if word in HAVE or (word == "'d" and letter == "D"):
        return "have"
    return "do" if word in DO or letter == "M" else None


def _is_has(words: Sequence[str], classes: Sequence[str], index: int) -> bool:
    at = index + 1
    while at < len(words) and (words[at] in NEGATIONS or classes[at] == "a"):
        at += 1
    if at == len(words):
        return False
    if words[at] in _NOBODYS_DOING:
        return True
    after = classes[at + 1][0] if at + 1 < len(words) else ""
    return "N" in classes[at] and "G" not in classes[at] and after in ("d", "o", "p")


def _reached(
    words: Sequence[str], classes: Sequence[str], index: int, inverted: bool
) -> Sequence[int]:
    """The words after the verb at `index` that may belong to it."""
    found = []
    passing = inverted
    for at in range(index + 1, min(index + 1 + _REACH, len(words))):
        word, letters = words[at], classes[at]
        if word in NEGATIONS or letters[0] in "a" or word in {"all", "both", "just", "still"}:
            continue
        verbal = not {"B", "N", "G"}.isdisjoint(letters)
        if passing and (letters[0] in "pdonsXje" or not verbal):
            passing = letters[0] != "p"
            continue
        if not verbal:
            break
        found.append(at)
    return found


def _step(helper: str, ahead: str, letters: str) -> tuple[str, str | None] | None:
    """The aspect that the next verb makes and what it helps as; None if it does not belong."""
    if helper == "do":
        helps = {"have": "have", "be": "be"}.get(ahead)
        return ("simple", helps) if helps or "B" in letters else None
    if helper == "have":
        helps = "be" if ahead == "been" else None
        return ("perfect", helps) if helps or "N" in letters else None
    if ahead == "being" or ("G" in letters and letters[0] in "GnuX"):
        return "progressive", "be" if ahead == "being" else None
    return ("passive", None) if "N" in letters and letters[0] in "NDuB" else None


_FORMS = {"D": ("past",), "P": ("third", "base"), "N": ("participle",), "G": ("gerund",)}


def _lemma(word: str, letter: str) -> str:
    if word in _LEMMAS:
        return _LEMMAS[word]
    found = readings_of(word)
    wanted = _FORMS.get(letter, ("base",))
    fitting = [reading.lemma for reading in found if reading.form in wanted]
    return fitting[0] if fitting else found[0].lemma if found else word
