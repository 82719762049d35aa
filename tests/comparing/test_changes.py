"""What became of each sentence: cases kept as text, and what must hold of any two scripts."""

import random
import re
import time
import timeit
from collections import Counter
from collections.abc import Iterator, Sequence
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saywright.analysis import analyse
from saywright.commands.compare_table import shown, told_comparison
from saywright.comparing.as_dictionary import as_dictionary
from saywright.comparing.changes import Change
from saywright.comparing.comparison import Comparison, compare, side_of
from saywright.comparing.lines import Line
from saywright.cuts.marking import Around, cut, restore
from saywright.finding import applied
from saywright.markup.tree import Range
from tests.cases import Case, read_cases
from tests.strategies import scripts

CASES = read_cases(Path(__file__).with_name("changes.txt"))
SWAPPED = {
    "cut": "restored",
    "trimmed": "partly restored",
    "added": "taken out",
    "split": "joined",
    "kept": "released",
}
SWAPPED |= {other: kind for kind, other in SWAPPED.items()}
SENTENCES = (
    "I weigh the salt.",
    "I weigh the fish.",
    "He counted the sacks at night and he wept.",
    "He counted the sacks at night.",
    "And he wept.",
    "~~Joss rows the ferry home.~~",
    "Joss rows the ~~old~~ ferry home. (beat)",
    "Joss rows the old ferry home.",
    "__Ada sings to the gulls.__",
    "No.",
    "\n\n",
    "(2s)",
    "…",
    "😀",
    "我称盐。",
)
pieces = st.lists(st.sampled_from(SENTENCES), max_size=12).map(" ".join)


def compared(before: str, after: str) -> Comparison | None:
    """The first pieces of two scripts, None where either has none."""
    sides = [
        side_of(analysis, view)
        for analysis in (analyse(before), analyse(after))
        for view in list(analysis.pieces)[:1]
    ]
    return compare(*sides) if len(sides) == 2 else None


def told(change: Change) -> str:
    kind = f"{change.kind} ({', '.join(change.also)})" if change.also else change.kind
    before = shown(change.before, change.words, "gone") or "nothing"
    after = shown(change.after, change.words, "new") or "nothing"
    return f"{kind}: {before} → {after}"


@pytest.mark.parametrize("case", CASES, ids=str)
def test_cases(case: Case) -> None:
    before, _, after = case.text.partition("\n~>\n")
    comparison = compared(before, after)
    assert comparison
    assert tuple(map(told, comparison.changes)) == case.expected


@given(scripts)
def test_a_script_is_as_itself(text: str) -> None:
    comparison = compared(text, text)
    if comparison:
        assert {change.kind for change in comparison.changes} <= {"unchanged"}
        assert not any(change.also or change.words for change in comparison.changes)
        assert comparison.same_words
        assert comparison.seconds == 0


@given(st.one_of(pieces, scripts), st.one_of(pieces, scripts))
def test_each_sentence_is_told_once_and_the_seconds_add_up(before: str, after: str) -> None:
    comparison = compared(before, after)
    if not comparison:
        return
    ones = [line for change in comparison.changes for line in change.before]
    twos = [line for change in comparison.changes for line in change.after]
    assert sorted(ones, key=place) == list(comparison.before.lines)
    assert twos == list(comparison.after.lines)
    seconds = sum(total.seconds for total in comparison.totals.values())
    assert seconds + comparison.opening_seconds == comparison.seconds


@given(pieces, pieces)
def test_the_other_way_round_is_the_other_way_round(before: str, after: str) -> None:
    one, two = compared(before, after), compared(after, before)
    if not one or not two:
        return
    assert one.seconds == -two.seconds
    assert one.same_words == two.same_words
    assert Counter(map(kinds, one.changes)) == Counter(map(swapped_kinds, two.changes))


@given(pieces, st.data())
def test_marking_loses_no_word(text: str, data: st.DataObject) -> None:
    """Only cut and restored by the editor's own edits: nothing is gone, added or reworded."""
    marked = text
    for _ in range(data.draw(st.integers(1, 4))):
        marked = data.draw(st.sampled_from(list(once_marked(marked)) or [marked]))
    comparison = compared(text, marked)
    if comparison:
        found = {change.kind for change in comparison.changes}
        assert found <= {"unchanged", "cut", "restored", "trimmed", "partly restored", "silences"}
        hows = {word.how for change in comparison.changes for word in change.words}
        assert not hows & {"gone", "new"}
        assert comparison.same_words or not found <= {"unchanged", "silences"}


@given(pieces, pieces)
def test_words_stand_where_it_says(before: str, after: str) -> None:
    comparison = compared(before, after)
    for line in as_dictionary(comparison)["lines"] if comparison else ():
        for word in line["words"]:
            text = before if word["how"] == "gone" else after
            assert letters_of(text[word["start"] : word["end"]]) == letters_of(word["text"])


@given(pieces, pieces, st.integers(20, 130))
def test_no_line_is_too_wide(before: str, after: str, columns: int) -> None:
    comparison = compared(before, after)
    if comparison:
        lines = told_comparison(("a.say", "b.say"), comparison, columns)
        assert all(wide(line) <= max(columns, 40) for line in "\n".join(lines).split("\n"))


def test_four_hundred_sentences_take_less_than_a_second() -> None:
    """Every one of them reworded, so that nothing is the same to hold on to."""
    words = [one + two for one in ("sal", "wa", "fer", "lam") for two in ("t", "go", "ry", "pin")]
    chance = random.Random(6)
    before = [f"I {' '.join(chance.choices(words, k=9))} the rope." for _ in range(400)]
    after = [line.replace("the", "a") for line in before]
    sides = [side_of(each, each.views[0]) for each in map(analyse, map(" ".join, (before, after)))]
    fastest = min(
        timeit.repeat(lambda: compare(*sides), timer=time.process_time, number=1, repeat=3)
    )
    assert [change.kind for change in compare(*sides).changes] == ["reworded"] * 400
    assert fastest < 1


def letters_of(text: str) -> str:
    """Without the marks that may stand among the words, and the blanks."""
    return re.sub(r"~~|__|\(beat\)|\(2s\)|\s", "", text)


def place(line: Line) -> int:
    return line.start


def wide(line: str) -> int:
    return sum(2 if each in "我称盐。😀" else 1 for each in line)


def kinds(change: Change) -> tuple[str, ...]:
    return (*sorted((change.kind, *change.also)), *texts_of(change.before, change.after))


def swapped_kinds(change: Change) -> tuple[str, ...]:
    both = (change.kind, *change.also)
    if change.kind in ("added", "taken out"):
        names = [SWAPPED[change.kind], *change.also]
    else:
        names = [SWAPPED.get(kind, kind) for kind in both]
    return (*sorted(names), *texts_of(change.after, change.before))


def texts_of(before: Sequence[Line], after: Sequence[Line]) -> tuple[str, ...]:
    return (*(line.text for line in before), "→", *(line.text for line in after))


def once_marked(text: str) -> Iterator[str]:
    """The script after each one cut or restoring that can be made in it."""
    for view in analyse(text).views:
        around = Around(view.timeline.part.settings.speakers)
        for placed in view.timeline.paragraphs():
            paragraph = placed.timed.paragraph
            for sentence in placed.timed.sentences:
                where = Range(sentence.start, sentence.end)
                for fix in (cut(paragraph, sentence), restore(paragraph, where, around)):
                    if fix:
                        yield applied(text, fix.shifted(placed.start).edits)


def test_a_sentence_that_has_no_end_is_compared_all_the_same() -> None:
    """Ten thousand words without a full stop, of which the first is new and the last is cut."""
    text = "salt " * 10_000
    comparison = compared(f"I weigh {text}", f"We weigh {text[:-5]} ~~salt~~")
    assert comparison
    (change,) = comparison.changes
    assert change.kind == "reworded"
    assert [(word.how, word.text) for word in change.words] == [
        ("gone", "I"),
        ("new", "We"),
        ("cut", "salt"),
    ]
