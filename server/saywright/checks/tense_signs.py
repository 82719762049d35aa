"""How much speaks for a short run of lines in another tense being a slip.

Each sign that holds has a weight, learned by `tests/benchmarks/fit_drift.py` from untouched texts
and the same with one sentence put into the other tense. A past piece and a piece in the present
have weights of their own: a remark in the present is usual in the first, a short look back at
what happened in the second.
"""

import re
from collections.abc import Iterator, Sequence

from saywright.checks.tense_runs import NEAR_LINES, OTHER, Run, Told, bearing, has_time_cue
from saywright.language.facts import Verb

_NOW = re.compile(
    r"\b(?:now|always|still|every|often|never|usually|sometimes|today|these days|nowadays"
    r"|already|anymore|whenever|if)\b",
    re.IGNORECASE,
)
_THEN = re.compile(
    r"\b(?:when|once|earlier|before|just|recently|first|originally|then|after|finally|until)\b",
    re.IGNORECASE,
)
_MY = re.compile(r"\b(?:my|me|our|us)\b", re.IGNORECASE)
_ASIDES = frozenset(
    ("think", "guess", "mean", "say", "tell", "ask", "call", "give", "get", "speak", "thank")
)
_STATES = frozenset(
    (
        *("think", "know", "mean", "remember", "believe", "guess", "suppose", "feel", "love"),
        *("like", "want", "need", "hope", "wish", "see", "hear", "understand", "seem", "look"),
        *("hate", "say", "tell", "agree", "care"),
    )
)
_WHO = {
    **dict.fromkeys(("i", "we"), "I"),
    **dict.fromkeys(("he", "she", "they"), "she"),
    **dict.fromkeys(("it", "this", "that", "there", "these", "those", "what", "which"), "it"),
    "you": "you",
}


def signs(lines: Sequence[Told], run: Run) -> Iterator[str]:
    """The names of all signs that hold for a run of `lines`."""
    yield from _of_flanks(run)
    yield from _of_share(lines, run)
    yield from _of_line(lines[run.first])
    yield from _of_words(lines[run.first])
    yield from _of_place(lines, run)
    yield from _of_company(lines, run)


def _of_flanks(run: Run) -> Iterator[str]:
    before, after = len(run.before), len(run.after)
    for least in range(1, min(before, after, 4) + 1):
        yield f"{least} on each side"
    for least in range(2, min(before + after, 8) + 1, 2):
        yield f"{least} around"
    if run.cut_before:
        yield "another before"
    if run.cut_after:
        yield "another after"


def _of_share(lines: Sequence[Told], run: Run) -> Iterator[str]:
    """How many of the lines near bear the other tense; a line in doubt counts for neither."""
    near = (
        *range(max(run.first - NEAR_LINES, 0), run.first),
        *range(run.end, run.end + NEAR_LINES),
    )
    tenses = [bearing(lines[index]) for index in near if index < len(lines)]
    other = tenses.count(OTHER[run.tense])
    share = (other + 1) / (other + tenses.count(run.tense) + 2)
    for least in (0.5, 0.6, 0.7, 0.8, 0.9):
        if share >= least:
            yield f"share {least}"


def _of_line(line: Told) -> Iterator[str]:
    verb = line.verb
    assert line.facts and verb
    kind = _kind(verb)
    who = _who(line)
    yield kind
    yield f"of {who}"
    if verb.lemma in _ASIDES:
        yield "aside"
    others = [each for each in line.facts.verbs if not each.quoted and each is not verb]
    for each in others:
        if each.tense in ("past", "present"):
            same = "same" if each.tense == verb.tense else "other"
            yield f"{same} tense {'under' if each.role == 'under' else 'beside'}"
        else:
            yield "modal beside"


def _of_words(line: Told) -> Iterator[str]:
    for name, words in (("now", _NOW), ("then", _THEN), ("my", _MY)):
        if words.search(line.text):
            yield name
    length = len(line.text.split())
    for least in (16, 26):
        if length >= least:
            yield f"{least} words"


def _kind(verb: Verb) -> str:
    if verb.aspect != "simple":
        return verb.aspect
    if verb.lemma in ("be", "have"):
        return verb.lemma
    return "state" if verb.lemma in _STATES else "event"


def _of_company(lines: Sequence[Told], run: Run) -> Iterator[str]:
    """Whether the lines around tell what happens, one thing after another."""
    if has_time_cue(lines, run.first):
        yield "looks back"
    around = [lines[index] for index in (*run.before[:3], *run.after[:3])]
    if len(around) > 1 and 2 * sum(map(_happens, around)) >= len(around):
        yield "among events"
        if _happens(lines[run.first]):
            yield "event among events"


def is_told_as_it_happens(lines: Sequence[Told], run: Run) -> bool:
    """Whether lines on both sides tell in the present what is done, by "I" or "she" above all,
    one thing after another: among these a line in the past is rarely a look back. Too rare in the
    texts that the weights are learned from to get one of its own."""
    around = [lines[index] for index in (*run.before[:3], *run.after[:3])]
    if run.tense != "past" or not (run.before and run.after) or len(around) < 4:
        return False
    events = [line for line in around if _is_event(line) and _who(line) not in ("you", "it")]
    mostly_events = len(events) >= 0.6 * len(around)
    by_someone = sum(map(_happens, events)) >= len(around) / 3
    return mostly_events and by_someone and not has_time_cue(lines, run.first)


def _is_event(line: Told) -> bool:
    return line.verb is not None and _kind(line.verb) == "event"


def _who(line: Told) -> str:
    return _WHO.get(line.subject, "noun") if line.subject else "none"


def _happens(line: Told) -> bool:
    return _is_event(line) and _who(line) in ("I", "she")


def _of_place(lines: Sequence[Told], run: Run) -> Iterator[str]:
    first = lines[run.first]
    if first.opens:
        yield "opens a paragraph"
    if run.end < len(lines) and lines[run.end].opens:
        yield "ends a paragraph"
    for name, index in (("before", run.before[:1]), ("after", run.after[:1])):
        if index and first.subject and lines[index[0]].subject == first.subject:
            yield f"same subject {name}"
    if run.before[:1] == (run.first - 1,):
        yield "next to one before"
    if run.after[:1] == (run.end,):
        yield "next to one after"
    if len(run.lines) > 1:
        yield "several lines"
