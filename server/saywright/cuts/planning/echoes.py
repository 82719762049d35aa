"""Lines that take up what an earlier one said: its rare words, a thing it first told of, a phrase
said again, "again" and "too"."""

import re
from collections import defaultdict
from collections.abc import Iterator, Sequence
from itertools import pairwise

from saywright.cuts.planning.piece import SpokenLine
from saywright.cuts.planning.predicates import doers, predicates
from saywright.cuts.planning.references import Reference
from saywright.cuts.planning.value import Worth
from saywright.language.english.tag import is_english
from saywright.language.english.verb_forms import readings_of
from saywright.language.english.weights import weights
from saywright.language.english.word_classes import unseen_class

_CALLED_BACK, _CALLED_BACK_BY_THE, _DENIED, _TOLD_OF = 40, 60, 120, 110
_LIKE_BEFORE, _SAID_AGAIN = 60, 80
_KEPT = 2  # so many times as much where the late line is kept
_MOST_USES = 5
_FARTHEST_LIKE = 25
_EVERYDAY = frozenset(
    """
    hand hands head heads face eye eyes arm arms side sides end ends day days night nights man men
    woman women people place places name names word words part parts world life work home course
    idea point case fact reason question answer one two three year years time times
    """.split()
)
_EVERYDAY_VERBS = frozenset(
    """
    ask begin break bring build buy call care carry catch change close come cut do draw drink drive
    drop eat end fall feel fill find finish follow get give go grow happen have hear help hit hold
    hope keep know last lay lead learn leave let lie like listen live look lose love make mean meet
    mind move need open pass pay pick play pull push put reach read ride ring rise run say see seem
    sell send set show shut sing sit sleep speak spend stand start stay stop take talk teach tell
    think throw touch try turn use wait wake walk want watch wear win wish wonder work worry write
    """.split()
)
_LIKE = re.compile(
    r"\b(?:again|too|either|as well|still|any ?more|another|the same|else|also|no longer"
    r"|(?:finish|stop|keep|kept|go on|goes on|went on|give up|gave up)(?:s|ed|ped)? \w+ing)\b",
    re.IGNORECASE,
)
_BROUGHT_IN = re.compile(r"\b(?:an?|one|some)(?: [\w-]+)? \Z")
_RIGHT_BEFORE = 80  # code points
_DENIES = re.compile(r"(?:\bnot|n['’]t|\bno)(?: an?| the)? \*?\Z")
_WORD = re.compile(r"[^\W\d_]+(?:['’][^\W\d_]+)*")
_SMALL = frozenset(
    """
    a an the and or but so if of in on at to for from by with as up out i you he she it we they me
    him her us them my your his its our their is was were are be been am had has have do did does
    not no that this there what who which when said say says one would could will can i'm it's
    that's don't didn't i'd i've you're was wasn't isn't never all some any
    """.split()
)


def echoes(lines: Sequence[SpokenLine], worth: Sequence[Worth], language: str) -> list[Reference]:
    found = list(_called_back(lines, worth, language))
    if is_english(language):
        found += _like_before(lines, language)
        found += _phrases(lines)
    return found


def _called_back(
    lines: Sequence[SpokenLine], worth: Sequence[Worth], language: str
) -> Iterator[Reference]:
    """Where a rare word comes back, and the line that said it first."""
    english = is_english(language)
    uses: dict[str, list[int]] = defaultdict(list)
    written: dict[str, str] = {}
    for index, each in enumerate(worth):
        for word in each.words:
            written.setdefault(word.base, word.written)
            if uses[word.base][-1:] != [index]:
                uses[word.base].append(index)
    for base in sorted(uses):
        first, *later = uses[base]
        if not later or len(later) >= _MOST_USES:
            continue
        rare = not english or _is_rare(written[base])
        told_of = english and _tells_of(lines[first].text.lower(), base)
        for nth, late in enumerate(later):
            cost = _cost_of_calling_back(lines[late].text.lower(), base, told_of and not nth)
            if rare or cost > _CALLED_BACK:
                yield Reference(first, late, cost, base, written[base], "again")


def _is_rare(word: str) -> bool:
    """Whether that two lines have it is no chance: a noun or verb of no everyday use."""
    low = word.lower()
    letters = weights().classes.get(low) or unseen_class(low)
    if letters[0] in "BZDNG":
        return not any(each.lemma in _EVERYDAY_VERBS for each in readings_of(low))
    return low not in _EVERYDAY and letters[0] not in "Maipr"


def _tells_of(text: str, base: str) -> bool:
    """Whether it brings in a thing: "a fork", "one small lamp"."""
    return any(_BROUGHT_IN.search(before) for before in _before_each(base, text))


def _cost_of_calling_back(text: str, base: str, told_of: bool) -> int:
    """What "it was not a clock" denies must have been said, and "the fork" told of."""
    if any(_DENIES.search(before) for before in _before_each(base, text)):
        return _DENIED
    if f"the {base}" in text:
        return _TOLD_OF if told_of else _CALLED_BACK_BY_THE
    return _CALLED_BACK


def _before_each(base: str, text: str) -> Iterator[str]:
    """What stands right before each place where it begins."""
    at = text.find(base)
    while at >= 0:
        yield text[max(at - _RIGHT_BEFORE, 0) : at]
        at = text.find(base, at + 1)


def _like_before(lines: Sequence[SpokenLine], language: str) -> Iterator[Reference]:
    """ "She never laughed at him again": the last line that told of the same being done."""
    told: dict[str, list[tuple[int, str]]] = defaultdict(list)
    for index, line in enumerate(lines):
        own = doers(line.text, language)
        verbs = sorted({each.split()[0] for each in predicates(line.text, language)})
        if _LIKE.search(line.text):
            early, verb = max(
                (
                    (early, verb)
                    for verb in verbs
                    for early, doer in told[verb]
                    if _may_be_one(doer, own.get(verb, ""))
                ),
                default=(-1, ""),
            )
            if early >= 0 and index - early <= _FARTHEST_LIKE:
                cost = _LIKE_BEFORE * (_KEPT if line.places is None else 1)
                yield Reference(early, index, cost, verb, verb, "again")
        for verb in verbs:
            told[verb].append((index, own.get(verb, "")))


def _may_be_one(doer: str, other: str) -> bool:
    """Whether two pronouns may stand for the same one: "I" is never "he"."""
    speakers = ("i", "we")
    return not doer or not other or (doer in speakers) == (other in speakers)


def _phrases(lines: Sequence[SpokenLine]) -> Iterator[Reference]:
    """ "Look longer." – "I looked longer.": two words in a row that came so before."""
    first: dict[tuple[str, str], int] = {}
    for index, line in enumerate(lines):
        words = [word.lower() for word in _WORD.findall(line.text)]
        own: dict[tuple[str, str], str] = {}
        for one, other in pairwise(words):
            if one not in _SMALL and other not in _SMALL:
                own[_stem(one), _stem(other)] = f"{one} {other}"
        for pair, shown in own.items():
            if pair in first and first[pair] + 1 < index:
                cost = _SAID_AGAIN * (_KEPT if line.places is None else 1)
                yield Reference(first[pair], index, cost, pair[1], shown, "again")
                break
        for pair in own:
            first.setdefault(pair, index)


def _stem(word: str) -> str:
    for ending in ("ing", "ed", "s"):
        if word.endswith(ending) and len(word) - len(ending) >= 3:
            return word.removesuffix(ending)
    return word
