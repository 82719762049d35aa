"""The balanced sequence against a plain list."""

from hypothesis import given
from hypothesis import strategies as st

from saywright.measured import Measured

splices = st.lists(
    st.tuples(st.integers(0, 40), st.integers(0, 9), st.lists(st.integers(1, 99), max_size=9)),
    max_size=30,
)


@given(st.lists(st.integers(1, 99), max_size=40), splices, st.integers(0, 50), st.integers(0, 300))
def test_it_is_a_list_with_sums(
    items: list[int], changes: list[tuple[int, int, list[int]]], index: int, bound: int
) -> None:
    measured = Measured[int, int](lambda item: item, 0, items)
    for start, length, new in changes:
        items[start : start + length] = new
        measured = measured.spliced(start, start + length, new)
        assert list(measured.items()) == items
        assert len(measured) == len(items)
        assert list(measured.items(index)) == items[index:]
        assert measured.sum == sum(items)
        assert measured.sum_between(start, start + 5) == sum(items[start : start + 5])
        found = measured.find(lambda so_far: so_far > bound, index)
        sums = [sum(items[index : end + 1]) for end in range(index, len(items))]
        past = next((i for i, so_far in enumerate(sums) if so_far > bound), None)
        assert (found.index - index if found else None) == past
        if found:
            assert found.item == items[found.index]
            assert found.before == sum(items[index : found.index])


@given(st.lists(st.integers(1, 3), max_size=40), splices)
def test_what_two_of_them_share(
    items: list[int], changes: list[tuple[int, int, list[int]]]
) -> None:
    """Small numbers are the very same where they are equal."""
    first, before = Measured[int, int](lambda item: item, 0, items), list(items)
    measured = first
    for start, length, new in changes:
        items[start : start + length] = new
        measured = measured.spliced(start, start + length, new)
    start, end = measured.shared_with(first)
    assert start + end <= min(len(items), len(before))
    assert (start, items[:start]) == (same(items, before), before[:start])
    at_end = same(items[::-1], before[::-1])
    assert end == min(at_end, len(items) - start, len(before) - start)


def same(one: list[int], other: list[int]) -> int:
    """How many are the same from the start on."""
    pairs = list(zip(one, other, strict=False))
    return next((at for at, (a, b) in enumerate(pairs) if a != b), len(pairs))
