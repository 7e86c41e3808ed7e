"""The lines over a floor along which flatness is shown: which there are, and how they run."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np
import pytest

from assistant.floor.heights import survey_of
from assistant.floor.profiles import COLUMNS, GRID, LINE, ROWS, Lines, lines_of, run_one_way
from assistant.floor.proof_lines import mended_since
from assistant.job import being_read
from tests.job.conftest import Site

nan = np.nan


def of(heights: Any, along: Sequence[float] | None = None) -> Lines:
    table = np.array(heights, dtype=float)
    places = np.zeros((*table.shape, 2))
    at = np.arange(table.shape[1], dtype=float) if along is None else np.array(along, dtype=float)
    return Lines(GRID, ROWS, ("row 1",), at, table, places, (), 1.0)


def run(x: float, y: float) -> Lines:
    line = of([[0, 0, 0]])
    line.places_m[0, :, 0] = np.linspace(1, 1 + x, 3)
    line.places_m[0, :, 1] = np.linspace(2, 2 + y, 3)
    return line


def test_three_places_in_a_row_make_a_line() -> None:
    for heights, read in (
        ([[0, 0, 0]], True), ([[0, 0]], False), ([[0, 0, nan, 0, 0]], False),
        ([[nan, 0, 0, 0]], True), ([[0, nan, 0]], False), ([[0, 0, nan, 0], [0, nan, 0, 0]], False),
        ([[nan, nan, nan], [0, 0, 0]], True), ([[nan, 0, 0]], False), ([[0, 0, nan]], False),
    ):  # fmt: skip
        assert of(heights).is_read is read, heights


def test_the_widest_spacing_and_the_length() -> None:
    line = of([[0, 0, 0, 0]], along=(0.5, 1.0, 2.25, 2.5))
    assert (line.spacing_m, line.length_m) == (1.25, 2.0)


def test_lines_within_ten_degrees_run_one_way() -> None:
    """The tangent of 11.4° is 0.202, that of 10° is 0.176: cosines of 0.980 and 0.985."""
    for found, one_way in (
        ([run(3, 0)], True), ([], True), ([run(3, 0), run(5, 0)], True),
        ([run(3, 0), run(-4, 0)], True), ([run(3, 0), run(0, 3)], False),
        ([run(3, 0), run(3, 0.176 * 3)], True), ([run(3, 0), run(3, 0.22 * 3)], False),
        ([run(0, 2), run(0.1, -2), run(2, 0)], False), ([run(0, 2), run(2, 0), run(0, 2)], False),
        ([run(nan, nan), run(0, 3), run(0, 3)], True), ([run(0, 0), run(0, 3), run(3, 0)], False),
    ):  # fmt: skip
        assert run_one_way(found) is one_way, [each.places_m[0, -1] for each in found]


def test_points_of_a_grid_in_sixteenths_of_an_inch_lie_in_its_rows() -> None:
    """Half of one is 0.79375 mm, more digits than a micrometre has."""
    room = "room 12 feet 3 1/16 inches by 12 feet 3 1/16 inches"
    floor = Site(room, "grid 4 feet", *["-1/4 in"] * 9)
    rows, columns = lines_of(floor.job)
    for lines in (rows, columns):
        assert lines.heights_mm == pytest.approx(np.full((3, 3), -6.35)), lines.direction


def test_lines_of_a_grid_are_its_rows_and_its_columns() -> None:
    """Three columns at 1, 3 and 5 m, three rows at 1, 3 and 5 m."""
    floor = Site("room 6 by 6 metres", "grid 2 metres", "A1 -1", "B1 -2", "C1 -3", "A2 -4",
                 "A3 -7")  # fmt: skip
    rows, columns = lines_of(floor.job)
    assert (rows.kind, rows.direction, rows.ids) == (GRID, ROWS, ("row 1", "row 2", "row 3"))
    assert (columns.kind, columns.direction) == (GRID, COLUMNS)
    assert columns.ids == ("column A", "column B", "column C")
    np.testing.assert_array_equal(rows.heights_mm, [[-1, -2, -3], [-4, nan, nan], [-7, nan, nan]])
    np.testing.assert_array_equal(columns.heights_mm, rows.heights_mm.T)
    assert rows.along_m.tolist() == columns.along_m.tolist() == [0, 2, 4]
    assert rows.names == (("A1", "B1", "C1"), ("A2", "B2", "C2"), ("A3", "B3", "C3"))
    assert columns.names == (("A1", "A2", "A3"), ("B1", "B2", "B3"), ("C1", "C2", "C3"))
    assert rows.places_m[2, 1].tolist() == [3, 5]
    assert columns.places_m[2, 1].tolist() == [5, 3]
    assert rows.sd_mm == columns.sd_mm == max(survey_of(floor.job).sd_mm.values())
    # One of them alone, where the other has too few, or too little was read of it.
    floor.told("strike A2")
    assert [each.direction for each in lines_of(floor.job)] == [ROWS]
    narrow = Site("room 4 by 6 metres", "grid 2 metres", "A1 -1", "A2 -1", "A3 -1", "B1 -1")
    assert [each.direction for each in lines_of(narrow.job)] == [COLUMNS]
    flat = Site("room 6 by 4 metres", "grid 2 metres", "A1 -1", "B1 -1", "C1 -1", "A2 -1")
    assert [each.direction for each in lines_of(flat.job)] == [ROWS]
    assert lines_of(Site("room 6 by 6 metres", "A1 -1", "B1 -1", "C1 -1").job) == ()


def test_rows_of_a_room_with_a_corner_cut_off_keep_their_names() -> None:
    walls = ("wall east 6 m", "wall north 6 m", "wall west 4 m", "wall south 4 m", "wall west 2 m",
             "close room", "grid 2 m starting 1 m")  # fmt: skip
    read = ("A1 -1", "B1 -1", "C1 -1", "B2 -2", "B3 -3", "C2 -4", "C3 -5")
    rows, columns = lines_of(Site(*walls, *read).job)
    assert rows.names[1] == ("", "B2", "C2")
    assert (rows.ids, columns.ids[0]) == (("row 1", "row 2", "row 3"), "column A")
    assert columns.names[1] == ("B1", "B2", "B3")


def test_a_last_column_of_ones_own_is_the_end_of_its_rows() -> None:
    """Columns at 0.3, 2.3 and 4.3 m, and one at 5 m along the far wall of two rows of three.

    D3 lies the two centimetres beside its row that are let pass; D2 a millimetre further off.
    """
    floor = Site("room 5.3 by 5 metres", "grid 2 metres starting 0.3 metres",
                 "point D1 at 5 by 0.3 metres", "point D3 at 5 by 4.32 metres",
                 "point D2 at 5 by 2.321 metres",
                 "point K1 at 1 by 1.2 metres", "A1 level", "B1 level", "C1 -6", "D1 level",
                 "B2 level", "A2 -1", "C2 level", "D3 -2", "C3 -3", "B3 -4",
                 "A3 level")  # fmt: skip
    with_end, plain, columns = lines_of(floor.job)
    assert (with_end.kind, with_end.direction, with_end.ids) == (
        GRID, "along rows 1 and 3", ("row 1", "row 3"),
    )  # fmt: skip
    assert with_end.along_m.tolist() == pytest.approx([0, 2, 4, 4.7])
    assert with_end.heights_mm.tolist() == [[0, 0, -6, 0], [0, -4, -3, -2]]
    assert with_end.names == (("A1", "B1", "C1", "D1"), ("A3", "B3", "C3", "D3"))
    assert with_end.places_m[0, 3].tolist() == pytest.approx([5, 0.3])
    # a row without one is not cut by it, nor a column by a point that lies beside it
    assert (plain.direction, plain.ids) == ("along row 2", ("row 2",))
    assert plain.heights_mm.tolist() == [[-1, 0, 0]]
    assert (columns.direction, columns.ids) == (COLUMNS, ("column A", "column B", "column C"))
    # under an edge of 2.7 m from B1 to D1, C1 lies 6 deep
    told = floor.told("straightedge 2.7 metres")
    assert told.headline == "Largest gap under 2.7 m: 6 mm at C1."


def test_a_line_that_was_read_lies_where_it_was_told_to() -> None:
    room = ("room 6 by 4 metres", "grid 2 metres")
    floor = Site(*room, "line 1 from 1 by 1 metres to 4 by 1 metres every 500 mm",
                 "values -1, -2, -3, -4")  # fmt: skip
    (line,) = lines_of(floor.job)
    assert (line.kind, line.direction, line.ids) == (LINE, "along line 1", ("line 1",))
    assert line.along_m.tolist() == [0, 0.5, 1, 1.5]
    assert line.heights_mm.tolist() == [[-1, -2, -3, -4]]
    assert line.places_m[0, 2].tolist() == pytest.approx([2, 1])
    assert line.names == (("", "", "", ""),)
    two = Site(*room, "line 1 from 1 by 1 metres to 4 by 1 metres every 500 mm", "values -1, -2")
    assert lines_of(two.job) == ()
    two.told("-3")
    assert [each.length_m for each in lines_of(two.job)] == [1.0]
    nowhere = Site(*room, "line 2 every 500 mm", "values -1, -2, -3")
    assert np.isnan(lines_of(nowhere.job)[0].places_m).all()


def test_values_read_before_a_point_was_mended_are_of_another_floor() -> None:
    """Points 2 m apart: mending reaches to the values within 1 m of its point."""
    read = "0 0 0 +2 +6 +2 0 0 0 0 0 0 0"
    floor = Site("room 8 by 4 metres", "grid 2 metres", "pour finished", "B1 +6",
                 "line 1 from A1 to D1 every 500 mm", read, "end line", "line 2 every 500 mm", read,
                 "end line", "promised level", "punch over 3 mm")  # fmt: skip
    proof = being_read(floor.job).proof
    assert mended_since(being_read(floor.job), proof.lines[1]) == {}
    assert "6 mm at line 1" not in floor.told("straightedge 2 metres").headline  # a crest has none
    floor.told("mended B1", "B1 level")
    job = being_read(floor.job)
    # B1 is the fifth value, 2 m on from A1; what lies up to half way to A1 and to C1 is of it.
    assert mended_since(job, job.proof.lines[1]) == dict.fromkeys(range(2, 7), "B1")
    assert mended_since(job, job.proof.lines[2]) == {}
    (line,) = (each for each in lines_of(job) if each.ids == ("line 1",))
    assert np.flatnonzero(np.isnan(line.heights_mm[0])).tolist() == [2, 3, 4, 5, 6]
    assert floor.told("punch list").data["punch"] == []
    told = "Line 1 was read before B1 was mended: what it showed there counts no more."
    for asked in ("straightedge 2 metres", "spec SR1", "verdicts"):
        assert any(told in each for each in floor.told(asked).details), asked
    # Read again after it, they count.
    floor.told("line 3 from A1 to D1 every 500 mm", read, "end line")
    job = being_read(floor.job)
    assert mended_since(job, job.proof.lines[3]) == {}
    assert [each["point"] for each in floor.told("punch list").data["punch"]] == ["B1"]
    # A correction is no new look at the floor, and a line read at short steps is cut by its step.
    floor.told("line 1 point 5 is level")
    job = being_read(floor.job)
    assert 4 in mended_since(job, job.proof.lines[1])
