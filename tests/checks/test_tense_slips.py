"""What is told of tense, whatever the lines: each once, within bounds, and fast."""

from itertools import pairwise
from time import perf_counter

from hypothesis import given
from hypothesis import strategies as st

from saywright.checks.tense_runs import OTHER, Told, bearing, runs
from saywright.checks.tense_slips import ClashAt, drifts
from saywright.language.sentence_facts import sentence_facts

PAST = ("I walked home.", "She was tired.", "He wrote nothing down.", "They didn't come.")
PRESENT = ("I walk home.", "She is tired.", "He writes nothing down.", "They don't come.")
NEITHER = ("Salt.", "Go home.", "Do you know him?", "He has gone.", "I think so.", "I would go.")
LINES = st.lists(
    st.builds(
        lambda text, opens: _told(text, opens=opens),
        st.sampled_from(PAST + PRESENT + NEITHER),
        st.booleans(),
    ),
    max_size=30,
)


def _told(text: str, opens: bool = False) -> Told:
    return Told(text, sentence_facts(text), opens)


def test_which_lines_bear_a_tense() -> None:
    assert {bearing(_told(text)) for text in PAST} == {"past"}
    assert {bearing(_told(text)) for text in PRESENT} == {"present"}
    assert {bearing(_told(text)) for text in NEITHER} == {None}


@given(LINES)
def test_runs_are_all_lines_that_bear_a_tense_in_turn(lines: list[Told]) -> None:
    found = list(runs(lines))
    at = [index for run in found for index in run.lines]
    assert at == [index for index, line in enumerate(lines) if bearing(line)]
    assert all(one.tense == OTHER[other.tense] for one, other in pairwise(found))
    for run in found:
        assert all(bearing(lines[index]) == OTHER[run.tense] for index in run.before + run.after)


@given(LINES, st.integers(0, 30), st.integers(0, 30), st.sampled_from((None, "past", "present")))
def test_a_line_is_told_of_once_and_only_if_it_is_looked_at(
    lines: list[Told], first: int, count: int, declared: str | None
) -> None:
    end = min(first + count, len(lines))
    found = list(drifts(lines, first, end, declared))  # type: ignore[arg-type]
    starts = [each.line if isinstance(each, ClashAt) else each.run.first for each in found]
    assert len(starts) == len(set(starts))
    assert all(first <= start < end for start in starts)


def test_lines_of_one_tense_alone_are_no_slip() -> None:
    for texts in (PAST, PRESENT):
        lines = [_told(text) for text in texts * 5]
        assert not list(drifts(lines, 0, len(lines)))


def test_a_long_paragraph_takes_no_longer_a_line() -> None:
    def seconds(count: int) -> float:
        lines = [_told(text) for text in (PAST[0], PRESENT[1], PAST[2]) * count]
        start = perf_counter()
        list(drifts(lines, 0, len(lines)))
        return perf_counter() - start

    seconds(100)
    assert seconds(1000) < 40 * seconds(100)
