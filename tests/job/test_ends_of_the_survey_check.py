"""What a survey check finds and tells, and what it keeps quiet about."""

from __future__ import annotations

import pytest

from assistant.floor.changed_by_checks import read_from
from assistant.floor.survey_check import (
    of_neighbours,
    verdict_of,
    zero_off_mm,
)
from tests.job.conftest import Site

FLOOR = ("room 12 by 8 metres", "grid 2 metres")
NAMES = [f"{c}{r}" for r in (1, 2, 3) for c in "ABCDEF"]
EVEN = {name: -(15 + (ord(name[0]) + int(name[1])) % 2) for name in NAMES}


def site(**odd: int) -> Site:
    """Eighteen points, those that are odd read first, while nothing can be held against them."""
    read = {**odd, **{name: mm for name, mm in EVEN.items() if name not in odd}}
    return Site(*FLOOR, *(f"{name} {mm:+d}" for name, mm in read.items()))


def told(floor: Site) -> dict[str, str]:
    return {finding.points[0]: finding.message for finding in of_neighbours(floor.job)}


@pytest.mark.parametrize(
    ("odd", "said"),
    [
        # Expected at 15 or 16 below: a plus for a minus, a digit dropped, or one too many.
        ({"C2": 16}, "C2 is about 31 mm above what its neighbours say"),
        ({"C2": 15}, "C2 is about 30 mm above what its neighbours say"),
        ({"C2": -1}, "C2 is about 14 mm above what its neighbours say"),
        ({"C2": -50}, "C2 is about 35 mm below what its neighbours say"),
    ],
)
def test_a_slip_among_the_first_readings_is_found_by_those_that_follow(
    odd: dict[str, int], said: str
) -> None:
    (message,) = told(site(**odd)).values()
    assert message.startswith(said)


@pytest.mark.parametrize("mm", [-14, -15, -16, -18])
def test_what_may_be_is_no_slip(mm: int) -> None:
    assert told(site(C2=mm)) == {}


def test_how_far_off_a_slip_is_told_in_numbers_too() -> None:
    (finding,) = of_neighbours(site(C2=-50).job)
    assert (finding.why, finding.points) == ("neighbours", ("C2",))
    assert finding.off_mm == pytest.approx(-34.5, abs=1)


def test_only_what_is_asked_about_is_looked_at() -> None:
    job = site(C2=-50).job
    assert [one.points for one in of_neighbours(job, only={"C2", "A1"})] == [("C2",)]
    assert list(of_neighbours(job, only={"A1"})) == list(of_neighbours(job, only=())) == []


@pytest.mark.parametrize(
    "line", ["door 1 at C2", "confirm C2", "step between C2 and D2", "step between C and D"]
)
def test_what_is_known_to_be_so_is_kept_quiet_about(line: str) -> None:
    floor = site(C2=-50)
    floor.told("C2 -51" if line == "confirm C2" else line)
    assert "C2" not in told(floor)


def test_readings_are_told_by_the_set_up_they_are_of() -> None:
    floor = Site(*FLOOR, "B1 -15", "A1 -15", "new set up", "tie on A1 -20", "C1 -21", "B1 -19")
    assert read_from(floor.job, 0) == ("A1",)
    assert set(read_from(floor.job, 1)) == {"C1", "B1"}


@pytest.mark.parametrize(
    ("checks", "off"), [((), 0.0), ((0,), 0.0), ((2,), 2.0), ((2, -1), -1.0), ((-9,), -9.0)]
)
def test_the_zero_is_off_by_what_its_last_check_says(checks: tuple[int, ...], off: float) -> None:
    floor = Site(*FLOOR, *(f"A1 {EVEN['A1']}",), *(f"check zero {mm:+d}" for mm in checks))
    assert zero_off_mm(floor.job) == off


@pytest.mark.parametrize(
    ("checks", "words"),
    [
        (0, "The zero was not looked at since it was set: check zero level."),
        (1, "The zero was looked at once after it was set."),
        (2, "The zero was looked at 2 times after it was set."),
        (3, "The zero was looked at 3 times after it was set."),
    ],
)
def test_how_often_the_zero_was_looked_at_is_told(checks: int, words: str) -> None:
    floor = Site(*FLOOR, "A1 -15", *["check zero level"] * checks)
    assert words in verdict_of(floor.job).notes


FINE = ("instrument resolution 0.5 mm", "instrument repeatability 0.2 mm")


@pytest.mark.parametrize(
    ("shown", "words"),
    [
        # Exact arithmetic: 1.5 mm in half an hour, of it 0.2 in four minutes and 1 in twenty.
        ("+1.5", "B1 and C1 changed by -0.2 mm to -1 mm,"),
        ("-1.5", "B1 and C1 changed by +0.2 mm to +1 mm,"),
        ("+0", None),
    ],
)
def test_a_drift_that_was_taken_out_is_told_by_points_and_size(
    shown: str, words: str | None
) -> None:
    floor = Site(*FLOOR, *FINE, "A1 -15")
    for point, minutes in (("B1", 4), ("C1", 16)):
        floor.wait(minutes)
        floor.told(f"{point} -15")
    floor.wait(10)
    floor.told(f"check zero {shown}")
    notes = [note for note in verdict_of(floor.job).notes if "changed by" in note]
    assert [note.startswith(words or "") for note in notes] == [True] * (words is not None)


@pytest.mark.parametrize(
    ("untied", "words"), [(False, None), (True, "Nothing ties set-up 2 (B1 and C1) to the others.")]
)
def test_a_set_up_without_a_tie_is_told_with_its_points(untied: bool, words: str | None) -> None:
    tie = [] if untied else ["tie on A1 -20"]
    floor = Site(*FLOOR, "A1 -15", "new set up", *tie, "B1 -21", "C1 -20")
    found = [one for one in verdict_of(floor.job).findings if one.why == "untied"]
    assert [one.message.startswith(words or "") for one in found] == [True] * untied
    assert [one.what for one in found] == ["set-up 2"] * untied


@pytest.mark.parametrize(
    ("checked", "unchecked"),
    [
        ((True, True), ()),
        ((True, False), ("the zero of set-up 2 since it was set",)),
        ((False, True), ("the zero of set-up 1 since it was set",)),
        ((False, False), ("the zero of set-up 1 and 2 since it was set",)),
    ],
)
def test_set_ups_whose_zero_was_never_looked_at_are_named(
    checked: tuple[bool, bool], unchecked: tuple[str, ...]
) -> None:
    look = [["check zero level"] if yes else [] for yes in checked]
    first = [f"{name} {EVEN[name]}" for name in NAMES[:8]]
    floor = Site(
        *FLOOR, *first, *look[0], "new set up", f"tie on A1 {EVEN['A1'] - 5}", "A3 -20", *look[1]
    )
    assert verdict_of(floor.job).unchecked == unchecked


def test_readings_left_out_of_a_fit_are_told_only_where_there_are_some() -> None:
    notes = " ".join(verdict_of(site().job).notes)
    assert "held against all those near it" not in notes
    assert "Too few points" not in notes
    few = " ".join(verdict_of(Site(*FLOOR, "A1 -15", "B1 -16").job).notes)
    assert "Too few points with a place to hold one against the others." in few
