"""How far an amount of mix goes on this floor."""

from __future__ import annotations

from fractions import Fraction
from math import ceil, fsum

from assistant.floor.surfaces import surface_of
from assistant.floor.tally import tally_of
from assistant.floor.zones import poured_parts
from assistant.job import Job
from grammar.frozen import frozen


@frozen
class Reach:
    """How much floor an amount of material fills."""

    share: float
    """Of the pour, 1 for all of it or more."""
    area_m2: float
    """At the mean depth of the pour."""


def reach_of(job: Job, volume_m3: float) -> Reach:
    """How much of the pour a volume is, m³; the job has a volume of its own."""
    tally = tally_of(job)
    assert tally.volume_m3 is not None
    assert tally.area_m2 is not None
    if tally.volume_m3 <= 0:
        return Reach(1.0, tally.area_m2)
    share = min(volume_m3 / tally.volume_m3, 1.0)
    return Reach(share, share * tally.area_m2)


def lower_by_for(job: Job, volume_m3: float, unit: str) -> Fraction | None:
    """
    How much lower a finish makes a volume do, mm; None where none does.

    Rounded up to whole millimetres, or to sixteenths of an inch where `unit` is ``in``: rounded
    down, and as it is shown, it would still run short.
    """
    from scipy.optimize import brentq

    from assistant.levels.volume import fill

    parts = [(part, surface) for part in poured_parts(job) if (surface := surface_of(part))]
    if not parts:
        return None
    # A zone with a finish of its own keeps it.
    moves = [job.zones.pour_in(part.layout.part or "").finish_mm is None for part, _ in parts]

    def over_m3(lower_m: float) -> float:
        taken = [
            fill(surface.mesh, surface.depths_m - lower_m * moved).volume_m3
            for (_, surface), moved in zip(parts, moves, strict=True)
        ]
        return fsum(taken) - volume_m3

    most_m = max(float(surface.depths_m.max()) for _, surface in parts)
    if over_m3(0.0) <= 0:
        return Fraction(0)
    if over_m3(most_m) > 0:
        return None
    found_m = brentq(over_m3, 0.0, most_m, xtol=1e-6)
    step_mm = Fraction(254, 160) if unit == "in" else Fraction(1)
    return ceil(round(found_m * 1000 / float(step_mm), 6)) * step_mm
