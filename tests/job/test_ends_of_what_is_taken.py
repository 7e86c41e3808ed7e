"""The last value of each kind that a job takes, and the first that it does not."""

from __future__ import annotations

import pytest

from assistant.decide import Question
from tests.job.conftest import Site

ROOM = ("room 6 by 4 metres", "grid 1 metre")
CONCRETE = ("floor is concrete",)


@pytest.mark.parametrize(
    ("before", "line"),
    [
        ((), "waste 0 percent"),
        ((), "waste 100 percent"),
        (ROOM, "fall 0 percent towards A1"),
        (ROOM, "fall 10 percent towards A1"),
        (CONCRETE, "moisture emission 0"),
        (CONCRETE, "moisture emission 50"),
        (CONCRETE, "pH 0"),
        (CONCRETE, "pH 14"),
        ((), "humidity 0.1 percent"),
        ((), "humidity 100 percent"),
        (CONCRETE, "slab humidity 100 percent"),
        ((), "air minus 30 degrees"),
        ((), "air 50 degrees"),
        ((), "slab minus 30 degrees"),
        ((), "air 122 degrees fahrenheit"),  # 50 °C, exact arithmetic
        ((), "air minus 22 degrees fahrenheit"),  # -30 °C
        ((), "bag costs 0.01"),
        ((), "bag costs 1000000"),
        ((), "accept weight because " + "a" * 300),
    ],
)
def test_the_last_that_is_taken(before: tuple[str, ...], line: str) -> None:
    floor = Site(*before)
    if line.startswith("accept"):
        # Long words are no reason to refuse; that nothing stands against the pour is.
        assert "Of the weight, nothing that words" in floor.refused(line)
        return
    assert floor.at_once(line).headline
    assert floor.job.history[-1].events


@pytest.mark.parametrize(
    ("before", "line", "why"),
    [
        ((), "waste 101 percent", "Waste is from 0 to 100 percent, not 101 %"),
        ((), "waste 100.1 percent", "not 100.1 %"),
        (ROOM, "fall 10.1 percent towards A1", "A fall is from 0 to 10 %, not 10.1 %"),
        (CONCRETE, "moisture emission 50.1", "Moisture emission is from 0 to 50 pounds"),
        (CONCRETE, "pH 14.1", "A pH is from 0 to 14, not 14.1"),
        ((), "humidity 0 percent", "more than 0 and at most 100 percent, not 0 %"),
        ((), "humidity 100.1 percent", "not 100.1 %"),
        (CONCRETE, "slab humidity 101 percent", "not 101 %"),
        ((), "air minus 31 degrees", "-31 °C: it is from -30 to 50, as in air 21"),
        ((), "slab 51 degrees", "51 °C: it is from -30 to 50, as in slab 17 degrees"),
        ((), "air 123 degrees fahrenheit", "123 °F: it is from -22 to 122"),
        ((), "air minus 23 degrees fahrenheit", "-23 °F: it is from -22 to 122"),
        ((), "bag costs 0", "A bag costs more than nothing"),
        ((), "bag costs 1000001", "at most 1000000"),
        ((), "accept weight because " + "a" * 301, "at most 300 characters"),
    ],
)
def test_the_first_that_is_not(before: tuple[str, ...], line: str, why: str) -> None:
    assert why in Site(*before).refused(line)


@pytest.mark.parametrize(
    ("said", "meant"), [("70", True), ("122", True), ("123", False), ("minus 40", False)]
)
def test_fahrenheit_is_named_where_it_would_do(said: str, meant: bool) -> None:
    told = Site().refused(f"air {said} degrees")
    assert ("If it was Fahrenheit, say so" in told) is meant


# --- the room ------------------------------------------------------------------------------


def _walls(gap_mm: int, size_m: float) -> tuple[str, ...]:
    """A square whose last wall is so much too short."""
    size = int(size_m * 1000)
    return (f"wall east {size} mm", f"wall north {size} mm", f"wall west {size} mm",
            f"wall south {size - gap_mm} mm")  # fmt: skip


@pytest.mark.parametrize(
    ("size_m", "gap_mm", "asked"),
    [
        # a centimetre, or half a percent of the way round (common practice, no source)
        (0.4, 10, False),
        (0.4, 11, True),
        (4, 79, False),  # 15.921 m round: 79.6 mm
        (4, 80, True),  # 15.920 m round: 79.6 mm
    ],
)
def test_a_gap_between_walls_is_error_up_to_a_bound(
    size_m: float, gap_mm: int, asked: bool
) -> None:
    answer = Site(*_walls(gap_mm, size_m)).unconfirmed("close room")
    assert isinstance(answer, Question) is asked


def test_two_walls_are_the_fewest() -> None:
    assert "One wall makes no room" in Site("wall east 4 metres").refused("close room")
    two = Site("wall east 4 metres", "wall north 3 metres")
    assert isinstance(two.unconfirmed("close room"), Question)


@pytest.mark.parametrize(
    ("room", "taken"),
    [
        ("99 by 99", True),  # 100 by 100 at most, with one at each end
        ("99.5 by 99", False),
        ("100 by 99", False),
    ],
)
def test_a_grid_has_ten_thousand_points_at_most(room: str, taken: bool) -> None:
    floor = Site(f"room {room} metres")
    if taken:
        assert floor.at_once("grid 1 metre").headline
    else:
        assert "more than 10,000 points" in floor.refused("grid 1 metre")


@pytest.mark.parametrize(("start", "taken"), [("0 metres", True), ("1 mm", True)])
def test_a_grid_may_start_in_the_corner(start: str, taken: bool) -> None:
    assert bool(Site("room 6 by 4 metres").at_once(f"grid 1 metre starting {start}")) is taken


@pytest.mark.parametrize(("along", "moved"), [("3001.1 mm", True), ("3000.9 mm", False)])
def test_a_point_has_moved_from_a_millimetre_on(along: str, moved: bool) -> None:
    floor = Site("room 6 by 4 metres", "point K1 at 3000 mm by 2000 mm", "K1 -18")
    for place in (f"point K1 at {along} by 2000 mm", f"point K1 at 2000 mm by {along}"):
        if place.startswith("point K1 at 2000"):
            floor = Site("room 6 by 4 metres", "point K1 at 2000 mm by 3000 mm", "K1 -18")
        assert isinstance(floor.unconfirmed(place), Question) is moved


# --- parts of an inch in a job of millimetres ------------------------------------------------


@pytest.mark.parametrize(
    ("line", "asked"),
    [
        ("A1 half low", "is it 1/2 of an inch?"),
        ("A1 3/8 low", "is it 3/8 of an inch?"),
        ("A1 1 1/4 low", "is it 1 1/4 inches?"),
        ("A1 4 3/4 low", "is it 4 3/4 inches?"),
        ("A1 one and a half low", None),
        ("A1 4 1/2 low", None),
    ],
)
def test_only_a_half_beside_a_whole_number_is_taken_for_millimetres(
    line: str, asked: str | None
) -> None:
    answer = Site(*ROOM).unconfirmed(line)
    if asked is None:
        assert not isinstance(answer, Question)
    else:
        assert isinstance(answer, Question)
        assert asked in answer.text


# --- the aggregate ---------------------------------------------------------------------------


@pytest.mark.parametrize(("percent", "taken"), [("0.1", True), ("50", True), ("50.1", False)])
def test_a_card_tells_how_much_aggregate_it_takes(percent: str, taken: bool) -> None:
    floor = Site(*ROOM, "product example standard")
    assert floor.job.card is not None
    assert floor.job.card.max_aggregate_percent == 50
    if taken:
        floor.told(f"aggregate {percent} percent")
        assert str(floor.job.aggregate_percent) == percent
    else:
        assert "allows aggregate up to 50 %" in floor.refused(f"aggregate {percent} percent")


@pytest.mark.parametrize(
    "before",
    [
        (),
        ("product example gypsum",),  # its card allows none
        ("product example standard", "aggregate 50 percent"),
    ],
)
def test_no_percent_of_aggregate_is_a_neat_mix(before: tuple[str, ...]) -> None:
    floor = Site(*ROOM, *before)
    assert floor.at_once("aggregate 0 percent").headline == "Poured neat, no aggregate."
    assert floor.job.aggregate_percent == 0


# --- what is said of a change that moves points -------------------------------------------------


@pytest.mark.parametrize(
    ("read", "told"),
    [
        (("A1 -18",), "moves 1 point that has been read: A1. Its reading stays with the name."),
        (
            ("A1 -18", "B1 -17"),
            "moves 2 points that have been read: A1 and B1. Their readings stay with the name.",
        ),
    ],
)
def test_one_reading_stays_and_several_stay(read: tuple[str, ...], told: str) -> None:
    assert told in Site(*ROOM, *read).asked("grid 1.5 metres").text


@pytest.mark.parametrize(("percent", "kept"), [("50", "50"), ("50.1", "0")])
def test_another_product_keeps_the_aggregate_that_it_takes(percent: str, kept: str) -> None:
    # the deep fill takes 100 percent, the standard one 50
    floor = Site(*ROOM, "product example deep fill", f"aggregate {percent} percent")
    floor.told("product example standard")
    assert str(floor.job.aggregate_percent) == kept
