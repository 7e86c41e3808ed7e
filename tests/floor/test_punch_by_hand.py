"""What is to be ground or filled, on floors of one shape. Exact arithmetic."""

from __future__ import annotations

from dataclasses import replace

import pytest

from assistant.floor.off_promise import departures_mm, is_flat_only
from assistant.floor.punch import ToMend, punch_of, whole_bags
from assistant.floor.punch_limit import punch_limit_of
from assistant.job import being_read
from tests.job.conftest import Site

ROOM = ("room 8 by 6 metres", "grid 2 metres", "product example standard")
POURED = (*ROOM, "A1 -18", "B1 -17", "pour finished")
FINE = ("instrument resolution 0.01 mm", "instrument repeatability 0.05 mm")
POINTS = [f"{column}{row}" for row in (1, 2, 3) for column in "ABCD"]


def level_but(**changed: float) -> list[str]:
    return [f"{name} {changed.get(name, 0):+g}" for name in POINTS]


def found(*lines: str) -> dict[str, ToMend]:
    job = being_read(Site(*POURED, *lines).job)
    return {each.point: each for each in punch_of(job)}


def test_what_is_just_at_the_limit_is_let_pass() -> None:
    for limit, high, low, listed in (
        (3, 3, -3, set()), (3, 3.1, -3.1, {"B2", "C3"}), (5, 5, -6, {"C3"}), (5, 6, -5, {"B2"}),
    ):  # fmt: skip
        lines = (f"punch over {limit} mm", *level_but(B2=high, C3=low))
        assert found(*lines).keys() == listed, (limit, high, low)


def test_high_is_ground_and_low_is_filled() -> None:
    both = found("punch over 3 mm", *level_but(B2=5, C3=-6))
    assert [(each.do, each.mm) for each in both.values()] == [("grind", 5), ("fill", 6)]
    assert (both["B2"].x_m, both["B2"].y_m) == (3, 3)
    assert (both["C3"].x_m, both["C3"].y_m) == (5, 5)
    assert [each.mended for each in both.values()] == [0, 0]
    bare = Site(*ROOM[::2], "A1 -18", "pour finished", "punch over 3 mm", "A1 +9", "B1 -9").job
    nowhere, low = punch_of(being_read(bare))
    assert (nowhere.x_m, nowhere.y_m, nowhere.area_m2, nowhere.bags) == (None, None, None, None)
    assert (low.do, low.bags, low.passes) == ("fill", None, None)


def test_half_a_millimetre_too_high_is_high() -> None:
    listed = found("punch over 0.3 mm", *level_but(B2=0.5, C2=-0.5))
    assert {name: (each.do, each.mm) for name, each in listed.items()} == {
        "B2": ("grind", 0.5), "C2": ("fill", 0.5),
    }  # fmt: skip


def test_a_pass_takes_a_millimetre() -> None:
    for mm, passes in ((4, 4), (4.1, 5), (5, 5), (3.9, 4)):
        both = found("punch over 3 mm", *level_but(B2=mm, C3=-mm))
        assert (both["B2"].passes, both["C3"].passes) == (passes, None), mm


def test_a_reading_is_clear_two_deviations_past_the_limit() -> None:
    """Of readings by whole millimetres that repeat to 1 mm: √(1 + 1/12) = 1.04 mm."""
    for mm, clear in ((5, False), (5.1, True), (-5, False), (-5.1, True)):
        (one,) = found("punch over 3 mm", *level_but(B2=mm)).values()
        assert one.clear is clear, mm
        assert one.sd_mm == pytest.approx((13 / 12) ** 0.5)


def test_area_and_bags_of_each_place_add_up_to_the_whole() -> None:
    """
    B2 and C2 among level points 2 m apart.

    Each of the squares is four triangles of a square metre about its middle, which lies at the
    mean of its corners: 3 mm between the two, just at the limit.
    """
    one = found("punch over 3 mm", *level_but(B2=-6))["B2"]
    two = found("punch over 3 mm", *level_but(B2=-6, C2=-6))
    assert two["B2"].area_m2 == pytest.approx(two["C2"].area_m2)
    assert two["B2"].bags == pytest.approx(two["C2"].bags)
    assert one.area_m2 == pytest.approx(8 / 3)
    # over 8/3 m² 3 mm up to the limit and a third of 3 mm on it, 5 % waste, 15 L a bag
    assert one.bags == pytest.approx(8 / 3 * 4 * 1.05 / 15)
    area = two["B2"].area_m2 + two["C2"].area_m2  # type: ignore[operator]
    assert area > 2 * 8 / 3
    # of the square between the two, 6 + 6 over 0 + 0: the triangle at their side whole, and of
    # those beside it the half towards that side; twice, above and below
    assert area == pytest.approx(2 * 2 * (2 / 3) + 2 * (1 + 2 * 0.5))


def test_waste_and_product_count_in_bags() -> None:
    plain = found("punch over 3 mm", *level_but(B2=-6))["B2"].bags
    more = found("punch over 3 mm", "waste 10 percent", *level_but(B2=-6))["B2"].bags
    assert plain is not None
    assert more == pytest.approx(plain / 1.05 * 1.10)
    bare = Site(*ROOM[:2], "A1 -18", "pour finished", *level_but(B2=-6)).job
    (one,) = punch_of(being_read(bare))
    assert one.bags is None
    assert one.area_m2 == pytest.approx(8 / 3)


def test_flat_alone_is_held_against_the_plane_from_four_points_on() -> None:
    for line, flat in (
        ("promised flat", True),
        ("promised level", False),
        ("promised both", False),
    ):
        assert is_flat_only(Site(*POURED, line).job) is flat
    assert not is_flat_only(Site(*POURED).job)
    tilt = [f"{name} {(ord(name[0]) - 65) * 4:+d}" for name in POINTS]
    for line, off in (("promised flat", 0), ("promised level", 12)):
        job = being_read(Site(*POURED, *tilt, line).job)
        assert departures_mm(job)["D3"] == pytest.approx(off, abs=1e-9)
    # a bump of 8 in the middle of one side of a square of four: off the plane by 2 each (exact)
    four = ("A1 +8", "B1 level", "A2 level", "B2 level")
    job = being_read(Site(*POURED, *four, "promised flat").job)
    assert departures_mm(job) == pytest.approx({"A1": 2, "B1": -2, "A2": -2, "B2": 2})
    three = being_read(Site(*POURED, *four[:3], "promised flat").job)
    assert departures_mm(three) == {"A1": 0, "B1": 0, "A2": 0}


def test_bags_to_fill_are_rounded_up_once_for_all() -> None:
    fill = found("punch over 3 mm", *level_but(B2=-6))["B2"]
    grind = found("punch over 3 mm", *level_but(B2=6))["B2"]

    def bags(*each: float | None) -> tuple[ToMend, ...]:
        return tuple(replace(fill, bags=one) for one in each)

    for listed, whole in (
        (bags(0.4, 0.5), 1), (bags(0.5, 0.5), 1), (bags(0.6, 0.5), 2), (bags(2.0), 2),
        ((*bags(0.4), grind), 1), ((grind,), None), ((), None), (bags(0.4, None), None),
        (bags(None), None),
    ):  # fmt: skip
        assert whole_bags(listed) == whole, listed


LEVEL_LINE = "line 1 from 1 by 2 metres to 7 by 2 metres every 500 mm"


def stretches(*lines: str) -> list[ToMend]:
    job = being_read(Site(*POURED, "punch over 3 mm", *lines).job)
    return [each for each in punch_of(job) if each.seen_by.startswith(("line", "value"))]


def test_a_stretch_of_a_line_is_ground_where_high_and_filled_where_low() -> None:
    """At a point it has its name, else the line's own; one value is no stretch."""
    high, low = stretches(LEVEL_LINE, "0 0 +4 +6 +4 0 0 -3 -5 0 0 0 0")
    assert (high.do, high.mm, high.passes, high.seen_by) == ("grind", 6, 6, "values 3 to 5")
    assert (low.do, low.mm, low.passes, low.seen_by) == ("fill", 5, None, "value 9")
    assert (high.point, high.x_m, high.y_m) == ("line 1 point 4", 2.5, 2)
    assert (low.point, low.x_m) == ("line 1 point 9", 5)
    assert (high.area_m2, high.bags, low.area_m2, low.bags) == (None,) * 4
    # 3 mm over what is let pass is two of its deviations, 1.04 mm each, and 2 mm is not
    assert (high.clear, low.clear) == (True, False)
    (named,) = stretches("line 2 from A1 to D1 every 500 mm", "0 0 0 0 -5 -4 0 0")
    assert (named.point, named.do, named.seen_by) == ("B1", "fill", "line 2, values 5 to 6")


def test_where_only_flat_was_promised_a_line_is_held_against_the_plane() -> None:
    """A floor that falls 12 mm over 6 m, with one value 6 mm deeper than its neighbours."""
    fall = [-step for step in range(13)]
    said = " ".join(f"{mm:+d}" if mm else "0" for mm in fall)
    assert stretches("promised flat", LEVEL_LINE, said) == []
    (off,) = stretches("promised level", LEVEL_LINE, said)
    assert (off.do, off.mm) == ("fill", 12)
    dip = [*fall[:6], fall[6] - 6, *fall[7:]]
    said = " ".join(f"{mm:+d}" if mm else "0" for mm in dip)
    (off,) = stretches("promised flat", LEVEL_LINE, said)
    assert (off.do, off.point, off.seen_by) == ("fill", "line 1 point 7", "value 7")
    # the straight line that lies best goes down by a thirteenth of it all along (exact)
    assert off.mm == pytest.approx(6 * 12 / 13)
    both = being_read(
        Site(*POURED, *level_but(B2=-6), "promised flat", LEVEL_LINE, *["level"] * 13).job
    )
    alone = being_read(Site(*POURED, *level_but(B2=-6), "promised flat").job)
    # more of the floor was read: the plane lies nearer to it
    assert departures_mm(both)["B2"] < departures_mm(alone)["B2"] < -5


def test_where_only_level_was_promised_a_gap_is_on_record_and_not_to_be_filled() -> None:
    gap = "gap 9 mm under 2 metres at C2"
    for promised, more, listed in (
        ("promised level", (), []), ("promised flat", (), ["C2"]), ("promised both", (), ["C2"]),
        ("promised level", ("spec SR1",), ["C2"]),
        ("promised level", ("spec departure from datum",), []),
    ):  # fmt: skip
        site = Site(*POURED, "A1 level", gap, promised, *more)
        assert [each.point for each in punch_of(being_read(site.job))] == listed, (promised, more)
    told = Site(*POURED, "A1 level", gap, "promised level").told("punch list")
    assert any("gap of 9 mm at C2, as flat was not promised" in each for each in told.details)


def test_a_floor_to_be_flat_alone_is_mended_by_its_gaps_whatever_its_height() -> None:
    for promised, most in (("promised flat", 3), ("promised both", 15)):
        site = Site(*POURED, "A1 level", promised, "spec departure from datum")
        assert punch_limit_of(being_read(site.job)).mm == most
