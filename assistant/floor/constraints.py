"""The constraints on the finish: from the product, from doors, and from the installer."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction
from math import ceil
from typing import TYPE_CHECKING

from assistant.errors import Refusal
from assistant.floor.geometry import has_outline
from assistant.floor.heights import above_datum_mm, heights_of
from assistant.floor.late_numpy import np
from assistant.floor.places import places_of
from assistant.floor.surfaces import Surface, surface_of
from assistant.job import Job
from assistant.limits.own_limits import least_allowed, most_allowed
from assistant.reply import wording
from assistant.reply.examples import ROOM, place_of, reading_of
from assistant.reply.wording import spoken_name
from grammar.frozen import frozen

if TYPE_CHECKING:
    from assistant.levels.arrays import FloatArray
    from assistant.levels.best_finish import Concession, Conflict, Finish
    from assistant.levels.constraints import Constraint, PointConstraint

USUAL_SLOPE_PERCENT = Decimal("0.5")
"""Steepest best plane where no slope was said: 5 mm in a metre, which few notice underfoot.
Common practice, no source."""


_NO_LIMIT_M = 1000.0
"""Stands for "no limit": deeper than any floor is poured."""


@frozen
class Constrained:
    """Points and constraints for the numeric core."""

    surface: Surface
    names: tuple[str, ...]
    """The points; for a plane the corners of the floor follow them."""
    places_m: FloatArray
    heights_m: FloatArray
    weights_m2: FloatArray
    least_m: FloatArray
    """Least depth at each."""
    most_m: FloatArray | None
    min_m: float
    max_m: float | None
    own_ends: frozenset[str]
    """``minimum`` and ``maximum``, where one's own limit decides it and not the product's."""
    held: tuple[PointConstraint, ...]
    held_ids: tuple[str, ...]
    """``door:1`` or ``fixed:C1``, for each fixed height."""
    left_out: tuple[str, ...]
    """Constraints that a plane cannot meet since they have no place."""
    centre_m: FloatArray
    """Centroid of the floor."""

    def id_of(self, wish: Constraint) -> str:
        """The stable name of a constraint: ``minimum:B3``, ``door:1``, ``slope``."""
        if wish.kind in ("minimum", "maximum"):
            return f"{wish.kind}:{self.names[wish.number]}"
        return "slope" if wish.kind == "slope" else self.held_ids[wish.number]


def wanted_of(job: Job, *, level: bool) -> Constrained:
    """
    The constraints on the job's finish.

    Parameters
    ----------
    job : Job
    level : bool
        False for a plane, for which every constraint needs a place.

    Raises
    ------
    Refusal
        If no point of a floor with an outline has been read.
    """
    surface = surface_of(job)
    if surface is None:
        if not has_outline(job.layout):
            raise Refusal("The room first: ", ROOM, ".", spoken="The room first.")
        raise Refusal(
            "No point of this floor has been read yet: ",
            reading_of("B3"),
            ".",
            spoken="No point of this floor has been read yet.",
        )
    heights, places = heights_of(job), places_of(job.layout)
    held, ids, left_out = _held(job, level=level)
    mesh = surface.mesh
    corners = mesh.corners_m[mesh.triangles].mean(axis=1)
    count = len(surface.names)
    read_m = np.array([float(heights[name]) / 1000 for name in surface.names])
    places_m = places.xy_m[[places.row[name] for name in surface.names]]
    # A plane must not run into the floor where nothing was read. There the floor is only
    # extrapolated to the walls, so the product's depths are not required.
    extra = 0 if level else len(mesh.outline_m)
    least_mm, own_least = least_allowed(job.own_limits, job.card)
    most_mm, own_most = most_allowed(job.own_limits, job.card, Fraction(job.aggregate_percent))
    min_m, max_m = float(least_mm) / 1000, None if most_mm is None else float(most_mm) / 1000
    own = {"minimum": own_least, "maximum": own_most}
    return Constrained(
        surface=surface,
        names=(*surface.names, *(f"corner {number + 1}" for number in range(extra))),
        places_m=np.vstack([places_m, mesh.outline_m[:extra]]),
        heights_m=np.concatenate([read_m, mesh.heights_at(mesh.outline_m[:extra], read_m)]),
        weights_m2=np.concatenate([mesh.area_weights, np.zeros(extra)]),
        least_m=np.repeat([min_m, 0.0], [count, extra]),
        most_m=None if max_m is None else np.repeat([max_m, _NO_LIMIT_M], [count, extra]),
        min_m=min_m,
        max_m=max_m,
        own_ends=frozenset(end for end, decides in own.items() if decides),
        held=tuple(held),
        held_ids=tuple(ids),
        left_out=tuple(left_out),
        centre_m=mesh.areas_m2 @ corners / mesh.areas_m2.sum(),
    )


def _flush_mm(job: Job) -> Fraction:
    """The greatest step at a doorway that needs no work."""
    most = job.step_limit_mm
    plain = job.door_rules.plain_mm
    return plain if most is None else min(plain, most)


def _held(job: Job, *, level: bool) -> tuple[list[PointConstraint], list[str], list[str]]:
    from assistant.levels.constraints import door_constraint, fixed_constraint

    places = places_of(job.layout)
    held: list[PointConstraint] = []
    ids: list[str] = []
    left_out: list[str] = []
    step_m = float(_flush_mm(job)) / 1000
    for number in sorted(job.doors):
        one = job.doors[number]
        outside = None if one.outside is None else above_datum_mm(job, one.outside)
        if outside is None:
            continue
        if not level and one.point not in places.row:
            left_out.append(f"door {number}")
            continue
        at = places.xy(one.point) if one.point in places.row and one.point else (0.0, 0.0)
        bare = outside - job.covering_mm  # what is laid on it brings it up to the floor outside
        held.append(door_constraint(float(bare) / 1000, step_m, at))
        ids.append(f"door:{number}")
    for point, height in job.survey.fixed.items():
        if not level and point not in places.row:
            left_out.append(point)
            continue
        at = places.xy(point) if point in places.row else (0.0, 0.0)
        held.append(fixed_constraint(float(height.mm) / 1000, 0.0, at))
        ids.append(f"fixed:{point}")
    return held, ids, left_out


def best_level_of(job: Job) -> tuple[Constrained, Finish | Conflict]:
    """The level finish that needs least material, or the constraints that conflict."""
    from assistant.levels.best_finish import best_level

    wanted = wanted_of(job, level=True)
    found = best_level(wanted.heights_m, wanted.weights_m2, wanted.min_m, wanted.max_m, wanted.held)
    return wanted, found


def best_plane_of(job: Job, slope_percent: Decimal | None) -> tuple[Constrained, Finish | Conflict]:
    """
    The flat finish that needs least material.

    Parameters
    ----------
    job : Job
    slope_percent : Decimal or None
        Steepest slope; None for the fall that was set, or else the usual limit.

    Raises
    ------
    Refusal
        If the fall goes to a point without a place, or to the middle of the floor.
    """
    from assistant.levels.best_finish import best_fall, best_plane

    wanted = wanted_of(job, level=False)
    given = (
        wanted.places_m,
        wanted.heights_m,
        wanted.weights_m2,
        wanted.least_m,
        wanted.most_m,
        wanted.held,
    )
    fall, centre = job.survey.fall, wanted.centre_m
    if slope_percent is None and fall is not None:
        towards = _place_to_fall_to(job, wanted, fall.point)
        share = float(fall.percent) / 100
        return wanted, best_fall(*given, fall=share, towards_m=towards, centre_m=centre)
    slope = USUAL_SLOPE_PERCENT if slope_percent is None else slope_percent
    return wanted, best_plane(*given, slope_limit=float(slope) / 100, centre_m=centre)


def _place_to_fall_to(job: Job, wanted: Constrained, point: str) -> tuple[float, float]:
    places = places_of(job.layout)
    if point not in places.row:
        raise Refusal(
            f"{point}, where the floor is to fall to, has no place yet. Say where it is: ",
            place_of(point),
            ".",
            spoken=f"{spoken_name(point)} has no place yet.",
        )
    at = places.xy(point)
    if np.hypot(*(np.array(at) - wanted.centre_m)) < 0.01:
        raise Refusal(
            f"{point} is the middle of the floor; a fall towards it has no direction.",
            spoken="A fall towards the middle has no direction.",
        )
    return at


def rounded_mm(height_m: float) -> Fraction:
    """A finish in millimetres, rounded up to a thousandth, as below would be too thin."""
    return Fraction(ceil(height_m * 1_000_000 - 1e-3), 1000)


# --- in words --------------------------------------------------------------------------


def wish_words(
    job: Job, wanted: Constrained, wish: Constraint, slope: Decimal | None = None
) -> str:
    """A constraint in words."""
    unit, name = job.reading_unit, wanted.id_of(wish).partition(":")[2]
    if wish.kind == "minimum" and name.startswith("corner"):
        return f"the floor must not stand above the plane at {name}"
    if wish.kind == "minimum":
        if not wanted.min_m:
            return f"{name} must not stand above the finish"
        least = wording.length(wanted.min_m * 1000, unit)
        return f"{name} wants {least} of material{_whose(wanted, wish.kind)}"
    if wish.kind == "maximum":
        most = wording.length((wanted.max_m or 0) * 1000, unit)
        return f"{name} takes {most} at most{_whose(wanted, wish.kind)}"
    if wish.kind == "door":
        return f"door {name} wants a step of {wording.length(_flush_mm(job), unit)} at most"
    if wish.kind == "fixed":
        return (
            f"{_fixed_name(job, name)} is fixed {wording.height(job.survey.fixed[name].mm, unit)}"
        )
    return f"the slope is {wording.percent(slope or USUAL_SLOPE_PERCENT)} at most"


def _whose(wanted: Constrained, end: str) -> str:
    return " (your own limit)" if end in wanted.own_ends else ""


def change_words(job: Job, wanted: Constrained, change: Concession) -> str:
    """A constraint that is relaxed, as something to do."""
    unit, name = job.reading_unit, wanted.id_of(change.wish).partition(":")[2]
    kind = change.wish.kind
    if kind == "slope":
        return f"let it slope {wording.figure(change.amount * 100, 2)} % more"
    by = wording.length(_up_mm(change.amount * 1000), unit)
    deeper = "the maximum, in lifts or with aggregate"
    if "maximum" in wanted.own_ends:
        deeper = "your own most depth"
    return {
        "minimum": f"grind {name} by {by}",
        "maximum": f"let {name} be {by} deeper than {deeper}",
        "door": f"allow {by} more step at door {name}{_step_care(job, change.amount)}",
        "fixed": f"meet {_fixed_name(job, name)} {by} off its height",
    }[kind]


def _fixed_name(job: Job, point: str) -> str:
    drains = (drain for drain in job.layout.things.drains if drain.point == point)
    return next((f"drain {drain.number} at {point}" for drain in drains), point)


def _step_care(job: Job, more_m: float) -> str:
    """What a step that much larger requires; past the limit that is a question, not work."""
    step, most = float(_flush_mm(job)) + more_m * 1000 - 1e-3, job.step_limit_mm
    if most is not None and step > most:
        return f", which is past the limit of {wording.length(most, job.reading_unit)} there"
    return ", with a bevel" if step <= job.door_rules.most_mm else ", if local rules allow it"


def _up_mm(mm: float) -> Fraction:
    return Fraction(ceil(mm * 10 - 1e-3), 10)


def changes_words(job: Job, wanted: Constrained, changes: Sequence[Concession]) -> list[str]:
    """All relaxed constraints, as things to do."""
    return [change_words(job, wanted, change) for change in changes]
