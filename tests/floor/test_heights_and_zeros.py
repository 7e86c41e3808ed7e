"""
Heights from one set-up and two, their errors, and checks of a zero, worked by hand.

One reading of the usual instrument has a standard deviation of sqrt(1² + 1² / 12) mm: it repeats
to a millimetre and shows whole ones. Exact arithmetic.
"""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from math import sqrt

import pytest

from assistant.floor.depths import depths_of, untied_points
from assistant.floor.heights import above_datum_mm, heights_of, survey_of
from assistant.floor.places import grid_of, whole_grid_of
from assistant.floor.places_in_words import door_places, place_words
from assistant.floor.plausible_range import farthest_mm, is_far_off
from assistant.floor.suspicion import height_meant, surface_near
from assistant.job.set_ups import Height
from grammar.commands import Measure
from grammar.commands.readings import CorrectReading, TakeReading
from tests.job.conftest import Site, command_of

FLOOR = ("room 12 by 8 metres", "grid 2 metres")
ONE = sqrt(13 / 12)
TIED = (*FLOOR, "A1 -18", "C1 -22", "new set up", "tie on C1 -60", "B1 -50")
"""The second zero is 38 mm above the first, by two readings of C1."""


def test_an_offset_is_taken_off_every_reading() -> None:
    for line, heights in (
        ("instrument offset plus 2 mm", {"A1": -20, "B1": 3}),
        ("instrument offset minus 2 mm", {"A1": -16, "B1": 7}),
    ):
        floor = Site(*FLOOR, line, "A1 -18", "B1 +5")
        assert survey_of(floor.job).heights_mm == heights
        assert depths_of(floor.job) == {name: -mm for name, mm in heights.items()}
        at_zero = Height(Measure(Decimal(-18), "mm"), Fraction(-18), 0)
        assert above_datum_mm(floor.job, at_zero) == heights["A1"]
    assert survey_of(Site(*FLOOR, "A1 -18").job).sd_mm == {"A1": pytest.approx(ONE)}


def test_errors_of_a_floor_read_from_two_set_ups() -> None:
    """B1 rests on three readings: its own, and the two of C1 that its zero comes from."""
    found = survey_of(Site(*TIED).job)
    assert found.heights_mm == {"A1": -18, "C1": -22, "B1": -12}
    assert list(found.zeros_mm) == [0, 38]
    assert found.zero_sd_mm == pytest.approx((0, sqrt(2) * ONE))
    assert found.sd_mm == pytest.approx({"A1": ONE, "C1": ONE, "B1": sqrt(3) * ONE})
    assert found.own_sd_mm == pytest.approx({"A1": ONE, "C1": ONE / sqrt(2), "B1": ONE})
    for point, shared in (("A1", 0), ("C1", ONE / sqrt(2)), ("B1", sqrt(2) * ONE)):
        assert found.shared_mm[point] == pytest.approx((shared,), abs=5e-6)
    assert [each[0] for each in found.zeros_shared_mm] == pytest.approx(
        [0, sqrt(2) * ONE], abs=5e-6
    )
    assert (found.misfits, found.untied, found.sigma0) == ((), (), None)


def test_a_tie_that_does_not_agree_is_told_by_how_much() -> None:
    """A1 and C1 put the zero 38 mm up, so that D1, 20 below, should read -58 and not -70."""
    found = survey_of(Site(*FLOOR, "A1 -18", "C1 -22", "D1 -20", "new set up", "tie on A1 -56",
                           "tie on C1 -60", "tie on D1 -70").job)  # fmt: skip
    assert {misfit.point for misfit in found.misfits} == {"D1"}
    assert {misfit.what: misfit.off_mm for misfit in found.misfits} == pytest.approx(
        {"D1 from set-up 1": 12, "tie on D1 from set-up 2": -12}
    )


def test_a_set_up_is_untied_once_something_is_read_from_it() -> None:
    for lines, untied, points in (
        (("new set up",), (), ()), (("new set up", "B1 -50"), (1,), ("B1",)),
        (("new set up", "B1 -50", "tie on A1 -56"), (), ()),
    ):  # fmt: skip
        job = Site(*FLOOR, "A1 -18", *lines).job
        assert survey_of(job).untied == untied, lines
        assert untied_points(job) == points
        assert set(heights_of(job)) == {"A1"} | ({"B1"} if "tie on A1 -56" in lines else set())


def test_one_look_that_was_misread_is_told_by_the_looks_around_it() -> None:
    """A benchmark at 40 reads 42, 60 and then 42 again: off by 2, 20 and 2, of which 3 are good."""
    for last, doubtful in (("42", {}), ("44", {}), ("46", {"B1": "step", "C1": "step"})):
        floor = Site(*FLOOR, "benchmark 1 at 40 mm above zero", "A1 -18",
                     "check benchmark 1 plus 42", "B1 -18", "check benchmark 1 plus 60", "C1 -18",
                     f"check benchmark 1 plus {last}")  # fmt: skip
        (watch,) = survey_of(floor.job).watches
        assert [seen.off_mm for seen in watch.seen] == [0, 2, 20, int(last) - 40]
        assert survey_of(floor.job).doubtful == doubtful, last
        # from one set-up alone nothing is said of which
        assert [misfit.what for misfit in survey_of(floor.job).misfits] == ["check on benchmark 1"]


def test_there_is_no_grid_without_a_room() -> None:
    layout = Site(*FLOOR, "wall east 5 metres").job.layout  # described anew, and not closed yet
    assert layout.grid is not None
    assert whole_grid_of(layout) is None
    assert grid_of(layout) is None
    assert whole_grid_of(Site(FLOOR[0]).job.layout) is None


def test_a_reading_is_of_the_present_set_up_and_a_correction_of_its_own() -> None:
    job = Site(*TIED).job
    for line, set_up in (("A1 -56", 1), ("correct A1 to -17", 0), ("B1 -51", 1),
                         ("correct B1 to -51", 1)):  # fmt: skip
        command = command_of(line)
        assert isinstance(command, TakeReading | CorrectReading)
        point = command.point
        assert point is not None
        assert height_meant(job, command, point).set_up == set_up, line
    wrong = command_of("correct D1 to -51")
    assert isinstance(wrong, CorrectReading)
    assert height_meant(job, wrong, "D1").set_up == 1


def test_sixty_readings_around_are_looked_at_and_no_more() -> None:
    floor = Site("room 40 by 20 metres", "grid 2 metres", "point Z50 at 38.5 by 19.5 metres")
    names = [f"{chr(65 + column)}{row}" for row in range(1, 11) for column in range(20)]
    floor.told(*(f"{name} -15" for name in names[:63]))
    for point in ("Z50", "A1"):
        near = surface_near(floor.job, point, 1)
        assert near is not None
        assert len(near.points_m) == 60


def test_a_door_at_a_point_without_a_place_has_none_either() -> None:
    floor = Site(*FLOOR, "door 1 at B2", "door 2 outside -4")
    assert door_places(floor.job) == {1: (3, 3)}
    assert place_words(floor.job, 5.5, 3).endswith("2.5 m from the door")


def test_how_far_from_the_zero_a_height_is_believed() -> None:
    """400 mm; further where another such height, or the finish, is as far to within 400 mm."""
    first, second = FLOOR, (*FLOOR, "A1 -18", "new set up", "tie on A1 -10")
    for lines, mm, set_up, far in (
        (first, 400, 0, False), (first, -400, 0, False), (first, 401, 0, True),
        (first, -401, 0, True), ((*first, "A1 -400"), -401, 0, True),
        ((*first, "A1 -450"), -500, 0, False), ((*first, "A1 -450"), -850, 0, False),
        ((*first, "A1 -450"), -851, 0, True), ((*first, "A1 -450"), 500, 0, True),
        ((*first, "finish +450 mm"), 500, 0, False),
        ((*second, "finish +450 mm"), 500, 1, True),
        ((*second, "B1 -450"), -500, 1, False), ((*second, "B1 -450"), -500, 0, True),
        ((*first, "instrument range 600 mm"), 600, 0, False),
        ((*first, "instrument range 600 mm"), 601, 0, True),
    ):  # fmt: skip
        assert is_far_off(Site(*lines).job, Fraction(mm), set_up) is far, (lines, mm)
    assert farthest_mm(Site().job) == 400
