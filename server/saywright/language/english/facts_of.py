"""The facts of an English sentence: read word by word, clause by clause, by learnt weights."""

from collections.abc import Sequence
from typing import NamedTuple

from saywright.language.english.clauses import Clause, Sentence, Shares, clauses, shares
from saywright.language.english.readings import FINITE, readings
from saywright.language.english.subjects import person_of, subject_after, subject_before
from saywright.language.english.tokens import tokens
from saywright.language.english.verb_groups import BE, DO, HAVE, NEGATIONS, group_at
from saywright.language.english.weights import Weights, weights
from saywright.language.english.word_classes import classes_of
from saywright.language.facts import Facts, Role, Tense, Verb, VerbTense

_FUTURE = frozenset(("will", "'ll", "ll", "wo", "wont", "shall", "sha"))
_TENSES: dict[str, VerbTense] = {"D": "past", "P": "present", "M": "modal", "I": "imperative"}
_LEAST_FINITE = 0.5
_NOTHING = Facts("fragment")


def facts_of(text: str, learnt: Weights | None = None) -> Facts:
    """Never fails; the offsets are those of `text`. `learnt` if not by the package's weights."""
    found = tokens(text)
    if not found.words:
        return _NOTHING
    known = learnt or weights()
    classes = classes_of(text, *found, known.classes)
    sentence = clauses(found.words, classes, readings(found.words, classes, known))
    chances = shares(sentence, known)
    tense, sure = _tense(sentence, chances)
    main = _main(sentence, chances, tense)
    question = "?" in text[-4:]
    verbs, at = _verbs(sentence, found.spans, chances, main, question)
    if at is None:
        return Facts(tense, None, verbs, None, question, sure)
    return Facts(tense, verbs[at].person, verbs, at, question, sure)


def _verb_tense(word: str, letter: str) -> VerbTense:
    return "future" if letter == "M" and word in _FUTURE else _TENSES[letter]


def _tense(sentence: Sentence, chances: Shares) -> tuple[Tense, float]:
    """The likeliest tense, and its chance: that of every clause and reading that make it."""
    sums: dict[Tense, float] = {"fragment": chances.none}
    for clause, share in zip(sentence.clauses, chances.main, strict=True):
        whole = clause.chance
        word = sentence.words[clause.index]
        for letter, chance in zip(FINITE, clause.chances, strict=True):
            tense = _verb_tense(word, letter)
            sums[tense] = sums.get(tense, 0.0) + share * chance / whole
    best = max(sums, key=lambda tense: sums[tense])
    return best, min(sums[best], 1.0)


def _main(sentence: Sentence, chances: Shares, tense: Tense) -> int | None:
    """The clause that most likely gives the sentence that tense."""
    if tense == "fragment":
        return None
    scored = []
    for number, clause in enumerate(sentence.clauses):
        fitting = sum(
            chance
            for letter, chance in zip(FINITE, clause.chances, strict=True)
            if _verb_tense(sentence.words[clause.index], letter) == tense
        )
        scored.append(chances.main[number] * fitting / clause.chance)
    return scored.index(max(scored))


class _Turn(NamedTuple):
    """What the clauses before left for those after."""

    after: int
    subject: int | None
    first: int


def _verbs(
    sentence: Sentence, spans: Sequence[tuple[int, int]], chances: Shares, main: int | None,
    question: bool,
) -> tuple[tuple[Verb, ...], int | None]:
    """The finite verbs, and which of them is the main one."""
    verbs: list[Verb] = []
    at = None
    after, told, opened = 0, None, 0
    seen = False
    for number, clause in enumerate(sentence.clauses):
        if number != main and clause.chance < _LEAST_FINITE:
            continue
        role: Role = "main" if number == main else "under" if chances.hangs[number] else "joined"
        subject, inverted = _subject(sentence, clause, after, told, opened)
        if number == main:
            at = len(verbs)
        seen = seen or number == main
        verb = _verb(sentence, spans, clause, role, subject, inverted, question)
        verbs.append(verb)
        if subject is not None and verb.tense != "imperative":
            opened = min(subject, clause.index) if role == "under" else opened
            if role != "under":
                told = subject
        after = clause.index + 1
    return tuple(verbs), at


def _subject(
    sentence: Sentence, clause: Clause, after: int, told: int | None, opened: int
) -> tuple[int | None, bool]:
    """The index of the subject's head, and whether it stands after the verb."""
    words, classes, index = sentence.words, sentence.classes, clause.index
    before = subject_before(words, classes, after, index)
    helps = words[index] in BE or words[index] in HAVE or words[index] in DO or (
        clause.letter == "M" or words[index] in {"ca", "wo"}
    )
    if helps and (before is None or words[before] in {"what", "which", "there"}):
        turned = subject_after(words, classes, index)
        if turned is not None and classes[turned][0] == "p":
            return turned, True
        if before is None and turned is not None and after == 0:
            return turned, True
    if before is not None:
        return before, False
    if opened and after and not clause.opening:
        earlier = subject_before(words, classes, 0, opened)
        if earlier is not None:
            return earlier, False
    return (told if after else None), False


def _verb(
    sentence: Sentence, spans: Sequence[tuple[int, int]], clause: Clause, role: Role,
    subject: int | None, inverted: bool, question: bool,
) -> Verb:
    words, index = sentence.words, clause.index
    tense = _verb_tense(words[index], clause.letter)
    if tense == "imperative":
        subject = None
    group = group_at(words, sentence.classes, index, clause.letter, inverted)
    last = index
    if index + 1 < len(words) and words[index + 1] == "n't" and spans[index][1] == spans[index + 1][0]:
        last = index + 1
    start, end = spans[index][0], spans[last][1]
    return Verb(
        start,
        end,
        tense,
        group.lemma,
        (start, end) if group.head == index else spans[group.head],
        group.aspect,
        role,
        clause.quoted,
        None if subject is None else spans[subject],
        None if subject is None else person_of(words[subject]),
        question and inverted,
    )
