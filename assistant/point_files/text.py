"""Points as text: CSV, TXT and the like, with a header or none, decimal points or commas."""

from __future__ import annotations

import codecs
import csv
import re
from array import array
from collections.abc import Iterator, Sequence
from math import isfinite
from pathlib import Path

from assistant.point_files.points import MOST_POINTS, PointFileError, Points, Seen, as_points
from grammar.frozen import frozen

__all__ = ["COLUMN_WORDS", "FileLayout", "UnknownColumns", "columns_said", "read_text"]

COLUMN_WORDS: dict[str, frozenset[str]] = {
    "easting": frozenset("easting east e x rechts rechtswert ost est este oost".split()),
    "northing": frozenset("northing north n y hoch hochwert nord norte noord".split()),
    "height": frozenset(
        "height h z elevation elev level hoehe höhe alt altitude cote cota quota hoogte".split()
    ),
    "point": frozenset("point pt p id name number no nr punkt punktnummer code".split()),
}
"""What a column may be called in a header."""
LEFT_OUT = "-"
FLOOR = "floor"
"""The column in our own tables that says which floor a point was read on."""
FLOORS = ("slab", "finished floor")
_UNIT_WORDS = {"metres": "m", "meters": "m", "feet": "ft", "inches": "in"}
_WITH_UNIT = re.compile(
    r"^(?P<name>.+?)(?:[_\s]+|\s*[\[(]\s*)(?P<unit>mm|cm|m|ft|in|metres|meters|feet|inches)\s*[\])]?$"
)
_WANTED = ("easting", "northing", "height")
_COMMENTS = ("#", "//", "%")
_COMMA_NUMBER = re.compile(r"[-+]?\d+,\d+")
"""In quotes: the comma is decimal, whatever parts the cells."""
_BYTES_A_TELL = 1 << 18


class UnknownColumns(PointFileError):
    """Columns whose meaning has to be asked for."""

    def __init__(self, path: Path, row: Sequence[str]) -> None:
        self.row = tuple(row)
        shown = " | ".join(row)
        super().__init__(
            f"{path.name}: which column is what? Its first row: {shown}. Say it in order, as "
            "--columns point,easting,northing,height (- leaves one out)."
        )


@frozen
class FileLayout:
    """How the rows of a file are made."""

    separator: str
    """``,``, ``;``, a tab, or a blank for any number of blanks."""
    decimal_comma: bool
    columns: tuple[str, ...]
    named: bool
    """Whether the columns say which place is which."""
    header_rows: int
    place_unit: str | None = None
    """Where the header says it, as ``x_m`` or ``E [m]`` do."""
    height_unit: str | None = None
    floor_at: int | None = None
    """The column of a table of ours that says which floor a point is of."""


def columns_said(words: str) -> tuple[str, ...]:
    """
    The columns of ``point,easting,northing,height``.

    >>> columns_said("P, E, N, Z")
    ('point', 'easting', 'northing', 'height')
    """
    found = tuple(_meaning(word) or LEFT_OUT for word in words.split(","))
    for wanted in _WANTED:
        if found.count(wanted) != 1:
            raise PointFileError(
                f"Columns {words} have {wanted} {found.count(wanted)} times; once each easting, "
                "northing and height: --columns point,easting,northing,height"
            )
    return found


def _unit_of(word: str) -> tuple[str, str | None]:
    """A column's name without its unit, and the unit; None without one."""
    word = word.strip().strip('"').strip().lower()
    found = _WITH_UNIT.match(word)
    if found is None:
        return word, None
    return found["name"], _UNIT_WORDS.get(found["unit"], found["unit"])


def _meaning(word: str) -> str | None:
    word = re.sub(r"[(\[].*", "", _unit_of(word)[0]).strip()
    return next((name for name, words in COLUMN_WORDS.items() if word in words), None)


def read_text(
    path: Path,
    columns: str | None = None,
    seen: Seen = lambda _: None,
    floor: str = FLOORS[0],
) -> Points:
    """
    All points of a text file.

    Parameters
    ----------
    path : Path
    columns : str, optional
        What the columns are, as :func:`columns_said` takes it, where the file does not say.
    seen
        Called with the bytes read since the last call.
    floor : str
        ``slab`` or ``finished floor``: whose points are taken from a table of ours, which holds
        both; those that were not read yet have no height there and are passed over.

    Raises
    ------
    UnknownColumns
        Where it has to be asked what the columns are.
    PointFileError
        For the first bad row, by its number; nothing is taken then.
    """
    try:
        try:
            layout, values = _read(path, "utf-8-sig", columns, seen, floor)
        except UnicodeDecodeError as fault:
            encoding = _older_encoding(path)
            if encoding is None:
                raise PointFileError(
                    f"{path.name} is no text file: byte {fault.start} is none. A table saved in "
                    "another coding: save it as CSV in UTF-8."
                ) from fault
            layout, values = _read(path, encoding, columns, seen, floor)
    except OSError as fault:
        raise PointFileError(f"{path} cannot be read: {fault.strerror or fault}.") from fault
    if not len(values) and layout.floor_at is not None:
        raise PointFileError(f"{path.name} has no point of the {floor} that was read.")
    return as_points(
        values,
        named=layout.named,
        place_unit=layout.place_unit,
        height_unit=layout.height_unit,
    )


def _read(
    path: Path, encoding: str, columns: str | None, seen: Seen, floor: str
) -> tuple[FileLayout, array[float]]:
    with path.open(encoding=encoding, errors="strict") as stream:
        layout = _layout(path, [line for _, line in zip(range(50), stream, strict=False)], columns)
        stream.seek(0)
        return layout, _numbers(path, stream, layout, seen, floor)


def _older_encoding(path: Path) -> str | None:
    """
    How a table is coded that is no UTF-8: UTF-16 by its mark, or the usual one of older
    spreadsheets, where its header names columns that are known; None for what is no table.
    """
    with path.open("rb") as stream:
        start = stream.read(_BYTES_A_TELL)
    if start.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        return "utf-16"
    try:
        header = next(line for line in start.decode("cp1252").splitlines() if not _is_comment(line))
    except (UnicodeDecodeError, StopIteration):
        return None
    words = [_meaning(cell) for cell in _split(header, _separator([header])[0])]
    return "cp1252" if set(_WANTED) <= set(words) else None


def _is_comment(line: str) -> bool:
    return not line.strip() or line.lstrip().startswith(_COMMENTS)


def _layout(path: Path, lines: list[str], said: str | None) -> FileLayout:
    rows = [line for line in lines if not _is_comment(line)]
    if not rows:
        raise PointFileError(f"{path.name}: there is no point in the file.")
    data = rows[1:] or rows
    separator, comma = _separator(data)
    first = _split(rows[0], separator)
    has_header = sum(_is_number(cell, comma) for cell in first) < 2
    if has_header and not rows[1:]:
        raise PointFileError(f"{path.name}: there is a header, and no point under it.")
    if said is not None:
        columns = columns_said(said)
        if len(columns) != len(_split(data[0], separator)):
            raise PointFileError(
                f"{path.name}: {len(columns)} columns are said, the rows have "
                f"{len(_split(data[0], separator))}."
            )
        return FileLayout(separator, comma, columns, True, int(has_header))
    if has_header:
        columns = tuple(_meaning(cell) or LEFT_OUT for cell in first)
        if any(columns.count(wanted) != 1 for wanted in _WANTED):
            raise UnknownColumns(path, first)
        place, height = _units(path, first, columns)
        floor_at = _floor_at(first, _split(data[0], separator))
        return FileLayout(separator, comma, columns, True, 1, place, height, floor_at)
    count = len(first)
    if count == 3:
        return FileLayout(separator, comma, _WANTED, False, 0)
    if count == 4:
        return FileLayout(separator, comma, ("point", *_WANTED), False, 0)
    raise UnknownColumns(path, first)


def _units(
    path: Path, header: Sequence[str], columns: Sequence[str]
) -> tuple[str | None, str | None]:
    """Of the places and of the heights, where the header says them."""
    east, north, height = (_unit_of(header[columns.index(each)])[1] for each in _WANTED)
    if east != north:
        raise PointFileError(
            f"{path.name}: its header has easting in {east or 'no unit'} and northing in "
            f"{north or 'no unit'}; both in one unit."
        )
    return east, height


def _floor_at(header: Sequence[str], row: Sequence[str]) -> int | None:
    names = [cell.lower() for cell in header]
    if FLOOR not in names:
        return None
    at = names.index(FLOOR)
    # Any other table's floor is a storey, and no matter here.
    return at if at < len(row) and row[at] in FLOORS else None


def _separator(rows: Sequence[str]) -> tuple[str, bool]:
    """What parts the cells, and whether a comma is decimal."""
    quoted = re.findall(r'"([^"]*)"', rows[0])
    row = re.sub(r'"[^"]*"', '""', rows[0]).strip()
    if any(_COMMA_NUMBER.fullmatch(cell.strip()) for cell in quoted):
        parted = next((each for each in (";", "\t", ",") if each in row), ",")
        return parted, True
    for separator in (";", "\t"):
        if separator in row:
            return separator, "," in row and "." not in row
    cells = row.split()
    if len(cells) >= 3 and not row.rstrip().endswith(",") and ", " not in row:
        # Blanks part them: a comma within a cell is decimal.
        return " ", any("," in cell for cell in cells)
    return ",", False


def _split(line: str, separator: str) -> list[str]:
    cells = line.split() if separator == " " else _cells(line, separator)
    return [cell.strip().strip('"') for cell in cells]


def _cells(line: str, separator: str | None) -> list[str]:
    """The cells of a row; what stands in quotes is one, whatever parts the others."""
    if separator is None or '"' not in line:
        return line.rstrip("\r\n").split(separator)
    return next(csv.reader([line], delimiter=separator, skipinitialspace=True), [])


def _is_number(cell: str, comma: bool) -> bool:
    try:
        float(cell.replace(",", ".") if comma else cell)
    except ValueError:
        return False
    return True


def _numbers(
    path: Path, stream: Iterator[str], layout: FileLayout, seen: Seen, floor: str
) -> array[float]:
    places = [layout.columns.index(wanted) for wanted in _WANTED]
    width, comma = len(layout.columns), layout.decimal_comma
    separator = None if layout.separator == " " else layout.separator
    values = array("d")
    skip, read = layout.header_rows, 0
    for number, line in enumerate(stream, start=1):
        read += len(line)
        if read >= _BYTES_A_TELL:
            seen(read)
            read = 0
        if _is_comment(line):
            continue
        if skip:
            skip -= 1
            continue
        cells = line.split(separator) if '"' not in line else _cells(line, separator)
        if len(cells) != width:
            raise PointFileError(
                f"{path.name}, row {number}: {len(cells)} cells, where {width} are expected: "
                f"{line.strip()[:60]}. Nothing was taken; put the row right or take it out."
            )
        if layout.floor_at is not None and _is_passed_over(cells, layout.floor_at, floor, places):
            continue
        try:
            point = [
                float(
                    cells[at].strip('" \r\n').replace(",", ".")
                    if comma
                    else cells[at].strip('" \r\n')
                )
                for at in places
            ]
        except ValueError:
            raise _bad(path, number, line) from None
        if not all(map(isfinite, point)):
            raise _bad(path, number, line)
        values.extend(point)
        if len(values) > 3 * MOST_POINTS:
            raise PointFileError(
                f"{path.name} has more than {MOST_POINTS:,} points; thin it out first."
            )
    seen(read)
    return values


def _is_passed_over(cells: Sequence[str], at: int, floor: str, places: Sequence[int]) -> bool:
    """Whether a row of a table of ours is of the other floor, or of a point not read yet."""
    return cells[at].strip('"') != floor or not all(cells[each].strip() for each in places)


def _bad(path: Path, number: int, line: str) -> PointFileError:
    return PointFileError(
        f"{path.name}, row {number}: not three usable numbers: {line.strip()[:60]}. Nothing was "
        "taken; put the row right or take it out."
    )
