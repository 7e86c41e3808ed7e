"""The nearest line that works: near, taken as it stands, and with no value that nobody said."""

from __future__ import annotations

import pytest

from grammar import Misunderstood, understand


def _nearest(line: str) -> str | None:
    with pytest.raises(Misunderstood) as caught:
        understand(line)
    return caught.value.nearest


@pytest.mark.parametrize(
    ("line", "nearest"),
    [
        ("taly", "tally"),
        ("rom 12 by 8 m", "room 12 by 8 m"),
        ("wall nroth 4 m", "wall north 4 m"),
        ("scrach B3", "scratch B3"),
        ("B3 minus 18 milimetres", "B3 -18 mm"),
    ],
)
def test_a_slip_of_the_finger_is_mended(line: str, nearest: str) -> None:
    assert _nearest(line) == nearest
    assert understand(nearest)


@pytest.mark.parametrize(
    "line",
    [
        "B3 2,5",
        "zzz",
        "weight 5 litres",
        "hello there my friend",
        "room 12 by 8",
        "wall east metres",
    ],
)
def test_nothing_is_offered_that_would_be_a_guess(line: str) -> None:
    assert _nearest(line) is None
