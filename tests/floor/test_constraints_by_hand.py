"""What is wanted of a finish, in arrays and in words. Exact arithmetic.

At a doorway a step of 6.4 mm needs no work and one of 12.7 mm a bevel: 2010 ADA Standards 303.
"""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import numpy as np
import pytest

from assistant.errors import Refusal
from assistant.floor.constraints import (
    Constrained,
    best_level_of,
    best_plane_of,
    change_words,
    rounded_mm,
    wanted_of,
    wish_words,
)
from assistant.levels.best_finish import Concession
from assistant.levels.constraints import Constraint, ConstraintKind
from tests.job.conftest import Site

ROOM = ("room 12 by 8 metres", "grid 2 metres", "product example standard")
READ = (*ROOM, "A1 -18", "C1 -22", "F4 -20")
HELD = (*READ, "door 1 at A1", "door 1 outside -5", "fix C1 at plus 2")


def test_what_a_level_and_a_plane_want() -> None:
    """The product takes 3 to 30 mm; under a plane the corners only must not stand above it."""
    job = Site(*HELD).job
    level, plane = wanted_of(job, level=True), wanted_of(job, level=False)
    assert level.names == ("A1", "C1", "F4")
    assert plane.names == (*level.names, "corner 1", "corner 2", "corner 3", "corner 4")
    assert level.heights_m == pytest.approx(np.array([-0.018, -0.022, -0.020]))
    assert plane.heights_m[:3] == pytest.approx(level.heights_m)
    assert level.least_m == pytest.approx(np.full(3, 0.003))
    assert plane.least_m == pytest.approx(np.array([0.003] * 3 + [0.0] * 4))
    assert level.most_m == pytest.approx(np.full(3, 0.030))
    assert plane.most_m is not None
    assert (plane.most_m[3:] > 100).all()
    assert plane.weights_m2.sum() == pytest.approx(96)
    assert plane.places_m[:3] == pytest.approx(np.array([[1, 1], [5, 1], [11, 7]]))
    assert plane.centre_m == pytest.approx(np.array([6, 4]))
    door, fixed = level.held
    assert (door.lowest_m, door.highest_m) == pytest.approx((-0.0114, 0.0014))
    assert (fixed.lowest_m, fixed.highest_m) == pytest.approx((0.002, 0.002))
    assert (door.place_m, fixed.place_m) == ((1, 1), (5, 1))
    assert level.held_ids == plane.held_ids == ("door:1", "fixed:C1")
    assert plane.held == level.held


def test_what_has_no_place_is_left_out_of_a_plane_alone() -> None:
    before = ("Z50 -10", "fix Z50 at plus 2", "door 3 at Z50")  # read before there is a grid
    job = Site(*before, *READ, "door 2 outside -5", "door 3 outside -5").job
    assert wanted_of(job, level=True).held_ids == ("door:2", "door:3", "fixed:Z50")
    assert wanted_of(job, level=True).left_out == ()
    plane = wanted_of(job, level=False)
    assert (plane.held_ids, plane.left_out) == ((), ("door 2", "door 3", "Z50"))


@pytest.mark.parametrize(
    ("lines", "lowest_mm", "highest_mm"),
    [
        # 6.4 mm need no work, as above, unless less is let pass at all
        ((), -11.4, 1.4), (("no doorway step limit",), -11.4, 1.4),
        (("doorway step limit 4 mm",), -9, -1),
        # what is laid on the floor brings it up by as much
        (("covering 8 mm",), -19.4, -6.6),
    ],
)  # fmt: skip
def test_a_door_wants_the_floor_outside_less_what_is_laid_and_a_small_step(
    lines: tuple[str, ...], lowest_mm: float, highest_mm: float
) -> None:
    door, _ = wanted_of(Site(*HELD, *lines).job, level=True).held
    assert (door.lowest_m * 1000, door.highest_m * 1000) == pytest.approx((lowest_mm, highest_mm))


def test_without_a_floor_nothing_is_wanted() -> None:
    for lines, told in (((), "The room first"), (ROOM, "has been read yet")):
        with pytest.raises(Refusal, match=told):
            wanted_of(Site(*lines).job, level=True)


def said(floor: Site, kind: ConstraintKind, number: int, amount: float) -> tuple[str, str]:
    wanted: Constrained = wanted_of(floor.job, level=False)
    wish = Constraint(kind, number)
    return (
        wish_words(floor.job, wanted, wish),
        change_words(floor.job, wanted, Concession(wish, amount)),
    )


def test_wishes_and_what_may_be_changed_in_words() -> None:
    for kind, number, amount, wish, change in (
        ("minimum", 0, 0.0125, "A1 wants 3 mm of material", "grind A1 by 12.5 mm"),
        ("minimum", 4, 0.001, "the floor must not stand above the plane at corner 2",
         "grind corner 2 by 1 mm"),
        ("maximum", 1, 0.003, "C1 takes 30 mm at most",
         "let C1 be 3 mm deeper than the maximum, in lifts or with aggregate"),
        ("door", 0, 0.0062, "door 1 wants a step of 6.4 mm at most",
         "allow 6.2 mm more step at door 1, with a bevel"),
        ("door", 0, 0.0063, "door 1 wants a step of 6.4 mm at most",
         "allow 6.3 mm more step at door 1, with a bevel"),
        ("door", 0, 0.0065, "door 1 wants a step of 6.4 mm at most",
         "allow 6.5 mm more step at door 1, which is past the limit of 12.7 mm there"),
        ("fixed", 1, 0.00301, "C1 is fixed 2 mm above the zero", "meet C1 3.1 mm off its height"),
        ("fixed", 1, 0.0030000001, "C1 is fixed 2 mm above the zero",
         "meet C1 3 mm off its height"),
        ("slope", 0, 0.0125, "the slope is 0.5 % at most", "let it slope 1.25 % more"),
    ):  # fmt: skip
        found = said(Site(*HELD), kind, number, amount)  # type: ignore[arg-type]
        assert found == (wish, change)


def test_ones_own_limits_are_told_as_such() -> None:
    floor = Site(*READ, "at most 25 mm", "at least 5 mm deep")
    assert said(floor, "maximum", 0, 0.001) == (
        "A1 takes 25 mm at most (your own limit)", "let A1 be 1 mm deeper than your own most depth"
    )  # fmt: skip
    assert said(floor, "minimum", 0, 0.001)[0] == "A1 wants 5 mm of material (your own limit)"
    bare = Site(*READ[:2], *READ[3:])
    assert said(bare, "minimum", 0, 0.001)[0] == "A1 must not stand above the finish"


def test_the_least_finishes() -> None:
    """Over the highest point by the least depth: -18 and 3 are -15 mm."""
    wanted, found = best_level_of(Site(*READ).job)
    assert found.height_m == pytest.approx(-0.015)  # type: ignore[union-attr]
    assert wanted.names[0] == "A1"
    _, steep = best_plane_of(Site(*READ).job, Decimal(2))
    _, flat = best_plane_of(Site(*READ).job, Decimal(0))
    assert flat.volume_m3 >= steep.volume_m3  # type: ignore[union-attr]


def test_a_fall_to_the_middle_has_no_direction() -> None:
    for along, refused in (("6", True), ("6.009", True), ("6.02", False)):
        floor = Site(*READ, f"point M1 at {along} by 4 metres")
        floor.told("fall 1 percent towards M1")
        if refused:
            with pytest.raises(Refusal, match="middle of the floor"):
                best_plane_of(floor.job, None)
        else:
            best_plane_of(floor.job, None)


def test_a_finish_is_rounded_up_to_a_thousandth_of_a_millimetre() -> None:
    for metres, mm in (
        (0.010, "10"), (0.0100000001, "10"), (0.010001, "10.001"), (0.0100001, "10.001"),
        (-0.0150005, "-15"), (-0.015001, "-15.001"),
    ):  # fmt: skip
        assert rounded_mm(metres) == Fraction(mm), metres
