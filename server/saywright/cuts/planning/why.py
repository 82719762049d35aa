"""Why a line was chosen to go, in a few plain words. Each is said only where it holds."""

import re
from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from itertools import islice

from saywright.cuts.planning.bonds import SEAM
from saywright.cuts.planning.leaning import is_question, leans_back
from saywright.cuts.planning.piece import SpokenLine
from saywright.cuts.planning.problem import Kept, Problem
from saywright.cuts.planning.references import Reference
from saywright.cuts.planning.ties import is_number
from saywright.cuts.planning.value import Worth
from saywright.language.english.tag import is_english

_SAID_AGAIN = 0.6
_CHOICES = 3
_ALWAYS = "the rest loses least without it"
_LITTLE = 0.8  # of the new words that a second brings in the mean
_LONG_SECONDS = 3
_TINY = 1e-6
_ALIKE_NEARBY, _ALIKE_WORDS = 3, 2
_WORD = re.compile(r"[^\W_]+(?:['’][^\W_]+)*")
_POINTS_TO = {
    "again": "goes with the line that first says “{}”",
    "who": "goes with the line that tells who “{}” is",
    "what": "goes with the line that tells what “{}” is",
    "where": "goes with the line that tells where “{}” is",
    "they": "goes with the line that tells who or what “{}” are",
}
_CHECKS = (
    ("filler", "holds words that carry nothing"),
    ("tense-drift", "slips into another tense"),
    ("person-drift", "slips into another person"),
    ("repetition", "says a word again that was just heard"),
    ("telling", "tells what could be shown"),
)


@dataclass(frozen=True)
class Choice:
    """What reasons are found from: a problem, what stays of its lines, and who points to whom."""

    problem: Problem
    kept: Kept
    lines: Sequence[SpokenLine]
    worth: Sequence[Worth]
    references: Sequence[Reference]
    language: str

    @cached_property
    def by_late(self) -> dict[int, list[Reference]]:
        """Whom each line points back to."""
        found: dict[int, list[Reference]] = defaultdict(list)
        for each in self.references:
            found[each.late].append(each)
        return found

    @cached_property
    def pointed_to(self) -> set[int]:
        """The lines that those that stay point back to."""
        return {each.early for each in self.references if self.kept[each.late]}

    @cached_property
    def new_per_second(self) -> float:
        """How many new words a second brings in the mean."""
        seconds = sum(line.sentence.speech_seconds for line in self.lines)
        return sum(each.new for each in self.worth) / max(seconds, _TINY)


def whys(choice: Choice) -> dict[int, str]:
    """Why each line that goes was chosen."""
    return whys_of([choice])[0]


def whys_of(choices: Sequence[Choice]) -> list[dict[int, str]]:
    """The same for several plans of one piece. What is said of a line holds in all of those that
    cut it, if anything does. Of the few reasons that say most of a line, it is the one that is
    said of the fewest others."""
    used: Counter[str] = Counter()
    found: list[dict[int, str]] = [{} for _ in choices]
    for index in range(len(choices[0].kept) if choices else 0):
        cutting = [number for number, each in enumerate(choices) if not each.kept[index]]
        reasons = [list(_reasons(choices[number], index)) for number in cutting]
        shared = _in_all(reasons)
        for number, own in zip(cutting, reasons, strict=True):
            best = (shared or own)[:_CHOICES]
            found[number][index] = min(best, key=lambda reason: (used[reason], best.index(reason)))
        used.update({found[number][index] for number in cutting})
    return found


def _in_all(reasons: Sequence[Sequence[str]]) -> list[str]:
    """Those that hold in every plan; none where that leaves only what always holds."""
    if not reasons:
        return []
    shared = [each for each in reasons[0] if all(each in others for others in reasons[1:])]
    return shared if shared != [_ALWAYS] else []


def _reasons(choice: Choice, index: int) -> Iterator[str]:
    """What holds of the line, what says most first."""
    worth = choice.worth[index]
    if worth.announces:
        yield "only announces what comes"
    yield from _goes_with_others(choice, index)
    yield from _says_again(choice, index)
    for check, reason in _CHECKS:
        if check in worth.checks:
            yield reason
    if _is_one_of_several(choice, index):
        yield "one of several lines that begin alike"
    if not is_number(choice.lines[index].text):
        yield from _adds_little(worth)
    if _is_long_for_its_worth(choice, index):
        yield "long for the little that is new in it"
    if not _is_leaned_on(choice, index):
        yield "nothing that stays needs it"
    yield _ALWAYS


def _goes_with_others(choice: Choice, index: int) -> Iterator[str]:
    """Lines that are cut and that it would be lost without, or they without it."""
    line, kept = choice.lines[index], choice.kept
    asks = is_question(line.text)
    if index and not kept[index - 1]:
        before = choice.lines[index - 1]
        if is_question(before.text) and not asks:
            yield "answers a question that goes"
        elif is_english(choice.language) and leans_back(line.text):
            yield "goes on from the line before, which goes too"
    following = index + 1
    answer = choice.lines[following].text if following < len(kept) else ""
    if asks and answer and not kept[following] and not is_question(answer):
        yield "asks what the next line answers, and both go"
    if following < len(kept) and is_number(line.text) and not kept[following]:
        yield "numbers what goes"
    for each in choice.by_late.get(index, ()):
        if each.word and not kept[each.early]:
            yield _POINTS_TO[each.kind].format(each.shown)


def _says_again(choice: Choice, index: int) -> Iterator[str]:
    worth = choice.worth[index]
    bases = {word.base for word in worth.words}
    if not bases:
        return
    if index and choice.kept[index - 1] and worth.from_before >= _SAID_AGAIN * len(bases):
        said = {word.base for word in choice.worth[index - 1].words}
        again = next((word.written for word in worth.words if word.base in said), None)
        if again:
            yield f"says “{again}” again, like the line before"
    if worth.new_told:
        return
    if worth.new == 0:
        yield "says only what was said before"
    elif worth.new <= (1 - _SAID_AGAIN) * len(bases):
        yield "says mostly what was said before"


def _is_one_of_several(choice: Choice, index: int) -> bool:
    opening = _opening(choice.lines[index].text)
    near = choice.lines[max(index - _ALIKE_NEARBY, 0) : index + _ALIKE_NEARBY + 1]
    return len(opening) == _ALIKE_WORDS and sum(_opening(each.text) == opening for each in near) > 2


@lru_cache(maxsize=1024)
def _opening(text: str) -> tuple[str, ...]:
    return tuple(word[0].lower() for word in islice(_WORD.finditer(text), _ALIKE_WORDS))


def _adds_little(worth: Worth) -> Iterator[str]:
    if worth.new_told:
        return
    if not worth.words:
        yield "carries little by itself"
    elif worth.new == 1 and len(worth.words) == 1:
        yield f"its only new word is “{worth.words[0].written}”"
    elif worth.new <= 1:
        yield "adds little that is new"


def _is_long_for_its_worth(choice: Choice, index: int) -> bool:
    seconds, new = choice.lines[index].sentence.speech_seconds, choice.worth[index].new
    return seconds > _LONG_SECONDS and new < _LITTLE * choice.new_per_second * seconds


def _is_leaned_on(choice: Choice, index: int) -> bool:
    lines, kept = choice.problem.lines, choice.kept
    following = index + 1
    if following < len(lines) and kept[following] and lines[following].enter > SEAM:
        return True
    return index in choice.pointed_to
