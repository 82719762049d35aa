"""A sentence that begins "I mean" or "you know" is carried by what comes after."""

from saywright.language.english.clauses import NOMINATIVE, Sentence, Shares

_ASIDES = frozenset((("i", "mean"), ("you", "know")))
_POINTING = frozenset("that this these those who which what".split())
_SUBJECTS = NOMINATIVE - _POINTING
_OPENERS = frozenset("well and but so yeah yes no oh or".split())
_MARKS = frozenset(", - -- --- – — …".split())
_LEAST_FINITE = 0.5


def past_asides(sentence: Sentence, chances: Shares) -> Shares:
    """The shares with that of an opening "I mean" or "you know" given to the next clause, if that
    stands by itself: "I mean it's late", "you know, the ferry was late"."""
    if len(sentence.clauses) < 2:
        return chances
    aside, after = sentence.clauses[:2]
    if after.chance < _LEAST_FINITE or not _is_aside(sentence, aside.place):
        return chances
    first, second, *others = chances.main
    return chances._replace(main=(0.0, first + second, *others))


def _is_aside(sentence: Sentence, verb: int) -> bool:
    words = sentence.words
    if verb < 1 or (words[verb - 1], words[verb]) not in _ASIDES:
        return False
    if not all(word in _OPENERS or word in _MARKS for word in words[: verb - 1]):
        return False
    return words[verb + 1] in _MARKS or words[verb + 1] in _SUBJECTS
