"""The bounds that doors and given heights set for the finish: which count, how high, and where."""

from __future__ import annotations

import pytest

from assistant.floor.constraints import wanted_of
from tests.job.conftest import Site

FLOOR = ("room 6 by 4 metres", "grid 1 metre", "A1 -10", "B1 -12", "F4 -20")


def test_a_door_wants_the_finish_within_a_step_of_the_floor_outside() -> None:
    # 2010 ADA Standards 303.2: 6.4 mm upright
    floor = Site(*FLOOR, "door 1 outside +12", "door 1 at C1")
    for level in (True, False):
        wanted = wanted_of(floor.job, level=level)
        (door,) = wanted.held
        assert wanted.held_ids == ("door:1",)
        assert door.kind == "door"
        assert door.lowest_m == pytest.approx(0.012 - 0.0064, abs=1e-12)
        assert door.highest_m == pytest.approx(0.012 + 0.0064, abs=1e-12)
        assert door.place_m == (2.5, 0.5)
        assert wanted.left_out == ()


def test_a_height_that_is_given_is_met_at_its_place() -> None:
    floor = Site(*FLOOR, "fix C2 at +3", "fix B1 at -2")
    for level in (True, False):
        wanted = wanted_of(floor.job, level=level)
        assert dict(zip(wanted.held_ids, wanted.held, strict=True)).keys() == {
            "fixed:C2",
            "fixed:B1",
        }
        one, other = (wanted.held[wanted.held_ids.index(f"fixed:{name}")] for name in ("C2", "B1"))
        assert (one.kind, one.lowest_m, one.highest_m) == ("fixed", 0.003, 0.003)
        assert (other.lowest_m, other.highest_m) == (-0.002, -0.002)
        assert (one.place_m, other.place_m) == ((2.5, 1.5), (1.5, 0.5))
        assert wanted.left_out == ()


def test_a_plane_cannot_take_what_has_no_place_and_a_level_can() -> None:
    floor = Site("A1 -10", "B1 -12", "fix Z9 at +3", "door 1 outside +12", "door 2 outside +9",
                 "room 6 by 4 metres", "grid 1 metre", "door 2 at C1", "fix C2 at +4")  # fmt: skip
    level, plane = (wanted_of(floor.job, level=level) for level in (True, False))
    assert level.held_ids == ("door:1", "door:2", "fixed:Z9", "fixed:C2")
    assert level.left_out == ()
    assert plane.held_ids == ("door:2", "fixed:C2")
    assert plane.left_out == ("door 1", "Z9")
    # for a level finish it is all one where a wish stands
    assert level.held[0].place_m == level.held[2].place_m == (0.0, 0.0)
    assert level.held[1].place_m == plane.held[0].place_m == (2.5, 0.5)


def test_a_door_that_nothing_was_read_outside_of_wants_nothing() -> None:
    floor = Site(*FLOOR, "door 1 left -4 right -9", "door 1 at C1")
    assert wanted_of(floor.job, level=True).held == ()
    floor.told("new set up", "door 1 outside -5")  # tied to nothing yet
    assert wanted_of(floor.job, level=True).held == ()


@pytest.mark.parametrize(
    ("lines", "min_m", "max_m"),
    [
        ((), 0.0, None),
        (("product example standard",), 0.003, 0.030),
        (("product example standard", "aggregate 50 percent"), 0.003, 0.060),
        (("product example gypsum",), None, None),
    ],
)
def test_the_card_wants_its_depths(
    lines: tuple[str, ...], min_m: float | None, max_m: float | None
) -> None:
    floor = Site(*FLOOR, *lines)
    level, plane = (wanted_of(floor.job, level=level) for level in (True, False))
    card = floor.job.card
    if min_m is None:
        assert card is not None
        min_m, max_m = card.min_mm / 1000, card.max_mm / 1000
    assert (level.min_m, level.max_m) == (min_m, max_m)
    assert level.least_m.tolist() == pytest.approx([min_m] * 3)
    # The corners are only not to stand above a plane.
    assert plane.names[3:] == tuple(f"corner {number}" for number in (1, 2, 3, 4))
    assert plane.least_m.tolist() == pytest.approx([min_m] * 3 + [0.0] * 4)
    if max_m is None:
        assert plane.most_m is None
    else:
        assert plane.most_m is not None
        assert plane.most_m[:3].tolist() == pytest.approx([max_m] * 3)
        assert plane.most_m[3:].min() >= 100  # as deep as no floor is
    assert plane.heights_m[:3].tolist() == pytest.approx([-0.010, -0.012, -0.020])
    assert plane.weights_m2[3:].tolist() == [0.0] * 4
    assert level.weights_m2.sum() == pytest.approx(24)
    assert plane.centre_m.tolist() == pytest.approx([3, 2])
