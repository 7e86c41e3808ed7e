"""What a check or a tie ought to read, and from how far off it is asked about.

Worked by hand: a reading's standard deviation is sqrt(repeatability² + step² / 12), its own and its
partner's count, and 95 of 100 pairs differ by no more than 1.96 of theirs (normal distribution).
"""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest

from assistant.floor.expected import expected_mm, surprise_mm
from assistant.floor.heights import above_datum_mm, survey_of
from assistant.floor.zero_checks import good_mm, look_sd_mm
from assistant.job.set_ups import Height
from grammar.commands import Measure
from tests.job.conftest import Site

FLOOR = ("room 12 by 8 metres", "grid 2 metres")
COARSE = "instrument repeatability 3 mm"
MOVED = ("A1 -18", "C1 -22", "tie on benchmark 2 plus 12", "new set up", "tie on C1 -60")
"""The second set-up's zero is 38 mm above the first one's: C1 is 22 below that, 60 below this."""


@pytest.mark.parametrize(
    ("lines", "on", "readings"),
    [
        ((), None, (0,)),
        (("instrument offset plus 2 mm",), None, (2,)),
        (("instrument offset plus 2 mm", "check zero plus 3"), None, (2, 3)),
        (("check zero plus 1", "check zero minus 1"), None, (0, -1)),  # the last one
        (("A1 -18",), "A1", (-18,)),
        (("A1 -18",), "B1", ()),
        (("benchmark 1 at 40 mm above zero",), 1, (40,)),
        (("benchmark 1 at 40 mm above zero",), 2, ()),
        (("instrument offset plus 2 mm", "benchmark 1 at 40 mm above zero"), 1, (42,)),
        # from the second set-up: less its zero
        (MOVED, "A1", (-56,)),
        (MOVED, 2, (-26,)),
        (MOVED, 3, ()),
        ((*MOVED, "benchmark 1 at 40 mm above zero"), 1, (2,)),
        # a point tied on, or a benchmark, was read from here as well
        (MOVED, "C1", (-60, -60)),
        ((*MOVED, "tie on benchmark 2 minus 25"), "A1", (-55.5,)),
    ],
)
def test_what_it_ought_to_read(
    lines: tuple[str, ...], on: str | int | None, readings: tuple[float, ...]
) -> None:
    assert expected_mm(Site(*FLOOR, *lines).job, on) == pytest.approx(readings)


def test_an_offset_stands_on_both_sides_and_is_taken_off_once() -> None:
    floor = Site(*FLOOR, "instrument offset plus 2 mm", *MOVED, "benchmark 1 at 40 mm above zero")
    assert survey_of(floor.job).zeros_mm[1] == 38
    # A1 lies 20 below the datum; 58 below this zero, and is read 2 above that
    assert expected_mm(floor.job, "A1") == pytest.approx((-56,))
    assert expected_mm(floor.job, 1) == pytest.approx((40 - 38 + 2,))
    height = Height(Measure(Decimal(-56), "mm"), Fraction(-56), set_up=1)
    assert above_datum_mm(floor.job, height) == -20


def test_by_a_zero_that_is_in_doubt_nothing_is_expected_but_what_was_read() -> None:
    known = "benchmark 1 at 40 mm above zero"
    floor = Site(*FLOOR, "A1 -18", known, "reference moved", "tie on A1 -30")
    assert expected_mm(floor.job, 1) == ()
    assert survey_of(floor.job).sound.set_ups == {0}
    assert expected_mm(floor.job, "A1") == pytest.approx((-30,))
    assert expected_mm(floor.job, "B1") == ()


@pytest.mark.parametrize("side", ["+", "-"])
@pytest.mark.parametrize(
    ("lines", "line", "asked"),
    [
        # the usual instrument: three steps of a millimetre
        ((), "check zero {side}3", False),
        ((), "check zero {side}4", True),
        # one that repeats to 3 mm: 1.96 sqrt(2) sqrt(9 + 1/12) = 8.4 mm
        ((COARSE,), "check zero {side}8", False),
        ((COARSE,), "check zero {side}9", True),
    ],
)
def test_a_look_at_the_zero_is_asked_about_from_there(
    side: str, lines: tuple[str, ...], line: str, asked: bool
) -> None:
    floor = Site(*FLOOR, *lines)
    off = float(line.rpartition("}")[2]) * (1 if side == "+" else -1)
    assert surprise_mm(floor.job, None, off) == (off if asked else None)


@pytest.mark.parametrize(
    ("reading", "asked"), [(-52, False), (-51, True), (-60, False), (-61, True)]
)
def test_a_tie_through_a_zero_that_is_itself_unsure_may_be_off_by_more(
    reading: int, asked: bool
) -> None:
    # Expected is -56, with a zero that rests on two readings: 1.96 sqrt(2 + 2) sqrt(13/12) = 4.1 mm
    off = surprise_mm(Site(*FLOOR, *MOVED).job, "A1", reading)
    assert off == (pytest.approx(reading + 56) if asked else None)


def test_a_second_look_like_the_last_is_no_surprise_though_both_are_far_off() -> None:
    floor = Site(*FLOOR, "check zero plus 9")
    assert surprise_mm(floor.job, None, 12) is None
    assert surprise_mm(floor.job, None, 13) == 13
    assert surprise_mm(floor.job, None, 5) == 5


@pytest.mark.parametrize(
    ("step_mm", "repeats_mm", "sd_mm", "good"),
    [
        ("1 mm", "1 mm", 1.0408, 3.0),
        ("0.5 mm", "0.1 mm", 0.1756, 1.5),
        ("2 mm", "1 mm", 1.1547, 6.0),
        ("1 mm", "3 mm", 3.0139, 8.3540),
        ("0.1 mm", "0.5 mm", 0.5008, 1.3882),
    ],
)
def test_a_good_look_is_within_three_steps_or_what_two_looks_differ_by(
    step_mm: str, repeats_mm: str, sd_mm: float, good: float
) -> None:
    floor = Site(f"instrument resolution {step_mm}", f"instrument repeatability {repeats_mm}")
    assert look_sd_mm(floor.job.survey) == pytest.approx(sd_mm, abs=5.1e-5)
    assert good_mm(floor.job.survey) == pytest.approx(good, abs=5.1e-5)


@pytest.mark.parametrize(("last", "good_from"), [(3, 1), (-3, 1), (4, 0), (-4, 0)])
def test_the_last_good_check_is_one_that_is_not_off_by_more(last: int, good_from: int) -> None:
    floor = Site(*FLOOR, f"check zero {last:+d}")
    seen = survey_of(floor.job).watches[0]
    assert seen.last_good(good_mm(floor.job.survey)) == seen.seen[good_from].order
    assert seen.checks == 1


def test_a_point_that_was_tied_on_and_is_struck_has_no_height_of_its_own() -> None:
    floor = Site(*FLOOR, "A1 -18", "B1 -19", "new set up", "tie on A1 -30", "C1 -20")
    assert survey_of(floor.job).heights_mm == {"A1": -18, "B1": -19, "C1": -8}
    floor.told("strike A1")
    # With its reading the tie has lost what it was tied to.
    assert survey_of(floor.job).heights_mm == {"B1": -19}
    floor.told("tie on B1 -31")
    assert survey_of(floor.job).heights_mm == {"B1": -19, "C1": -8}


def test_benchmarks_are_no_points_of_the_floor() -> None:
    floor = Site(*FLOOR, "A1 -18", "benchmark 1 at 40 mm above zero", "new set up",
                 "tie on benchmark 1 plus 2", "B1 -20")  # fmt: skip
    assert survey_of(floor.job).heights_mm == {"A1": -18, "B1": 18}


@pytest.mark.parametrize(("off", "asked"), [(11.8, False), (11.9, True), (-11.8, False)])
def test_from_a_zero_that_was_tied_it_is_asked_about_from_farther_off(
    off: float, asked: bool
) -> None:
    """Two readings of 9 + 1/12 mm² each, and a zero of two more: 1.96 times 6.03 mm."""
    floor = Site(COARSE, *FLOOR, "A1 -18", "B1 -20", "new set up", "tie on A1 -18")
    assert surprise_mm(floor.job, "A1", -18 + off) == (pytest.approx(off) if asked else None)
