"""Every format, read back by something that is not ours."""

from __future__ import annotations

import csv
import io
import json
import re
import xml.etree.ElementTree as ET
from fractions import Fraction
from pathlib import Path
from typing import Any

import ezdxf
import numpy as np
import pytest
import shapely
from shapely.geometry import shape

from assistant.command_line.handing_over import EXPORTED
from assistant.errors import LeadsmanError
from assistant.floor.depths import depths_of
from assistant.floor.geometry import area_of
from assistant.floor.heights import heights_of
from assistant.floor.places import places_of
from assistant.floor.tally import tally_of
from assistant.handover.csv_text import as_read, number_of
from assistant.handover.exports import FORMATS
from assistant.handover.landxml import check_terrain, surface_xml
from assistant.handover.terrain import Terrain
from assistant.job import EMPTY, Job, fold
from assistant.record.event_rows import Row, event_of
from assistant.reply.times import UNTIMED
from tests.handover.conftest import HOSTILE
from tests.job.conftest import Site

LANDXML = "{http://www.landxml.org/schema/LandXML-1.2}"


def table(job: Job, name: str) -> list[dict[str, str]]:
    text = FORMATS["csv"](job, "floor")[f"{name}.csv"].decode("utf-8-sig")
    return list(csv.DictReader(io.StringIO(text, newline="")))


def test_the_command_line_offers_what_there_is() -> None:
    assert tuple(FORMATS) == EXPORTED


def test_the_same_job_gives_the_same_bytes(floor: Job) -> None:
    for make in FORMATS.values():
        assert make(floor, "floor") == make(floor, "floor")


# --- tables ---------------------------------------------------------------------------


def test_points_come_back_exactly() -> None:
    """Exact arithmetic: in inches, sixteenths have four decimals more than any screen shows."""
    site = Site("readings in inches", "room 40 by 26 feet", "grid 6 feet 7 inches",
                "product example standard", "A1 -11/16 in", "B1 -0.7 in")  # fmt: skip
    job = site.job
    rows = {row["point"]: row for row in table(job, "points")}
    places, heights, depths = places_of(job.layout), heights_of(job), depths_of(job)
    assert list(rows) == list(places.names)
    for point, row in rows.items():
        assert (float(row["x_m"]), float(row["y_m"])) == places.xy(point)
        assert number_of(row["height_mm"]) == heights.get(point)
        assert (number_of(row["depth_mm"]) is None) == (point not in depths)
    assert number_of(rows["A1"]["height_mm"]) == Fraction(-11 * 254, 160)


def test_a_table_is_one_for_spreadsheets(floor: Job) -> None:
    for name, content in FORMATS["csv"](floor, "floor").items():
        assert content.startswith(b"\xef\xbb\xbf"), name
        assert content.count(b"\n") == content.count(b"\r\n"), name
    assert {row["reading"] for row in table(floor, "readings")} >= {"-10", "-17"}


def test_what_was_put_right_is_there_and_counts_no_more() -> None:
    site = Site("room 4 by 4 metres", "grid 2 metres", "A1 -18", "correct A1 to minus 17")
    rows = [(row["what"], row["reading"], row["counts"]) for row in table(site.job, "readings")]
    assert rows == [("read", "-18", "no"), ("put right", "-17", "yes")]
    site.told("strike A1")
    assert table(site.job, "readings")[-1]["what"] == "struck"
    assert "yes" not in {row["counts"] for row in table(site.job, "readings")}


def test_no_text_is_run_by_a_spreadsheet(hostile: Job) -> None:
    cells = [cell for name in ("log", "points") for row in table(hostile, name)
             for cell in row.values()]  # fmt: skip
    texts = [cell for cell in cells if number_of(cell) is None]
    assert not [cell for cell in texts if cell.startswith(("=", "+", "-", "@", "\t", "\r"))]
    assert not [cell for cell in cells if not cell.isprintable()]
    said = [as_read(row["said"]) for row in table(hostile, "log")]
    assert HOSTILE[0] in said


# --- surfaces -------------------------------------------------------------------------


def terrain_read(content: bytes) -> Terrain:
    """The first surface of a LandXML file, by what the published structure calls its parts."""
    root = ET.fromstring(content)
    assert root.tag == f"{LANDXML}LandXML"
    assert {"date", "time", "version"} <= set(root.attrib)
    metric = root.find(f"{LANDXML}Units/{LANDXML}Metric")
    assert metric is not None
    assert {"areaUnit", "linearUnit", "volumeUnit", "temperatureUnit", "pressureUnit"} <= set(
        metric.attrib
    )
    (surface, *_) = root.findall(f"{LANDXML}Surfaces/{LANDXML}Surface")
    definition = surface.find(f"{LANDXML}Definition")
    assert definition is not None
    assert definition.get("surfType") == "TIN"
    places = definition.findall(f"{LANDXML}Pnts/{LANDXML}P")
    ids = [int(place.attrib["id"]) for place in places]
    assert len(set(ids)) == len(ids)
    assert min(ids) > 0
    row = {number: at for at, number in enumerate(ids)}
    north_east = np.array(
        [[float(each) for each in (place.text or "").split()] for place in places]
    )
    faces = definition.findall(f"{LANDXML}Faces/{LANDXML}F")
    corners = [[row[int(each)] for each in (face.text or "").split()] for face in faces]
    return Terrain(north_east[:, [1, 0, 2]], np.array(corners))


@pytest.mark.parametrize("which", ["floor", "notched"])
def test_the_triangles_are_the_floor_and_its_volume(
    which: str, request: pytest.FixtureRequest
) -> None:
    """Exact arithmetic: all of it lies below the finish, so the prisms are the tally's volume."""
    job: Job = request.getfixturevalue(which)
    read = terrain_read(surface_xml(job, "floor"))
    a, b, c = (read.xyz_m[read.triangles[:, at]] for at in range(3))
    areas = ((b - a)[:, 0] * (c - a)[:, 1] - (b - a)[:, 1] * (c - a)[:, 0]) / 2
    assert (areas > 0).all()
    assert areas.sum() == pytest.approx(area_of(job.layout), abs=1e-4)
    depth = float(job.finish_mm) / 1000 - (a + b + c)[:, 2] / 3
    assert (areas * depth).sum() == pytest.approx(tally_of(job).volume_m3, rel=1e-4)
    # No triangle lies over another: together they cover what their areas add up to.
    every = shapely.polygons(read.xyz_m[read.triangles][:, :, :2])
    assert shapely.union_all(every, grid_size=1e-7).area == pytest.approx(areas.sum(), abs=1e-4)


def test_northing_comes_first_and_points_keep_their_heights(notched: Job) -> None:
    read = terrain_read(surface_xml(notched, "floor"))
    heights = {(round(x, 5), round(y, 5)): z for x, y, z in read.xyz_m.tolist()}
    found = 0
    for point, height in heights_of(notched).items():
        x, y = places_of(notched.layout).xy(point)
        if (round(x, 5), round(y, 5)) in heights:
            found += 1
            assert heights[round(x, 5), round(y, 5)] == pytest.approx(float(height) / 1000)
    assert found > 10


FLAT = np.array([[0.0, 0.0, 100.0], [10.0, 0.0, 102.0], [0.0, 10.0, 98.0]])


@pytest.mark.parametrize(
    ("corners", "triangles"),
    [
        (FLAT, [[0, 1, 1]]),  # which the schema takes
        (FLAT, [[0, 1, 3]]),
        (FLAT, [[0, 2, 1]]),
        (np.where(FLAT == 98.0, np.nan, FLAT), [[0, 1, 2]]),
    ],
)
def test_a_surface_that_is_none_is_not_written(
    corners: np.ndarray, triangles: list[list[int]]
) -> None:
    check_terrain(Terrain(FLAT, np.array([[0, 1, 2]])))
    with pytest.raises(LeadsmanError, match="nothing was written"):
        check_terrain(Terrain(corners, np.array(triangles)))


# --- drawings -------------------------------------------------------------------------


def test_the_drawing_opens_and_has_all_of_the_floor(notched: Job, tmp_path: Path) -> None:
    path = tmp_path / "floor.dxf"
    path.write_bytes(FORMATS["dxf"](notched, "floor")["floor.dxf"])
    drawing = ezdxf.readfile(path)  # type: ignore[attr-defined]
    assert not drawing.audit().has_errors
    assert drawing.header["$INSUNITS"] == 6  # metres
    space: Any = drawing.modelspace()  # its entities are typed by what all of them have
    (edge,) = space.query('LWPOLYLINE[layer=="EDGE"]')
    outline = shapely.Polygon([at[:2] for at in edge.get_points()])
    # 6 m by 3 m and 4 m by 2 m; the column is drawn for itself.
    assert outline.area == pytest.approx(26)
    heights = heights_of(notched)
    drawn = {round(point.dxf.location.z * 1000, 6) for point in space.query("POINT")}
    assert drawn == {round(float(height), 6) for height in heights.values()}
    contours = space.query('LWPOLYLINE[layer=="SLAB_CONTOURS"]')
    low, high = (float(edge(heights.values())) for edge in (min, max))
    levels = {round(line.dxf.elevation * 1000, 6) for line in contours}
    assert len(levels) > 2
    assert all(low - 5 < level < high + 5 for level in levels)
    for line in contours:
        for at in line.get_points():
            assert outline.distance(shapely.Point(at[:2])) < 1e-6
    assert len(space.query("3DFACE")) > 20


def test_a_drawing_program_finds_no_codes_in_a_text(hostile: Job) -> None:
    text = FORMATS["dxf"](hostile, HOSTILE[5] + HOSTILE[2])["floor.dxf"].decode("utf-8")
    assert not re.search(r"%%|\\U\+|\u202e", text)


# --- the rest -------------------------------------------------------------------------


def test_the_json_is_the_whole_job(hostile: Job) -> None:
    content = FORMATS["json"](hostile, "floor")["job.json"]
    content.decode("ascii")
    whole = json.loads(content)
    assert whole["schema"] == "leadsman-job/1"
    assert whole["client"] == HOSTILE[0]
    again = fold(
        (
            entry["number"],
            entry["said"],
            [
                event_of(Row(event["name"], event["version"], json.dumps(event["facts"])))
                for event in entry["events"]
            ],
            UNTIMED,
        )
        for entry in whole["record"]
    )
    assert again == hostile
    rows = whole["tables"]["points"]
    assert [row["point"] for row in rows] == [row["point"] for row in table(hostile, "points")]


def test_a_map_without_a_place_on_earth_says_so(floor: Job) -> None:
    whole = json.loads(FORMATS["geojson"](floor, "floor")["floor.local.json"])
    assert whole["georeferenced"] is False
    assert "not GeoJSON" in whole["coordinates"]
    assert "type" not in whole, "nothing may take it for GeoJSON"
    shapes = {
        kind: [shape(each["geometry"]) for each in whole["features"]
               if each["properties"]["kind"] == kind]
        for kind in ("floor", "strip", "point")
    }  # fmt: skip
    (room,) = shapes["floor"]
    assert room.area == pytest.approx(96)
    assert all(room.covers(point) for point in shapes["point"])
    # The strips are the floor, each bit of it once.
    assert shapely.union_all(shapes["strip"]).area == pytest.approx(96, abs=1e-6)
    assert sum(strip.area for strip in shapes["strip"]) == pytest.approx(96, abs=1e-6)


def test_too_little_is_told() -> None:
    for name in ("dxf", "landxml", "geojson"):
        with pytest.raises(LeadsmanError, match="the room and at least one reading"):
            FORMATS[name](EMPTY, "floor")
    site = Site("room 4 by 4 metres", "grid 2 metres")
    with pytest.raises(LeadsmanError, match="at least one reading"):
        FORMATS["landxml"](site.job, "floor")
