"""What is left when words are dropped: all other words, and a sentence that looks like one."""

import re

from hypothesis import given
from hypothesis import strategies as st

from saywright.checks.dropping import without
from saywright.finding import applied
from saywright.language.english.fillers import fillers

WORDS = st.sampled_from("I salt the ferry went and a lamp she it's old because who an ill".split())
FILLERS = st.sampled_from(["you know", "um", "like", "well", "I mean"])
MARKS = st.sampled_from([" ", ", ", " – ", "; "])
ENDS = st.sampled_from([".", "?", "!", "…", ""])


@st.composite
def sentences(draw: st.DrawFn) -> tuple[str, int, int]:
    """A sentence, and where in it a filler stands."""
    before = draw(st.lists(st.tuples(WORDS, MARKS), max_size=4))
    after = draw(st.lists(st.tuples(MARKS, WORDS), max_size=4))
    filler = draw(FILLERS)
    start = "".join(word + mark for word, mark in before)
    text = start + filler + "".join(mark + word for mark, word in after) + draw(ENDS)
    return text[:1].upper() + text[1:], len(start), len(start) + len(filler)


def words(text: str) -> list[str]:
    return re.findall(r"[\w']+", text.lower())


@given(sentences())
def test_only_the_words_meant_go(sentence: tuple[str, int, int]) -> None:
    text, start, end = sentence
    if edits := without(text, start, end):
        assert words(applied(text, edits)) == words(text[:start]) + words(text[end:])


@given(sentences())
def test_what_is_left_is_well_made(sentence: tuple[str, int, int]) -> None:
    text, start, end = sentence
    if edits := without(text, start, end):
        left = applied(text, edits)
        assert left[0].isupper()
        assert not re.search(r"\s\s|\s[,;.?!]|,,|, ,|^\W", left)


def test_nothing_is_dropped_where_no_word_would_be_left() -> None:
    assert without("You know?", 0, 8) == ()


@given(st.text(st.sampled_from("likeyouknwum ,.–-'’\"\nİ"), max_size=60))
def test_any_text_is_read(text: str) -> None:
    at = 0
    for start, end in fillers(text):
        assert at <= start < end <= len(text)
        without(text, start, end)
        at = end
