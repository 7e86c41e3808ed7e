"""The foot of the prompt: what is left out where it doesn't fit."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

import pytest

from assistant.events.readings import ReadingUnitChosen
from assistant.floor.tally import Depths, Material, Tally
from assistant.job import EMPTY
from assistant.terminal.toolbar import toolbar_line

BAGS = Material(
    bags=42,
    water_l=(200.0, 220.0),
    mass_kg_per_m2=36.0,
    mass_kg=3456.0,
    mass_kg_per_m2_at_deepest=60.0,
    aggregate_kg=0.0,
    primer_l=None,
    pallets=None,
)
FULL = Tally(
    points=12,
    missing=12,
    finish_mm=Fraction(0),
    waste_percent=Decimal(5),
    waste_assumed=True,
    aggregate_percent=Decimal(0),
    depths=Depths(Fraction(4), Fraction(35, 2), Fraction(31)),
    material=BAGS,
)


@pytest.mark.parametrize(
    ("width", "line"),
    [
        (80, "12/24 points  mean 17.5 mm  4 to 31 mm  42 bags  2 warnings"),
        (59, "12/24 points  mean 17.5 mm  4 to 31 mm  42 bags  2 warnings"),
        (58, "12/24 points  4 to 31 mm  42 bags  2 warnings"),
        (40, "12/24 points  42 bags  2 warnings"),
        (25, "12/24 points  2 warnings"),
        (10, "12/24 poin"),
    ],
)
def test_what_fits(width: int, line: str) -> None:
    assert toolbar_line(EMPTY, FULL, 2, width) == line


def test_little_known_is_little_shown() -> None:
    nothing = replace(FULL, points=0, missing=0, depths=None, material=None)
    assert toolbar_line(EMPTY, nothing, 0, 60) == "no points yet"
    one = replace(nothing, points=1, depths=Depths(Fraction(18), Fraction(18), Fraction(18)))
    assert toolbar_line(EMPTY, one, 1, 60) == "1 point  mean 18 mm  1 warning"


def test_inches_where_the_job_is_in_inches() -> None:
    line = toolbar_line(
        replace(EMPTY, settings={ReadingUnitChosen: ReadingUnitChosen("in")}), FULL, 0, 80
    )
    assert "mean 11/16 in" in line
