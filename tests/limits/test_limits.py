"""What is past which limit, how badly, and what the warning says to do about it."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.errors import SurveyError
from assistant.limits.door_warnings import door_warnings
from assistant.limits.limits import LIMITS
from assistant.limits.point_warnings import points_missing_warnings, range_warning, spacing_warnings
from assistant.limits.pour_warnings import aggregate_warnings, depth_warnings, weight_warnings
from assistant.products.cards import Card, cards_in, shipped_folder
from assistant.reply.replies import LimitWarning

CARDS = cards_in(shipped_folder())
STANDARD = CARDS["example standard"]  # 3 to 30 mm, with aggregate to 60
SKIM = CARDS["example thin skim"]  # 1 to 10 mm, no aggregate


def brief(warnings: tuple[LimitWarning, ...]) -> list[tuple[str, str]]:
    return [(warning.id, warning.severity) for warning in warnings]


# --- depth -------------------------------------------------------------------

UNDER, OVER, OVER_AGGREGATE = "under-minimum:B3", "over-maximum:B3", "over-aggregate-maximum:B3"
HIGH = "high-spot:B3"


@pytest.mark.parametrize(
    ("depth", "card", "aggregate", "expected"),
    [
        (18, STANDARD, 0, None),
        # both ends are inside
        (3, STANDARD, 0, None),
        (30, STANDARD, 0, None),
        (60, STANDARD, 50, None),
        (Fraction(3) - Fraction(1, 10**9), STANDARD, 0, (UNDER, "stop")),
        (Fraction(30) + Fraction(1, 10**9), STANDARD, 0, (OVER, "caution")),
        # a float's dust is no depth
        (2.9999999999, STANDARD, 0, None),
        (0.1 + 0.2 + 29.7, STANDARD, 0, None),
        (-1e-13, None, 0, None),
        (0, STANDARD, 0, (UNDER, "stop")),
        (0, None, 0, None),
        (-2, STANDARD, 0, (HIGH, "stop")),
        (-2, None, 0, (HIGH, "stop")),
        (60, STANDARD, 0, (OVER, "caution")),
        (61, STANDARD, 0, (OVER, "stop")),
        (61, STANDARD, 50, (OVER_AGGREGATE, "stop")),
        (45, STANDARD, 50, None),
        (2, STANDARD, 50, (UNDER, "stop")),
        (11, SKIM, 0, (OVER, "stop")),
        (11, SKIM, 50, (OVER, "stop")),  # it takes none, so none counts
        (500, None, 0, None),
    ],
)
def test_depths(
    depth: Fraction | float, card: Card | None, aggregate: float, expected: tuple[str, str] | None
) -> None:
    assert brief(depth_warnings("B3", depth, card, aggregate)) == ([expected] if expected else [])


def test_limits_in_odd_decimals_are_met_exactly() -> None:
    card = replace(STANDARD, min_mm=2.7, max_mm=12.7)
    assert depth_warnings("B3", Fraction("2.7"), card) == ()
    assert depth_warnings("B3", Fraction(127, 10), card) == ()  # half an inch, exactly
    assert depth_warnings("B3", 12.7, card) == ()


@pytest.mark.parametrize(
    ("depth", "card", "aggregate", "unit", "message"),
    [
        (
            2,
            STANDARD,
            0,
            "mm",
            "B3 is 2 mm deep, under the product's minimum of 3 mm. Grind it down or raise the "
            "finish, by 1 mm, or choose a product for thinner depths.",
        ),
        (
            -2,
            STANDARD,
            0,
            "mm",
            "B3 stands 2 mm above the finish. Grind it down or raise the finish, by 5 mm in all, "
            "to leave the product's 3 mm.",
        ),
        (-2, None, 0, "mm", "B3 stands 2 mm above the finish. Grind it down or raise the finish."),
        (
            -0.5,
            None,
            0,
            "in",
            "B3 stands 1/32 in above the finish. Grind it down or raise the finish.",
        ),
        (
            34,
            STANDARD,
            0,
            "mm",
            "B3 is 34 mm deep, over the product's maximum of 30 mm without aggregate. "
            "Add aggregate or pour in lifts as the data sheet allows.",
        ),
        (
            Fraction(3001, 100),
            STANDARD,
            0,
            "mm",
            "B3 is 30.01 mm deep, over the product's maximum of 30 mm without aggregate. "
            "Add aggregate or pour in lifts as the data sheet allows.",
        ),
        (
            70,
            STANDARD,
            50,
            "in",
            "B3 is 2 3/4 in deep, over the product's maximum of 2 3/8 in with aggregate. "
            "Lower the finish, choose a deeper product, or pour in lifts as the data sheet allows.",
        ),
    ],
)
def test_depth_messages(
    depth: float, card: Card | None, aggregate: float, unit: str, message: str
) -> None:
    (warning,) = depth_warnings("B3", depth, card, aggregate, unit)
    assert warning.message == message


def test_a_depth_warning_carries_its_numbers() -> None:
    (warning,) = depth_warnings("B3", Fraction(67, 2), STANDARD)
    assert (warning.value, warning.limit, warning.unit) == (33.5, 30.0, "mm")
    assert warning.source == "product card example standard"


def test_work_is_never_told_too_small_in_sixteenths() -> None:
    # 1.4 mm is nearest to 1/16 in, but 1.7 mm is too and would fall short
    (warning,) = depth_warnings("B3", Fraction("1.3"), STANDARD, 0, "in")
    assert "by 1/8 in" in warning.message


@given(st.fractions(-100, 200), st.sampled_from(sorted(CARDS)), st.sampled_from([0, 30]))
def test_one_matter_to_a_point(depth: Fraction, name: str, aggregate: int) -> None:
    warnings = depth_warnings("C4", depth, CARDS[name], aggregate)
    assert len(warnings) <= 1
    for warning in warnings:
        assert warning.id.endswith(":C4")
        assert warning.message.startswith("C4 ")
        assert warning.value == float(depth)


@pytest.mark.parametrize("depth", [float("nan"), float("inf")])
def test_depths_that_are_no_numbers(depth: float) -> None:
    with pytest.raises(SurveyError):
        depth_warnings("B3", depth, STANDARD)


def test_aggregate_beyond_the_card() -> None:
    assert aggregate_warnings(50, STANDARD) == ()
    assert aggregate_warnings(0, SKIM) == ()
    assert aggregate_warnings(80, None) == ()
    assert brief(aggregate_warnings(50.5, STANDARD)) == [("aggregate", "stop")]
    (none,) = aggregate_warnings(10, SKIM)
    assert "takes no aggregate" in none.message


# --- doors -------------------------------------------------------------------


@pytest.mark.parametrize(
    ("step_mm", "severity", "told"),
    [
        # 2010 ADA Standards 404.2.5 with 303.2 and 303.3, decided in millimetres; 404.2.4.4:
        # no slope over 1:48 where a door is passed (published source, the second from memory)
        (0, None, ""),
        (6.0, None, ""),
        (6.4, None, ""),
        (6.5, "caution", "Bevel the threshold not steeper than 1 in 2, at least 13 mm long"),
        (12.7, "caution", "at least 25.4 mm long"),
        (13.5, "stop", "over the limit of 12.7 mm with the coverings on"),
        (-13.5, "stop", "stays within 1 in 48"),
        (Fraction(254, 40), None, ""),  # 1/4 in exactly
        (Fraction(254, 20), "caution", "Bevel"),  # 1/2 in exactly
        (13.0, "stop", "over the limit"),  # the rounded metric figure is more than half an inch
    ],
)
def test_steps_at_doors(step_mm: Fraction | float, severity: str | None, told: str) -> None:
    warnings = door_warnings(1, 0, step_mm)
    assert [warning.severity for warning in warnings] == ([severity] if severity else [])
    for warning in warnings:
        assert warning.id == "door-step:1"
        assert told in warning.message
        assert "ocal rules decide" in warning.message
        assert "coverings on" in warning.message
        assert "ramp" not in warning.message
        assert "2010 ADA Standards 404.2.5" in warning.source
        assert "decided in millimetres" in warning.source


def test_three_quarters_of_an_inch_in_inches() -> None:
    # 2010 ADA Standards 404.2.5: 1/2 in (published source)
    (warning,) = door_warnings(2, 0, Fraction("19.05"), "in")
    assert "step of 3/4 in to the floor outside, over the limit of 1/2 in" in warning.message


@pytest.mark.parametrize(
    ("step_mm", "most_mm", "severity", "told"),
    [
        # limits of the job's own: the caller's numbers, no source
        (15, 20, "caution", "within this job's limit of 20 mm and over the usual 12.7 mm"),
        (20, 20, "caution", "within this job's limit of 20 mm"),
        (20.1, 20, "stop", "over this job's limit of 20 mm"),
        (8, 20, "caution", "over 6.4 mm; 20 mm is the most"),
        (5, 4, "stop", "over this job's limit of 4 mm"),
        (4, 4, None, ""),
        (40, None, "note", "told to have no limit there. The usual one is 12.7 mm"),
        (6, None, None, ""),
    ],
)
def test_a_limit_of_the_job_for_steps(
    step_mm: float, most_mm: int | None, severity: str | None, told: str
) -> None:
    most = None if most_mm is None else Fraction(most_mm)
    warnings = door_warnings(1, 0, step_mm, "mm", most)
    assert [warning.severity for warning in warnings] == ([severity] if severity else [])
    for warning in warnings:
        assert told in warning.message
        assert "ocal rules decide" in warning.message


@pytest.mark.parametrize(
    ("across", "flagged"), [(0, False), (3, False), (-3, False), (3.1, True), (-5, True)]
)
def test_jambs(across: float, flagged: bool) -> None:
    # 3 mm across a door: common practice, no source
    warnings = door_warnings(1, across)
    assert brief(warnings) == ([("door-across:1", "caution")] if flagged else [])
    assert all(warning.source == "common practice, no source" for warning in warnings)


def test_jambs_and_step_together() -> None:
    assert brief(door_warnings(3, 5, 20)) == [("door-across:3", "caution"), ("door-step:3", "stop")]


# --- survey ------------------------------------------------------------------


def test_pin_spacing() -> None:
    # 3 m: one maker's advice, the card decides
    assert spacing_warnings((3.0, 2.0), STANDARD) == ()
    assert spacing_warnings(3.0, CARDS["example gypsum"]) == ()
    assert spacing_warnings(5.0, None) == ()
    (wide,) = spacing_warnings((2.0, 3.05), STANDARD)
    assert (wide.id, wide.severity, wide.value, wide.limit, wide.unit) == (
        "pin-spacing",
        "caution",
        3.05,
        3.0,
        "m",
    )
    assert wide.source == "one maker's advice, the card decides"
    (own,) = spacing_warnings(2.5, SKIM, "in")
    assert own.source == "product card example thin skim"
    assert "8 ft 2 in apart" in own.message
    assert "at most 6 ft 6 in" in own.message


def test_points_missing() -> None:
    assert points_missing_warnings(()) == ()
    (one,) = points_missing_warnings(["B3"])
    assert one.message.startswith("1 point is not read yet: B3. ")
    (many,) = points_missing_warnings(["A1", "B1", "C1", "D1", "E1"])
    assert many.message.startswith("5 points are not read yet: A1, B1, C1, D1 and more. ")
    assert (many.id, many.severity, many.value) == ("points-missing", "note", 5)


def test_instrument_range() -> None:
    # 300 mm either way: common practice, no source
    assert range_warning("B3", 300) == range_warning("B3", -300) == ()
    (low,) = range_warning("B3", Fraction(-3001, 10))
    assert (low.id, low.severity, low.limit) == ("out-of-range:B3", "caution", 300)
    (own,) = range_warning("B3", 180, 150)
    assert own.source == "the range as set"
    assert "180 mm from zero, past the instrument's 150 mm" in own.message


# --- weight ------------------------------------------------------------------


def test_weight() -> None:
    # 0.25 kN/m², standard gravity: common practice, no source
    assert float(LIMITS["weight"].value) == pytest.approx(25.5)
    assert weight_warnings(25.5) == ()
    (metric,) = weight_warnings(50)
    assert (metric.id, metric.severity, metric.unit) == ("weight", "caution", "kg/m2")
    assert "50 kilograms a square metre" in metric.message
    (imperial,) = weight_warnings(50, "in")
    assert "10.2 pounds a square foot" in imperial.message
    assert metric.source == "common practice, no source"


def test_no_message_promises_anything() -> None:
    warnings = [
        *weight_warnings(50),
        *depth_warnings("B3", -2, STANDARD),
        *depth_warnings("B3", 90, STANDARD),
        *depth_warnings("B3", 90, STANDARD, 30),
        *door_warnings(1, 5, 8),
        *door_warnings(1, 5, 80),
        *spacing_warnings(9, STANDARD),
        *range_warning("B3", 999),
        *points_missing_warnings(["A1"]),
        *aggregate_warnings(99, STANDARD),
    ]
    for warning in warnings:
        words = warning.message.casefold().replace(",", "").replace(".", "").split()
        assert not {"safe", "adequate", "strong", "fine", "ok", "holds"} & set(words)
        assert warning.source
        assert len(words) <= 45  # short enough to be said
        assert warning.value is not None
        assert warning.limit is not None


ADA = "2010 ADA Standards"


def test_each_limit_has_its_source() -> None:
    for id, limit in LIMITS.items():
        assert limit.id == id
        ours = limit.source == "common practice, no source"
        assert ours or limit.source.startswith((f"{ADA} 303.", f"{ADA} 404.2."))
