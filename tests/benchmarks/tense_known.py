"""What is known of the words of an annotated sentence, and of the words of a language."""

from bisect import bisect_left, bisect_right
from collections import Counter, defaultdict
from collections.abc import Mapping, Sequence
from typing import NamedTuple

from saywright.language.english.fluency import fluent
from saywright.language.english.readings import READINGS, read
from saywright.language.english.tokens import Tokens, tokens
from saywright.language.english.weights import Weights
from saywright.language.english.word_classes import VERBAL, classes_of, verb_letters
from tests.benchmarks.voice_data import (
    FINITE as FINITE_TAGS,
)
from tests.benchmarks.voice_data import (
    Annotated,
    Word,
)

_LETTERS = {
    **dict.fromkeys(("NN", "NNP", "FW", "ADD", "GW", "XX"), "n"),
    **dict.fromkeys(("LS", "CD"), "c"),
    **dict.fromkeys(("NNS", "NNPS"), "s"),
    **dict.fromkeys(("DT", "PDT"), "d"),
    **dict.fromkeys(("WDT", "WP", "WRB", "WP$"), "w"),
    **dict.fromkeys(("RB", "RBR", "RBS"), "a"),
    **dict.fromkeys(("JJ", "JJR", "JJS", "AFX"), "j"),
    **dict.fromkeys(("VB", "VBI", "VBP"), "B"),
    **{"PRP": "p", "PRP$": "o", "IN": "i", "TO": "t", "RP": "r", "CC": "&", "UH": "h", "EX": "e"},
    **{"POS": "'", "MD": "M", "VBZ": "Z", "VBD": "D", "VBN": "N", "VBG": "G"},
}
_READING = {
    **{"VBD": "D", "VBP": "P", "VBZ": "P", "MD": "M", "VBI": "I", "VB": "B", "VBN": "N"},
}
_READING_OF_TENSE = {
    **{"past": "D", "present": "P", "modal": "M", "future": "M", "imperative": "I"},
}
NEGATIONS = frozenset(("n't", "not"))


class Known(NamedTuple):
    """A sentence with its words, their classes, and the reading of each; None where it is only
    known to be no finite one."""

    source: Annotated
    tokens: Tokens
    classes: list[str]
    readings: list[str | None]


def word_tags(found: Tokens, words: Sequence[Word]) -> list[str]:
    """The treebank's tag of each of our words: the last part's of one with hyphens, else the
    first's, or that of a finite verb among its parts ("its" for "it's"). Of "don't tell" it is
    "don't" that is the imperative."""
    starts = [word.start for word in words]
    tags = []
    for (start, end), word in zip(*found, strict=True):
        first = max(0, bisect_right(starts, start) - 1)
        last = max(first, bisect_left(starts, end) - 1)
        if "-" in word and word[-1] != "-":
            first = last
        parts = [each.tag for each in words[first : last + 1]]
        tags.append(next((tag for tag in parts if tag in {*FINITE_TAGS, "VBI"}), parts[0]))
    for index, tag in enumerate(tags):
        if tag == "VBI":
            before = index - 1
            while before >= 0 and (found.words[before] in NEGATIONS or tags[before] == "RB"):
                before -= 1
            if before >= 0 and found.words[before] in {"do", "don", "dont"}:
                tags[before], tags[index] = "VBI", "VB"
    return tags


def fit_word_classes(
    trees: Sequence[tuple[Tokens, list[str]]], lexicon: Mapping[str, Sequence[str]]
) -> dict[str, str]:
    """What each word may be: by its tags in the treebank; if seen there less than 12 times, also
    by the lexicon and the verb forms; if less than 4 times, by these alone."""
    counts: defaultdict[str, Counter[str]] = defaultdict(Counter)
    for found, tags in trees:
        for word, tag in zip(found.words, tags, strict=True):
            counts[word][_LETTERS.get(tag, ".")] += 1
    classes = {}
    for word in {*counts, *(word for word in lexicon if word.islower())}:
        if not (word[0].isalpha() or word[0] == "'"):
            continue
        seen = counts.get(word, Counter())
        total = seen.total()
        forms = verb_letters(word)
        listed = [_LETTERS[tag] for tag in lexicon.get(word, ()) if tag in _LETTERS]
        if total < 4 and not forms and {*listed} <= {*"BZDN"}:
            continue  # no verb that is known: the lexicon has names and misspellings too
        if total < 4 and not listed:
            continue
        letters = [
            letter
            for letter, count in seen.most_common()
            if total >= 4 and count / total >= 0.03 and letter != "."
        ]
        if total < 12:
            letters += listed if total < 4 else list(dict.fromkeys(listed))[:2]
            letters += forms
        short = "".join(dict.fromkeys(letters))[:4]
        if total >= 4 or not (VERBAL.isdisjoint(short) or {*short} == {"D", "N"}):
            classes[word] = short
    return classes


def known_by_tags(
    source: Annotated, found: Tokens, tags: Sequence[str], classes: Mapping[str, str]
) -> Known:
    return Known(
        source,
        found,
        classes_of(source.text, *found, classes),
        [_READING.get(tag, "O") for tag in tags],
    )


def known_by_groups(source: Annotated, classes: Mapping[str, str]) -> Known:
    found = fluent(tokens(source.text))
    given: list[str | None] = []
    for start, end in found.spans:
        inside = [group for group in source.groups if start <= group.start < end]
        given.append(_READING_OF_TENSE[inside[0].tense] if inside else None)
    for index, reading in enumerate(given):
        before = index - 1
        while before >= 0 and found.words[before] in NEGATIONS:
            before -= 1
        if reading == "I" and before >= 0 and found.words[before] == "do" and not given[before]:
            given[before], given[index] = "I", None
    return Known(source, found, classes_of(source.text, *found, classes), given)


def completed(known: Known, learnt: Weights) -> Known:
    """With the likeliest reading where it is only known to be no finite one."""
    given = list(known.readings)

    def decide(index: int, features: list[str]) -> str:
        reading = given[index]
        if reading is None:
            total = sum(learnt.readings.get(feature, 0) for feature in features)
            sums = {letter: total >> 16 * READINGS.index(letter) & 0xFFFF for letter in "BNO"}
            reading = given[index] = max(sums, key=lambda letter: sums[letter])
        return reading

    read(known.tokens.words, known.classes, decide)
    return known._replace(readings=given)
