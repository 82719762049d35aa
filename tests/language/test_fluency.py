"""Fillers, words broken off and words said again are passed over; the rest keeps its offsets."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saywright.language.english.fluency import fluent
from saywright.language.english.tokens import begins_quoted, tokens


@pytest.mark.parametrize(
    ("text", "left"),
    [
        ("The, uh, the ferry w- was late.", "the ferry was late ."),
        ("Um, so we waited.", "so we waited ."),
        ("She went, um, home.", "she went home ."),
        ("Joss evalu- uh evaluated it.", "joss evaluated it ."),
        ("N- that's all right.", "that 's all right ."),
        ("I and I I knew.", "i and i knew ."),
        ("I — I knew.", "i knew ."),
        ("Um- er- yes.", "- - yes ."),
        ("uh", "uh"),
        ("w-", "w -"),
        # what is meant as it stands
        ("If you touch it, it moves.", "if you touch it , it moves ."),
        ("She knew that that was so.", "she knew that that was so ."),
        ("I went – she stayed.", "i went – she stayed ."),
        ("We go- then she stays.", "we go - then she stays ."),
        ("It is a well-kept light.", "it is a well-kept light ."),
        ("- - -", "- - -"),
    ],
)
def test_what_is_left(text: str, left: str) -> None:
    assert " ".join(fluent(tokens(text)).words) == left


PIECES = "I she the uh um um- - — , . w- was wa- and and- a I'm n't".split()


@given(st.one_of(st.text(max_size=40), st.lists(st.sampled_from(PIECES)).map(" ".join)))
def test_what_is_left_are_words_of_the_text_in_order(text: str) -> None:
    found = tokens(text)
    all_, left = list(zip(*found, strict=True)), list(zip(*fluent(found), strict=True))
    rest = iter(all_)
    assert all(each in rest for each in left)
    assert bool(left) == bool(all_)


@pytest.mark.parametrize(
    ("text", "begins"),
    [
        ('The lamp is out," said the keeper.', True),
        ("The lamp is out,” said the keeper.", True),
        ('"The lamp is out," said the keeper.', False),
        ("He said “go” and went.", False),
        ('He said "go" and went.', False),
        ("Nobody said a word.", False),
        ('"', False),
        ('out"', True),
        ("", False),
    ],
)
def test_a_sentence_that_begins_inside_a_quote(text: str, begins: bool) -> None:
    assert begins_quoted(text, tokens(text)) is begins
