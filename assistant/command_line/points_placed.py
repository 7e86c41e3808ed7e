"""Where a file's points lie in the room: its units, its corner, which way its axes run."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from pathlib import Path
from typing import TYPE_CHECKING

from assistant.errors import LeadsmanError
from assistant.floor.late_numpy import np
from grammar.frozen import frozen, frozen_identity

if TYPE_CHECKING:
    from assistant.floor.scans.fit import Fit, ScanPlacement
    from assistant.levels.arrays import FloatArray
    from assistant.point_files.points import Points

UNITS = {"m": Decimal(1), "cm": Decimal("0.01"), "mm": Decimal("0.001"),
         "ft": Decimal("0.3048"), "in": Decimal("0.0254")}  # fmt: skip

Asks = Callable[[str, tuple[str, ...]], str]
"""Asks for one of several words; raises LeadsmanError where nobody is there to answer."""

Place = tuple[Decimal, Decimal]


@frozen
class FileOptions:
    """What was said of a file."""

    columns: str | None
    units: str | None
    corner: Place | None
    along: Place | None
    zero: Decimal | None
    good_to_mm: Decimal | None


@frozen
class FileUnits:
    """Of a file's places, and of its heights."""

    place: str
    height: str


@frozen_identity
class Placed:
    """Points in the room."""

    places_m: FloatArray
    swapped: bool
    turn: Decimal | None
    """Degrees that the file's axes were turned by; None where they were not."""


def units_of(path: Path, points: Points, said: str | None, ask: Asks) -> FileUnits:
    """
    The units of a file: what it says itself, what was said of it, or what is answered.

    Raises LeadsmanError where these two are not the same, or nobody is there to answer.
    """
    from assistant.point_files.clouds import CLOUDS

    place, height = points.place_unit, points.height_unit
    stated = {each for each in (place, height) if each is not None}
    if said is not None and (other := stated - {said}):
        raise LeadsmanError(
            f"{path.name} says in its header that its numbers are in {' and '.join(sorted(other))}"
            f", so they are not all in {said}: leave --units out, or put the header right."
        )
    if place is None or height is None:
        # The formats of clouds are in metres.
        usual = "m" if path.suffix.lower() in CLOUDS else None
        unit = (
            said
            or usual
            or ask(
                "In which unit are the numbers of the file? --units m, mm, cm, ft or in",
                tuple(UNITS),
            )
        )
        place, height = place or unit, height or unit
    return FileUnits(place, height)


def placed_in(
    outline: FloatArray, points: Points, unit: str, wanted: FileOptions, ask: Asks
) -> Placed:
    """
    A file's points in the room: where the options say that they lie, or where they fit.

    Raises LeadsmanError where they lie in it in no way, or in several and nobody can be asked.
    """
    metre = float(UNITS[unit])
    file_m = np.column_stack((points.first, points.second)) * metre
    if wanted.along is not None:
        if wanted.corner is None:
            raise LeadsmanError(
                "--along is a place on the room's first side, seen from its A1 corner: say both, "
                "--corner E,N --along E,N"
            )
        corner, along = (
            (float(place[0]) * metre, float(place[1]) * metre)
            for place in (wanted.corner, wanted.along)
        )
        return _told(outline, file_m, corner, along, unit)
    corner_m = np.array([float(each) * metre for each in wanted.corner or (0, 0)])
    moved = file_m - corner_m
    swapped = _way_round(outline, moved, points, unit, wanted, ask)
    if isinstance(swapped, bool):
        return Placed(moved[:, ::-1] if swapped else moved, swapped, None)
    return _turned(file_m, swapped)


# --- two places of the room are given -------------------------------------------------------


def _told(
    outline: FloatArray,
    file_m: FloatArray,
    corner: tuple[float, float],
    along: tuple[float, float],
    unit: str,
) -> Placed:
    from assistant.floor.scans.fit import LEAST_IN, ScanPlacement, in_room_axes, share_in

    if corner == along:
        raise LeadsmanError("--corner and --along are one place; --along is further along the side")
    both = [in_room_axes(file_m, corner, along, mirrored=mirrored) for mirrored in (False, True)]
    shares = [share_in(outline, places) for places in both]
    if max(shares) < LEAST_IN:
        raise LeadsmanError(
            f"With that corner and side {100 * max(shares):.0f} of 100 points lie in the room. "
            f"Nothing was taken. Both are as the file has them, in {unit}: the A1 corner, then "
            "any place on the first side, in the order of the file's columns."
        )
    mirrored = shares[1] > shares[0]
    way = ScanPlacement(corner, along, mirrored)
    return Placed(both[mirrored], mirrored, Decimal(f"{way.degrees:.2f}"))


def _turned(file_m: FloatArray, way: ScanPlacement) -> Placed:
    from assistant.floor.scans.fit import in_room_axes

    places = in_room_axes(file_m, way.corner, way.along, mirrored=way.mirrored)
    return Placed(places, way.mirrored, Decimal(f"{way.degrees:.2f}"))


# --- as they fit ------------------------------------------------------------------------------


def _way_round(
    outline: FloatArray,
    moved: FloatArray,
    points: Points,
    unit: str,
    wanted: FileOptions,
    ask: Asks,
) -> bool | ScanPlacement:
    """Whether the second place of each point runs along the first side; or how all is turned."""
    from assistant.floor.scans.fit import fit_of

    fit = fit_of(outline, moved[:, 0], moved[:, 1])
    if wanted.corner is None and points.place_unit is None:
        _look_at_unit(outline, fit, unit, ask)
    if fit.lies_as_read and (points.named or not fit.lies_swapped):
        return False
    if fit.lies_as_read:
        way = ask(
            "Does easting or northing come first? Both ways the points lie in the room. "
            "--columns easting,northing,height or northing,easting,height (with point, if there "
            "is one)",
            ("easting", "northing"),
        )
        return way == "northing"
    if not fit.lies_swapped:
        return _other_axes(outline, moved, fit, points, unit, wanted, ask)
    if not points.named:
        return True
    way = ask(
        "As the columns are named the points do not lie in the room; with easting and northing "
        "changed over they do. Change them over (yes), or nothing is taken: "
        "--columns with northing before easting",
        ("yes", "no"),
    )
    if way != "yes":
        raise LeadsmanError("Nothing was taken.")
    return True


def _look_at_unit(outline: FloatArray, fit: Fit, unit: str, ask: Asks) -> None:
    """Ask about points in a corner of the room that would fill it in another unit."""
    size = outline.max(axis=0) - outline.min(axis=0)
    is_small = max(fit.spans_m) < _SMALL * min(size) and min(fit.spans_m) > 0
    if not (is_small and (fit.lies_as_read or fit.lies_swapped)):
        return
    other = _in_another_unit(outline, fit, unit)
    if other is None:
        return
    spans = " by ".join(f"{each:.2f}" for each in fit.spans_m)
    said = ask(
        f"As numbers in {unit} the points span {spans} m, a corner of the room of {size[0]:.2f} by "
        f"{size[1]:.2f} m. {other}. If they are of that corner alone (yes): --corner 0,0; or "
        "nothing is taken.",
        ("yes", "no"),
    )
    if said != "yes":
        raise LeadsmanError("Nothing was taken.")


_SMALL = 0.5
"""Of the room's shorter side: points that span less are of a part of it, or of another unit."""


def _other_axes(
    outline: FloatArray,
    moved: FloatArray,
    fit: Fit,
    points: Points,
    unit: str,
    wanted: FileOptions,
    ask: Asks,
) -> ScanPlacement:
    """The one way to turn the points that somebody takes; raises where there is none."""
    from assistant.floor.scans.fit import ways_in

    told = _not_in_room(outline, fit, unit)
    if wanted.corner is not None:
        raise LeadsmanError(
            f"{told} Nothing was taken. If the room's first side does not run along the file's "
            "first axis, say a place on it too: --along E,N"
        )
    if (other := _in_another_unit(outline, fit, unit)) is not None:
        raise LeadsmanError(f"{told} Nothing was taken. {other}")
    ways = tuple(way for way in ways_in(outline, moved) if not (points.named and way.mirrored))
    if not ways:
        raise LeadsmanError(
            f"{told} Nothing was taken. If the file has axes of its own, say where the room lies "
            "in it: its A1 corner, and a place on its first side: --corner E,N --along E,N"
        )
    # As the axes of the file run first: many a file's are the room's, moved.
    ways = tuple(sorted(ways, key=lambda way: abs(way.degrees)))
    numbered = [f"{number}, about {_way_words(way, unit)}" for number, way in enumerate(ways, 1)]
    said = ask(
        f"{told} They are as large as it, on axes of their own. Which corner of them is A1's, and "
        f"where does the first side run to? {'; '.join(numbered)}. Nothing is taken until then.",
        (*(str(number) for number in range(1, len(ways) + 1)), "none"),
    )
    if said == "none":
        raise LeadsmanError("Nothing was taken.")
    return ways[int(said) - 1]


def _way_words(way: ScanPlacement, unit: str) -> str:
    places = [
        ",".join(f"{each / float(UNITS[unit]):.2f}" for each in place)
        for place in (way.corner, way.along)
    ]
    return f"--corner {places[0]} --along {places[1]}"


def _not_in_room(outline: FloatArray, fit: Fit, unit: str) -> str:
    size = outline.max(axis=0) - outline.min(axis=0)
    spans = " by ".join(f"{each:.2f}" for each in fit.spans_m)
    return (
        f"The points do not lie in the room: they span {spans} m as numbers in {unit}, "
        f"from {fit.starts_m[0]:.2f} and {fit.starts_m[1]:.2f} m on; the room is "
        f"{size[0]:.2f} by {size[1]:.2f} m."
    )


def _in_another_unit(outline: FloatArray, fit: Fit, unit: str) -> str | None:
    size = sorted((outline.max(axis=0) - outline.min(axis=0)).tolist())
    for other, metres in UNITS.items():
        scale = float(metres / UNITS[unit])
        spanned = sorted(each * scale for each in fit.spans_m)
        if other != unit and _is_alike(spanned, size):
            return f"In {other} they would be as large as it: --units {other}"
    return None


def _is_alike(one: list[float], other: list[float]) -> bool:
    return all(
        0.8 * theirs <= ours <= 1.02 * theirs for ours, theirs in zip(one, other, strict=True)
    )
