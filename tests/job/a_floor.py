"""A floor that surveys are tried on, and the heights they come to."""

from __future__ import annotations

from fractions import Fraction

from assistant.floor.heights import survey_of
from tests.job.conftest import Site

FLOOR = ("room 12 by 8 metres", "grid 2 metres", "product example standard")
MM = Fraction(1, 10)


def heights(floor: Site) -> dict[str, Fraction]:
    return dict(survey_of(floor.job).heights_mm)
