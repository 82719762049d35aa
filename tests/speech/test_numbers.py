"""English numbers, against num2words."""

from hypothesis import given
from hypothesis import strategies as st
from num2words import num2words

from saywright.speech import numbers

MANY = st.one_of(st.integers(0, 10**4), st.integers(0, 10**21 - 1))


def _reference(number: int, to: str) -> str:
    return str(num2words(number, to=to)).replace(",", "")


@given(MANY)
def test_cardinals(number: int) -> None:
    assert " ".join(numbers.cardinal(number, with_and=True)) == _reference(number, "cardinal")


@given(MANY)
def test_ordinals(number: int) -> None:
    assert " ".join(numbers.ordinal(number, with_and=True)) == _reference(number, "ordinal")


@given(MANY)
def test_without_and(number: int) -> None:
    with_and = numbers.cardinal(number, with_and=True)
    assert numbers.cardinal(number) == tuple(word for word in with_and if word != "and")


@given(st.integers(1000, 2999))
def test_years(year: int) -> None:
    reference = _reference(year, "year").replace("oh-", "oh ").replace(" and", "")
    assert " ".join(numbers.year(year)) == reference


def test_a_number_too_long_to_name_is_said_digit_by_digit() -> None:
    assert numbers.cardinal(10**21) == ("one", *("zero",) * 21)


@given(st.integers(1, 3999))
def test_roman_numerals_are_read_back(number: int) -> None:
    signs = zip(
        (1000, 900, 500, 400, 100, 90, 50, 40, 10, 9, 5, 4, 1),
        ("M", "CM", "D", "CD", "C", "XC", "L", "XL", "X", "IX", "V", "IV", "I"),
        strict=True,
    )
    rest, text = number, ""
    for value, letters in signs:
        text += letters * (rest // value)
        rest %= value
    assert numbers.roman(text) == number


def test_what_is_no_roman_numeral() -> None:
    assert [numbers.roman(text) for text in ("", "IIX", "VV", "IC", "ABC", "iv")] == [0] * 6
