"""Names of points: what is said for one must be that one."""

from __future__ import annotations

from string import ascii_uppercase

import pytest
from hypothesis import given
from hypothesis import strategies as st

from grammar import short_form, spoken_point, understand
from grammar.commands.readings import StrikePoint
from grammar.slots.point import ALPHABET, LETTERS

NAMES = st.builds(
    lambda letters, row: f"{letters}{row}",
    st.text(ascii_uppercase, min_size=1, max_size=2),
    st.integers(1, 99),
)


@given(NAMES)
def test_a_name_comes_back_however_it_is_said(name: str) -> None:
    letters = name.rstrip("0123456789")
    apart = " ".join((*letters, name[len(letters) :]))
    for said in (name, name.lower(), spoken_point(name), apart):
        (command,) = understand(f"strike {said}")
        assert command == StrikePoint(name), said


def test_a_column_comes_back_from_its_short_form() -> None:
    for letters in ("B", "AB", *(a + b for a in ascii_uppercase for b in "MNSTY"), "IN", "KG"):
        for said in (
            f"dam at column {' '.join(letters)}",
            f"step between {' '.join(letters)} and B",
        ):
            (command,) = understand(said)
            assert list(understand(short_form(command))) == [command], said


def test_in_capitals_after_column_two_letters_are_one_whatever_else_they_may_be() -> None:
    for letters in ("AM", "AT", "IN", "MM", "OK", "SO", "AB", "TO"):
        assert understand(f"dam at column {letters}") == understand(
            f"dam at column {letters[0]} {letters[1]}"
        ), letters
    # in a line all in capitals they are words as ever
    line = "column 0.4 by 0.4 metres at B2"
    assert understand(line.upper()) == understand(line)
    assert understand("COLUMN AT B2 0.4 BY 0.4 METRES") == understand(
        "column at B2 0.4 by 0.4 metres"
    )


def test_the_alphabet_has_a_word_for_each_letter() -> None:
    assert [word[0].upper() for word in ALPHABET] == list(ascii_uppercase)
    assert set(LETTERS.values()) == set(ascii_uppercase)


@pytest.mark.parametrize(
    ("said", "name"),
    [
        ("x ray four", "X4"),
        ("x-ray four", "X4"),
        ("whisky 12", "W12"),
        ("bravo one two", "B12"),
        ("bravo twelve", "B12"),
        ("juliette thirty one", "J31"),
    ],
)
def test_other_ways_to_say_it(said: str, name: str) -> None:
    (command,) = understand(f"strike {said}")
    assert command == StrikePoint(name)
