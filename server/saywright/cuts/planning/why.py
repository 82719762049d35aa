"""Why a line was chosen to go, in a few plain words. Each is said only where it holds."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from saywright.cuts.planning.bonds import SEAM, leans_back
from saywright.cuts.planning.piece import SpokenLine
from saywright.cuts.planning.problem import Problem
from saywright.cuts.planning.value import Worth
from saywright.language.english.tag import is_english

_MOST_NEW_OF_LITTLE = 1
_SAID_AGAIN = 0.6
_CHECKS = (
    ("filler", "holds words that carry nothing"),
    ("tense-drift", "slips into another tense"),
    ("person-drift", "slips into another person"),
    ("repetition", "says a word again that was just heard"),
    ("telling", "tells what could be shown"),
)


class Choice(NamedTuple):
    """What a reason is found from: a problem, and which of its lines stay."""

    problem: Problem
    kept: Sequence[bool]
    lines: Sequence[SpokenLine]
    worth: Sequence[Worth]
    language: str


def why(choice: Choice, index: int) -> str:
    """Why the line at `index`, which goes, was chosen."""
    return next(_reasons(choice, index))


def _reasons(choice: Choice, index: int) -> Iterator[str]:
    """What holds of the line, what says most first."""
    worth = choice.worth[index]
    words = {word.base for word in worth.words}
    if worth.announces:
        yield "only announces what comes"
    if words and worth.from_before >= _SAID_AGAIN * len(words):
        yield "says again what the line before said"
    if words and worth.new <= (1 - _SAID_AGAIN) * len(words):
        yield "says again what came before"
    if _goes_with_before(choice, index):
        yield "goes on from a line that is cut too"
    for check, reason in _CHECKS:
        if check in worth.checks:
            yield reason
    if worth.new <= _MOST_NEW_OF_LITTLE:
        yield "brings little that is new"
    if _is_long_for_its_worth(choice, index):
        yield "takes long for what it brings"
    if not _is_leaned_on(choice, index):
        yield "nothing that stays leans on it"
    yield "of these lines the piece needs it least"


def _goes_with_before(choice: Choice, index: int) -> bool:
    if not index or choice.kept[index - 1]:
        return False
    if is_english(choice.language) and leans_back(choice.lines[index].text):
        return True
    return any(bond.late == index and not choice.kept[bond.early] for bond in choice.problem.bonds)


def _is_long_for_its_worth(choice: Choice, index: int) -> bool:
    def seconds(of: int) -> float:
        return choice.lines[of].sentence.speech_seconds

    mean = sum(each.points for each in choice.worth) / sum(map(seconds, range(len(choice.lines))))
    return choice.worth[index].points < 0.8 * mean * seconds(index)


def _is_leaned_on(choice: Choice, index: int) -> bool:
    lines, kept = choice.problem.lines, choice.kept
    following = index + 1
    if following < len(lines) and kept[following] and lines[following].enter > SEAM:
        return True
    return any(bond.early == index and kept[bond.late] for bond in choice.problem.bonds)
