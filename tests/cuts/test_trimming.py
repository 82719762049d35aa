"""Trims as edits: what each makes of a script, and that it takes its own words and no other."""

import re
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saywright.analysis import Analysis, analyse
from saywright.cuts import marking
from saywright.cuts.at_place import fixes_at
from saywright.cuts.marking import Around
from saywright.cuts.trimming import TrimmedAway, possible_trims, shortened, trim, trims_in, veiled
from saywright.finding import Fix, applied
from saywright.markup.tree import Range
from saywright.project import NO_PROJECT
from saywright.speech.timeline import Placed
from saywright.speech.timing import Sentence
from tests.cases import Case, read_cases
from tests.language.test_trims import CASES as SENTENCES
from tests.language.test_trims import Case as OneSentence
from tests.strategies import PIECES

CASES = read_cases(Path(__file__).with_name("trimming.txt"))
TRIMMED = [case for case in SENTENCES if case.ranges]
LOOSE = (
    "I rang my aunt, who was asleep. ",
    "I rang my aunt, who was asleep, and she came. ",
    "who was asleep",
    "I asked Tom, the old keeper. ",
    "Tom – the old keeper – shut the door. ",
    "It was very, very cold. ",
    "the *long, cold* night ",
    "Well, you know, I never cheated. ",
    ", I suppose",
    ", of course, ",
    "She stood there, counting (beat) the coins. ",
)
scripts = st.lists(st.sampled_from(PIECES + 3 * LOOSE), max_size=20).map("".join)


def sentences_of(analysis: Analysis) -> Iterator[tuple[Placed, Sentence]]:
    for view in analysis.views:
        for placed in view.timeline.paragraphs():
            yield from ((placed, sentence) for sentence in placed.timed.sentences)


def offers(text: str) -> list[Fix]:
    """The trims that are offered at each sentence in turn."""
    analysis = analyse(text)
    return [
        fix
        for placed, sentence in sentences_of(analysis)
        for fix in fixes_at(analysis, Range(*[placed.start + sentence.start + 1] * 2))
        if fix.title.startswith("Trim")
    ]


@pytest.mark.parametrize("case", CASES, ids=str)
def test_scripts(case: Case) -> None:
    made = [f"{fix.title} → {applied(case.text, fix.edits)}" for fix in offers(case.text)]
    assert [each.replace("\n", "⏎").strip() for each in made] == list(case.expected)


def trims_of(text: str) -> list[tuple[Placed, Sentence, TrimmedAway]]:
    found = []
    for placed, sentence in sentences_of(analyse(text)):
        away = trims_in(placed.timed.paragraph, sentence)
        found += [(placed, sentence, each) for each in away]
    return found


def marked(text: str, placed: Placed, away: TrimmedAway) -> str:
    return applied(text, [edit.shifted(placed.start) for edit in away.edits])


@pytest.mark.parametrize("case", TRIMMED, ids=str)
def test_sentences_are_marked_where_their_brackets_stand(case: OneSentence) -> None:
    made = {marked(case.text, placed, away) for placed, _, away in trims_of(case.text)}
    assert made == {
        f"{case.text[:start]}~~{case.text[start:end]}~~{case.text[end:]}"
        for start, end in case.ranges
    }


@pytest.mark.parametrize("case", TRIMMED, ids=str)
def test_what_is_left_is_timed_as_if_nothing_had_stood_there(case: OneSentence) -> None:
    for placed, _, away in trims_of(case.text):
        after = analyse(marked(case.text, placed, away) + " So.")
        retyped = case.text[: away.start] + case.text[away.end :]
        retyped = re.sub(r",\s*(?=[.!]|$)", "", re.sub(r"  +", " ", retyped)).strip()
        clean = analyse(re.sub(r"\s+(?=[.!])", "", retyped) + " So.")
        assert seconds_of(after) == pytest.approx(seconds_of(clean))


def seconds_of(analysis: Analysis) -> float:
    return analysis.views[0].timeline.seconds


@given(scripts)
def test_a_trim_takes_its_own_words_and_is_undone_by_restoring(text: str) -> None:
    for placed, sentence, away in trims_of(text):
        after = marked(text, placed, away)
        assert after.replace("~", "") == text.replace("~", "")
        assert len(after) == len(text) + 4
        again = next(p for p in paragraphs(analyse(after)) if p.start == placed.start)
        before = placed.timed.paragraph
        (stretch,) = away.places.stretches
        assert again.timed.paragraph.plain == before.plain
        assert words_in(again, again.timed.paragraph.cuts) == sorted(
            words_in(placed, before.cuts) + words_in(placed, [stretch])
        )
        assert words_in(again, again.timed.paragraph.keeps) == words_in(placed, before.keeps)
        assert len(again.timed.sentences) == len(placed.timed.sentences)
        inside = Range(away.start + 2, away.end + 2)
        undone = marking.restore(again.timed.paragraph, inside, Around())
        assert undone
        if not spans_meet(placed, Range(away.start, away.end)):
            assert applied(after, undone.shifted(placed.start).edits) == text
        assert sentence.start <= away.start < away.end <= sentence.end


def spans_meet(placed: Placed, where: Range) -> bool:
    """Whether a cut stood there before: it is restored along."""
    spans = placed.timed.paragraph.spans
    return any(s.kind == "cut" and s.start < where.end and where.start < s.end for s in spans)


def paragraphs(analysis: Analysis) -> Iterator[Placed]:
    for view in analysis.views:
        yield from view.timeline.paragraphs()


def words_in(placed: Placed, ranges: object) -> list[int]:
    plain = placed.timed.paragraph.plain
    assert isinstance(ranges, list | tuple)
    return [w.start() for where in ranges for w in re.compile(r"\w+").finditer(plain, *where)]


@given(scripts)
def test_trims_that_are_apart_go_together(text: str) -> None:
    for placed in paragraphs(analyse(text)):
        paragraph = placed.timed.paragraph
        apart: list[TrimmedAway] = []
        for sentence in placed.timed.sentences:
            for away in trims_in(paragraph, sentence):
                if not apart or away.start >= apart[-1].end:
                    apart.append(away)
        if apart:
            together = marking.cut_together(paragraph, [away.places for away in apart])
            assert together is not None
            assert together.edits == tuple(edit for away in apart for edit in away.edits)


@given(scripts)
def test_what_is_tried_is_among_what_is_possible(text: str) -> None:
    for placed, sentence in sentences_of(analyse(text)):
        paragraph = placed.timed.paragraph
        tried = trims_in(paragraph, sentence)
        possible = possible_trims(paragraph, sentence)
        assert tried == tuple(each for each in possible if trim(paragraph, each))


def test_marks_that_would_be_read_otherwise_are_not_offered() -> None:
    ((placed, sentence),) = sentences_of(analyse("I rang my aunt, who was ~~asleep."))
    assert possible_trims(placed.timed.paragraph, sentence)
    assert trims_in(placed.timed.paragraph, sentence) == ()


def test_what_is_kept_is_not_even_possible() -> None:
    ((placed, sentence),) = sentences_of(analyse("I rang my aunt, who __was__ asleep."))
    assert possible_trims(placed.timed.paragraph, sentence) == ()


def test_carriage_returns_stay() -> None:
    text = "I rang my aunt, who\r\nwas asleep.\r\nShe woke.\r\n"
    (fix,) = offers(text)
    assert applied(text, fix.edits) == ("I rang my aunt, ~~who\r\nwas asleep~~.\r\nShe woke.\r\n")


def test_no_title_quotes_a_name_from_life() -> None:
    project = replace(NO_PROJECT, private_names=("Maren Aro", "Rose"))
    text = "I rang my aunt, whose boat and whose brothers Maren Aro and a rose all knew."
    analysis = analyse(text, project)
    titles = [fix.title for fix in fixes_at(analysis, Range(3, 3))]
    assert "Trim “whose boat and whose brothers … and a…”" in titles
    assert not any("Aro" in title or "Maren" in title for title in titles)
    assert veiled("a rose of Rose", analysis) == "a rose of …"


def test_no_more_than_four_are_offered_and_none_twice() -> None:
    assert [fix.title for fix in offers("It was very, very, very cold.")] == ["Trim “very”"]
    many = (
        "Well, it was a long, cold night, a wet, dark night, a big, cold storm, a wide, dry year."
    )
    assert len(offers(many)) == 4


def test_a_long_quotation_is_shortened_at_a_word() -> None:
    assert shortened("who was asleep") == "who was asleep"
    assert shortened("a" * 50) == "a" * 40 + "…"
    assert shortened("who had, on a day in a hard, cold year, slept") == (
        "who had, on a day in a hard, cold year…"
    )
