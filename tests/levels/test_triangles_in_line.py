"""When points are in line, which is a matter of their shape and not of their size."""

from __future__ import annotations

import numpy as np

from assistant.levels.triangles import triangulate


def test_points_in_line_have_sides_and_no_triangles_at_any_size() -> None:
    for size in (1e-4, 1.0, 1e4):
        flat = np.array([[0.0, 0.0], [1.0, 0.0], [0.0, 5e-4]]) * size
        assert len(triangulate(flat).corners) == 1, size
        line = np.array([[0.0, 0.0], [2.0, 2.0], [1.0, 1.0]]) * size
        found = triangulate(line)
        assert len(found.corners) == 0, size
        there, back = (side.tolist() for side in found.sides)
        assert there == [0, 2, 1]
        assert back == [1, 2, 0]
    assert triangulate(np.array([[3.0, 4.0]])).sides == ()
    # Down a line and along none of the first axis: begun at the end that is further left or down.
    upright, slanting = np.array([[0.0, 2], [0, 1], [0, 0]]), np.array([[2.0, 0], [1, 1], [0, 2]])
    for each in (upright, slanting):
        assert triangulate(each).sides[0].tolist() == [2, 1, 0]
