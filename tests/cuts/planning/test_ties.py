"""Lines that are set together, that say again what was said, and what happens in them."""

import pytest

from saywright.analysis import analyse
from saywright.cuts.planning.bonds import Leaning, leanings
from saywright.cuts.planning.echoes import echoes
from saywright.cuts.planning.material import Material, material_of
from saywright.cuts.planning.plans import Planned, plan
from saywright.cuts.planning.predicates import events, predicates
from saywright.cuts.planning.problem import Bond
from saywright.cuts.planning.ties import ties


def material(text: str) -> Material:
    analysis = analyse(text)
    return material_of(analysis, analysis.views[0], 1.0)


def tied(text: str, *, verse: bool = False) -> set[tuple[int, int]]:
    """Lines that cost much to keep without another."""
    lines = material(text).piece.lines
    return {(each.stays, each.without) for each in ties(lines, "en", verse=verse)}


def leaning(text: str) -> Leaning:
    found = material(text)
    return leanings(found.piece.lines, found.worth, "en")


def echoed(text: str) -> set[tuple[int, int]]:
    found = material(text)
    return {(each.early, each.late) for each in echoes(found.piece.lines, found.worth, "en")}


@pytest.mark.parametrize(
    ("text", "pairs"),
    [
        # a number and what it numbers
        (
            "One. The rope. It is wet. Two. The lamp.",
            {(0, 1), (1, 0), (2, 1), (3, 4), (4, 3)},
        ),
        ("I have three. The rope is wet. Two. I sing.", set()),  # one number is no list
        ("Firstly, I rowed. It rained. Secondly, I sang. Thirdly, I slept.", {(2, 0), (3, 2)}),
        # things that are counted, and in turn
        (
            "I come for two things. I come for salt. And I come for bread.",
            {(0, 1), (1, 0), (1, 2), (2, 1)},
        ),
        ("I come for two things. I like salt. They come for bread.", set()),
        (
            "The first year I rowed. The second year I sang. I slept.",
            {(0, 1), (1, 0), (1, 0), (2, 1)},
        ),
        # what a line tells was when, in its paragraph
        ("On Thursday a man came. I slept. I row.", {(1, 0), (2, 0)}),
        ("On Thursday a man came.\n\nI slept. I row.", set()),
        ("I sang. Every evening, out loud. I slept.", set()),
        # what comes after a question that opens a paragraph answers it
        ("My faults? I snore. I sing.", {(1, 0), (2, 0)}),
        ("I sang. My faults? I snore. I sing.", set()),
        # both marks of a quotation
        ('"I am here. I sat on the wall." He went.', {(0, 1), (1, 0)}),
        ("He said: “I row. I sing. I sleep.” I laughed.", {(0, 1), (1, 0), (1, 2), (2, 0)}),
        ('"I am here." "I sat on the wall."', set()),
        ('"I am here.\n\n"I sat on the wall."', set()),
    ],
)
def test_what_is_set_together(text: str, pairs: set[tuple[int, int]]) -> None:
    assert tied(text) == pairs


def test_sentences_that_share_a_line_of_verse() -> None:
    text = "form: verse\n\nI lit the lamp. I rowed to Ness\nwith salt. The wind was cold.\nI slept."
    assert tied(text, verse=True) == {(0, 1), (1, 0), (1, 2), (2, 1)}


def test_a_sentence_that_runs_on_into_the_next_stanza() -> None:
    text = "form: verse\n\nI lit the lamp and rowed\n\nto Ness with salt.\n\nI slept."
    assert tied(text, verse=True) == {(0, 1), (1, 0)}


@pytest.mark.parametrize(
    ("text", "pairs"),
    [
        ("I keep a gull. We sang. You keep that.", set()),  # of everyday use
        ("I raised my hand. We sang. He shook hands.", set()),
        ("I keep a gull. We sang. My gull slept.", {(0, 2)}),
        ("She laughed at him. It rained. She never laughs at him again.", {(0, 2)}),
        ("He said: look longer. It rained. I looked longer.", {(0, 2)}),
        ("I sang to her. He sings to her. It rained. I still sing.", {(0, 3)}),
        (
            "I rowed and counted. I lost count. It rained. I never finished counting.",
            {(0, 1), (0, 3)},
        ),
    ],
)
def test_what_is_said_again(text: str, pairs: set[tuple[int, int]]) -> None:
    assert echoed(text) == pairs


def test_what_a_kept_line_needs_is_worth_more() -> None:
    text = "She laughed at him. It rained. {}She never laughed at him again.{} I row."
    assert leaning(text.format("__", "__")).needed[0] >= 100
    assert leaning(text.format("", "")).needed[0] == 0


def test_a_line_that_stays_in_any_plan_has_no_bonds() -> None:
    rest = "I weighed the salt of the whole long winter in the rain by myself. " * 4
    found = leaning(f"Ada came. I row to the mainland. She sang. {rest}")
    assert not any(bond.early == 0 for bond in found.bonds)
    assert found.needed[0] >= 80
    found = leaning(f"I slept. Ada came. I row to the mainland. She sang. {rest}")
    assert Bond(1, 3, 80) in found.bonds


def test_a_thing_that_is_brought_in_is_needed_by_the_thing() -> None:
    text = "He mended it with {} needle. We sang. He wore the needle."

    def cost(article: str) -> int:
        return sum(bond.cost for bond in leaning(text.format(article)).bonds)

    assert cost("a") > cost("the")


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("She turned round, and the ice let go.", {"turn round", "let go"}),
        ("It was she who pulled him out.", {"pull out"}),
        ("He was cold.", set()),
        ("I lost count at thirty.", {"lose"}),
    ],
)
def test_what_is_told_to_happen(text: str, told: set[str]) -> None:
    assert predicates(text, "en") == told


def test_events_are_what_was_done_once() -> None:
    assert events("She pulled him out and ran.", "en") == 2
    assert events("He was cold. I think of him.", "en") == 0
    assert events("Every morning she raked the pan.", "en") == 0


def test_a_line_with_a_new_verb_says_something_new() -> None:
    text = "She pulled and he pulled. I sang. I row. It was she who pulled him out."
    found = material(text)
    assert found.worth[3].new == 0
    assert found.worth[3].new_told == 1


def test_the_words_of_the_title_weigh_more() -> None:
    text = "title: {}\n\nI sang. The ledger is gone. I slept. We rowed."
    titled, other = (
        material(text.format(each)).worth[1].points for each in ("The Ledger", "A Song")
    )
    assert titled > other


def planned(text: str, share: float) -> Planned:
    analysis = analyse(text)
    view = analysis.views[0]
    return plan(analysis, view, view.timeline.seconds * share)


def test_a_reason_is_true_of_every_plan_that_has_it() -> None:
    text = (
        "Ada lit a lamp. I slept in the boat. She rang a bell. The inspector came at ten. "
        "He laughed at the bell. We rowed to the mainland for salt. She never told me why. "
        "Nobody weighed the wagons. The bell was green. I sang to the gulls all night."
    )
    found = planned(text, 0.6)
    assert len(found.plans) == 3
    for each in found.plans:
        gone = {cut.line for cut in each.cuts if not cut.trim}
        for cut in each.cuts:
            if "first says “bell”" in cut.why:
                assert 2 in gone
            if "nothing that stays needs it" in cut.why:
                assert cut.line + 1 not in {4} or 4 in gone
