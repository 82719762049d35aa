"""The facts of an English sentence: read word by word, clause by clause, by learnt weights."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from saywright.language.english.asides import past_asides
from saywright.language.english.clauses import Clause, Sentence, Shares, clauses, shares
from saywright.language.english.fluency import fluent
from saywright.language.english.had_or_would import settled
from saywright.language.english.readings import FINITE, readings
from saywright.language.english.same_forms import timed
from saywright.language.english.subjects import (
    joined_before,
    person_at,
    subject_after,
    subject_before,
)
from saywright.language.english.tokens import begins_quoted, tokens
from saywright.language.english.verb_groups import BE, DO, HAVE, group_at
from saywright.language.english.weights import Weights, weights
from saywright.language.english.word_classes import classes_of
from saywright.language.facts import Facts, Role, Tense, Verb, VerbTense

_FUTURE = frozenset(("will", "'ll", "ll", "wo", "wont", "shall", "sha"))
_TENSES: dict[str, VerbTense] = {"D": "past", "P": "present", "M": "modal", "I": "imperative"}
_LETTERS: dict[Tense, str] = {
    "past": "D",
    "present": "P",
    "modal": "M",
    "future": "M",
    "imperative": "I",
}
_ALONE = frozenset("i you he she it we they who there".split())
_JOINED = frozenset(("and", "or", "but", ","))
_QUESTION_WORDS = frozenset("what which how where when why who whom whose".split())
WITH_SUBJECT = frozenset(("its", "your", "theyre", "youre", "im", "ive", "ill"))
_LEAST_FINITE = 0.5
# Past is said only where it is clearly likeliest: as precise as it is complete, by folds.
_PAST_WEIGHT = 0.55
_NOTHING = Facts("fragment")


def facts_of(text: str, learnt: Weights | None = None) -> Facts:
    """Never fails; the offsets are those of `text`. `learnt` if not by the package's weights."""
    found = fluent(tokens(text))
    if not found.words:
        return _NOTHING
    known = learnt or weights()
    classes = classes_of(text, *found, known.classes)
    read = timed(found.words, readings(found.words, classes, known))
    read = settled(found.words, classes, read)
    sentence = clauses(found.words, classes, read, begins_quoted(text, found))
    chances = past_asides(sentence, shares(sentence, known))
    tense, sure = _tense(sentence, chances)
    main = _main(sentence, chances, tense)
    told = list(_told(sentence, chances, main, tense))
    question = "?" in text[-4:]
    verbs = tuple([_verb(sentence, found.spans, each, question) for each in told])
    at = next((at for at, each in enumerate(told) if each.role == "main"), None)
    return Facts(tense, None if at is None else verbs[at].person, verbs, at, question, sure)


def _verb_tense(word: str, letter: str) -> VerbTense:
    return "future" if letter == "M" and word in _FUTURE else _TENSES[letter]


def _tense(sentence: Sentence, chances: Shares) -> tuple[Tense, float]:
    """The likeliest tense, and its chance: that of every clause and reading that make it."""
    sums: dict[Tense, float] = {"fragment": chances.none}
    for clause, share in zip(sentence.clauses, chances.main, strict=True):
        whole = clause.chance
        word = sentence.words[clause.place]
        for letter, chance in zip(FINITE, clause.chances, strict=True):
            tense = _verb_tense(word, letter)
            sums[tense] = sums.get(tense, 0.0) + share * chance / whole
    best = max(sums, key=lambda tense: sums[tense] * (_PAST_WEIGHT if tense == "past" else 1.0))
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
            if _verb_tense(sentence.words[clause.place], letter) == tense
        )
        scored.append(chances.main[number] * fitting / clause.chance)
    return scored.index(max(scored))


class _Told(NamedTuple):
    """A clause with its place among the others, and the index of its subject's head; `turned`:
    that stands after the verb."""

    clause: Clause
    role: Role
    subject: int | None
    turned: bool


def _told(sentence: Sentence, chances: Shares, main: int | None, tense: Tense) -> Iterator[_Told]:
    """The clauses whose verbs are finite, more likely than not. The main one has the tense."""
    before = _Before(0, None, 0)
    for number, clause in enumerate(sentence.clauses):
        if number != main and clause.chance < _LEAST_FINITE:
            continue
        role: Role = "main" if number == main else "under" if chances.hangs[number] else "joined"
        subject, turned = _subject(sentence, clause, before)
        settled_ = clause._replace(letter=_LETTERS[tense]) if number == main else clause
        yield _Told(settled_, role, subject, turned)
        before = before.then(settled_, role, subject)


class _Before(NamedTuple):
    """What the clauses before leave: where the next words begin, the last subject that is not of
    a hanging clause, and where the last hanging clause began."""

    after: int
    told: int | None
    opened: int

    def then(self, clause: Clause, role: Role, subject: int | None) -> "_Before":
        told, opened = self.told, self.opened
        if subject is not None and clause.letter != "I":
            if role == "under":
                opened = min(subject, clause.place)
            else:
                told = subject
        return _Before(clause.place + 1, told, opened)


def _subject(sentence: Sentence, clause: Clause, done: _Before) -> tuple[int | None, bool]:
    """The index of the subject's head, and whether it stands after the verb."""
    words, classes, index = sentence.words, sentence.classes, clause.place
    after, told, opened = done
    if words[index] in WITH_SUBJECT:
        return index, False
    before = subject_before(words, classes, after, index)
    if _is_turned(sentence, clause, after, before):
        turned = subject_after(words, classes, index)
        if turned is not None and (classes[turned][0] == "p" or before is None):
            return turned, True
    if before is not None:
        return before, False
    if opened and after and not _JOINED & {*clause.opening}:
        earlier = subject_before(words, classes, 0, opened)
        if earlier is not None:
            return earlier, False
    return (told if after else joined_before(words, classes, index)), False


def _is_turned(sentence: Sentence, clause: Clause, after: int, before: int | None) -> bool:
    """Whether the verb may stand before its subject: "why did you", "here comes the ferry"."""
    words, index = sentence.words, clause.place
    word = words[index]
    helps = word in BE or word in HAVE or word in DO or clause.letter == "M"
    if before is None:
        return (helps and (after == 0 or "and" not in clause.opening)) or after < index
    if not helps or words[before] in _ALONE:
        return words[before] == "there" and helps
    asks = "?" in words[-1] or words[before] in {"what", "which", "how"}
    return asks or not _QUESTION_WORDS.isdisjoint(words[after:index])


def _verb(
    sentence: Sentence, spans: Sequence[tuple[int, int]], told: _Told, question: bool
) -> Verb:
    words = sentence.words
    clause, role, subject, turned = told
    index = clause.place
    tense = _verb_tense(words[index], clause.letter)
    if tense == "imperative":
        subject = None
    group = group_at(words, sentence.classes, index, clause.letter, turned)
    start, end = spans[index]
    if index + 1 < len(words) and words[index + 1] == "n't" and spans[index + 1][0] == end:
        end = spans[index + 1][1]
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
        None if subject is None else person_at(words, subject),
        question and turned,
    )
