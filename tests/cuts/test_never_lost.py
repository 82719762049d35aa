"""No edit that is offered loses a word, whatever came before it, and each can be undone."""

import re
from collections import Counter
from collections.abc import Callable, Iterator, Sequence

from hypothesis import assume, event, given
from hypothesis import strategies as st

from saywright.analysis import Analysis, analyse
from saywright.checks.check import View
from saywright.cuts import marking
from saywright.cuts.at_place import fixes_at
from saywright.cuts.planning.plans import plan
from saywright.cuts.restoring import cut_texts, restore_all, restore_file, restore_these
from saywright.cuts.taking_out import take_out
from saywright.cuts.trimming import trim, trims_in
from saywright.cuts.versions import make_version, origin_of, slots_to_offer, versions_of
from saywright.drafting.gathering import gather
from saywright.finding import Edit, Fix, applied
from saywright.markup.reader import read
from saywright.markup.tidying import tidying_edits
from saywright.markup.tree import Paragraph, Part, Range
from saywright.speech.paragraph_words import live_text
from saywright.speech.timeline import Placed
from saywright.speech.timing import Sentence
from tests.strategies import scripts, texts

_WORD = re.compile(r"[^\W_]+")

Find = Callable[[Analysis, int], Sequence[Edit]]
"""The edits of one thing that is offered somewhere in a script; the number chooses where."""


def sentences(analysis: Analysis) -> list[tuple[View, Placed, Sentence]]:
    return [
        (view, placed, sentence)
        for view in analysis.views
        for placed in view.timeline.paragraphs()
        for sentence in placed.timed.sentences
    ]


def shifted(fix: Fix | None, by: int = 0) -> Sequence[Edit]:
    return fix.shifted(by).edits if fix else ()


def at_a_sentence(
    offer: Callable[[Paragraph, Sentence, marking.Around], Fix | None],
) -> Find:
    def find(analysis: Analysis, number: int) -> Sequence[Edit]:
        places = sentences(analysis)
        first = number % max(len(places), 1)
        for view, placed, sentence in places[first:] + places[:first]:
            context = marking.around(view.timeline.part, placed)
            if fix := offer(placed.timed.paragraph, sentence, context):
                return shifted(fix, placed.start)
        return ()

    return find


def trimmed(paragraph: Paragraph, sentence: Sentence, _: marking.Around) -> Fix | None:
    return next((trim(paragraph, away) for away in trims_in(paragraph, sentence)), None)


def restored(paragraph: Paragraph, sentence: Sentence, around: marking.Around) -> Fix | None:
    return marking.restore(paragraph, Range(sentence.start, sentence.end), around)


def in_a_piece(offer: Callable[[Analysis, View], Fix | None]) -> Find:
    def find(analysis: Analysis, number: int) -> Sequence[Edit]:
        pieces = list(analysis.pieces)
        return shifted(offer(analysis, pieces[number % len(pieces)])) if pieces else ()

    return find


def planned(analysis: Analysis, view: View) -> Fix | None:
    plans = plan(analysis, view, 0.6 * view.timeline.seconds, 1).plans
    return Fix("Plan", plans[0].edits) if plans else None


def gathered(analysis: Analysis, number: int) -> Sequence[Edit]:
    pieces = [None, *(part for part in analysis.parts if part.kind == "piece")]
    found = gather(analysis, pieces[number % len(pieces)], flow=bool(number & 64))
    return found.fix.edits if found else ()


def versioned(analysis: Analysis, view: View) -> Fix | None:
    slots = slots_to_offer(analysis)
    return make_version(analysis, view.timeline.part, slots[0]) if slots else None


OFFERS: dict[str, Find] = {
    "cut": at_a_sentence(lambda paragraph, sentence, _: marking.cut(paragraph, sentence)),
    "keep": at_a_sentence(lambda paragraph, sentence, _: marking.keep(paragraph, sentence)),
    "trim": at_a_sentence(trimmed),
    "restore": at_a_sentence(
        lambda p, s, around: marking.restore(p, Range(s.start, s.end), around)
    ),
    "restore all": in_a_piece(lambda _, view: restore_all(view)),
    "restore the file": lambda analysis, _: shifted(restore_file(analysis)),
    "plan": in_a_piece(planned),
    "take out": in_a_piece(take_out),
    "version": in_a_piece(versioned),
    "gather": gathered,
    "format": lambda analysis, _: tidying_edits(analysis.text),
}


def words(text: str) -> list[str]:
    return _WORD.findall(text.casefold())


def spoken(text: str) -> list[str]:
    """The words of every paragraph, cut ones too."""
    return [
        word
        for block in read(text).blocks
        if isinstance(block, Paragraph)
        for word in words(block.plain)
    ]


def inverse(text: str, edits: Sequence[Edit]) -> Iterator[Edit]:
    """The edits that take `edits`, made on `text`, back."""
    moved = 0
    for edit in sorted(edits, key=lambda edit: (edit.start, edit.end)):
        start = edit.start + moved
        yield Edit(start, start + len(edit.text), text[edit.start : edit.end])
        moved += len(edit.text) - (edit.end - edit.start)


def is_in_order(some: Sequence[str], all_of: Sequence[str]) -> bool:
    rest = iter(all_of)
    return all(each in rest for each in some)


STEPS = st.lists(
    st.tuples(st.sampled_from(sorted(OFFERS)), st.integers(0, 127)), min_size=3, max_size=8
)
RICH = (
    "---- draft: a\n__We rowed home.__ It rained. __Forty *tonnes*__, he said.\n\n",
    "---- piece: b; slot 9s\nThe salt, which was wet, was mine. She, you know, hid it. (beat) ",
    "~~I sang.~~ __She never did.__\n\nThe ferry, the old one, came late. I waited.\n",
    "---- takes: b\n12s of 11s\n",
)
"""Lines in which every edit has something to do."""

rich_scripts = st.tuples(
    scripts, st.lists(st.sampled_from(RICH), min_size=1, max_size=4), texts
).map(lambda each: f"{each[0]}\n\n{''.join(each[1])}{each[2]}")


@given(rich_scripts, STEPS)
def test_no_sequence_of_edits_loses_a_word(text: str, steps: list[tuple[str, int]]) -> None:
    for name, number in steps:
        edits = OFFERS[name](analyse(text), number)
        if not edits:
            continue
        event(name)
        after = applied(text, edits)
        assert not Counter(words(text)) - Counter(words(after)), name
        assert is_in_order(spoken(text), spoken(after)), name
        assert applied(after, inverse(text, edits)) == text, name
        text = after


def uncut(text: str) -> str:
    return text.replace("~", "")


@given(rich_scripts.map(uncut), st.data())
def test_what_is_cut_and_trimmed_all_comes_back(text: str, data: st.DataObject) -> None:
    assume(sentences(analyse(text)))
    marked = text
    for name, number in data.draw(
        st.lists(
            st.tuples(st.sampled_from(["cut", "trim", "plan"]), st.integers(0, 99)),
            min_size=1,
            max_size=6,
        )
    ):
        marked = applied(marked, OFFERS[name](analyse(marked), number))
    assume(marked != text)
    after = analyse(marked)
    assert applied(marked, shifted(restore_file(after))) == text
    for view in analyse(text).pieces:
        part = view.timeline.part
        same = next(v for v in after.views if v.timeline.part.first_block == part.first_block)
        back = analyse(applied(marked, shifted(restore_all(same))))
        assert not any(
            p.timed.paragraph.cuts
            for p in back.views[after.views.index(same)].timeline.paragraphs()
        )


@given(rich_scripts.map(uncut), st.data())
def test_the_cuts_of_a_plan_come_back_and_no_others(text: str, data: st.DataObject) -> None:
    analysis = analyse(text)
    assume(any(view.timeline.stretch.sounds for view in analysis.pieces))
    index = data.draw(st.integers(0, len(analysis.views) - 1))
    view = analysis.views[index]
    plans = plan(analysis, view, 0.6 * view.timeline.seconds, 1).plans
    assume(plans and plans[0].cuts)
    texts = cut_texts(text, plans[0].edits)
    marked = applied(text, plans[0].edits)
    view = analyse(marked).views[index]
    fix = restore_these("Restore", view, texts)
    assert fix
    assert applied(marked, fix.edits) == text
    assert restore_these("Restore", view, (*texts, "what nobody cut")) is None


def performed(view: View) -> list[str]:
    """What is spoken of a part, word by word."""
    return [
        word
        for placed in view.timeline.paragraphs()
        for word in words(live_text(placed.timed.paragraph, 0, len(placed.timed.paragraph.plain)))
    ]


def others(analysis: Analysis, but: Part) -> list[tuple[str, str, float]]:
    return [
        (view.timeline.part.kind, view.timeline.part.label, view.timeline.seconds)
        for view in analysis.views
        if view.timeline.part.label != but.label
    ]


def part_made(before: Analysis, after: Analysis) -> View:
    """The one piece that is new."""
    labels = Counter(part.label for part in before.parts if part.kind == "piece")
    (made,) = [view for view in after.pieces if view.timeline.part.label not in labels]
    return made


@given(rich_scripts, st.data())
def test_a_piece_without_its_cuts_says_the_same_in_the_same_time(
    text: str, data: st.DataObject
) -> None:
    for number in data.draw(st.lists(st.integers(0, 99), max_size=4)):
        text = applied(text, OFFERS["cut"](analyse(text), number))
    before = analyse(text)
    for view in before.pieces:
        fix = take_out(before, view)
        if not fix:
            continue
        after = analyse(applied(text, fix.edits))
        made = part_made(before, after)
        assert performed(made) == performed(view)
        assert abs(made.timeline.seconds - view.timeline.seconds) < 0.05
        assert made.timeline.words == view.timeline.words
        assert others(after, made.timeline.part) == [
            (each.timeline.part.kind, each.timeline.part.label, each.timeline.seconds)
            for each in before.views
        ]
        left = any(placed.timed.paragraph.cuts for placed in made.timeline.paragraphs())
        event(f"a paragraph stays marked: {left}")


@given(rich_scripts)
def test_a_version_is_a_copy_that_knows_where_it_is_from(text: str) -> None:
    before = analyse(text)
    for number, view in enumerate(before.pieces):
        part = view.timeline.part
        slot = slots_to_offer(before)[0]
        fix = make_version(before, part, slot)
        assert fix
        after = analyse(applied(text, fix.edits))
        made = part_made(before, after).timeline.part
        old = [each for each in after.parts if each.kind == "piece"][number]
        assert made.settings.slot
        said = "\n".join(spoken_of(before, part))
        if part.start == 0:
            said = said.removeprefix("\ufeff")  # at a file's start it is none of its text
        assert "\n".join(spoken_of(after, made)).rstrip() == said.rstrip()
        assert origin_of(after, made) == old
        assert made in versions_of(after, old)
        assert slot not in slots_to_offer(after)
        assert make_version(before, part, "soon") is None


def spoken_of(analysis: Analysis, part: Part) -> list[str]:
    blocks = [each.block for each in analysis.blocks.items()][part.first_block : part.end_block]
    return [block.text.rstrip() for block in blocks if isinstance(block, Paragraph)]


def test_the_offers_are_those_at_a_place_too() -> None:
    offered = {fix.title for fix in fixes_at(analyse("~~I go.~~ I stay."), Range(3, 3))}
    assert "Restore what is cut here" in offered
