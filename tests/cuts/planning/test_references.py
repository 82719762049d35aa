"""What a line points back to, and how much it leans on the line before it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saywright.cuts.planning.leaning import on_after, on_before
from saywright.cuts.planning.references import references
from saywright.language.english.mentions import mentions


@pytest.mark.parametrize(
    ("lines", "pairs"),
    [
        # gender: the nearest that agrees, and names first
        (
            "My sister kept the lamp. The inspector came at ten. My brother slept. She laughed.",
            {(0, 3)},
        ),
        ("Ada lit the lamp. It was late. She went home.", {(0, 2)}),
        ("The captain came. The bread was warm. He ate.", {(0, 2)}),
        ("My mother sang. My father rowed. He was slow.", {(1, 2)}),
        # what one sentence tells of a name holds for all; who could be meant as well counts less
        ("Ada came. Joss sat. She smiled. Nobody beats Ada, she cheats.", {(0, 2), (1, 2)}),
        # who is spoken of goes before who is new
        ("Joss came. He saw the mate. He laughed.", {(0, 1), (0, 2)}),
        # number
        ("The wagons stood there. The lamp was out. They were wet.", {(0, 2)}),
        ("Ada and Joss rowed. I slept. They sang.", {(0, 2)}),
        ("The crew slept. I did not. They snored.", {(0, 2)}),
        # things, and no farther than a few lines
        ("I found a bell. It was green.", {(0, 1)}),
        ("I found a bell. I ate. I slept. I sang. I rowed. It was green.", set()),
        # told in its own sentence, or standing for nothing
        ("I found a bell. When the ferry came, it was empty.", set()),
        ("I found a bell. It was late. It rained.", set()),
        # who does a thing and to whom it is done are two
        ("My sister came. Joss laughed at her.", {(0, 1)}),
        ("I had a sister. Our mother said no, and packed her a coat.", {(0, 1)}),
        ("I had a sister. Our mother said no, and Joss packed her a coat.", set()),
        # the same thing shown
        ("I had a lamp. I slept. I rowed. I sang. That lamp was mine.", {(0, 4)}),
        # a verb is no thing
        ("I took the bell. I won't make you fish for it.", {(0, 1)}),
        ("He never came. I waited.", set()),
        # somebody, where nobody nearer is told of
        ("It is somebody forty miles out. He does not know me.", {(0, 1)}),
        ("It is somebody. Joss came. He does not know me.", {(1, 2)}),
        # a ship is "she", if nobody nearer is
        ("There is a cat. A boat comes past. I rang at her.", {(1, 2)}),
        ("A boat comes past. Ada slept. I sang to her.", {(1, 2)}),
        # a month is nobody
        ("My father slept. One night in November I woke. He smiled.", {(0, 2)}),
    ],
)
def test_what_a_line_points_back_to(lines: str, pairs: set[tuple[int, int]]) -> None:
    texts = [f"{line}." for line in lines.removesuffix(".").split(". ")]
    assert {(each.early, each.late) for each in references(texts) if each.cost >= 40} == pairs


@pytest.mark.parametrize(
    ("before", "text"),
    [
        ("Who would tell him?", "The mate would."),
        ("He asks me every day.", "I never ask."),
        ("I was early.", "Not once."),
        ("I weighed the cat.", "But nobody laughed."),
        ("He lost the oar.", "That is why I row."),
        ("He lost the oar.", "I like that."),
        ("He lost the oar.", "After that I rowed alone."),
        ("I should have been angry.", "I wasn't."),
        ("She sang.", "So did I."),
        ("The first sack was wet.", "The second was dry."),
        ("She lit the lamp.", "Four minutes by the book."),
        ("He counts the sacks:", "There are nine of them here."),
        ("He looked at me.", "“Why do you need to know?”"),
        ("Somebody must row.", "I can't ask you to."),
        ("You look well.", "I say it to the mate."),
        ("Suppose it was not a clock.", "Then somebody sits there."),
        ("Yes.", "Did I?"),
        ("She asked me what she owed me.", "I said, nothing."),
        ("It isn't so that she can find us.", "It's so that I can say it."),
        ("He says that it was not because of me.", "It was because of the damp."),
        ("No, she's not my sister.", "She is the one who rang the bell."),
        ("You can light it tonight.", "Mind the glass."),
    ],
)
def test_a_line_that_leans_on_the_one_before(before: str, text: str) -> None:
    assert on_before(before, text, "en") >= 40
    assert on_before("I weighed salt.", "I carry a lamp in the rain.", "en") == 0


@pytest.mark.parametrize(
    "text",
    [
        "I carry a lamp in the rain.",
        "The ferry leaves at ten.",
        "My mother taught me on the kitchen table.",
        "I know that he came.",
        "That lamp was mine.",
        "Nobody weighed the bell.",
        "People think a lamp eats oil.",
    ],
)
def test_a_line_that_stands_by_itself(text: str) -> None:
    assert on_before("I weighed salt.", text, "en") == 0


def test_what_it_is_not_needs_what_it_is() -> None:
    assert on_after("It isn't a ferry.", "It's a shed.", announces=False) >= 60
    assert on_after("I'm not a keeper.", "I am a guest.", announces=False) >= 60
    assert on_after("It isn't a ferry.", "It isn't a shed.", announces=False) == 0
    assert on_after("It isn't a ferry.", "He's the mate.", announces=False) == 0
    assert on_after("It's a ferry.", "It's a shed.", announces=False) == 0


@pytest.mark.parametrize(
    "taken_back",
    ["That was not true.", "It wasn't even true.", "But that's a lie.", "I made it up."],
)
def test_what_is_taken_back_needs_that(taken_back: str) -> None:
    assert on_after("I said it was for the moths.", taken_back, announces=False) >= 60
    assert on_after("I said it was for the moths.", "That's no lie.", announces=False) == 0
    assert on_after("I am no fool.", "It isn't so that he sees us.", announces=False) == 0


def test_a_question_needs_its_answer() -> None:
    assert on_after("Who would tell him?", "Not the mate.", announces=False) >= 60
    assert on_after("Who would tell him?", "Who would?", announces=False) == 0
    assert on_after("I sang.", "She rowed.", announces=False) == 0
    assert on_after("She asked me what she owed me.", "I said, nothing.", announces=False) >= 60
    assert on_after("She asked me what she owed me.", "I rowed.", announces=False) == 0


def test_what_is_supposed_needs_what_follows_from_it() -> None:
    assert on_after("But suppose it was not a clock.", "Somebody waits.", announces=False) >= 60


@given(st.text(max_size=60))
def test_any_text(text: str) -> None:
    found = mentions(text)
    assert all(0 <= each.start < len(text) for each in found.named)
    assert all(each.early < each.late for each in references([text, "She saw it.", text]))
    assert on_before(text, text, "en") >= 0
