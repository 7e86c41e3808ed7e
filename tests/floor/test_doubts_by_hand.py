"""What a reading may have been meant for, and when a poured floor is doubted. Exact arithmetic.

A reading of the usual instrument has a standard deviation of √(13/12) mm, a poured floor 5 mm of
its plan: √(25 + 13/12) = 5.107 mm, three times that 15.32.
"""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import Any

import numpy as np
import pytest

from assistant.floor import suspicion
from assistant.floor.interval import (
    _size_m,
    finish_m_of,
    fit_of,
    left_out_words,
    natural_fit_of,
    no_interval,
    spots_of,
    volume_of,
)
from assistant.floor.mishearings import alternatives
from assistant.floor.suspicion import (
    Suspicion,
    _likely_points,
    _next_to,
    _not_to_be_asked,
    bears_itself_out,
    height_meant,
    is_accepted,
    surface_near,
    suspicion_about,
    weigh_readings,
)
from assistant.job import being_read
from grammar.commands import Reading
from grammar.commands.readings import CorrectReading, TakeReading
from tests.job.conftest import Site, command_of
from tests.there import there

FLOOR = ("room 12 by 8 metres", "grid 2 metres")
FLAT = tuple(f"{c}{r} -15" for r in (1, 2) for c in "ABCDEF")


def test_what_a_value_may_have_been() -> None:
    """Teens and tens, the other side, five and nine, a digit more or fewer, the point."""
    for number, unit, others in (
        ("-15", "mm", "-50 15 -19 -5 -1 -115 -215 -315"),
        ("-50", "mm", "-15 50 -90 -5 -150 -250 -350"),
        ("5", "cm", "-5 9 15 25 35 45 55 50"),
        ("-5", "mm", "5 -9 -15 -25 -35 -45 -55 -50"),
        ("12", "cm", "-12 1.2 2 1 112 212 312"),
        ("2", "mm", "-2 12 22 32 42 52 20 21 23 24 25 26 27 28 29"),
        ("3", "mm", "-3 13 23 43 53 30 31 32 34 35 36 37 38 39 33"),
        ("4", "mm", "-4 14 24 34 44 54 40 45"),
        ("-1.5", "cm", "1.5 -15"), ("9", "mm", "-9 5 19 29 39 49 59 90 95"),
        ("105", "mm", "-105 109 5 15 10 1105 2105 3105"),
        ("0", "mm", "10 20 30 40 50 1 2 3 4 5 6 7 8 9 "
                    "-10 -20 -30 -40 -50 -1 -2 -3 -4 -5 -6 -7 -8 -9"),
    ):  # fmt: skip
        found = alternatives(Reading(Decimal(number), unit))
        assert {each.unit for each in found} == {unit}
        told = [str(each.number) for each in found]
        if number == "3":
            assert sorted(told) == sorted(others.split())
        else:
            assert told == others.split(), number


def test_points_beside_a_point() -> None:
    for point, beside in (
        ("B2", ["B3", "B1", "C2", "A2"]), ("A1", ["A2", "B1"]), ("Z9", ["Z10", "Z8", "AA9", "Y9"]),
        ("AA3", ["AA4", "AA2", "AB3", "Z3"]), ("door", []), ("7", []),
    ):  # fmt: skip
        assert _next_to(point) == beside, point


POURED = (*FLOOR, "A1 -18", "B1 -18", "pour finished")


def off_plan(*lines: str, read: str) -> Suspicion | None:
    floor = Site(*POURED, *lines)
    command = command_of(read)
    assert isinstance(command, TakeReading | CorrectReading)
    return suspicion_about(being_read(floor.job), command, command.point or "")


def test_the_first_readings_of_a_poured_floor_are_held_against_its_plan() -> None:
    for lines, read, doubted in (
        ((), "A1 +15", False), ((), "A1 +16", True), ((), "A1 -15", False), ((), "A1 -16", True),
        (("finish +4 mm",), "A1 +19", False), (("finish +4 mm",), "A1 +20", True),
        # as far off as another: the floor is, or its zero
        (("B1 +30",), "A1 +16", False), (("B1 +30",), "A1 +45", False),
        (("B1 +30",), "A1 +46", True),
        (("B1 +30",), "A1 -16", True), (("B1 +1", "C1 +30"), "A1 +40", False),
        # what was read there itself is none
        (("A1 +30",), "A1 +40", True),
    ):  # fmt: skip
        assert (off_plan(*lines, read=read) is not None) is doubted, (lines, read)
    slab: Any = Site(*FLOOR, "A1 -18").job
    command = command_of("B1 +30")
    assert isinstance(command, TakeReading)
    assert suspicion_about(slab, command, "B1") is None


def test_a_doubt_by_the_plan_names_what_would_have_fitted() -> None:
    found = there(off_plan("finish +4 mm", read="A1 +50"))
    assert (found.value_mm, found.expected_mm, found.by_plan) == (50, 4, True)
    assert found.sd_mm == pytest.approx((25 + 13 / 12) ** 0.5)
    # within 10.2 mm of 4: of 15, -50, 90, 5, 150 …, five alone
    assert found.likely == (TakeReading("A1", Reading(Decimal(5), None)),)
    # three of them at most: 10.5, 5, 15 and 10 lie within 10.2 of 10
    many = there(off_plan("finish +10 mm", read="A1 +105"))
    assert [str(each.reading.number) for each in many.likely] == ["10.5", "5", "15"]
    # from a set-up whose zero lies 10 mm lower all is read 10 mm higher
    tied = ("benchmark 1 at 40 mm above zero", "new set up", "tie on benchmark 1 plus 50")
    other = there(off_plan(*tied, read="B1 +65"))
    assert (other.value_mm, other.expected_mm) == (65, 10)
    # the point not heard, or a digit too many: all within 10.2 of 10
    assert [str(each.reading.number) for each in other.likely] == ["6.5", "5", "6"]


def test_accepted_is_what_two_readings_may_differ_by() -> None:
    """Three times √2 of 1.0408: 4.416 mm."""
    job = Site(*FLOOR, *FLAT, "B3 -50").job
    assert job.survey.accepted.keys() == {"B3"}
    for mm, accepted in ((-50, True), (-54, True), (-46, True), (-55, False), (-45, False)):
        assert is_accepted(job, "B3", Fraction(mm)) is accepted, mm
    assert not is_accepted(job, "C3", Fraction(-50))
    other = Site(*FLOOR, *FLAT, "B3 -50", "new set up", "tie on A1 -53").job
    assert not is_accepted(other, "B3", Fraction(-50))


def test_what_is_not_asked_about() -> None:
    job = Site(*FLOOR, *FLAT, "B3 -50", "door 1 at C3", "step between 3 and 4").job

    def asked(line: str) -> bool:
        command = command_of(line)
        assert isinstance(command, TakeReading)
        point = command.point or ""
        return not _not_to_be_asked(job, point, height_meant(job, command, point))

    for line, is_asked in (
        ("B3 -50", False), ("B3 -90", False), ("C3 -90", False), ("A4 -90", False),
        ("A1 -90", True), ("A2 -90", True),
    ):  # fmt: skip
        assert asked(line) is is_asked, line


def test_a_second_look_that_finds_the_same_bears_out_what_is_doubted() -> None:
    job = Site(*FLOOR, *FLAT, "B3 -50").job
    for line, bears in (("B3 -50", False), ("A1 -15", False), ("B3 -51", False)):
        command = command_of(line)
        assert isinstance(command, TakeReading)
        # what was accepted is not asked about, and so is borne out by nothing
        assert bears_itself_out(job, command, command.point or "") is bears, line
    taken = record_unasked(Site(*FLOOR, *FLAT))
    again = command_of("B3 -50")
    assert isinstance(again, TakeReading)
    assert bears_itself_out(taken, again, "B3")
    corrected = command_of("correct B3 to minus 50")
    assert isinstance(corrected, CorrectReading)
    assert not bears_itself_out(taken, corrected, "B3")


def record_unasked(floor: Site) -> Any:
    """A reading on record that nobody accepted, as of a file that was taken in."""
    from assistant.events.readings import ReadingTaken
    from assistant.job import next_number, record
    from grammar.commands import Measure

    event = ReadingTaken("B3", Measure(Decimal(-50), "mm"))
    return record(floor.job, next_number(floor.job), "B3 -50", (event,), floor.now)


def test_the_floor_around_is_known_from_so_many_readings_on() -> None:
    from assistant.floor.suspicion import FEWEST_READINGS

    names = [line.split()[0] for line in FLAT]
    for count in (FEWEST_READINGS - 1, FEWEST_READINGS):
        job = Site(*FLOOR, *FLAT[:count]).job
        assert (surface_near(job, "F4") is not None) is (count >= FEWEST_READINGS)
    whole = Site(*FLOOR, *FLAT[:FEWEST_READINGS]).job
    assert surface_near(whole, names[0]) is None  # its own reading is none around it
    assert surface_near(whole, "Q9") is None


def test_a_value_is_likely_that_of_a_point_beside_where_it_fits() -> None:
    rising = [f"{c}{r} -{10 * (ord(c) - 64)}" for r in (1, 2) for c in "ABCDEF"]
    job = Site(*FLOOR, *rising).job
    near = there(surface_near(job, "C3"))
    command = command_of("C3 -40")
    assert isinstance(command, TakeReading)
    found = _likely_points(job, near, command, "C3", -0.040)
    assert [each.point for each in found] == ["D3"]
    assert found[0].reading == command.reading
    assert _likely_points(job, near, command, "C1", -0.040) == []  # all beside it are read
    assert _likely_points(job, near, command, "C3", -0.090) == []


def test_chances_of_what_was_heard_need_a_floor_around_it() -> None:
    heard = [(Reading(Decimal(-15), "mm"), 0.5), (Reading(Decimal(-50), "mm"), 0.5)]
    found = there(weigh_readings(Site(*FLOOR, *FLAT).job, "B3", heard))
    assert sum(found) == pytest.approx(1)
    assert found[0] > 0.99
    assert weigh_readings(Site(*FLOOR, "A1 -15").job, "B3", heard) is None
    assert weigh_readings(Site(*FLOOR, *FLAT).job, "B3", []) is None
    untied = Site(*FLOOR, *FLAT, "new set up").job
    assert weigh_readings(untied, "B3", heard) is None
    assert suspicion.NEAREST == 60


# --- the fit that all of this is held against ---------------------------------------------------


def test_spots_are_the_points_on_the_floor_in_the_order_read() -> None:
    job = Site(*FLOOR, "B1 -20", "A1 -15", "grind A1 by 3 mm").job
    spots = spots_of(job)
    assert spots.names == ("B1", "A1")
    assert spots.heights_m.tolist() == pytest.approx([-0.020, -0.018])
    assert spots.noise_m.tolist() == pytest.approx([(13 / 12) ** 0.5 / 1000] * 2)
    assert spots_of(job, ground=False).heights_m.tolist() == pytest.approx([-0.020, -0.015])
    assert spots_of(job, but="B1").names == ("A1",)
    assert spots.xy_m.tolist() == [[3, 1], [1, 1]]
    off = Site(*FLOOR, "point K1 at 11 by 7.5 m", "A1 -15", "K1 -9", "room 12 by 7 metres").job
    assert spots_of(off).names == ("A1",)
    nowhere = Site("A1 -15").job
    assert spots_of(nowhere).names == ()
    assert spots_of(nowhere).xy_m.shape == (0, 2)
    part = spots.part(np.array([1]))
    assert (part.names, part.heights_m.tolist()) == (("A1",), [pytest.approx(-0.018)])


def test_a_fit_takes_five_points_on_the_floor() -> None:
    for count in (4, 5):
        lines = FLAT[:count]
        job = Site(*FLOOR, *lines).job
        assert (fit_of(job) is not None) is (count == 5)
        assert (volume_of(job) is not None) is (count == 5)
        ground = Site(*FLOOR, *lines, "grind A1 by 3 mm").job
        assert (natural_fit_of(ground) is not None) is (count == 5)
    assert fit_of(Site(*FLAT).job) is None
    job = Site(*FLOOR, *FLAT).job
    assert natural_fit_of(job) is fit_of(job)
    assert _size_m(job) == pytest.approx((12**2 + 8**2) ** 0.5)
    assert _size_m(Site(*FLAT).job) is None
    assert finish_m_of(Site(*FLOOR, "finish +4 mm").job) == 0.004


def test_why_there_is_no_interval() -> None:
    assert str(no_interval(Site("A1 -15").job)).startswith("How sure that is needs the room")
    for count in (0, 1, 4):
        told = str(no_interval(Site(*FLOOR, *FLAT[:count]).job))
        assert told == f"How sure that is takes 5 points on the floor; {count} so far."
    assert left_out_words(Site(*FLOOR, *FLAT).job) == ""
    assert left_out_words(Site(*FLOOR).job) == ""


def test_among_few_readings_ten_millimetres_past_any_of_them_are_near() -> None:
    job = Site("room 12 by 8 metres", "grid 2 metres", "A1 -18", "B1 -12").job
    for mm, near in ((-28, True), (-29, False), (-15, True), (-2, True), (-1, False)):
        assert suspicion._is_near_the_first(job, "C1", Fraction(mm)) is near, mm
    # its own first reading is none of the others
    assert not suspicion._is_near_the_first(job, "B1", Fraction(-2))
