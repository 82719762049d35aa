"""Tokens as numbers: whatever is edited, what has changed leads from the old ones to the new."""

from collections.abc import Iterator
from itertools import pairwise

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from saywright.analysis import analyse
from saywright.colouring.token import TokenKind
from saywright.colouring.tokens import tokens
from saywright.finding import Edit, applied
from saywright.positions import Encoding, Lines
from saywright.protocol.token_runs import Change, Encoder, Look, Version, all_numbers, changes
from saywright.rereading import edited
from tests.strategies import scripts, texts

KINDS: tuple[TokenKind, ...] = TokenKind.__args__  # type: ignore[attr-defined]
LOOKS = {kind: Look(index, index + 1) for index, kind in enumerate(KINDS)}
PARAGRAPHS = (
    "I weigh the *salt*. | So.\n\n",
    "# a note\nI go __home__.\n\n",
    "Ines: (2s)\nI go.\n\n",
)
SEVERAL = "title: x\n\n# a\n\nI *go*. 😀 *So*.\n~~I go\nhome.~~ | So.\n"
edits = st.lists(
    st.tuples(st.floats(0, 1), st.integers(0, 30), st.one_of(scripts, st.just("a"))), max_size=5
)


def encoder(encoding: Encoding = Encoding.UTF_32) -> Encoder:
    return Encoder(LOOKS, encoding)


def version(text: str) -> Version:
    blocks = analyse(text).blocks
    return Version(blocks, encoder().runs(blocks))


def changed(numbers: list[int], made: list[Change]) -> list[int]:
    """As a client does it: every change counts on the numbers as they were."""
    numbers = list(numbers)
    for change in reversed(made):
        numbers[change.start : change.start + change.deleted] = change.numbers
    return numbers


def decoded(numbers: list[int]) -> Iterator[tuple[int, int, int, TokenKind]]:
    line = character = 0
    assert len(numbers) % 5 == 0
    for at in range(0, len(numbers), 5):
        down, right, length, kind, modifiers = numbers[at : at + 5]
        assert modifiers == kind + 1
        line, character = line + down, right if down else character + right
        yield line, character, length, KINDS[kind]


def placed(text: str, encoding: Encoding) -> Iterator[tuple[int, int, int, TokenKind]]:
    """The tokens of the whole, each with its position counted from the file's start."""
    lines, block_start = Lines(text), 0
    for item in analyse(text).blocks.items():
        for kind, *edges in tokens(item.block):
            start, end = (
                lines.position_from_offset(block_start + edge, encoding) for edge in edges
            )
            assert start.line == end.line
            yield *start, end.character - start.character, kind
        block_start += len(item.block.text)


@pytest.mark.parametrize("encoding", Encoding)
@given(texts)
@example(SEVERAL)
def test_every_token_is_where_it_stands(encoding: Encoding, text: str) -> None:
    numbers = all_numbers(encoder(encoding).runs(analyse(text).blocks))
    assert min(numbers, default=0) >= 0
    found = list(decoded(numbers))
    assert found == list(placed(text, encoding))
    for (line, character, length, _), following in pairwise(found):
        assert length > 0
        assert (line, character + length) <= following[:2]


@given(st.one_of(scripts, st.lists(st.sampled_from(PARAGRAPHS)).map("".join)), edits)
def test_changes_lead_from_old_to_new(text: str, several: list[tuple[float, int, str]]) -> None:
    analysis = analyse(text)
    old = Version(analysis.blocks, encoder().runs(analysis.blocks))
    for where, length, new in several:  # the client may ask only after the last of them
        start = int(where * len(text))
        edit = Edit(start, min(start + length, len(text)), new)
        analysis, text = edited(analysis, edit), applied(text, [edit])
    new_version = Version(analysis.blocks, encoder().runs(analysis.blocks, old))
    numbers = all_numbers(new_version.runs)
    assert numbers == all_numbers(version(text).runs)
    made = changes(old, new_version)
    assert changed(all_numbers(old.runs), made) == numbers
    for one, other in pairwise(made):
        assert one.start + one.deleted < other.start


@given(texts, texts)
def test_changes_between_any_two_texts(one: str, other: str) -> None:
    old, new = version(one), version(other)
    assert changed(all_numbers(old.runs), changes(old, new)) == all_numbers(new.runs)


def after(text: str, *several: Edit) -> list[Change]:
    analysis = analyse(text)
    old = Version(analysis.blocks, encoder().runs(analysis.blocks))
    for edit in several:
        analysis = edited(analysis, edit)
    return changes(old, Version(analysis.blocks, encoder().runs(analysis.blocks, old)))


def test_what_changes_no_token_changes_nothing() -> None:
    text = "".join(PARAGRAPHS) * 30
    assert after(text, Edit(text.index("So."), text.index("So.") + 2, "Yes")) == []


def test_a_letter_changes_its_own_line_only() -> None:
    text = "".join(PARAGRAPHS) * 30
    [change] = after(text, Edit(1, 1, "n"))
    assert (change.start, change.deleted, len(change.numbers)) == (0, 5, 5)
    at = text.index("salt", len(text) // 2)
    [change] = after(text, Edit(at, at, "sea "))
    assert (change.deleted, len(change.numbers)) == (10, 10)  # what follows on the line moves


def test_a_line_more_changes_one_token() -> None:
    text = "".join(PARAGRAPHS) * 30
    at = text.index("I go", len(text) // 2)
    [change] = after(text, Edit(at, at, "Well.\n"))
    assert (change.deleted, len(change.numbers)) == (5, 5)
    assert change.numbers[0] == 2


def test_two_places_are_two_changes() -> None:
    text = "".join(PARAGRAPHS) * 30
    last = text.rindex("salt")
    made = after(text, Edit(last, last, "sea "), Edit(text.index("salt"), text.index("salt"), "s"))
    assert [(each.deleted, len(each.numbers)) for each in made] == [(10, 10), (10, 10)]


@given(texts, st.integers(0, 12), st.integers(0, 12))
@example(SEVERAL, 1, 9)
def test_a_range_holds_the_tokens_of_its_lines(text: str, first: int, more: int) -> None:
    blocks = analyse(text).blocks
    whole = decoded(all_numbers(encoder().runs(blocks)))
    within = list(decoded(encoder().between(blocks, first, first + more)))
    assert within == [each for each in whole if first <= each[0] <= first + more]


def test_only_what_is_known_is_shown() -> None:
    only = Encoder({"cut": Look(0, 2)}, Encoding.UTF_16)
    blocks = analyse("# 😀\n😀 *a* ~~b~~ | c\n").blocks
    assert all_numbers(only.runs(blocks)) == [1, 7, 5, 0, 2]
