"""The alignment against every alignment there is, and what must hold of any."""

from collections.abc import Iterator, Sequence
from itertools import chain

from hypothesis import given
from hypothesis import strategies as st

from saywright.comparing.alignment import align
from saywright.comparing.chain import best_chain
from saywright.comparing.likeness import Words, letters, share, shared_letters

WORDS = ("i", "weigh", "salt", "ferry", "home")
sentences = st.lists(
    st.lists(st.sampled_from(WORDS), min_size=1, max_size=4).map(tuple), max_size=5
)
many = st.lists(st.lists(st.sampled_from(WORDS), min_size=1, max_size=6).map(tuple), max_size=40)


def worth(ones: Sequence[Words], twos: Sequence[Words]) -> int:
    """Of a match, as the docstrings tell it; zero of what may not match."""
    if len(ones) == 1 == len(twos):
        shared, alike = both(ones[0], twos[0])
        return round(1000 * shared * alike) if alike >= 0.5 else 0
    (whole,), halves = sorted((ones, twos), key=len)
    shared, alike = both(whole, halves[0] + halves[1])
    fits = all(shared_letters(whole, half) >= 0.65 * letters(half) for half in halves)
    return round(1000 * shared * alike) - 1 if fits and alike >= 0.75 else 0


def both(one: Words, two: Words) -> tuple[int, float]:
    shared = shared_letters(one, two)
    return shared, share(shared, letters(one), letters(two))


def every_worth(ones: Sequence[Words], twos: Sequence[Words]) -> Iterator[int]:
    """What each way to match them in order is worth."""
    if not ones or not twos:
        yield 0
        return
    yield from every_worth(ones[1:], twos)
    yield from every_worth(ones, twos[1:])
    for length, other in ((1, 1), (1, 2), (2, 1)):
        if length <= len(ones) and other <= len(twos):
            own = worth(ones[:length], twos[:other])
            if own:
                yield from (own + rest for rest in every_worth(ones[length:], twos[other:]))


@given(sentences, sentences)
def test_the_best_of_all(ones: list[Words], twos: list[Words]) -> None:
    found = best_chain(ones, twos)
    total = sum(
        worth([ones[index] for index in before], [twos[index] for index in after])
        for before, after in found
    )
    assert total == max(every_worth(ones, twos))


@given(many, many)
def test_each_sentence_is_in_one_match(ones: list[Words], twos: list[Words]) -> None:
    found = align(ones, twos)
    assert sorted(chain(*(match.before for match in found))) == list(range(len(ones)))
    assert list(chain(*(match.after for match in found))) == list(range(len(twos)))
    staying = [match.before for match in found if not match.moved and match.after and match.before]
    assert staying == sorted(staying)


@given(many, many)
def test_the_same_belong_together_whichever_comes_first(
    ones: list[Words], twos: list[Words]
) -> None:
    one_way = {(match.before, match.after, match.moved) for match in align(ones, twos)}
    other_way = {(match.after, match.before, match.moved) for match in align(twos, ones)}
    assert one_way == other_way


def test_what_is_too_long_to_align_at_once() -> None:
    """Two thousand sentences, none of which stands once: stretch by stretch, all the same."""
    ones = [("i", "weigh", str(number // 2)) for number in range(2000)]
    twos = ones[:700] + [("no", "more", "ferries")] * 2 + ones[700:]
    found = align(ones, twos)
    assert sum(not match.before for match in found) == 2
    assert all(ones[m.before[0]] == twos[m.after[0]] for m in found if m.before)
