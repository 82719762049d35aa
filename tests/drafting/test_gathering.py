"""Kept lines gathered: what is put in, what is not brought twice, and where each line came from."""

from itertools import pairwise, permutations
from pathlib import Path

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from saywright.analysis import Analysis, analyse
from saywright.drafting import flow
from saywright.drafting.gathering import gather, new_lines
from saywright.drafting.kept_lines import kept_lines, paragraphs_of, words_of
from saywright.drafting.origins import origins, told_draft
from saywright.finding import applied
from saywright.markup.paragraphs import read_paragraph
from saywright.markup.tree import Breath, Direction, Paragraph, Part, Range, Span
from saywright.project import Project
from tests.cases import Case, read_cases
from tests.strategies import PIECES

KEPT = (
    "---- draft: a\n",
    "---- draft: a\n",
    "---- draft\n",
    "---- piece: b\n",
    "__We rowed home.__ ",
    "__Ada sang *once*,\n",
    "and Joss did.__ ",
    "__She never says__ ",
    "We rowed home. ",
    "__Why? (beat)__ ",
    "__She ~~(2s) *never*~~ sang | *off* ~~key~~.__ ",
    "~~We rowed (beat) __*home*, Joss.__ And sang.~~ ",
    "# from draft “a”\n",
)
drafts = st.lists(st.sampled_from((*PIECES, *KEPT * 3)), max_size=24).map(
    lambda lines: "---- draft: b\n__The needle moved.__\n\n" + "".join(lines)
)
"""Scripts dense with kept lines, one of them at least in a draft."""

CASES = read_cases(Path(__file__).with_name("gathering.txt"))


def pieces(analysis: Analysis) -> list[Part]:
    return [part for part in analysis.parts if part.kind == "piece"]


@pytest.mark.parametrize("case", CASES, ids=str)
def test_gathering(case: Case) -> None:
    text = case.text if "without a line end" in case.name else f"{case.text}\n"
    analysis = analyse(text)
    last = pieces(analysis)[-1:]
    found = gather(analysis, *last, flow=case.name.startswith("flow"))
    after = applied(text, found.fix.edits) if found else text
    told = [f"{found.fix.title} → {found.fix.edits[0].text}" if found else "nothing"]
    told += [
        f"{after[each.start : each.end]} ← {after[each.kept.start : each.kept.end]}"
        for each in origins(analyse(after))
    ]
    assert [each.replace("\n", "⏎") for each in told] == list(case.expected)


def gathered_into(text: str, number: int, *, flow: bool) -> tuple[str, int] | None:
    """The text after gathering into a piece by number (a new one past the last), and which piece
    that is."""
    analysis = analyse(text)
    into = [*pieces(analysis), None][number % (len(pieces(analysis)) + 1)]
    found = gather(analysis, into, flow=flow)
    if not found:
        return None
    after = applied(text, found.fix.edits)
    return after, pieces(analysis).index(into) if into else len(pieces(analyse(after))) - 1


@given(drafts, st.integers(0, 9), st.booleans())
def test_every_kept_line_is_there_once_and_all_else_stays(
    text: str, number: int, flow: bool
) -> None:
    before = analyse(text)
    done = gathered_into(text, number, flow=flow)
    assume(done)
    assert done
    analysis = analyse(done[0])
    into = pieces(analysis)[done[1]]
    kept = [line.words for line in kept_lines(before)]
    assert [line.words for line in kept_lines(analysis)] == kept
    assert gather(analysis, into, flow=flow) is None
    assert set(kept) <= {each.kept.words for each in origins(analysis) if each.part == into}
    assert len(analysis.parts) - len(before.parts) in {0, 1}
    others = [part for part in before.parts if part.kind != "piece"]
    assert [(part.kind, part.label) for part in analysis.parts if part.kind != "piece"] == [
        (part.kind, part.label) for part in others
    ]
    assert is_in_order(text, done[0])


@given(drafts)
def test_a_kept_line_keeps_its_marks(text: str) -> None:
    analysis = analyse(text)
    for part in analysis.parts:
        for start, paragraph in paragraphs_of(analysis, part):
            if part.kind == "draft" and not any(p.check == "open-mark" for p in paragraph.problems):
                for line in kept_lines(analysis, part):
                    if start <= line.start < start + len(paragraph.text):
                        read = read_paragraph(line.text)
                        inside = Range(line.start - start, line.end - start)
                        assert marks_of(read, Range(0, len(read.text))) == marks_of(
                            paragraph, inside
                        )


def marks_of(paragraph: Paragraph, where: Range) -> list[str]:
    """The silences in a stretch, and the stressed words of the stresses that lie in it."""
    marks: list[Direction | Breath] = [*paragraph.directions, *paragraph.breaths]
    found = [paragraph.text[each.start : each.end] for each in marks if is_in(each, where)]
    for span in paragraph.spans:
        if span.kind == "stress" and is_in(span, where):
            start, end = (paragraph.plain_of(edge) for edge in span.inner)
            found.append(" ".join(paragraph.plain[start:end].split()))
    return sorted(" ".join(each.split()) for each in found)


def is_in(mark: Direction | Breath | Span, where: Range) -> bool:
    return where.start <= mark.start and mark.end <= where.end


def is_in_order(some: str, all_of: str) -> bool:
    rest = iter(all_of)
    return all(each in rest for each in some)


@given(drafts)
def test_an_origin_says_the_same_words(text: str) -> None:
    analysis = analyse(text)
    for each in origins(analysis):
        assert each.part.kind == "piece"
        assert each.part.start <= each.start < each.end <= each.part.end
        assert each.kept.draft.kind == "draft"
        assert text[each.kept.start : each.kept.end].startswith("__")
        written = text[each.start : each.end]
        if not each.reworded and not any(mark in written for mark in "()|*_~\\#"):
            assert words_of(written) == each.kept.words


@given(
    st.integers(2, 6).flatmap(
        lambda count: st.lists(
            st.lists(st.integers(-40, 60), min_size=count, max_size=count),
            min_size=count,
            max_size=count,
        )
    )
)
def test_up_to_ten_lines_no_path_is_stronger(links: list[list[int]]) -> None:
    count = len(links)
    found = flow._best_path(links, 0)
    assert sorted(found) == list(range(count))

    def strength(path: tuple[int, ...]) -> int:
        return sum(links[one][other] for one, other in pairwise((0, *path)))

    best = max(strength(path) for path in permutations(range(1, count)))
    assert strength(tuple(found[1:])) == best
    good = flow._good_path(links, 0)
    assert sorted(good) == list(range(count))
    assert good[0] == 0


def test_many_lines_all_come_and_in_time() -> None:
    draft = "".join(f"__Sack {number} weighed {number * 7} kilos.__\n" for number in range(450))
    analysis = analyse(f"---- draft\n{draft}")
    found = gather(analysis, flow=True)
    assert found
    assert len(found.lines) == 450
    assert {line.start for line in found.lines} == {line.start for line in kept_lines(analysis)}


def test_of_one_draft_only() -> None:
    analysis = analyse("---- draft: a\n__We rowed.__\n---- draft: b\n__We sang.__\n")
    drafts = list(analysis.parts)
    assert [line.plain for line in new_lines(analysis, [], drafts[1])] == ["We sang."]
    found = gather(analysis, draft=drafts[0])
    assert found
    assert [line.plain for line in found.lines] == ["We rowed."]


def test_a_private_name_of_a_label_goes_no_further() -> None:
    project = Project(private_names=("Rosalind",))
    analysis = analyse("---- draft: for Rosalind\n__We rowed.__\n", project)
    assert told_draft(analysis, analysis.parts[0]) == "the draft"
    assert told_draft(analyse(analysis.text), analysis.parts[0]) == "draft “for Rosalind”"


def test_line_ends_are_those_of_the_file() -> None:
    text = "---- draft\r\n__We rowed.__\r\n---- piece\r\nI go.\r\n"
    analysis = analyse(text)
    found = gather(analysis, analysis.parts[1])
    assert found
    assert applied(text, found.fix.edits) == f"{text}\r\n__We rowed.__\r\n# from the draft\r\n"
