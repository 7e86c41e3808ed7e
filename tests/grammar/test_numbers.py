"""Numbers to words and back: a digit lost here would be a wrong height in the record."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from grammar import short_form, understand
from grammar.errors import Impossible
from grammar.figures import in_figures
from grammar.numbers import as_fraction, in_words, plain_number, spelled_digits, spoken_fraction
from grammar.slots.number import typed_number


@given(st.integers(0, 9_999))
def test_words_come_back_as_the_number(number: int) -> None:
    assert in_figures(in_words(number)) == str(number)
    assert in_figures(spelled_digits(Decimal(number))) == str(number)


@given(st.decimals(0, 999, places=2))
def test_a_decimal_is_spelled_figure_by_figure(number: Decimal) -> None:
    assert in_figures(spelled_digits(number)) == plain_number(number)


@given(st.decimals(allow_nan=False, allow_infinity=False))
def test_plain_figures_never_lose_a_digit_nor_show_an_exponent(number: Decimal) -> None:
    assert Decimal(plain_number(number)) == number
    assert "e" not in plain_number(number).lower()


@given(st.integers(0, 40), st.sampled_from((2, 4, 8, 16, 32, 64)), st.data())
def test_a_rule_s_fraction_is_found_in_its_lowest_terms(
    whole: int, bottom: int, data: st.DataObject
) -> None:
    top = data.draw(st.integers(1, bottom - 1))
    found = as_fraction(whole + Decimal(top) / bottom)
    assert found is not None
    assert found[0] == whole
    assert found[1] % 2 == 1
    assert Decimal(found[1]) / found[2] == Decimal(top) / bottom


@pytest.mark.parametrize("number", ["3", "0", "0.1", "2.3", "0.0078125"])
def test_what_is_no_fraction_of_a_rule_stays_a_decimal(number: str) -> None:
    assert as_fraction(Decimal(number)) is None


@pytest.mark.parametrize(
    ("parts", "said"),
    [
        ((0, 3, 4), "three quarters"),
        ((0, 1, 32), "one thirty second"),
        ((12, 63, 64), "twelve and sixty three sixty fourths"),
    ],
)
def test_fractions_are_said_in_one_or_in_many(parts: tuple[int, int, int], said: str) -> None:
    assert spoken_fraction(*parts) == said


def test_what_is_longer_than_any_number_on_a_floor_is_no_number() -> None:
    assert typed_number("123456789012") == Decimal(123456789012)
    with pytest.raises(Impossible, match="longer than any number"):
        typed_number("1234567890123")


def test_a_thousand_may_be_misspelt() -> None:
    for word in ("thousand", "tousand"):
        (command,) = understand(f"A1 minus one {word} two")
        assert short_form(command) == "A1 -1002"
