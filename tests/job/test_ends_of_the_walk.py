"""Rows, columns and runs of readings: which points they are of, and when that is asked."""

from __future__ import annotations

import pytest

from assistant.decide import Question
from assistant.floor.walk import next_point, points_missing, points_skipped, skipped_words
from tests.job.conftest import Site

# Six columns and four rows, walked A1 to F1, then F2 back to A2, and so on.
FLOOR = ("room 12 by 8 metres", "grid 2 metres")
ROW_1 = tuple(f"{c}1 -15" for c in "ABCDEF")


@pytest.mark.parametrize(
    ("before", "line", "asked"),
    [
        ((), "row 1 -8 -9", False),  # the way the walk goes
        ((), "row 2 -8 -9", False),  # the walk is not there
        (ROW_1[:3], "row 2 -8 -9", False),
        (ROW_1, "row 2 -8 -9", True),  # the walk stands at F2
        (ROW_1, "row 2 -8 -9 -8 -9 -8 -9", True),
        (ROW_1, "row 1 -8 -9", False),
        (ROW_1, "row 3 -8 -9", False),
        (ROW_1, "column F -8 -9", False),
        ((*ROW_1, "go to A2"), "row 2 -8 -9", True),
        (("walk along columns",), "column A -8 -9", False),
        (("walk along columns", *(f"A{n} -15" for n in (1, 2, 3, 4))), "column B -8 -9", True),
    ],
)
def test_a_line_that_runs_against_the_walk_is_asked_about(
    before: tuple[str, ...], line: str, asked: bool
) -> None:
    floor = Site(*FLOOR, *before)
    answer = floor.unconfirmed(line)
    assert isinstance(answer, Question) is asked
    if isinstance(answer, Question):
        assert f"go on one by one from {next_point(floor.job)}" in answer.text


@pytest.mark.parametrize(
    ("line", "points"),
    [
        ("row 3 -8 -9 -7", ["A3", "B3", "C3"]),
        ("column C -8 -9", ["C1", "C2"]),
        ("column C -8 -9 -7 -6", ["C1", "C2", "C3", "C4"]),
        ("-8, -9, -7", ["A1", "B1", "C1"]),
    ],
)
def test_values_are_of_points_in_order_from_the_beginning(line: str, points: list[str]) -> None:
    floor = Site(*FLOOR, line)
    assert list(floor.job.readings) == points
    assert [float(reading.mm) for reading in floor.job.readings.values()] == [
        float(word.rstrip(",")) for word in line.split() if word.startswith("-")
    ]


def test_a_row_of_more_than_nine_goes_by_numbers_and_not_by_letters() -> None:
    floor = Site("room 20 by 24 metres", "grid 2 metres", "column A " + "-8 " * 11 + "-20")
    assert list(floor.job.readings)[-3:] == ["A10", "A11", "A12"]


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("row 2 " + "-8 " * 7, "Row 2 has 6 points, A2 to F2; 7 readings were said."),
        ("column C " + "-8 " * 5, "Column C has 4 points, C1 to C4; 5 readings were said."),
        ("A1 -8, B1 -9, A1 -7", "A1 is named twice."),
    ],
)
def test_what_does_not_go_on_the_points_is_refused_whole(line: str, told: str) -> None:
    assert told in Site(*FLOOR).refused(line)


def test_more_values_than_points_that_are_left_are_refused() -> None:
    rest = [f"{c}{r} -15" for r in (1, 2, 3, 4) for c in "ABCDEF"]
    rest = [line for line in rest if line.split()[0] not in ("C4", "B4", "A4")]
    floor = Site(*FLOOR, *rest)
    assert "4 readings, and 3 points left on the walk" in floor.refused("-8, -9, -7, -6")
    floor.told("-15, -16, -15")
    assert points_missing(floor.job) == ()


@pytest.mark.parametrize(
    ("before", "then"),
    [
        ((), "F2"),
        (ROW_1, "A3"),
        ((*ROW_1, "F2 -15"), "A3"),
        (("F2 -15", "go to A1"), "E2"),  # the first of the next row that has no reading
        (("walk along columns",), "B4"),
        (("walk along columns", "B4 -15", "go to A1"), "B3"),
    ],
)
def test_the_next_row_begins_where_the_walk_enters_it(before: tuple[str, ...], then: str) -> None:
    floor = Site(*FLOOR, *before)
    floor.told("next column" if "walk along columns" in before else "next row")
    assert next_point(floor.job) == then


def test_after_the_last_row_there_is_none() -> None:
    assert "last of the rows" in Site(*FLOOR, "go to F4").refused("next row")


@pytest.mark.parametrize(
    ("count", "words"),
    [
        (0, ""),
        (1, "Not read, as said: A1 (“stove”). The surface bridges it."),
        (2, "Not read, as said: A1 (“stove”), B1 (“stove”). The surface bridges them."),
        (6, "F1 (“stove”). The surface bridges them."),
        (7, "F1 (“stove”) and 1 more. The surface bridges them."),
        (9, "F1 (“stove”) and 3 more. The surface bridges them."),
    ],
)
def test_points_that_cannot_be_read_are_told_with_the_reason(count: int, words: str) -> None:
    names = [f"{c}1" for c in "ABCDEF"] + ["F2", "E2", "D2"]
    floor = Site(*FLOOR, *(f"skip {name} because stove" for name in names[:count]))
    told = skipped_words(floor.job)
    assert told.endswith(words)
    assert bool(told) is bool(words)
    assert list(points_skipped(floor.job)) == names[:count]
    assert len(points_missing(floor.job)) == 24 - count


@pytest.mark.parametrize(
    ("before", "then"),
    [
        ((), "A1"),
        (("A1 -8",), "B1"),
        (("C1 -8",), "D1"),
        (("C1 -8", "strike C1"), "C1"),  # taken again before the walk goes on
        (("C1 -8", "skip D1 because stove"), "E1"),
        (("A4 -8",), "A1"),  # round to the start
        (("C1 -8", "go to E3"), "E3"),
        (("C1 -8", "go to E3", "E3 -8"), "F3"),
    ],
)
def test_where_a_value_without_a_point_goes(before: tuple[str, ...], then: str) -> None:
    assert next_point(Site(*FLOOR, *before).job) == then
