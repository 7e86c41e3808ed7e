"""Compares the whole job with the limits, and works out its doors.

The limits themselves are in ``limits.py``; here is what they are applied to.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from functools import lru_cache

from assistant.events.finish import FinishFeathered
from assistant.floor.depths import depths_of, zone_of_point
from assistant.floor.finish_source import doorway_mm
from assistant.floor.heights import above_datum_mm
from assistant.floor.places import grid_of
from assistant.floor.survey_warnings import survey_warnings
from assistant.floor.tally import aggregate_of, tally_of
from assistant.floor.things_in_words import where_words
from assistant.floor.walk import points_missing, points_skipped
from assistant.floor.zones import cards_of, finish_mm_at, finish_steps, parts_of
from assistant.job import Door, Job
from assistant.job.once import cached
from assistant.limits.cautions import cautions_at
from assistant.limits.door_warnings import door_warnings, feather_warnings, leaf_warnings
from assistant.limits.own_limits import NONE, OwnLimits, least_allowed
from assistant.limits.point_warnings import (
    points_missing_warnings,
    points_skipped_warnings,
    range_warning,
    spacing_warnings,
)
from assistant.limits.pour_warnings import aggregate_warnings, depth_warnings, weight_warnings
from assistant.limits.thing_warnings import crack_warning, drain_warnings, joint_warning
from assistant.limits.zone_warnings import zone_step_warning
from assistant.products.cards import Card
from assistant.reply.replies import Caution, LimitWarning
from assistant.units.lengths import exact_mm, metres
from grammar.frozen import frozen

SEVERITIES = ("stop", "caution", "note")
"""The gravest first."""

OWN_KINDS = ("under-own-least", "over-own-most")
"""Kinds of warning that are about one's own limits of depth."""
_DEPTH_KINDS = (
    "high-spot", "under-minimum", "over-maximum", "over-aggregate-maximum", *OWN_KINDS,
)  # fmt: skip
_AT_DOORS = ("door-across", "door-step", "door-leaf", "feather")
_TO_GRIND = ("high-spot", "under-minimum")


# --- doors ---------------------------------------------------------------------------


@frozen
class DoorSizes:
    """The differences of height at a door, exact millimetres."""

    across_mm: Fraction | None
    """From jamb to jamb, unsigned; None until both were read."""
    low_side: str | None
    """``left`` or ``right``; None where they are level or not read."""
    step_mm: Fraction | None
    """From the finish to the floor outside, unsigned; None until it was read, and while the
    set-up it was read from has no tie."""
    outside_is: str | None
    """``higher`` or ``lower`` than the finish; None where flush or not read."""
    clear_mm: Fraction | None = None
    """What the leaf will clear the floor by, covering and all; negative where it binds. None
    until it was measured, and over a slab until its jambs were read."""


def door_sizes(job: Job, door: Door) -> DoorSizes:
    """A door's differences of height with the present finish."""
    across = low_side = step = outside_is = None
    if door.left is not None and door.right is not None:
        difference = door.left.mm - door.right.mm
        across = abs(difference)
        low_side = {-1: "left", 0: None, 1: "right"}[_sign(difference)]
    outside = None if door.outside is None else above_datum_mm(job, door.outside)
    if outside is not None:
        difference = outside - floor_at_door(job, door) - job.covering_mm
        step = abs(difference)
        outside_is = {-1: "lower", 0: None, 1: "higher"}[_sign(difference)]
    return DoorSizes(across, low_side, step, outside_is, _clear_mm(job, door))


def floor_at_door(job: Job, door: Door) -> Fraction:
    """The finish at a door; once it is poured what its jambs read, midway, where they were read."""
    if job.slab is not None and (here := _between_jambs(job, door)) is not None:
        return here
    return finish_mm_at(job, door.point)


def _between_jambs(job: Job, door: Door) -> Fraction | None:
    if door.left is None or door.right is None:
        return None
    left, right = above_datum_mm(job, door.left), above_datum_mm(job, door.right)
    return None if left is None or right is None else (left + right) / 2


def _clear_mm(job: Job, door: Door) -> Fraction | None:
    if door.clearance is None:
        return None
    left = exact_mm(door.clearance) - job.covering_mm
    if job.slab is not None:
        return left
    here = _between_jambs(job, door)
    return None if here is None else left - (finish_mm_at(job, door.point) - here)


def _sign(number: Fraction) -> int:
    return (number > 0) - (number < 0)


# --- warnings ----------------------------------------------------------------------------


@cached
def all_warnings(job: Job) -> tuple[LimitWarning, ...]:
    """All that is past a limit or should be looked at: the gravest first, then in walking order."""
    return _gravest_first((*_before_weight(job), *_weight(job), *_after_weight(job)))


@cached
def warnings_but_weight(job: Job) -> tuple[LimitWarning, ...]:
    """
    All warnings but the mean weight of the pour.

    Only that one needs the surface over the whole floor, which takes longest to work out; while
    points are missing it is not given unasked.
    """
    return _gravest_first((*_before_weight(job), *_after_weight(job)))


def _gravest_first(found: Iterable[LimitWarning]) -> tuple[LimitWarning, ...]:
    return tuple(sorted(found, key=lambda warning: SEVERITIES.index(warning.severity)))


@cached
def _before_weight(job: Job) -> tuple[LimitWarning, ...]:
    return (*_at_points(job), *_at_doors(job), *_of_things(job), *_of_material(job))


def _at_points(job: Job) -> list[LimitWarning]:
    share, unit, own = Fraction(job.aggregate_percent), job.reading_unit, job.own_limits
    parts = parts_of(job) if job.zones.pours else {}
    found: list[LimitWarning] = []
    for point, depth in depths_of(job).items():
        if job.slab is None:  # once poured it has a height, but no depth any more
            part = parts[zone_of_point(job, point)] if parts else job
            mixed = Fraction(aggregate_of(part)) if parts else share
            found += _depth_warnings(point, depth, part.card, mixed, unit, own)
        found += _range_warning(point, job.readings[point].mm, job.reach_mm, unit)
    return found


# A further reading changes no other point, and with hundreds of points past a limit it would
# be slow to word all of them again. Large enough for two versions of a large floor.
_depth_warnings = lru_cache(maxsize=20_000)(depth_warnings)
_range_warning = lru_cache(maxsize=20_000)(range_warning)


def _at_doors(job: Job) -> list[LimitWarning]:
    found: list[LimitWarning] = []
    for number in sorted(job.doors):
        sizes = door_sizes(job, job.doors[number])
        if sizes.across_mm is not None or sizes.step_mm is not None:
            across = sizes.across_mm or Fraction(0)
            found += door_warnings(
                number,
                across,
                sizes.step_mm,
                job.reading_unit,
                job.step_limit_mm,
                job.door_rules,
                poured=job.slab is not None,
            )
        if sizes.clear_mm is not None:
            found += leaf_warnings(number, sizes.clear_mm, job.reading_unit)
    source = job.finish_from
    if isinstance(source, FinishFeathered) and job.slab is None:
        least, is_own = least_allowed(job.own_limits, job.card)
        doorway = doorway_mm(job, source.door)
        if doorway is not None:
            thin, card = job.finish_mm - doorway, None if is_own else job.card
            found += feather_warnings(source.door, thin, least, card, job.reading_unit)
    return found


def _of_things(job: Job) -> list[LimitWarning]:
    if job.slab is not None:  # they were of the slab
        return []
    things, unit = job.layout.things, job.reading_unit
    found: list[LimitWarning] = []
    for drain in things.drains:
        found += drain_warnings(
            drain.number, drain.point, finish_mm_at(job, drain.point) - drain.mm, unit
        )
    for line in things.lines:
        if line.after_pour:  # it stands against no pour: defects has it
            continue
        if line.kind == "joint":
            found.append(joint_warning(line.number, where_words(line)))
        elif not line.repaired:
            found.append(crack_warning(line.number, where_words(line)))
    for step in finish_steps(job):
        found.append(zone_step_warning(step.lower, step.higher, step.step_mm, step.edge_m, unit))
    return found


def _of_material(job: Job) -> list[LimitWarning]:
    if job.slab is not None:
        return []
    found = [*aggregate_warnings(Fraction(job.aggregate_percent), job.card)]
    grid = job.layout.grid
    if grid is not None and grid_of(job.layout) is not None:
        apart = (metres(grid.first), metres(grid.second))
        # Of several products the one that wants the closest pins.
        card = min(cards_of(job), key=lambda card: card.pin_spacing_m, default=job.card)
        found += spacing_warnings(apart, card, job.reading_unit)
    return found


def _weight(job: Job) -> tuple[LimitWarning, ...]:
    material = None if job.slab is not None or not cards_of(job) else tally_of(job).material
    return () if material is None else weight_warnings(material.mass_kg_per_m2, job.reading_unit)


@cached
def _after_weight(job: Job) -> tuple[LimitWarning, ...]:
    missing = () if job.slab is not None or not job.readings else points_missing(job)
    skipped = {} if job.slab is not None or not job.readings else points_skipped(job)
    return (
        *points_missing_warnings(missing),
        *points_skipped_warnings(skipped),
        *survey_warnings(job),
    )


def warning_kind(warning: LimitWarning) -> str:
    """The kind of a warning, without its place: ``over-maximum``."""
    return warning.id.partition(":")[0]


def warning_subject(warning: LimitWarning) -> str:
    """The point or door a warning is about; empty where it is about the whole job."""
    return warning.id.partition(":")[2]


def warnings_about(warnings: tuple[LimitWarning, ...], *subjects: str) -> tuple[LimitWarning, ...]:
    """Warnings about certain points (``B3``), or of certain kinds (``weight``)."""
    return tuple(
        w for w in warnings if warning_kind(w) in subjects or warning_subject(w) in subjects
    )


def depth_matters(job: Job) -> tuple[LimitWarning, ...]:
    """Warnings about depths, and about pins that are too far apart."""
    return warnings_about(warnings_but_weight(job), *_DEPTH_KINDS, "pin-spacing", "points-missing")


def depth_findings(job: Job) -> tuple[LimitWarning, ...]:
    """Warnings about points whose depth the product does not allow."""
    return warnings_about(warnings_but_weight(job), *_DEPTH_KINDS)


def own_limits_passed(job: Job, end: str) -> tuple[LimitWarning, ...]:
    """Warnings about points that are past one's own ``least`` or ``most`` depth."""
    kind = OWN_KINDS[0] if end == "least" else OWN_KINDS[1]
    return warnings_about(warnings_but_weight(job), kind)


def to_grind(job: Job) -> tuple[LimitWarning, ...]:
    """Warnings that call for grinding, or for a higher finish."""
    return warnings_about(warnings_but_weight(job), *_TO_GRIND)


def door_matters(job: Job, number: int | None = None) -> tuple[LimitWarning, ...]:
    """Warnings about one door, or about all."""
    doors = job.doors if number is None else (number,)
    ids = {f"{kind}:{door}" for kind in _AT_DOORS for door in doors}
    return tuple(w for w in warnings_but_weight(job) if w.id in ids)


def over_depth(
    card: Card | None, depth_mm: Fraction, aggregate_percent: Fraction, own: OwnLimits = NONE
) -> str:
    """How the map marks a depth: ``high``, ``shallow``, ``deep``, or nothing."""
    found = depth_warnings("", depth_mm, card, aggregate_percent, own=own)
    kinds = {warning_kind(warning) for warning in found}
    if "high-spot" in kinds:
        return "high"
    if kinds & {"under-minimum", "under-own-least"}:
        return "shallow"
    return "deep" if kinds else ""


# --- cautions -----------------------------------------------------------------------------


def cautions_of(job: Job) -> tuple[Caution, ...]:
    """The safety words that apply to the work so far."""
    met: dict[str, Caution] = {}
    if to_grind(job):
        met |= {caution.id: caution for caution in cautions_at("grind")}
    if cards := cards_of(job):
        heaviest = max(card.bag_kg for card in cards)
        met |= {caution.id: caution for caution in cautions_at("mix", heaviest)}
    return tuple(met.values())


def cautions_met(before: Job, after: Job) -> tuple[Caution, ...]:
    """Safety words that have just come to apply: each is given once, not with every reading."""
    known = {caution.id for caution in cautions_of(before)}
    return tuple(caution for caution in cautions_of(after) if caution.id not in known)
