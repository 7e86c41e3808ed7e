"""The strips of a pour: the floor, the product and the crew put together."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from typing import TYPE_CHECKING

from assistant.errors import Refusal
from assistant.events.pour import DamPlaced, StripWidthSet
from assistant.floor.geometry import area_to_pour, outline_of
from assistant.floor.late_numpy import np
from assistant.floor.order import makes_m3
from assistant.floor.placing import Placing, placing_of
from assistant.floor.pour_way import ALONG_X, ALONG_Y, Direction, Way, line_at_m, way_of
from assistant.floor.surfaces import Surface, surface_of
from assistant.floor.zone_shapes import HalfPlane, half_of
from assistant.job import Job
from assistant.job.once import cached
from assistant.pours.material import safe_ceil
from assistant.products.cards import Card
from assistant.reply import wording
from assistant.reply.examples import ROOM
from assistant.units.lengths import metres
from grammar.frozen import frozen, frozen_identity

if TYPE_CHECKING:
    from shapely import MultiPolygon, Polygon

    from assistant.pours.fill_along import FillAlong
    from assistant.pours.strips import Strip

CLEAN_STEP_M = {"mm": 0.05, "in": 2 * 0.0254}
"""Cuts lie at whole multiples of five centimetres or two inches, to be measured and marked."""


@frozen
class PlannedStrip:
    """One strip, with what is mixed for it."""

    number: int
    from_m: float
    """Its near edge, metres from the start of the pour."""
    to_m: float
    bay: int
    """Of bays side by side, counted from 1."""
    strip: Strip
    start_min: float
    """From the first bag of the pour."""
    planned_bags: float
    """Waste included, not rounded."""
    bags: int
    """Whole ones, so that those of all strips add up to those of the pour."""
    batches: int

    @property
    def edge_lost(self) -> bool:
        """Whether its far edge is dry before the next strip meets all of it."""
        return self.strip.edge_lost


@frozen_identity
class PourPlan:
    """A pour, strip by strip."""

    way: Way
    strips: tuple[PlannedStrip, ...]
    """None of them while no placing rate is known."""
    bays: int
    placing: Placing | None
    edge_limit_min: float
    whole: FillAlong
    bag_m3: float
    """Of the floor, for one bag, waste taken off."""
    front_m: float
    """The longest front: the floor's breadth across the way."""

    @property
    def bags(self) -> float:
        """Bags of the whole pour, waste included, not rounded."""
        return self.whole.volume_m3 / self.bag_m3

    @property
    def minutes(self) -> float:
        """From the first bag to the last."""
        return sum(each.strip.minutes for each in self.strips)

    @property
    def lost(self) -> tuple[PlannedStrip, ...]:
        """Strips that lose an edge."""
        return tuple(each for each in self.strips if each.edge_lost)

    def planned_bags_behind(self, at_m: float) -> float:
        """Bags planned for all up to a front, metres from the start."""
        behind = self.whole.volume_behind([self.whole.from_m + at_m])[0]
        return float(behind) / self.bag_m3


@cached
def plan_of(job: Job) -> PourPlan:
    """
    The plan of the pour; without strips while no placing rate is known.

    Raises
    ------
    Refusal
        If room, readings or product are missing, or nothing is to be poured.
    """
    return planned(job, placing_of(job), job.pour.dams)


def planned(
    job: Job,
    placing: Placing | None,
    dams: Sequence[DamPlaced],
    *,
    bays: int = 1,
    as_wide_as_said: bool = True,
) -> PourPlan:
    """The plan with another crew, other dams or more bays side by side."""
    card, surface = needed(job)
    way = way_of(job)
    limit = edge_limit_min(card)
    bag_m3 = makes_m3(job, 1)
    whole = fill_of(surface, way.direction, None)
    if whole.volume_m3 <= 0:
        raise Refusal("Nothing is to be poured: no point lies below the finish.")
    stops, sides = _dams(job, way, dams, whole.from_m)
    if bays > 1:
        sides = [*sides, *_even_sides(surface, way, bays)]
    parts = _parts(job, sides, way) if sides else [None]
    strips: list[PlannedStrip] = []
    if placing is not None:
        width = job.setting(StripWidthSet) if as_wide_as_said else None
        most = metres(width.width) if width else None
        step = CLEAN_STEP_M[job.reading_unit]
        pace = (placing.bags_per_min * bag_m3, limit, placing.batch_min)
        for number, part in enumerate(parts, start=1):
            fill = fill_of(surface, way.direction, part)
            offset = fill.from_m - whole.from_m
            near = tuple(stop - offset for stop in stops)
            cut = _cut(fill, pace, near, most, step)
            strips += _numbered(strips, cut, offset, number, bag_m3, placing)
    front = _front_m(job, way)
    return PourPlan(way, tuple(strips), len(parts), placing, limit, whole, bag_m3, front)


def needed(job: Job) -> tuple[Card, Surface]:
    """Product and floor of a plan, or a refusal that names what is missing."""
    if job.zones.pours:
        names = wording.join_names(tuple(job.zones.pours))
        raise Refusal(
            "A plan is of one finish and one product all over, and zones have their own here: "
            f"{names}. What each takes: tally {next(iter(job.zones.pours))}.",
            spoken="No plan yet where zones have their own.",
        )
    if job.card is None:
        raise Refusal("The product first; its card has the working time.",
                      spoken="The product first.")  # fmt: skip
    if outline_of(job.layout) is None:
        raise Refusal("A plan needs the room: ", ROOM, ".", spoken="The room first.")
    surface = surface_of(job)
    if surface is None:
        raise Refusal("A plan needs readings of the floor.")
    return job.card, surface


def edge_limit_min(card: Card) -> float:
    """How long an edge may wait: the working time, less the mixing of it where the card says."""
    return max(card.working_time_min - (card.mixing_min or 0.0), 1.0)


@lru_cache(maxsize=32)
def _filled(
    triangles: bytes, depths: bytes, areas: bytes, direction: Direction, part: bytes
) -> FillAlong:
    """Cached by the floor itself, so that a job that only went on needs nothing new."""
    import shapely

    from assistant.pours.fill_along import fill_along

    return fill_along(
        np.frombuffer(triangles).reshape(-1, 3, 2),
        np.frombuffer(depths).reshape(-1, 3),
        direction,
        areas_m2=np.frombuffer(areas),
        only=shapely.from_wkb(part) if part else None,
    )


def fill_of(
    surface: Surface, direction: Direction, part: Polygon | MultiPolygon | None
) -> FillAlong:
    mesh = surface.mesh
    return _filled(
        mesh.corners_m[mesh.triangles].tobytes(),
        mesh.corner_heights(surface.depths_m).tobytes(),
        mesh.areas_m2.tobytes(),
        direction,
        b"" if part is None else part.wkb,
    )


@lru_cache(maxsize=64)
def _cut(
    fill: FillAlong,
    pace: tuple[float, float, float],
    stops: tuple[float, ...],
    most_m: float | None,
    step_m: float,
) -> tuple[Strip, ...]:
    from assistant.pours.strips import LEAST_WIDTH_M, Pace, plan_strips

    most = float("inf") if most_m is None else most_m
    return plan_strips(
        fill,
        Pace(*pace),
        dams_m=stops,
        least_width_m=min(LEAST_WIDTH_M, most),
        most_width_m=most,
        step_m=step_m,
    )


def _numbered(
    before: Sequence[PlannedStrip],
    cut: Sequence[Strip],
    offset_m: float,
    bay: int,
    bag_m3: float,
    placing: Placing,
) -> list[PlannedStrip]:
    """Strips of one bay after those of others, their whole bags and batches adding up."""
    bags = sum(each.planned_bags for each in before)
    start = sum(each.strip.minutes for each in before)
    found = []
    for number, strip in enumerate(cut, start=len(before) + 1):
        takes = strip.volume_m3 / bag_m3
        whole, batches = (
            safe_ceil((bags + takes) / each) - safe_ceil(bags / each)
            for each in (1, placing.batch_bags)
        )
        near, far = strip.from_m + offset_m, strip.to_m + offset_m
        found.append(
            PlannedStrip(
                number, near, far, bay, strip, start + strip.start_min, takes, whole, batches
            )
        )
        bags += takes
    return found


# --- dams and bays -------------------------------------------------------------------------


Side = tuple[Direction, float]
"""A dam along the way of the pour: its normal, and where it lies along that, metres."""


def _dams(
    job: Job, way: Way, dams: Sequence[DamPlaced], start_m: float
) -> tuple[list[float], list[Side]]:
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


def _even_sides(surface: Surface, way: Way, bays: int) -> list[Side]:
    """Dams along the way that part the floor into bays of one volume."""
    across = (-way.direction[1], way.direction[0])
    return [(across, at) for at in even_lines_m(fill_of(surface, across, None), bays)]


def even_lines_m(fill: FillAlong, parts: int) -> list[float]:
    """Where lines across part a floor into equal volumes, metres along its direction."""
    lines = np.linspace(fill.from_m, fill.to_m, 2001)
    behind = fill.volume_behind(lines)
    shares = fill.volume_m3 * np.arange(1, parts) / parts
    return [float(at) for at in np.interp(shares, behind, lines)]


def _parts(job: Job, sides: Sequence[Side], way: Way) -> list[Polygon | MultiPolygon | None]:
    """The floor parted by dams, the bay farthest across from the last one first."""
    area = area_to_pour(job.layout)
    assert area is not None
    parts = [area]
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
    return [*parts]


def bay_areas(job: Job, plan: PourPlan) -> list[Polygon | MultiPolygon]:
    """The floor of each bay of a job's own plan, in their order."""
    _, sides = _dams(job, plan.way, job.pour.dams, plan.whole.from_m)
    return [part for part in _parts(job, sides, plan.way) if part is not None]


def _front_m(job: Job, way: Way) -> float:
    outline = outline_of(job.layout)
    assert outline is not None
    return float(np.ptp(outline @ np.array([-way.direction[1], way.direction[0]])))
