"""A single odd check of a zero: misread, or the zero moved; alone it corrects no reading.

Worked by the rules in words, exact arithmetic: a look is alone if it lies more than three steps of
the display from the last one that was borne out, and beyond what two looks differ by one time in
a hundred, if a jump leads to it that is no drift which other looks show, and if no look after it
stays with it.
"""

from __future__ import annotations

import numpy as np
import pytest

from assistant.levels.drift import correct_readings

MM = 0.001
CLASS_1_MM = (1 * MM, 0.5 * MM)
REPEATS_TO_2_MM = (1 * MM, 2 * MM)
"""Two looks of it differ by 7.4 mm one time in a hundred: 2.576 sqrt(2) sqrt(4 + 1/12) mm."""


def alone(checks_mm: list[int], instrument: tuple[float, float]) -> list[int]:
    times = np.arange(len(checks_mm)) * 10.0
    found = correct_readings([5.0], [0.0], times, np.array(checks_mm) * MM, *instrument)
    return [row for row, odd in enumerate(found.alone.tolist()) if odd]


@pytest.mark.parametrize(
    ("checks_mm", "odd"),
    [
        ([0], []),
        ([0, 3], []),  # three steps may be drift
        ([0, 4], [1]),
        ([0, -4], [1]),
        ([0, 0, 3], []),
        ([0, 0, 4], [2]),
        ([0, 0, 0, 6], [3]),
        ([0, 1, 2, 3, 9], [4]),
        # a second look that agrees bears it out
        ([0, 4, 4], []),
        ([0, 6, 7], []),
        ([0, 4, 4, 4], []),
        # so does one that goes on as it does: drift, too large to be spread
        ([0, 6, 12], []),
        ([0, 4, 8, 12], []),
        # one that goes back does not
        ([0, 4, 0], [1]),
        ([0, 6, 0, 0], [1]),
        ([0, 0, 0, 6, 0, 0], [3]),
        ([0, 5, 0, 5], [1, 3]),
        ([0, 9, 0, 9, 0], [1, 3]),
        # held against the last that was borne out, not against the beginning
        ([0, 6, 6, 0], [3]),
        ([0, 6, 6, 3], []),
        ([0, 6, 6, 6, 6, 3], []),
        ([0, -6, -6, -6, -3], []),
    ],
)
def test_a_look_that_no_other_bears_out(checks_mm: list[int], odd: list[int]) -> None:
    assert alone(checks_mm, CLASS_1_MM) == odd


@pytest.mark.parametrize(
    ("checks_mm", "odd"),
    [
        ([0, 7], []),
        ([0, 8], [1]),
        ([0, 0, 0, 0, 7], []),
        ([0, 0, 0, 0, 8], [4]),
        ([0, 0, 0, 0, -8], [4]),
    ],
)
def test_an_instrument_that_repeats_badly_is_not_blamed(
    checks_mm: list[int], odd: list[int]
) -> None:
    assert alone(checks_mm, REPEATS_TO_2_MM) == odd
