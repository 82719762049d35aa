"""A breath that is put in is read as one, and nothing else is read otherwise."""

import re

from hypothesis import given
from hypothesis import strategies as st

from saywright.cuts.breathing import breathe
from saywright.cuts.marking import Around
from saywright.finding import applied
from saywright.markup.paragraphs import read_paragraph
from saywright.markup.tree import Paragraph
from saywright.speech.timing import time_paragraph
from saywright.speech.voice import Voice
from tests.strategies import texts


def spaces(paragraph: Paragraph) -> list[int]:
    return [space.start() for space in re.finditer(r"(?<=\S)\s", paragraph.plain)]


def made(text: str, *places: int) -> str | None:
    paragraph = read_paragraph(text)
    fix = breathe("Breathe", paragraph, places, Around())
    return applied(text, fix.edits) if fix else None


def test_before_the_space_and_outside_marks() -> None:
    assert made("I saw the *needle* move.", 16) == "I saw the *needle* | move."
    assert made("I saw the needle\nmove.", 16) == "I saw the needle |\nmove."
    assert made("one two three four", 3, 13) == "one | two three | four"


def test_beside_a_cut_and_at_no_place() -> None:
    assert made("~~one two~~ three", 7) == "~~one two~~ | three"
    assert made("one two") is None


@given(texts, st.data())
def test_only_breaths_are_new(text: str, data: st.DataObject) -> None:
    paragraph = read_paragraph(text)
    places = spaces(paragraph)
    if not places:
        return
    chosen = sorted(data.draw(st.sets(st.sampled_from(places), min_size=1, max_size=3)))
    fix = breathe("Breathe", paragraph, chosen, Around())
    if fix is None:
        return
    after = read_paragraph(applied(text, fix.edits))
    assert after.plain.split() == paragraph.plain.split()
    assert len(after.breaths) == len(paragraph.breaths) + len(chosen)
    assert [span.kind for span in after.spans] == [span.kind for span in paragraph.spans]
    before, since = (time_paragraph(each, Voice()) for each in (paragraph, after))
    assert [each.words for each in since.sentences] == [each.words for each in before.sentences]
