"""A value and the limit it was held against never look the same where they differ."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import UTC, datetime
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.conversation.conversation import Conversation
from assistant.decide import World
from assistant.limits.door_warnings import door_warnings
from assistant.limits.point_warnings import range_warning, spacing_warnings
from assistant.limits.pour_warnings import aggregate_warnings, depth_warnings
from assistant.products.cards import Card, cards_in, shipped_folder
from assistant.record.journal import Journal
from assistant.reply.replies import LimitWarning, Turn
from assistant.reply.side_by_side import figures, floor_distances, lengths, spoken_lengths
from tests.there import there

CARDS = cards_in(shipped_folder())
STANDARD = CARDS["example standard"]  # 3 to 30 mm, with aggregate to 60

UNITS = st.sampled_from(["mm", "in"])
LIMIT_MM = st.one_of(
    st.integers(1, 120).map(Fraction),
    st.integers(1, 1200).map(lambda tenths: Fraction(tenths, 10)),
    st.integers(1, 300).map(lambda parts: Fraction(parts * 127, 5 * 64)),  # 64ths of an inch
)
NEAR = st.one_of(
    st.just(Fraction(0)),
    st.builds(lambda n, e: Fraction(n, 10**e), st.integers(-99, 99), st.integers(0, 9)),
    st.builds(lambda n, e: Fraction(n * 127, 5 * 2**e), st.integers(-9, 9), st.integers(0, 6)),
)
"""How far a value lies from its limit, millimetres: mostly a hair."""

NUMBER = r"-?(?:\d+ )?\d+(?:/\d+|\.\d+)?"
LENGTH = re.compile(rf"(?<![\w.])(?:({NUMBER}) ft )?({NUMBER}) (mm|in|m|percent|%|ft|°C)(?![\w²])")


def worth(text: str) -> Fraction:
    """What a length that was shown comes to, in its own unit; feet in inches."""
    found = LENGTH.fullmatch(text)
    assert found, text
    feet, number, unit = found.groups()
    # The sign of "-1 15/16" is that of both its parts.
    size = sum((Fraction(part) for part in number.removeprefix("-").split()), Fraction(0))
    size = -size if number.startswith("-") else size
    return (12 * Fraction(feet) if feet else 0) + (12 * size if unit == "ft" else size)


def shown_in(text: str) -> list[Fraction]:
    """All the lengths and shares that a text shows, in the order it does."""
    return [worth(found.group()) for found in LENGTH.finditer(text)]


def sign(number: Fraction) -> int:
    return (number > 0) - (number < 0)


# --- the words for it ----------------------------------------------------------------


@given(LIMIT_MM, NEAR, UNITS)
def test_lengths_keep_the_order_that_was_found(limit: Fraction, off: Fraction, unit: str) -> None:
    # exact arithmetic
    value = limit + off
    shown = [worth(text) for text in lengths(unit, value, limit)]
    assert sign(shown[0] - shown[1]) == sign(off)
    assert (shown[0] == 0) == (value == 0)
    said = spoken_lengths(unit, value, limit)
    assert (said[0] == said[1]) == (abs(shown[0]) == abs(shown[1]))


@given(LIMIT_MM, NEAR, UNITS)
def test_distances_and_figures_too(limit: Fraction, off: Fraction, unit: str) -> None:
    far, near = (worth(text) for text in floor_distances(unit, limit + off, limit))
    assert sign(far - near) == sign(off)
    one, other = (Fraction(text) for text in figures(1, limit + off, limit))
    assert sign(one - other) == sign(off)


@pytest.mark.parametrize(
    ("unit", "mm", "shown"),
    [
        ("mm", (18, 3), ("18 mm", "3 mm")),
        ("mm", (17.5, 3), ("17.5 mm", "3 mm")),
        ("in", (Fraction(127, 8), 3), ("5/8 in", "1/8 in")),
        ("in", (Fraction(127, 5 * 64), 3), ("1/64 in", "1/8 in")),  # on a rule, as said
        ("in", (9.525, 10), ("3/8 in", "13/32 in")),
        ("mm", (0, 3), ("0 mm", "3 mm")),
        ("mm", (3, 3), ("3 mm", "3 mm")),
    ],
)
def test_no_more_digits_than_it_takes(
    unit: str, mm: tuple[float, ...], shown: tuple[str, ...]
) -> None:
    assert lengths(unit, *mm) == shown


# --- warnings ----------------------------------------------------------------------------


def card_with(least: Fraction, most: Fraction, mixed: Fraction | None) -> Card:
    with_aggregate = None if mixed is None else float(mixed)
    return replace(
        STANDARD, min_mm=float(least), max_mm=float(most), max_with_aggregate_mm=with_aggregate
    )


def contradicts(warning: LimitWarning) -> bool:
    """Whether the first two lengths of a warning stand in another order than its numbers."""
    shown, limit, *_ = shown_in(warning.message)
    return sign(shown - limit) != sign(
        Fraction(there(warning.value)) - Fraction(there(warning.limit))
    )


@given(LIMIT_MM, NEAR, UNITS, st.booleans(), st.sampled_from([0, 30]))
def test_depths_and_their_limits(
    limit: Fraction, off: Fraction, unit: str, of_minimum: bool, aggregate: int
) -> None:
    bounds = (limit, limit + 40, limit + 80) if of_minimum else (limit / 2, limit, None)
    card = card_with(*bounds)
    for warning in depth_warnings("B3", limit + off, card, aggregate, unit):
        if not warning.id.startswith("high-spot"):
            assert not contradicts(warning), warning.message


@given(LIMIT_MM, NEAR, UNITS)
def test_jambs_ranges_and_spacings(limit: Fraction, off: Fraction, unit: str) -> None:
    found = [
        *range_warning("B3", limit + off, limit, unit),
        *door_warnings(1, 3 + abs(off), unit=unit),
        *spacing_warnings(float(3 + abs(off)), replace(STANDARD, own_pin_spacing_m=3.0), unit),
        *aggregate_warnings(30 + abs(off), replace(STANDARD, max_aggregate_percent=30.0)),
    ]
    for warning in found:
        assert not contradicts(warning), warning.message


# --- said to the program -------------------------------------------------------------------

Say = Callable[..., Turn]


@pytest.fixture
def say() -> Iterator[Say]:
    with Journal.open(None) as journal:
        conversation = Conversation(
            journal, World(CARDS), clock=lambda: datetime(2026, 5, 4, 9, 0, tzinfo=UTC)
        )

        def said(*lines: str) -> Turn:
            for line in lines:
                turn = conversation.hear(line)
            return turn

        yield said


def test_sixteen_inches_in_a_job_of_millimetres(say: Say) -> None:
    asked = say("room 8 by 6 metres", "grid 2 metres", "B3 16 inches below").reply.ask or ""
    assert asked.startswith(
        "B3 16 in below? That is 406.4 mm, and a floor to be poured lies within 400 mm of the zero"
    )


def test_a_hair_beyond_what_is_believed(say: Say) -> None:
    # 400 mm are 15.748 in: exact arithmetic
    turn = say("readings in inches", "room 8 by 6 metres", "grid 2 metres", "B3 -15 3/4 in")
    assert "B3 15 3/4 in below? A floor to be poured lies within 15.748 in" in (
        turn.reply.ask or ""
    )
    assert "Far from the zero. Confirm?" in turn.reply.say


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("waste 100.001 percent", "0 to 100 percent, not 100.001 %"),
        ("fall 10.004 percent towards A1", "0 to 10 %, not 10.004 %"),
        ("humidity 100.001 percent", "at most 100 percent, not 100.001 %"),
        ("best plane within 10.001 percent", "not 10.001 %"),
        ("order risk 50.001 percent", "from 0.1 to 50 percent, not 50.001 %"),
    ],
)
def test_refusals_show_what_was_said(say: Say, line: str, told: str) -> None:
    turn = say("room 8 by 6 metres", "grid 2 metres", "product example standard", "A1 -18", line)
    assert not turn.ok
    assert told in turn.reply.headline


def test_tests_of_the_slab(say: Say) -> None:
    say("product example standard", "floor is concrete")
    for line, told in (
        ("slab humidity 75.001 percent", "Slab humidity is 75.001 %, over 75 %."),
        ("moisture emission 3.001", "Moisture emission is 3.001 lb, over 3 lb"),
        ("pH 10.001", "pH is 10.001, outside"),
        ("slab 9.99 degrees", "The slab is 9.99 °C, under the card's 10 °C."),
    ):
        say(line)
        reasons = " ".join(say("ready to pour").reply.details)
        assert told in reasons, line
