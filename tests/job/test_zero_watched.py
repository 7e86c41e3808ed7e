"""What the checks of a zero say of the readings between them; exact arithmetic in time.

A knock moves all that is read after it; a small drift is taken out in proportion to time.
"""

from __future__ import annotations

import pytest

from assistant.floor.heights import survey_of
from assistant.floor.zero_checks import Watch, ZeroLook
from tests.job.conftest import Site

FLOOR = ("room 12 by 8 metres", "grid 2 metres")
FINE = ("instrument resolution 0.5 mm", "instrument repeatability 0.2 mm")
Line = tuple[float, str]


def watched(*lines: Line, before: tuple[str, ...] = ()) -> tuple[Site, Watch]:
    """A floor with lines said at so many minutes."""
    floor = Site(*FLOOR, *before)
    now = 0.0
    for minutes, line in lines:
        floor.wait(minutes - now)
        floor.told(line)
        now = minutes
    return floor, survey_of(floor.job).watches[0]


def points_of(floor: Site, orders: frozenset[int]) -> list[str]:
    return [name for name, reading in floor.job.readings.items() if reading.order in orders]


KNOCKED: tuple[Line, ...] = (
    (0, "A1 -20"), (5, "B1 -20"), (10, "check zero +0"), (15, "C1 -20"), (20, "check zero +0"),
    (25, "D1 -20"), (30, "check zero +8"), (35, "E1 -20"), (40, "check zero +8"), (45, "F1 -20"),
)  # fmt: skip


def test_around_a_knock_readings_are_doubted_and_after_it_brought_back() -> None:
    floor, watch = watched(*KNOCKED)
    assert points_of(floor, watch.doubtful) == ["D1"]
    assert points_of(floor, watch.after_step) == ["E1", "F1"]
    heights = survey_of(floor.job).heights_mm
    # What is read after it is read eight too high.
    assert {name: float(height) for name, height in heights.items()} == pytest.approx(
        {"A1": -20, "B1": -20, "C1": -20, "D1": -20, "E1": -28, "F1": -28}, abs=1e-4
    )
    assert watch.checks == 4
    assert watch.alone is None
    assert survey_of(floor.job).doubtful == {"D1": "step"}


def test_a_single_odd_look_leaves_everything_since_the_last_good_one_in_doubt() -> None:
    floor, watch = watched(*KNOCKED[:8])
    assert watch.alone is not None
    assert (watch.alone.off_mm, watch.alone.on) == (8, None)
    assert points_of(floor, watch.doubtful) == ["D1", "E1"]
    assert watch.correction_mm == {}


def test_an_odd_look_at_a_benchmark_that_reads_as_before_since_was_misread() -> None:
    lines: tuple[Line, ...] = (
        (0, "A1 -20"), (5, "check benchmark 1 plus 40"), (10, "B1 -20"),
        (15, "check benchmark 1 plus 56"), (20, "C1 -20"), (25, "check benchmark 1 plus 40"),
    )  # fmt: skip
    floor, watch = watched(*lines, before=("benchmark 1 at 40 mm above zero",))
    assert watch.doubtful == frozenset()
    assert watch.alone is None
    assert [seen.off_mm for seen in watch.seen] == [0, 0, 16, 0]
    assert watch.checks == 3
    assert not survey_of(floor.job).doubtful


@pytest.mark.parametrize(
    ("minutes", "change_mm"), [(3, -0.15), (6, -0.3), (15, -0.75), (24, -1.2), (30, -1.5)]
)
def test_a_drift_is_taken_out_in_proportion_to_time(minutes: float, change_mm: float) -> None:
    # One millimetre and a half in half an hour; the zero was set with the first reading.
    lines: list[Line] = [(0, "A1 -20"), (minutes, "B1 -20"), (30, "check zero +1.5")]
    floor, watch = watched(*lines, before=FINE)
    order = floor.job.readings["B1"].order
    assert watch.correction_mm[order] == pytest.approx(change_mm, abs=1e-4)
    assert floor.job.readings["A1"].order not in watch.correction_mm


@pytest.mark.parametrize(("off", "good"), [(3.0, True), (3.001, False)])
def test_the_last_good_check_is_looked_for_from_the_end(off: float, good: bool) -> None:
    watch = Watch((ZeroLook(0, 0, 0.0), ZeroLook(5, 10, 1.0), ZeroLook(9, 20, -off)))
    assert watch.last_good(3.0) == (9 if good else 5)
    assert watch.checks == 2
    assert Watch(()).checks == 0
    assert Watch((ZeroLook(0, 0, 0.0),)).checks == 0


def test_lines_said_at_one_moment_were_still_said_one_after_the_other() -> None:
    # All in the same minute: what was read before the check is not doubted for what came after.
    floor, watch = watched(
        (10, "A1 -20"), (10, "check zero +0"), (10, "B1 -20"), (10, "check zero +9"),
        (10, "check zero +9"), (10, "C1 -20"),
    )  # fmt: skip
    assert points_of(floor, watch.doubtful) == ["B1"]
    assert points_of(floor, watch.after_step) == ["C1"]


def test_a_clock_put_back_between_two_checks_does_no_harm() -> None:
    floor = Site(*FLOOR)
    for minutes, line in ((60, "A1 -20"), (0, "check zero +0"), (-50, "B1 -20"),
                          (0, "check zero +0"), (5, "C1 -20")):  # fmt: skip
        floor.wait(minutes)
        floor.told(line)
    assert not survey_of(floor.job).doubtful
    assert {float(height) for height in survey_of(floor.job).heights_mm.values()} == {-20}
