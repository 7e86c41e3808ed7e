"""The bays of a pour: parts that are poured one after the other, each to one finish."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from functools import lru_cache
from typing import TYPE_CHECKING

from assistant.errors import Refusal, SurveyError
from assistant.events.pour import DamPlaced
from assistant.floor.geometry import area_to_pour
from assistant.floor.late_numpy import np
from assistant.floor.order import makes_m3
from assistant.floor.pour.way import (
    ALONG_X,
    ALONG_Y,
    Direction,
    PourDirection,
    line_at_m,
    way_out_of,
)
from assistant.floor.surfaces import Surface, surface_of
from assistant.floor.zone_shapes import HalfPlane, floor_alone, half_of
from assistant.floor.zones import poured_parts
from assistant.job import Job
from assistant.products.cards import Card
from assistant.reply import wording
from assistant.units.lengths import metres
from grammar.frozen import frozen_identity

if TYPE_CHECKING:
    from shapely import MultiPolygon, Polygon

    from assistant.levels.arrays import FloatArray
    from assistant.levels.surface import Mesh
    from assistant.pours.fill_along import FillAlong

Side = tuple[Direction, float]
"""A dam along the way of the pour: its normal, and where it lies along that, metres."""
_REMEMBERED = 16
"""Fills that are kept cut: more than the bays of one floor."""


@frozen_identity
class PouredAlike:
    """A part of the floor with one finish and one product, all over it."""

    zones: tuple[str, ...]
    """Their names; none where the floor is poured alike everywhere."""
    parts: tuple[Job, ...]
    card: Card
    bag_m3: float
    """Of the floor, for one bag, waste taken off."""
    finish_mm: Fraction

    @property
    def kind(self) -> tuple[str, float]:
        """What bags of it are counted with: its product, and the yield of its mix."""
        return self.card.name, self.bag_m3

    @property
    def surfaces(self) -> tuple[Surface, ...]:
        """Its surfaces, one for each of its parts."""
        found = (surface_of(part) for part in self.parts)
        return tuple(each for each in found if each is not None)

    def fill(
        self,
        direction: Direction,
        only: Polygon | MultiPolygon | None = None,
        lower_mm: Fraction = Fraction(0),
    ) -> FillAlong | None:
        """What it takes along a way, or a piece of it; None where nothing of it lies there."""
        found = [fill_of(each, direction, only, lower_mm) for each in self.surfaces]
        there = [fill for fill in found if fill is not None]
        return fills_together(there) if there else None


@frozen_identity
class Bay:
    """A part of the pour that no wet edge is carried out of."""

    number: int
    """Counted from 1, in the order they are poured."""
    alike: PouredAlike
    area: Polygon | MultiPolygon | None
    """Which piece of that it is; None for all of it."""
    fill: FillAlong
    offset_m: float
    """Where it begins, metres from the start of the pour."""

    @property
    def shape(self) -> Polygon | MultiPolygon:
        """The bay's area as a polygon, in metres."""
        return whole_area(self.alike) if self.area is None else self.area

    @property
    def edge_limit_min(self) -> float:
        return edge_limit_min(self.alike.card)

    @property
    def bags(self) -> float:
        """Waste included, not rounded."""
        return self.fill.volume_m3 / self.alike.bag_m3

    @property
    def to_m(self) -> float:
        """Where it ends, metres from the start of the pour."""
        return self.offset_m + self.fill.to_m - self.fill.from_m

    def bags_behind(self, at_m: float) -> float:
        """Bags planned up to a front in it, metres from the start of the pour."""
        behind = self.fill.volume_behind([self.fill.from_m + at_m - self.offset_m])[0]
        return float(behind) / self.alike.bag_m3

    def area_behind_m2(self, at_m: float) -> float:
        """How much of the bay's area lies behind a front."""
        return float(self.fill.area_behind([self.fill.from_m + at_m - self.offset_m])[0])

    def front_m(self, bags: float) -> float:
        """Where its front stands once so many planned bags are poured in it."""
        lines, behind = _behind_lines(self.fill)
        at = float(np.interp(bags * self.alike.bag_m3, behind, lines))
        return at - self.fill.from_m + self.offset_m

    def lowered_bags(self, direction: Direction, from_m: float, lower_mm: Fraction) -> float:
        """Bags that it takes beyond a front, with the finish so much lower there."""
        fill = self.alike.fill(direction, self.area, lower_mm)
        assert fill is not None  # a bay has floor
        at = [self.fill.from_m + from_m - self.offset_m]
        rest = fill.volume_m3 - float(fill.volume_behind(at)[0])
        return rest / self.alike.bag_m3


@lru_cache(maxsize=_REMEMBERED)
def _behind_lines(fill: FillAlong) -> tuple[FloatArray, FloatArray]:
    """Lines across a floor, and the volume behind each."""
    lines: FloatArray = np.linspace(fill.from_m, fill.to_m, 401)
    return lines, fill.volume_behind(lines)


def edge_limit_min(card: Card) -> float:
    """How long an edge may wait: the working time, less mixing and slaking where the card says."""
    before = (card.mixing_min or 0.0) + (card.slaking_min or 0.0)
    return max(card.working_time_min - before, 1.0)


# --- what is poured alike --------------------------------------------------------------------


def poured_alike(job: Job) -> tuple[PouredAlike, ...]:
    """
    The floor in parts of one finish and one product; a single one where no zone has its own.

    Raises
    ------
    Refusal
        If a part has no product.
    """
    parts = poured_parts(job) if job.zones.pours else [job]
    found: dict[tuple[Fraction, str, float], list[Job]] = {}
    for part in parts:
        if part.card is None:
            where = f" for {part.layout.part}" if part.whole is not None else ""
            raise Refusal(
                f"The product first{where}; its card has the working time.",
                spoken="The product first.",
            )
        key = (part.finish_mm, part.card.name, makes_m3(part, 1))
        found.setdefault(key, []).append(part)
    alike = []
    for (finish, _, bag_m3), of_it in found.items():
        zones = tuple(part.layout.part or "" for part in of_it if part.whole is not None)
        card = of_it[0].card
        assert card is not None
        alike.append(PouredAlike(zones, tuple(of_it), card, bag_m3, finish))
    return tuple(alike)


@lru_cache(maxsize=64)
def _filled(mesh: Mesh, depths: bytes, direction: Direction, part: bytes) -> FillAlong | None:
    """Of a mesh, of which there is one as long as no point moves: a batch needs nothing new."""
    import shapely

    from assistant.pours.fill_along import fill_along

    try:
        return fill_along(
            mesh.corners_m[mesh.triangles],
            mesh.corner_heights(np.frombuffer(depths)),
            direction,
            areas_m2=mesh.areas_m2,
            only=shapely.from_wkb(part) if part else None,
        )
    except SurveyError:
        return None  # nothing of this surface lies there


def fill_of(
    surface: Surface,
    direction: Direction,
    part: Polygon | MultiPolygon | None,
    lower_mm: Fraction,
) -> FillAlong | None:
    """What a surface takes along a way; None where nothing of it lies in the part."""
    depths = surface.depths_m - float(lower_mm) / 1000
    return _filled(surface.mesh, depths.tobytes(), direction, b"" if part is None else part.wkb)


def fills_together(fills: Sequence[FillAlong]) -> FillAlong:
    """Fills as one; the same one for the same fills, so that what was cut of it is known."""
    return fills[0] if len(fills) == 1 else _together(tuple(fills))


@lru_cache(maxsize=_REMEMBERED)
def _together(fills: tuple[FillAlong, ...]) -> FillAlong:
    from assistant.pours.fill_along import joined

    return joined(fills)


# --- dams and bays ---------------------------------------------------------------------------


def bays_of(
    job: Job,
    alike: Sequence[PouredAlike],
    way: PourDirection,
    start_m: float,
    sides: Sequence[Side],
) -> tuple[Bay, ...]:
    """
    All bays in the order they are poured.

    What has another finish or product is a bay of its own, as a wet edge carries neither over.
    The deepest is poured first, and the one at the way out last; of those that dams part side
    by side, the one farthest across from the last.
    """
    found: list[Bay] = []
    for part in sorted(alike, key=lambda each: _turn(job, each, way)):
        for area in _pieces(part, sides, way) if sides else [None]:
            fill = part.fill(way.direction, area)
            if fill is not None and fill.volume_m3 > 0:
                found.append(Bay(len(found) + 1, part, area, fill, fill.from_m - start_m))
    return tuple(found)


def _turn(job: Job, alike: PouredAlike, way: PourDirection) -> tuple[bool, float]:
    """When it is poured: not at the way out before the end, then the deeper one first."""
    out, fill = way_out_of(job), alike.fill(way.direction)
    mean = 0.0 if fill is None else fill.volume_m3 / max(fill.area_m2, 1e-9)
    return out is not None and _is_in(alike, out), -mean


def _is_in(alike: PouredAlike, place: Direction) -> bool:
    import shapely

    return bool(shapely.Point(place).distance(whole_area(alike)) < 1e-6)


def whole_area(alike: PouredAlike) -> Polygon | MultiPolygon:
    """Where a part of the floor lies, all its zones together."""
    import shapely

    areas = [_area(part) for part in alike.parts]
    return areas[0] if len(areas) == 1 else floor_alone(shapely.union_all(areas))


def _area(part: Job) -> Polygon | MultiPolygon:
    area = area_to_pour(part.layout)
    assert area is not None  # it has a surface
    return area


def bay_at(bays: Sequence[Bay], place: Direction) -> Bay:
    """The bay that a place lies in, or is nearest to."""
    import shapely

    here = shapely.Point(place)
    return min(bays, key=lambda bay: float(here.distance(bay.shape)))


def dams_of(job: Job, way: PourDirection, dams: Sequence[DamPlaced], start_m: float
            ) -> tuple[list[float], list[Side]]:  # fmt: skip
    """Where the pour may stop, metres from its start; and dams that part it side by side."""
    stops: list[float] = []
    sides: list[Side] = []
    for dam in dams:
        if dam.distance is not None:
            stops.append(metres(dam.distance))
            continue
        normal = ALONG_X if dam.column is not None else ALONG_Y
        at = line_at_m(job, dam.column or str(dam.row))
        across = float(np.dot(normal, way.direction))
        if abs(across) > 1 - 1e-9:
            stops.append(at * across - start_m)
        else:
            sides.append((normal, at))
    return stops, sides


def even_lines_m(fill: FillAlong, parts: int) -> list[float]:
    """Where lines across part a floor into equal volumes, metres along its direction."""
    lines: FloatArray = np.linspace(fill.from_m, fill.to_m, 2001)
    behind = fill.volume_behind(lines)
    shares = fill.volume_m3 * np.arange(1, parts) / parts
    return [float(at) for at in np.interp(shares, behind, lines)]


def _pieces(
    alike: PouredAlike, sides: Sequence[Side], way: PourDirection
) -> list[Polygon | MultiPolygon]:
    """A part of the floor cut by dams, the piece farthest across from the last one first."""
    parts = [whole_area(alike)]
    for normal, at in sides:
        half = HalfPlane(np.array(normal) * at, -np.array(normal))
        parts = [
            piece
            for part in parts
            for piece in (half_of(part, half), half_of(part, half.other_side))
            if piece.area > 1e-6
        ]
    across = np.array([-way.direction[1], way.direction[0]])
    parts.sort(key=lambda part: float(np.dot(part.centroid.coords[0], across)))
    return parts


def zones_named(alike: PouredAlike) -> str:
    """The zones of a part, as they are listed."""
    return wording.join_names(alike.zones, 3)
