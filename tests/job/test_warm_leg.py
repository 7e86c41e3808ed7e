"""A hose leg that hangs in the sun reads wrong, a hose on the floor does not."""

import pytest

from tests.job.conftest import Site


@pytest.mark.parametrize(
    ("line", "error_mm"),
    [
        # Exact arithmetic from the water densities of Tanaka and others, 2001 (check values).
        ("leg rising 1 metre at 25 degrees and rest at 20 degrees", 1.162),
        ("leg rising 1 metre at 30 degrees and rest at 20 degrees", 2.563),
        ("leg rising 1 metre at 30 degrees rest at 10 degrees", 4.055),
        ("leg rising 1 metre at 77 F and rest at 68 F", 1.162),
        ("leg rising 1 metre at 20 degrees and rest at 20 degrees", 0.0),
    ],
)
def test_a_warm_leg_reads_too_high_by_its_rise(
    site: type[Site], line: str, error_mm: float
) -> None:
    reply = site().told(line)
    assert reply.data["warm_leg"]["error_mm"] == pytest.approx(error_mm, abs=5e-4)
    assert "lying flat" in " ".join(reply.details)


def test_a_leg_hotter_than_water_can_be_trusted_is_refused(site: type[Site]) -> None:
    assert "0 to 40" in site().refused("leg rising 1 metre at 60 degrees and rest at 20 degrees")
