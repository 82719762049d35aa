"""Cut, keep, restore and delete: what each makes of a script, and that none loses a word."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from saywright.analysis import Analysis, analyse
from saywright.cuts import marking
from saywright.cuts.at_place import fixes_at
from saywright.cuts.marking import Around
from saywright.finding import applied
from saywright.markup.paragraphs import read_paragraph
from saywright.markup.reader import read
from saywright.markup.tree import Paragraph, Range
from saywright.speech.timeline import Placed
from tests.cases import Case, read_cases
from tests.strategies import scripts

CASES = read_cases(Path(__file__).with_name("actions.txt"))


@pytest.mark.parametrize("case", CASES, ids=str)
def test_actions(case: Case) -> None:
    at = case.text.index("‸")
    text = case.text.replace("‸", "")
    made = [
        f"{fix.title} → {applied(text, fix.edits)}".replace("\n", "⏎").strip()
        for fix in fixes_at(analyse(text), Range(at, at))
    ]
    assert made == list(case.expected)


def paragraphs(analysis: Analysis) -> Iterator[Placed]:
    for view in analysis.views:
        yield from view.timeline.paragraphs()


def spoken(text: str) -> list[str]:
    """The spoken text of each paragraph, cut words and all."""
    return [block.plain for block in read(text).blocks if isinstance(block, Paragraph)]


@given(scripts, st.data())
def test_a_cut_or_a_keep_loses_nothing_and_undoing_it_gives_back_the_text(
    text: str, data: st.DataObject
) -> None:
    places = [(p, s) for p in paragraphs(analyse(text)) for s in p.timed.sentences]
    assume(places)
    placed, sentence = data.draw(st.sampled_from(places))
    for offer, undo in ((marking.cut, marking.restore), (marking.keep, marking.release)):
        fix = offer(placed.timed.paragraph, sentence)
        if fix is None:
            continue
        edits = fix.shifted(placed.start).edits
        marked = applied(text, edits)
        assert spoken(marked) == spoken(text)
        assert re.sub(r"~~|__", "", marked) == re.sub(r"~~|__", "", text)
        if any(
            span.kind == offer.__name__ and span.start < sentence.end and sentence.start < span.end
            for span in placed.timed.paragraph.spans
        ):
            continue  # a part of it was marked before: undoing takes that mark off too
        again = next(p for p in paragraphs(analyse(marked)) if p.start == placed.start)
        undone = undo(
            again.timed.paragraph,
            Range(sentence.start, sentence.end + len(marked) - len(text)),
            Around(),
        )
        assert undone is not None
        assert applied(marked, undone.shifted(placed.start).edits) == text


@given(scripts, st.data())
def test_a_cut_sentence_is_cut_and_no_other_is(text: str, data: st.DataObject) -> None:
    before = [(p, i) for p in paragraphs(analyse(text)) for i in range(len(p.timed.sentences))]
    assume(before)
    placed, index = data.draw(st.sampled_from(before))
    fix = marking.cut(placed.timed.paragraph, placed.timed.sentences[index])
    assume(fix)
    assert fix
    after = analyse(applied(text, fix.shifted(placed.start).edits))
    again = next(p for p in paragraphs(after) if p.start == placed.start)
    wanted = [s.cut or i == index for i, s in enumerate(placed.timed.sentences)]
    assert [sentence.cut for sentence in again.timed.sentences] == wanted


@given(scripts, st.data())
def test_deleting_takes_only_the_sentence(text: str, data: st.DataObject) -> None:
    places = [(p, s) for p in paragraphs(analyse(text)) for s in p.timed.sentences]
    assume(places)
    placed, sentence = data.draw(st.sampled_from(places))
    paragraph = placed.timed.paragraph
    fix = marking.delete(paragraph, sentence, Around())
    assume(fix)
    assert fix
    rest = read_paragraph(applied(paragraph.text, fix.edits))
    start, end = sentence.plain
    assert words(rest.plain) == words(paragraph.plain[:start]) + words(paragraph.plain[end:])
    assert [rest.text[n.start : n.end].strip() for n in rest.notes] == [
        paragraph.text[n.start : n.end].strip() for n in paragraph.notes
    ]


def words(text: str) -> list[str]:
    return re.findall(r"\w+", text)
