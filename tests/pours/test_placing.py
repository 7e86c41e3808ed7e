"""Evaporation by Uno's formula, and placing rates."""

import pytest

from assistant.errors import SurveyError
from assistant.pours.evaporation import evaporation_kg_m2_h
from assistant.pours.placing import BY_HAND_M2_H, BY_PUMP_M2_H, bags_per_min, learnt_minutes


@pytest.mark.parametrize(
    ("air", "surface", "humidity", "wind", "rate"),
    [
        (20, 20, 50, 0, 0.0890),
        (20, 20, 50, 5, 0.2003),
        (21, 21, 50, 8, 0.2850),
        (30, 30, 50, 15, 0.7582),
        (10, 20, 60, 10, 0.4489),
    ],
)
def test_evaporation_as_unos_formula_has_it(
    air: float, surface: float, humidity: float, wind: float, rate: float
) -> None:
    """Uno 1998, as copied by others; values by exact arithmetic."""
    assert evaporation_kg_m2_h(air, surface, humidity, wind) == pytest.approx(rate, abs=0.00005)


def test_no_water_leaves_a_cold_surface_in_damp_air() -> None:
    assert evaporation_kg_m2_h(30, 10, 90, 5) == 0


@pytest.mark.parametrize("bad", [(-30, 20, 50, 0), (20, 20, 101, 0), (20, 20, 50, -1)])
def test_evaporation_outside_the_formula_is_refused(bad: tuple[float, ...]) -> None:
    with pytest.raises(SurveyError):
        evaporation_kg_m2_h(*bad)


def test_the_published_rates() -> None:
    """1,500 ft² an hour by hand, of 0.3048 m a foot; and what the same article gives for a pump."""
    assert round(1500 * 0.3048**2) == BY_HAND_M2_H
    assert BY_PUMP_M2_H == 650


def test_the_published_rate_in_bags() -> None:
    """139 m²/h at 6 mm is 834 L/h, 55.6 bags of 15 L, a two-bag batch each 2.16 minutes:
    exact arithmetic."""
    bags_an_hour = BY_HAND_M2_H * 6 / 15
    assert bags_an_hour == pytest.approx(55.6)
    assert 2 / (bags_an_hour / 60) == pytest.approx(2.16, abs=0.005)
    assert bags_per_min(3, 2, 3 * 2.16) * 60 == pytest.approx(55.6, abs=0.1)


def test_a_rate_is_learnt_from_batches_and_not_from_pauses() -> None:
    assert learnt_minutes([0, 6], [2, 2]) is None
    assert learnt_minutes([0, 6, 12, 18], [2, 2, 2, 2]) == pytest.approx(3)
    assert learnt_minutes([0, 6, 12, 72, 78], [2, 2, 2, 2, 2]) == pytest.approx(3)
    assert learnt_minutes([0, 9, 18], [2, 3, 3]) == pytest.approx(3)
    assert learnt_minutes([5, 5, 5], [2, 2, 2]) is None
    with pytest.raises(SurveyError):
        learnt_minutes([0, 6, 3], [2, 2, 2])
