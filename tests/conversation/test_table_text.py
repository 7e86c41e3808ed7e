"""Tables as they look on a narrow screen."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.reply.replies import Table
from assistant.terminal.table_text import lay_out

CARDS = Table(
    "",
    ("Name", "Depth", "With aggregate", "Bag"),
    (
        ("example standard", "3 mm to 30 mm", "to 60 mm", "25 kg"),
        ("example skim", "1 mm to 10 mm", "none", "20 kg"),
    ),
)


def test_as_wide_as_it_is() -> None:
    assert lay_out(CARDS, 60) == [
        "Name                      Depth  With aggregate    Bag",
        "----------------  -------------  --------------  -----",
        "example standard  3 mm to 30 mm  to 60 mm        25 kg",
        "example skim      1 mm to 10 mm  none            20 kg",
    ]


def test_a_long_header_breaks_first() -> None:
    assert lay_out(CARDS, 50) == [
        "Name                      Depth  With          Bag",
        "                                 aggregate",
        "----------------  -------------  ----------  -----",
        "example standard  3 mm to 30 mm  to 60 mm    25 kg",
        "example skim      1 mm to 10 mm  none        20 kg",
    ]


def test_where_nothing_fits_each_row_stands_by_itself() -> None:
    assert lay_out(CARDS, 40)[:4] == [
        "example standard",
        "  Depth           3 mm to 30 mm",
        "  With aggregate  to 60 mm",
        "  Bag             25 kg",
    ]


def test_a_cell_that_is_long_goes_on_under_itself() -> None:
    table = Table("", ("Say", "What it is for"), (("a very long thing to say", "word " * 12),))
    assert lay_out(table, 24) == [
        "a very long thing to say",
        "    word word word word",
        "    word word word word",
        "    word word word word",
    ]


@given(
    st.lists(st.text("ab ", max_size=30), min_size=1, max_size=5),
    st.lists(st.text("ab 12", max_size=60), min_size=1, max_size=5),
    st.sampled_from([40, 60, 80]),
)
def test_no_line_is_wider_than_the_page(columns: list[str], row: list[str], width: int) -> None:
    table = Table("", tuple(columns), (tuple(row),))
    assert all(len(line) <= width for line in lay_out(table, width))


def test_sentences_are_wrapped_in_their_column() -> None:
    table = Table("", ("door", "what to do"), (("1", "Bevel the edge, or ask about a ramp."),))
    assert lay_out(table, 28) == [
        "door  what to do",
        "----  ----------------------",
        "1     Bevel the edge, or ask",
        "      about a ramp.",
    ]


@pytest.mark.parametrize("width", [40, 60, 80])
@pytest.mark.parametrize("rows", [0, 1, 12, 13, 500])
def test_no_line_too_long_and_no_row_lost(width: int, rows: int) -> None:
    table = Table("", ("point", "cut"), tuple((f"A{n}", f"{n} mm") for n in range(rows)))
    lines = lay_out(table, width)
    assert max(len(line) for line in lines) <= width
    shown = " ".join(lines).split()
    assert sum(word.startswith("A") for word in shown) == rows


def test_short_rows_are_filled_up() -> None:
    assert lay_out(Table("", ("a", "b"), (("x",),)), 60)[-1] == "x"
    assert lay_out(Table("", (), ()), 60) == []
