"""Words are changed where they stand, and a sentence that is read by itself gives the same."""

import re

from hypothesis import given
from hypothesis import strategies as st

from saywright.cuts.marking import Around
from saywright.cuts.rewording import reworded
from saywright.finding import Edit, applied
from saywright.markup.paragraphs import read_paragraph
from saywright.markup.tree import Range
from saywright.speech.timing import time_paragraph
from saywright.speech.voice import Voice
from tests.strategies import texts

AROUND = Around(("Ines",))
words_instead = st.sampled_from(["", "", "", " ", "it was", "Ines:", "# note", "~~", "INES"])


def made(text: str, old: str, new: str) -> str | None:
    paragraph = read_paragraph(text, AROUND.speakers)
    at = paragraph.plain.index(old)
    edits = [Edit(at, at + len(old), new)]
    within = next(
        Range(each.start, each.end)
        for each in time_paragraph(paragraph, Voice()).sentences
        if each.plain.start <= at < each.plain.end
    )
    fix = reworded("Change it", paragraph, edits, AROUND, within)
    assert fix == reworded("Change it", paragraph, edits, AROUND)
    return applied(text, fix.edits) if fix else None


def test_marks_beside_it_stay() -> None:
    assert made("~~One.~~ Well, two *three*. Four.", "Well, two", "Two") == (
        "~~One.~~ Two *three*. Four."
    )
    assert made("One (beat) two.\r\n# note\r\nThree, well, four.", ", well", "") == (
        "One (beat) two.\r\n# note\r\nThree, four."
    )


def test_a_mark_that_spans_sentences_is_read_with_them() -> None:
    assert made("*One two. Three* four.", "One two", "Two") == "*Two. Three* four."
    assert made("One *two. Three* four.", "Three", "Two") == "One *two. Two* four."
    assert made("One *two. Three* four.", "Three", "") is None


def test_not_where_a_mark_is_touched_or_made() -> None:
    assert made("One *two* three. Four.", "One two", "Two") is None
    assert made("One two. Three *four*. Five.", "two", "~~two~~") is None
    assert made("One two. Three *four* five.", " five", "") == "One two. Three *four*."


def test_not_where_the_line_would_be_something_else() -> None:
    assert made("One two.\nWell, Ines:", "Well, ", "") is None
    assert made("Well Ines: I am here. Where else?", "Well ", "") is None
    assert made("I said INES", "I said ", "") is None
    assert made("One two.\nSo # three.", "So ", "") is None


@given(texts, st.data())
def test_a_sentence_by_itself_is_read_as_among_the_others(text: str, data: st.DataObject) -> None:
    paragraph = read_paragraph(text, AROUND.speakers)
    sentences = time_paragraph(paragraph, Voice()).sentences
    places = [
        (sentence, Range(*word.span()))
        for sentence in sentences
        for word in re.finditer(r"\S+\s*", paragraph.plain[slice(*sentence.plain)])
    ]
    if not places:
        return
    sentence, word = data.draw(st.sampled_from(places))
    by = sentence.plain.start
    edits = [Edit(word.start + by, word.end + by, data.draw(words_instead))]
    within = Range(sentence.start, sentence.end)
    fix = reworded("Change it", paragraph, edits, AROUND, within)
    assert fix == reworded("Change it", paragraph, edits, AROUND)
