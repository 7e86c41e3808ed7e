"""How much it takes until a reading, a zero or a survey is doubted: both sides of each bound."""

from __future__ import annotations

from fractions import Fraction

import pytest

from assistant.decide import decide
from assistant.floor.survey_check import verdict_of
from assistant.floor.suspicion import MOST_LIKELY, is_accepted
from tests.job.conftest import Site, command_of

FLOOR = ("room 12 by 8 metres", "grid 2 metres")
EVEN = tuple(f"{c}{r} -{15 + (ord(c) + r) % 2}" for r in (1, 2) for c in "ABCDEF")
SLOPE = tuple(f"{c}{r} -{10 + 8 * k}" for k, c in enumerate("ABCDEF") for r in (1, 2))
JUMPING = tuple(f"{line.split()[0]} -12 15 18" for line in EVEN)


@pytest.mark.parametrize(("mm", "kept"), [(-54, True), (-55, False), (-46, True), (-45, False)])
def test_a_surprise_that_was_kept_is_so_within_what_two_readings_differ_by(
    mm: int, kept: bool
) -> None:
    # Exact arithmetic: 3 sqrt(2) sqrt(1 + 1/12) mm are 4.4 mm, for an instrument that shows
    # millimetres and repeats to one.
    assert is_accepted(Site(*FLOOR, *EVEN, "B3 -50").job, "B3", Fraction(mm)) is kept


@pytest.mark.parametrize(("mm", "next_to_it"), [(24, True), (29, True), (30, False), (35, False)])
def test_a_reading_is_the_next_point_s_only_where_it_is_no_surprise_there(
    mm: int, next_to_it: bool
) -> None:
    """The floor falls by 8 mm a column, so B3 is expected at 18 mm below and C3 at 26."""
    floor = Site(*FLOOR, *SLOPE)
    question = decide(floor.job, command_of(f"B3 -{mm}"), floor.world).ask
    assert question is not None
    likely = question.data["suspect"]["likely"]
    assert (f"C3 -{mm} mm" in likely) is next_to_it
    assert len(likely) <= MOST_LIKELY == 3


@pytest.mark.parametrize(
    ("jump", "verdict"), [(0, "trust it"), (1, "look at these"), (4, "look at these"),
                          (5, "do it again")],
)  # fmt: skip
def test_more_than_a_third_to_read_again_is_all_of_them(jump: int, verdict: str) -> None:
    floor = Site(*FLOOR, *EVEN, "check zero level", *JUMPING[:jump])
    assert len(floor.job.readings) == 12
    assert verdict_of(floor.job).verdict == verdict


@pytest.mark.parametrize(("jump", "verdict"), [(1, "look at these"), (2, "do it again")])
def test_one_point_to_read_again_is_never_all_of_them(jump: int, verdict: str) -> None:
    floor = Site(*FLOOR, *EVEN[:2], "check zero level", *JUMPING[:jump])
    assert verdict_of(floor.job).verdict == verdict


@pytest.mark.parametrize("side", ["+", "-"])
@pytest.mark.parametrize(("off", "good"), [(2, True), (3, True), (4, False)])
def test_a_zero_is_good_to_three_steps_of_the_display(side: str, off: int, good: bool) -> None:
    # Three steps: common practice, no source.
    found = verdict_of(Site(*FLOOR, *EVEN, f"check zero {side}{off}").job)
    assert [finding.why for finding in found.findings] == ([] if good else ["step", "zero"])
    assert (found.verdict == "trust it") is good


@pytest.mark.parametrize(
    ("count", "verdict"), [(6, "no objection, but unchecked"), (7, "trust it")]
)
def test_trust_needs_enough_readings_to_compare(count: int, verdict: str) -> None:
    found = verdict_of(Site(*FLOOR, *EVEN[:count], "check zero level").job)
    assert found.verdict == verdict
    assert bool(found.unchecked) is (count == 6)
