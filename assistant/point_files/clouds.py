"""Point clouds in other formats: PLY and PCD as text, LAS, LAZ and E57 through their readers.

The readers are laspy with lazrs, and pye57, of the extra ``scan``; without them everything else
works. The coordinates of all four formats are x, y and z in metres.
"""

from __future__ import annotations

from array import array
from importlib import import_module
from math import isfinite
from pathlib import Path
from typing import Any

from assistant.point_files.points import MOST_POINTS, PointFileError, Points, Seen, as_points

__all__ = ["CLOUDS", "read_cloud"]

_SCALARS = {"char", "uchar", "short", "ushort", "int", "uint", "float", "double", "int8", "uint8",
            "int16", "uint16", "int32", "uint32", "float32", "float64"}  # fmt: skip
_TELL = 20_000


def read_cloud(path: Path, seen: Seen = lambda _: None) -> Points:
    """
    All points of a cloud, by the ending of its name.

    Raises PointFileError where it is none, is binary, or its reader is missing.
    """
    try:
        return CLOUDS[path.suffix.lower()](path, seen)
    except OSError as fault:
        raise PointFileError(f"{path} cannot be read: {fault.strerror or fault}.") from fault


def _ply(path: Path, seen: Seen) -> Points:
    """Source for the format: its author's description of PLY, as text, format ascii 1.0."""
    with path.open("rb") as stream:
        if stream.readline().strip() != b"ply":
            raise PointFileError(f"{path.name} is no PLY file.")
        count, names, element = -1, [], ""
        for line in stream:
            words = line.decode("ascii", "replace").split()
            if words[:1] == ["format"] and words[1:2] != ["ascii"]:
                raise PointFileError(f"{path.name} is a binary PLY; save it as ascii.")
            if words[:1] == ["element"]:
                element = words[1]
                count = int(words[2]) if element == "vertex" else count
            elif words[:1] == ["property"] and element == "vertex" and words[1] in _SCALARS:
                names.append(words[2])
            elif words == ["end_header"]:
                break
        return _rows(path, stream, names, count, seen)


def _pcd(path: Path, seen: Seen) -> Points:
    """Source for the format: the description of PCD version 0.7, DATA ascii."""
    with path.open("rb") as stream:
        names: list[str] = []
        count = -1
        for line in stream:
            words = line.decode("ascii", "replace").split()
            if words[:1] == ["FIELDS"]:
                names = words[1:]
            elif words[:1] == ["POINTS"]:
                count = int(words[1])
            elif words[:1] == ["DATA"]:
                if words[1:] != ["ascii"]:
                    raise PointFileError(f"{path.name} is a binary PCD; save it as ascii.")
                break
        return _rows(path, stream, names, count, seen)


def _rows(path: Path, stream: Any, names: list[str], count: int, seen: Seen) -> Points:
    if count < 0 or not {"x", "y", "z"} <= set(names):
        raise PointFileError(f"{path.name} does not say where its points' x, y and z are.")
    if count > MOST_POINTS:
        raise PointFileError(
            f"{path.name} has more than {MOST_POINTS:,} points; thin it out first."
        )
    places = [names.index(name) for name in "xyz"]
    values = array("d")
    for number in range(1, count + 1):
        cells = stream.readline().split()
        try:
            point = [float(cells[at]) for at in places]
        except (IndexError, ValueError):
            raise PointFileError(
                f"{path.name}: point {number} of {count} is not as its header says; nothing was "
                "taken."
            ) from None
        # Scanners write nan where nothing came back: there is no point then.
        if all(map(isfinite, point)):
            values.extend(point)
        if number % _TELL == 0:
            seen(_TELL)
    return as_points(values, named=True)


def _las(path: Path, seen: Seen) -> Points:
    laspy = _reader("laspy", path)
    import numpy as np

    parts = []
    try:
        with laspy.open(str(path)) as file:
            if file.header.point_count > MOST_POINTS:
                raise PointFileError(f"{path.name} has more than {MOST_POINTS:,} points.")
            for chunk in file.chunk_iterator(_TELL):
                parts.append(np.column_stack((chunk.x, chunk.y, chunk.z)))
                seen(len(chunk))
    except (laspy.errors.LaspyException, ValueError) as fault:
        raise PointFileError(
            f"{path.name} cannot be read as LAS: {str(fault).rstrip('.')}. Nothing was taken."
        ) from fault
    table = np.concatenate(parts) if parts else np.zeros((0, 3))
    return as_points(array("d", table.astype(float).tobytes()), named=True)


def _e57(path: Path, seen: Seen) -> Points:
    pye57 = _reader("pye57", path)
    import numpy as np

    parts = []
    try:
        file = pye57.E57(str(path))
        for scan in range(file.scan_count):
            data = file.read_scan(scan, ignore_missing_fields=True)
            parts.append(
                np.column_stack([data[f"cartesian{axis}"] for axis in "XYZ"]).astype(float)
            )
            seen(len(parts[-1]))
            if sum(map(len, parts)) > MOST_POINTS:
                raise PointFileError(f"{path.name} has more than {MOST_POINTS:,} points.")
    except PointFileError:
        raise
    except Exception as fault:  # the reader's own kinds are of its compiled part
        # What comes after the first line is the reader's own place in its source.
        why = next(iter(str(fault).strip().splitlines()), "") or type(fault).__name__
        raise PointFileError(
            f"{path.name} cannot be read as E57: {why.rstrip('.')}. Nothing was taken."
        ) from fault
    table = np.concatenate(parts) if parts else np.zeros((0, 3))
    table = table[np.isfinite(table).all(axis=1)]
    return as_points(array("d", table.tobytes()), named=True)


def _reader(name: str, path: Path) -> Any:
    try:
        return import_module(name)
    except ImportError as fault:
        raise PointFileError(
            f"{path.suffix.upper().lstrip('.')} files want the package {name}: "
            "pip install 'leadsman[scan]', or save the points as CSV."
        ) from fault


CLOUDS = {".ply": _ply, ".pcd": _pcd, ".las": _las, ".laz": _las, ".e57": _e57}
"""By the ending of a file's name."""
