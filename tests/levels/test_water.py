"""Water in a hose level, against tables from elsewhere. Sources stand beside the values."""

from __future__ import annotations

import pytest

from assistant.errors import SurveyError
from assistant.levels.water import (
    density_kg_m3,
    leg_error_m,
)

MM = 0.001

# Tanaka et al. 2001 (coefficients read in public code that quotes them), worked out
# independently; beside it IAPWS-95 from an independent library.
DENSITIES = [
    (0, 999.8428, 999.8438),
    (4, 999.9749, 999.9749),
    (10, 999.7027, 999.7025),
    (15, 999.1026, 999.1026),
    (20, 998.2067, 998.2072),
    (25, 997.0470, 997.0476),
    (30, 995.6488, 995.6495),
    (40, 992.2152, 992.2164),
]


@pytest.mark.parametrize(("celsius", "tanaka", "iapws"), DENSITIES)
def test_density(celsius: int, tanaka: float, iapws: float) -> None:
    assert density_kg_m3(celsius) == pytest.approx(tanaka, abs=5.1e-5)
    assert density_kg_m3(celsius) == pytest.approx(iapws, abs=1.5e-3)


@pytest.mark.parametrize("celsius", [0, 4, 10, 15, 20, 25, 30, 40])
def test_density_is_near_an_older_formula(celsius: int) -> None:
    # Kell 1975 (coefficients read in public code); he reads 3 g/m3 less where it is cold.
    t = celsius
    powers = [999.83952, 16.945176, -7.9870401e-3, -46.170461e-6, 105.56302e-9, -280.54253e-12]
    top = sum(factor * t**power for power, factor in enumerate(powers))
    assert density_kg_m3(t) == pytest.approx(top / (1 + 16.879850e-3 * t), abs=0.0034)
    # Many copies have two digits of his denominator the wrong way round; it would show.
    if t == 20:
        assert abs(density_kg_m3(t) - top / (1 + 16.897850e-3 * t)) > 0.27


@pytest.mark.parametrize(
    ("rest", "leg", "mm_per_metre"), [(20, 25, 1.162), (20, 30, 2.563), (10, 30, 4.055)]
)
def test_warm_leg_going_up(rest: int, leg: int, mm_per_metre: float) -> None:
    # Exact arithmetic from the density table.
    assert leg_error_m(1.0, rest, leg) / MM == pytest.approx(mm_per_metre, abs=5.1e-4)
    assert leg_error_m(0.5, rest, leg) == pytest.approx(leg_error_m(1.0, rest, leg) / 2)


def test_hose_lying_flat_does_not_care() -> None:
    assert leg_error_m(0.0, 5, 35) == 0.0


def test_cold_leg_reads_the_other_way() -> None:
    assert leg_error_m(1.0, 20, 10) < 0 < leg_error_m(1.0, 10, 20)


@pytest.mark.parametrize("celsius", [-0.1, 40.1, float("nan"), float("inf")])
def test_ice_and_steam_are_refused(celsius: float) -> None:
    with pytest.raises(SurveyError, match="from 0 to 40"):
        density_kg_m3(celsius)


def test_senseless_lengths_are_refused() -> None:
    with pytest.raises(SurveyError, match="run of a leg"):
        leg_error_m(-1, 20, 25)
