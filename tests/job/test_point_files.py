"""Files of points: whatever stands in them is read as it is, or the row is named."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from assistant.point_files.clouds import read_cloud
from assistant.point_files.points import PointFileError, Points
from assistant.point_files.text import UnknownColumns, read_text


def _read(folder: Path, text: str, columns: str | None = None) -> Points:
    path = folder / "floor.csv"
    path.write_text(text, "utf-8")
    return read_text(path, columns)


def _rows(points: Points) -> list[list[float]]:
    return [list(row) for row in zip(points.first, points.second, points.height, strict=True)]


WANT = [[1.5, 2.25, 100.125], [3.0, 4.0, -0.5]]


@pytest.mark.parametrize(
    ("text", "named"),
    [
        ("easting,northing,height\n1.5,2.25,100.125\n3,4,-0.5\n", True),
        ("1.5,2.25,100.125\n3,4,-0.5\n", False),
        ("# a total station\n\n1.5 2.25\t 100.125\n3 4 -0.5", False),
        ("1,5;2,25;100,125\n3;4;-0,5\n", False),
        ("1,5\t2,25\t100,125\n3\t4\t-0,5\n", False),
        ("1,5 2,25 100,125\n3,0 4,0 -0,5\n", False),
        ("P1,1.5,2.25,100.125\nP2,3,4,-0.5\n", False),
        ("7,1.5,2.25,100.125\n8,3,4,-0.5\n", False),
        ("\ufeffPt;Code;Z [m];N [m];E [m]\r\n1;fl;100.125;2.25;1.5\r\n2;x;-0.5;4;3\r\n", True),
        ("Est;Nord;Altitude\n1,5;2,25;100,125\n3;4;-0,5\n", True),
        ("Norte,Este,Cota\n2.25,1.5,100.125\n4,3,-0.5\n", True),
        ("oost\tnoord\thoogte\n1.5\t2.25\t100.125\n3\t4\t-0.5\n", True),
        ("Name,X,Y,Elevation,Intensity\na,1.5,2.25,100.125,7\nb,3,4,-0.5,9\n", True),
        ('"x", "y", "z"\n"1.5", "2.25", "100.125"\n"3", "4", "-0.5"\n', True),
        ('"E","N","H"\n"1,5","2,25","100,125"\n"3,0","4,0","-0,5"\n', True),
        ('name;E;N;H\n"a; b";"1,5";"2,25";"100,125"\n"c";3;4;"-0,5"\n', True),
        ('name,E,N,H\n"by the door, left",1.5,2.25,100.125\nplain,3,4,-0.5\n', True),
    ],
)  # fmt: skip
def test_the_same_points_in_many_dresses(tmp_path: Path, text: str, named: bool) -> None:
    points = _read(tmp_path, text)
    assert _rows(points) == WANT, text
    assert points.named is named


def test_columns_that_are_said(tmp_path: Path) -> None:
    text = "1,2.25,1.5,100.125,9\n2,4,3,-0.5,9\n"
    with pytest.raises(UnknownColumns, match="which column is what"):
        _read(tmp_path, text)
    assert _rows(_read(tmp_path, text, "P,N,E,Z,-")) == WANT
    with pytest.raises(PointFileError, match="height 0 times"):
        _read(tmp_path, text, "P,N,E")
    with pytest.raises(PointFileError, match="4 columns are said, the rows have 5"):
        _read(tmp_path, text, "P,N,E,Z")


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("1,2,3\n4,5\n6,7,8\n", "row 2: 2 cells, where 3"),
        ("1,2,3\n4,five,6\n", "row 2: not three usable numbers: 4,five,6"),
        ("1,2,3\n4,5,nan\n", "row 2: not three usable numbers"),
        ("1,2,3\n4,5,inf\n", "row 2: not three usable numbers"),
        ("a,b,c,d,e\n1,2,3,4,5\n", "which column is what"),
        ("x,y,z\n", "no point under it"),
        ("", "no point in the file"),
    ],
)
def test_a_bad_row_is_named_and_nothing_taken(tmp_path: Path, text: str, told: str) -> None:
    with pytest.raises(PointFileError, match=told):
        _read(tmp_path, text)


def test_what_is_no_text(tmp_path: Path) -> None:
    path = tmp_path / "photo.csv"
    path.write_bytes(b"1,2,3\n\xff\xd8\xff")
    with pytest.raises(PointFileError, match="no text file"):
        read_text(path)
    path.write_bytes(b"x,y,z\n\x81\x8d,2,3\n")
    with pytest.raises(PointFileError, match="save it as CSV in UTF-8"):
        read_text(path)
    with pytest.raises(PointFileError, match="cannot be read"):
        read_text(tmp_path / "none.csv")


def test_tables_of_older_spreadsheets(tmp_path: Path) -> None:
    """A header or a word in Windows' western code page, and UTF-16, as spreadsheets save them."""
    german = "Punkt;Rechtswert;Hochwert;Höhe\nTür;1,5;2,25;100,125\nTür;3;4;-0,5\n"
    path = tmp_path / "floor.csv"
    for coding in ("cp1252", "utf-16", "utf-8", "utf-8-sig"):
        path.write_bytes(german.encode(coding))
        points = read_text(path)
        assert (_rows(points), points.named) == (WANT, True), coding


PLY = """ply
format ascii 1.0
element vertex 2
property float x
property float y
property uchar red
property float z
end_header
1.5 2.25 9 100.125
3 4 9 -0.5
"""
PCD = """# .PCD v0.7
VERSION 0.7
FIELDS x y z rgb
SIZE 4 4 4 4
TYPE F F F F
COUNT 1 1 1 1
WIDTH 3
HEIGHT 1
POINTS 3
DATA ascii
1.5 2.25 100.125 0
nan nan nan 0
3 4 -0.5 0
"""


@pytest.mark.parametrize(("name", "text"), [("a.ply", PLY), ("a.PCD", PCD)])
def test_clouds_as_text(tmp_path: Path, name: str, text: str) -> None:
    """The formats as their authors describe them."""
    path = tmp_path / name
    path.write_text(text, "ascii")
    points = read_cloud(path)
    assert _rows(points) == WANT
    path.write_text(text.replace("ascii", "binary_little_endian"), "ascii")
    with pytest.raises(PointFileError, match="binary"):
        read_cloud(path)
    path.write_text(text.rsplit("\n", 2)[0] + "\n3 4\n", "ascii")
    with pytest.raises(PointFileError, match=r"point \d of \d is not as its header says"):
        read_cloud(path)


@pytest.mark.parametrize("ending", ["las", "e57"])
def test_binary_clouds_want_their_reader(
    tmp_path: Path, ending: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "laspy", None)
    monkeypatch.setitem(sys.modules, "pye57", None)
    path = tmp_path / f"a.{ending}"
    path.write_bytes(b"LASF")
    with pytest.raises(PointFileError, match=r"leadsman\[scan\]"):
        read_cloud(path)


class _Las:
    """What laspy gives of a file, as far as it is asked for."""

    def __init__(self, count: int) -> None:
        self.header = SimpleNamespace(point_count=count)

    def __enter__(self) -> _Las:
        return self

    def __exit__(self, *_: object) -> None:
        pass

    def chunk_iterator(self, _size: int) -> Iterator[Any]:
        for x, y, z in WANT:
            yield _Chunk(x=np.array([x]), y=np.array([y]), z=np.array([z]))


class _Chunk(SimpleNamespace):
    def __len__(self) -> int:
        return len(self.x)


class _E57:
    """What pye57 gives of a file with two scans; a beam that came back from nowhere is NaN."""

    scan_count = 2

    def __init__(self, _path: str) -> None:
        pass

    def read_scan(self, scan: int, **_: object) -> dict[str, Any]:
        rows = np.array([WANT[scan], [np.nan] * 3])
        return {f"cartesian{axis}": rows[:, at] for at, axis in enumerate("XYZ")}


def test_binary_clouds_by_their_readers(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The readers stand in; files that they wrote themselves were read by hand."""
    errors = SimpleNamespace(LaspyException=RuntimeError)
    laspy = SimpleNamespace(open=lambda _: _Las(2), errors=errors)
    monkeypatch.setitem(sys.modules, "laspy", laspy)
    monkeypatch.setitem(sys.modules, "pye57", SimpleNamespace(E57=_E57))
    for name in ("a.laz", "a.e57"):
        points = read_cloud(tmp_path / name)
        assert _rows(points) == WANT, name
        laspy.open = lambda _: _Las(10**9)
    with pytest.raises(PointFileError, match="more than 5,000,000"):
        read_cloud(tmp_path / "a.las")
