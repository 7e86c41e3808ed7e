"""A reading against the floor around it: what is expected there, what else it may have been."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction

import pytest

from assistant.floor import suspicion
from assistant.floor.mishearings import alternatives
from assistant.floor.suspicion import (
    NEAREST,
    is_accepted,
    surface_near,
    suspicion_about,
    weigh_readings,
)
from assistant.job import Job
from assistant.levels.kriged.surface import KrigedSurface
from assistant.levels.outliers import NeighbourPrediction
from grammar.commands import Reading
from grammar.commands.readings import CorrectReading, TakeReading
from tests.job.conftest import Site, command_of

FLOOR = ("room 12 by 8 metres", "grid 2 metres")
FLAT = tuple(f"{c}{r} -15" for r in (1, 2) for c in "ABCDEF")


def _suspicion(floor: Site, line: str) -> suspicion.Suspicion | None:
    command = command_of(line)
    assert isinstance(command, TakeReading | CorrectReading)
    assert command.point is not None
    return suspicion_about(floor.job, command, command.point)


@pytest.mark.parametrize("lines", [(), ("instrument offset plus 2 mm",)])
def test_on_an_even_floor_the_same_is_expected_everywhere(lines: tuple[str, ...]) -> None:
    found = _suspicion(Site(*FLOOR, *lines, *FLAT), "B3 -50")
    assert found is not None
    assert found.point == "B3"
    assert found.value_mm == -50
    assert found.expected_mm == pytest.approx(-15, abs=0.005)
    assert found.likely[0] == TakeReading("B3", Reading(Decimal(-15), None))


def test_from_another_set_up_it_is_expected_as_it_would_be_read_from_there() -> None:
    floor = Site(*FLOOR, *FLAT, "new set up", "tie on A1 -53", "tie on F2 -53")
    found = _suspicion(floor, "B3 -15")  # what it would have read from the first one
    assert found is not None
    assert found.expected_mm == pytest.approx(-53, abs=0.05)
    assert _suspicion(floor, "B3 -53") is None


def test_readings_there_follow_the_instrument_s_noise() -> None:
    fine = _suspicion(Site(*FLOOR, *FLAT), "B3 -50")
    coarse = _suspicion(Site("instrument repeatability 3 mm", *FLOOR, *FLAT), "B3 -60")
    assert fine is not None
    assert coarse is not None
    # no less than one reading's own: sqrt(1 + 1/12) and sqrt(9 + 1/12) mm, exact arithmetic
    assert 1.0408 <= fine.sd_mm < 3.0139 <= coarse.sd_mm


@pytest.mark.parametrize(
    ("repeats", "mm", "kept"),
    [
        # 3 sqrt(2) standard deviations of a reading, exact arithmetic: 4.4 and 12.8 mm
        ("1 mm", -54, True), ("1 mm", -55, False),
        ("3 mm", -62, True), ("3 mm", -63, False), ("3 mm", -38, True), ("3 mm", -37, False),
    ],
)  # fmt: skip
def test_a_coarser_instrument_s_surprise_is_kept_more_widely(
    repeats: str, mm: int, kept: bool
) -> None:
    floor = Site(f"instrument repeatability {repeats}", *FLOOR, *FLAT, "B3 -50")
    assert floor.job.survey.accepted == {"B3": -50}
    assert is_accepted(floor.job, "B3", Fraction(mm)) is kept


def test_what_was_kept_is_so_for_the_set_up_it_was_read_from() -> None:
    floor = Site(*FLOOR, *FLAT, "B3 -50")
    assert is_accepted(floor.job, "B3", Fraction(-50))
    floor.told("new set up", "tie on A1 -15")
    assert not is_accepted(floor.job, "B3", Fraction(-50))


def test_read_again_and_the_same_again_is_not_asked_about_though_it_is_odd() -> None:
    """Read first, when there was nothing to hold it against, and never asked about."""
    floor = Site(*FLOOR, "B3 -50", *FLAT)
    assert "B3" not in floor.job.survey.accepted
    assert _suspicion(floor, "B3 -50") is None
    assert _suspicion(floor, "B3 -51") is not None
    floor.told("new set up", "tie on A1 -15")
    assert _suspicion(floor, "B3 -50") is not None  # from there it is another height


def test_a_second_look_that_finds_the_same_bears_it_out() -> None:
    floor = Site(*FLOOR, "B3 -50", *FLAT)
    assert "B3" in str(floor.told("survey check").headline)
    floor.told("correct B3 to -50")
    assert "B3" not in floor.job.survey.accepted, "a correction is no second look"
    assert any("Kept as read" in line for line in floor.told("B3 -50").details)
    assert "B3" not in str(floor.told("survey check").headline)
    floor.told("A1 -15")
    assert "A1" not in floor.job.survey.accepted, "nothing doubted it"


@pytest.mark.parametrize(
    ("mm", "point"),
    [
        # 8 mm a column and 20 mm a row: 56 at C3, 48 at B3, 64 at D3, 76 at C4; C2 has been read
        (48, "B3"),
        (50, "B3"),
        (64, "D3"),
        (66, "D3"),
        (76, "C4"),
        (70, None),
        (36, None),
    ],
)
def test_it_may_be_the_next_point_s_of_its_row_or_column(mm: int, point: str | None) -> None:
    slope = [f"{c}{r} -{8 * k + 20 * r - 20 or 0}" for k, c in enumerate("ABCDEF") for r in (1, 2)]
    found = _suspicion(Site(*FLOOR, *slope), f"C3 -{mm}")
    assert found is not None
    assert found.expected_mm == pytest.approx(-56, abs=0.01)
    others = [one.point for one in found.likely if one.point != "C3"]
    assert others == ([] if point is None else [point])


@pytest.mark.parametrize(
    ("point", "names"),
    [
        ("B3", ["B4", "B2", "C3", "A3"]),
        ("A1", ["A2", "B1"]),
        ("Z9", ["Z10", "Z8", "AA9", "Y9"]),
        ("AA1", ["AA2", "AB1", "Z1"]),
        ("B", []),
        ("7", []),
    ],
)
def test_next_to_a_point_are_four_and_fewer_at_the_edge(point: str, names: list[str]) -> None:
    assert suspicion._next_to(point) == names


@pytest.mark.parametrize("count", [NEAREST, NEAREST + 1])
def test_of_a_large_floor_the_nearest_are_looked_at(count: int) -> None:
    floor = Site("room 40 by 20 metres", "grid 2 metres", "point Z50 at 38.5 by 19.5 metres")
    names = [f"{chr(65 + column)}{row}" for row in range(1, 11) for column in range(20)]
    floor.told(*(f"{name} -15" for name in names[:count]))
    near = surface_near(floor.job, "A1")
    assert near is not None
    # A1 itself is left out: with sixty read, fifty-nine are left
    assert len(near.points_m) == min(count - 1, NEAREST)
    far = surface_near(floor.job, "Z50")
    assert far is not None
    assert len(far.points_m) == NEAREST
    if count > NEAREST:  # the one that is left out is the farthest one
        away = ((far.points_m - (38.5, 19.5)) ** 2).sum(axis=1) ** 0.5
        assert away.max() < ((38.5 - 1) ** 2 + (19.5 - 1) ** 2) ** 0.5


def test_a_reading_heard_is_weighed_with_the_floor_around() -> None:
    fifteen, fifty = Reading(Decimal(-15), "mm"), Reading(Decimal(-50), "mm")
    floor = Site(*FLOOR, *FLAT)
    chances = weigh_readings(floor.job, "B3", [(fifty, 0.6), (fifteen, 0.4)])
    assert chances is not None
    assert sum(chances) == pytest.approx(1)
    assert chances[1] > 0.9
    assert weigh_readings(floor.job, "B3", []) is None
    assert weigh_readings(Site(*FLOOR, *FLAT[:5]).job, "B3", [(fifty, 1)]) is None  # too few around
    floor.told("new set up")
    assert (
        weigh_readings(floor.job, "B3", [(fifty, 0.6), (fifteen, 0.4)]) is None
    )  # tied to nothing yet


@pytest.mark.parametrize(
    ("around", "spoken"),
    [
        ("+1/32", "one sixteenth inch above"),  # 0.8 mm: shown to a sixteenth, and still above
        ("-1/32", "one sixteenth inch below"),
        ("level", "level"),
    ],
)
def test_the_side_of_what_is_expected_is_that_of_the_floor_however_little(
    around: str, spoken: str
) -> None:
    floor = Site("readings in inches", "room 40 by 26 ft", "grid 6 ft",
                 *(f"{c}{r} {around}" for r in (1, 2) for c in "ABCDEF"))  # fmt: skip
    assert f"Around it, {spoken}. " in floor.asked("B3 -2").spoken


def test_heights_are_held_against_each_other_in_metres_above_the_datum(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """What was read, and what may have been meant, both less the zero they were read from."""
    looked_at = []
    look = suspicion._look

    def seen(
        job: Job, near: KrigedSurface, point: str, height_m: float, heard_m: Sequence[float]
    ) -> NeighbourPrediction:
        looked_at.append((height_m, list(heard_m)))
        return look(job, near, point, height_m, heard_m)

    monkeypatch.setattr(suspicion, "_look", seen)
    floor = Site("instrument offset plus 2 mm", *FLOOR, *FLAT, "new set up", "tie on A1 -53",
                 "tie on F2 -53")  # fmt: skip
    looked_at.clear()
    assert _suspicion(floor, "B3 -90") is not None
    ((height_m, heard_m),) = looked_at
    # Its zero lies 38 mm higher, and the instrument reads 2 mm high.
    assert height_m == pytest.approx((-90 + 38 - 2) / 1000, abs=1e-9)
    others = [reading.number for reading in alternatives(Reading(Decimal(-90), None))]
    assert heard_m == pytest.approx([(float(mm) + 36) / 1000 for mm in others], abs=1e-9)
