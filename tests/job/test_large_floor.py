"""Floors with more points than the surface between them is fitted to."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

import numpy as np
import pytest

from assistant.events.kinds import Event
from assistant.events.readings import ReadingTaken
from assistant.events.room import GridSet, RoomMeasured
from assistant.events.set_ups import PointTied, SetUpStarted
from assistant.floor.places import places_of
from assistant.job import EMPTY, Job, apply
from assistant.levels.kriged.tiles import NEAREST, tiles
from assistant.levels.kriging import MOST_READINGS, drawn_rows, fit_surface, of_part
from grammar.commands import Measure
from tests.job.conftest import Site

COLUMNS, ROWS = 36, 30
WHOLE_FLOOR = (
    "tally",
    "order",
    "hidden high spots",
    "where next",
    "enough",
    "best finish",
    "best plane",
    "map",
    "readings",
    "cut list",
    "warnings",
    "survey check",
    "what's missing",
    "next point",
    "weight",
    "ready to pour",
    "what if raise finish 3 mm",
)


def length(number: float, unit: str = "m") -> Measure:
    return Measure(Decimal(str(number)), unit)


def large(set_ups: int, odd: dict[str, int]) -> Job:
    """1,080 points of a smooth floor, a few of them misread; each set-up tied to the one before."""
    job = apply(
        EMPTY,
        RoomMeasured(length(COLUMNS), length(ROWS)),
        GridSet(length(1), length(1), length(0.5)),
    )
    return apply(job, *_read(job, set_ups, odd))


def _read(job: Job, set_ups: int, odd: dict[str, int]) -> Iterator[Event]:
    places = places_of(job.layout)
    x, y = places.xy_m.T
    chance = np.random.default_rng(3)
    level = -22 + 4 * np.sin(x / 4) * np.cos(y / 5) + chance.normal(0, 1, len(x))
    heights = dict(zip(places.names, level.round().astype(int).tolist(), strict=True))
    before = ""
    for number, part in enumerate(np.array_split(np.array(places.names), set_ups)):
        zero = 17 * number
        if before:
            yield SetUpStarted()
            yield PointTied(before, length(heights[before] - zero, "mm"))
        for name in part.tolist():
            yield ReadingTaken(name, length(heights[name] + odd.get(name, 0) - zero, "mm"))
        before = part.tolist()[-1]


def not_drawn(job: Job) -> list[str]:
    """Points that the surface is not fitted to, away from the walls."""
    names = sorted(job.readings, key=lambda name: job.readings[name].order)
    rows = set(range(len(names))) - set(drawn_rows(len(names)).tolist())
    return [names[row] for row in sorted(rows)]


@pytest.fixture(scope="module", params=[1, 4])
def floor(request: pytest.FixtureRequest, site: type[Site]) -> tuple[Site, str]:
    odd = not_drawn(large(1, {}))[20]
    told = site()
    told.job = large(request.param, {odd: 14})
    told.told("product example standard")
    return told, odd


@pytest.mark.slow
@pytest.mark.parametrize("line", WHOLE_FLOOR)
def test_every_command_that_looks_at_the_whole_floor(floor: tuple[Site, str], line: str) -> None:
    site, _ = floor
    assert len(site.job.readings) > MOST_READINGS
    assert site.told(line).headline


def test_a_misreading_is_found_though_the_surface_left_it_out(floor: tuple[Site, str]) -> None:
    site, odd = floor
    reply = site.told("survey check")
    suspects = reply.data["survey"]["suspects"]
    # One in a thousand true readings is as far out as that by chance.
    assert len(suspects) <= 4
    found = {suspect["point"]: suspect["off_mm"] for suspect in suspects}
    assert found[odd] == pytest.approx(14, abs=3)
    assert any("held against all those near it" in line for line in reply.details)


def test_it_is_said_that_readings_were_left_out(floor: tuple[Site, str]) -> None:
    site, _ = floor
    for line in ("tally", "order"):
        told = " ".join(site.told(line).details)
        assert "goes by 1000 of the 1080 readings" in told


def test_nothing_is_left_out_of_a_floor_of_usual_size(site: type[Site]) -> None:
    rows = [f"{column}{row} -{14 + row % 3}" for row in (1, 2, 3, 4) for column in "ABCDEF"]
    told = site("room 12 by 8 metres", "grid 2 metres", "product example standard", *rows)
    for line in ("tally", "order", "survey check"):
        assert "goes by" not in " ".join(told.told(line).details)


def test_every_point_is_judged_once_with_its_neighbours() -> None:
    points = np.random.default_rng(4).uniform(0, 30, (1500, 2))
    cut = list(tiles(points))
    assert sorted(np.concatenate([tile.judged for tile in cut]).tolist()) == list(range(1500))
    for tile in cut:
        for row in tile.judged[::25]:
            nearest = np.argsort(np.hypot(*(points - points[row]).T))[: NEAREST + 1]
            assert set(nearest.tolist()) <= set(tile.rows.tolist())


def test_a_part_says_of_its_points_what_the_whole_floor_says() -> None:
    points = np.stack(np.meshgrid(np.arange(30.0), np.arange(25.0)), 2).reshape(-1, 2)
    chance = np.random.default_rng(5)
    heights = (3 * np.sin(points[:, 0] / 3) + chance.normal(0, 1, len(points))).round() / 1000
    noise = np.full(len(points), 0.00104)
    whole = fit_surface(points, heights, noise, size_m=40)
    for tile in tiles(points):
        part = of_part(whole, points[tile.rows], heights[tile.rows], noise[tile.rows])
        for row in tile.judged[::40].tolist():
            here = part.predict_without(int(np.searchsorted(tile.rows, row)))
            there = whole.predict_without(row)
            # The far floor counts for a tenth of a standard deviation at most.
            assert abs(here.mean[0] - there.mean[0]) < 0.1 * there.sd[0]
            assert here.sd[0] == pytest.approx(there.sd[0], rel=0.06)
