"""A large floor in tiles: each point is judged once, together with enough of its neighbours."""

from __future__ import annotations

import numpy as np
import pytest

from assistant.levels.kriged.tiles import MOST_IN_TILE, NEAREST, tiles


@pytest.mark.parametrize(("count", "parts"), [(MOST_IN_TILE, 1), (MOST_IN_TILE + 1, 2)])
def test_a_floor_is_halved_once_it_has_more_points_than_a_tile(count: int, parts: int) -> None:
    points = np.stack([np.arange(float(count)), np.zeros(count)], axis=1)
    found = list(tiles(points))
    assert len(found) == parts
    assert sorted(row for tile in found for row in tile.judged.tolist()) == list(range(count))


def test_each_point_has_its_nearest_around_it_and_no_more() -> None:
    """In a row, the last one judged has half of its neighbours beyond the tile."""
    count = 2 * MOST_IN_TILE
    # Never at the same distance on both sides.
    along = np.arange(count) + 0.001 * np.arange(count) ** 2 / count
    first, second = tiles(np.stack([along, np.zeros(count)], axis=1))
    for tile, edge in ((first, int(first.judged.max())), (second, int(second.judged.min()))):
        nearest = np.argsort(np.abs(along - along[edge]), kind="stable")[: NEAREST + 1]
        assert set(nearest.tolist()) <= set(tile.rows.tolist())
        beyond = set(tile.rows.tolist()) - set(tile.judged.tolist())
        assert beyond == set(nearest.tolist()) - set(tile.judged.tolist())
