"""The tally's bags and their interval come from two surfaces: they never contradict each other."""

from __future__ import annotations

from decimal import Decimal

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from assistant.events.readings import ReadingTaken
from assistant.floor.order import interval_of
from assistant.floor.places import places_of
from assistant.floor.tally import tally_of
from assistant.job import Job, next_number, record
from grammar.commands import Measure
from tests.job.conftest import Site
from tests.there import there

pytestmark = pytest.mark.slow

PRODUCTS = ("example standard", "example gypsum", "example deep fill")
FEWEST = 6
"""Points read: an interval takes five on the floor. A small room's grid has four."""


def drawn(seed: int) -> Job:
    """A room with its grid, tilted and waved and rough, all of it read or some of it."""
    chance = np.random.default_rng([17, seed])
    sides = [round(float(side), 1) for side in chance.uniform(4, 12, 2)]
    step = 2 if max(sides) < 9 else 3
    floor = Site(
        f"room {sides[0]} by {sides[1]} metres",
        f"grid {step} metres",
        f"product {chance.choice(PRODUCTS)}",
        f"waste {chance.integers(0, 15)} percent",
    )
    places = places_of(floor.job.layout)
    away = (places.xy_m - np.array(sides) / 2).T
    wave = chance.uniform(0, 6) * np.sin(away / chance.uniform(1.5, 8, (2, 1))).prod(axis=0)
    heights = wave - chance.uniform(2, 25) + chance.normal(0, 1.5, 2) @ away
    heights += chance.normal(0, chance.uniform(0, 2), len(heights))
    order = chance.permutation(len(heights))
    read = order[: max(FEWEST, round(len(order) * chance.uniform(0.4, 1.4)))]
    events = [
        ReadingTaken(places.names[at], Measure(Decimal(round(float(heights[at]))), "mm"))
        for at in read.tolist()
    ]
    return record(floor.job, next_number(floor.job), "", events)


@settings(deadline=None)
@given(st.integers(0, 10**9))
def test_the_bags_lie_within_their_own_interval(seed: int) -> None:
    job = drawn(seed)
    assume(len(job.readings) >= FEWEST)
    found, tally = there(interval_of(job)), tally_of(job)
    low, high = there(found.bags)
    assert low <= there(tally.material).bags <= high
    assert found.volume_m3[0] <= there(tally.volume_m3) <= found.volume_m3[1]
