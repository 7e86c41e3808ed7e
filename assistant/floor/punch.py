"""What is to be ground or filled of a finished floor, in walking order.

How far it is off is held against what was promised (:mod:`assistant.floor.off_promise`): the
planned finish where level was, a plane where only flat was. Lines that have a place are looked
along as the points are; a gap under an edge laid by hand is held against the limit of such an edge,
unless level alone was promised and no such limit is named.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import ceil
from typing import TYPE_CHECKING

from assistant.floor.geometry import area_of
from assistant.floor.hand_gaps import HAND_SD_MM
from assistant.floor.heights import survey_of
from assistant.floor.in_doubt import doubtful_lines
from assistant.floor.late_numpy import np
from assistant.floor.line_stretches import stretches_off
from assistant.floor.off_promise import departures_mm, is_level_only
from assistant.floor.places import places_of
from assistant.floor.places_in_words import place_words, point_at
from assistant.floor.punch_limit import gap_limit_of, is_held_to_gaps, punch_limit_of
from assistant.floor.scans.patches import patches_off
from assistant.floor.surfaces import surface_of
from assistant.floor.zones import card_at, one_card
from assistant.job import Job
from assistant.job.once import cached
from assistant.job.proof import HandLaidGap
from assistant.reply import wording
from grammar.frozen import frozen

if TYPE_CHECKING:
    from assistant.levels.arrays import FloatArray
    from assistant.levels.surface import Mesh
    from assistant.products.cards import Card

GRIND, FILL = "grind", "fill"
PASS_MM = 1.0
"""What a pass of a grinder takes off a poured floor. Common practice, no source; the machine and
its tool decide."""
_CLEAR_SDS = 2.0


@frozen
class ToMend:
    """One place of the floor that is further off than is let pass."""

    point: str
    do: str
    """``grind`` or ``fill``."""
    mm: float
    """How much is to go or to come there, to be as promised."""
    sd_mm: float
    """Standard deviation of the reading there."""
    clear: bool
    """False where the reading is in doubt, or could as well be within what is let pass: read again
    first."""
    x_m: float | None
    y_m: float | None
    area_m2: float | None
    """Of the place that is too high or too low, an estimate between the points; None without a
    room."""
    bags: float | None
    """Of the product that is poured there, waste included; None to grind, or without a product."""
    passes: int | None
    """How often a grinder goes over it; None where it is filled."""
    mended: int
    """How often it was mended before."""
    seen_by: str = ""
    """The gap, line or scan that showed it; nothing for a reading of the point."""


@cached
def punch_of(job: Job) -> tuple[ToMend, ...]:
    """All that is to be mended of the floor that a job shows; in walking order."""
    points = _of_points(job)
    found = (*points, *_of_gaps(job), *_of_lines(job, points), *_of_scan(job, points))
    order = places_of(job.layout).row
    return tuple(sorted(found, key=lambda each: order.get(each.point, len(order))))


def _of_points(job: Job) -> tuple[ToMend, ...]:
    off, most = departures_mm(job), float(punch_limit_of(job).mm)
    over = {name: mm for name, mm in off.items() if abs(mm) > most}
    areas = {sign: _places_m2(job, off, sign, most) for sign in (1, -1)}
    sds, places = survey_of(job).sd_mm, places_of(job.layout)
    doubtful = survey_of(job).doubtful
    found = []
    for name, mm in over.items():
        sign = 1 if mm > 0 else -1
        area, litres = areas[sign].get(name, (None, None))
        x_m, y_m = places.xy(name) if name in places.row else (None, None)
        sd = sds.get(name, 0.0)
        sure = abs(mm) - most > _CLEAR_SDS * sd and name not in doubtful
        found.append(
            ToMend(
                name,
                GRIND if sign > 0 else FILL,
                abs(mm),
                sd,
                sure,
                x_m,
                y_m,
                area,
                None if sign > 0 or litres is None else _bags(job, name, litres),
                _passes(mm) if sign > 0 else None,
                job.proof.mended.get(name, 0),
            )
        )
    return tuple(found)


def _passes(mm: float) -> int:
    return ceil(abs(mm) / PASS_MM - 1e-9)


def _of_gaps(job: Job) -> tuple[ToMend, ...]:
    """The widest gap laid by hand at each point, where it is wider than is let pass."""
    if is_level_only(job) and not is_held_to_gaps(job):
        return ()
    widest: dict[str, HandLaidGap] = {}
    for gap in job.proof.gaps:
        if gap.mm > gap_limit_of(job, gap).mm:
            kept = widest.get(gap.point, gap)
            widest[gap.point] = max(kept, gap, key=lambda each: each.mm)
    at_m = places_of(job.layout).at_m
    found = []
    for point, gap in widest.items():
        past = float(gap.mm - gap_limit_of(job, gap).mm)
        x_m, y_m = at_m.get(point, (None, None))
        found.append(
            ToMend(
                point,
                FILL,
                float(gap.mm),
                HAND_SD_MM,
                past > _CLEAR_SDS * HAND_SD_MM,
                x_m,
                y_m,
                None,
                None,
                None,
                job.proof.mended.get(point, 0),
                f"gap {gap.number} under {wording.as_said(gap.under)}",
            )
        )
    return tuple(found)


def _of_lines(job: Job, points: tuple[ToMend, ...]) -> tuple[ToMend, ...]:
    """Where lines are off, the worst of each stretch; not beside a point that is listed itself."""
    most, found = float(punch_limit_of(job).mm), []
    doubtful = doubtful_lines(job)
    listed = [((each.x_m, each.y_m), each.do) for each in points if each.x_m is not None]
    for off in stretches_off(job, most):
        do, (x_m, y_m) = GRIND if off.mm > 0 else FILL, off.place_m
        if any(do == other and off.is_at((x, y)) for (x, y), other in listed if y is not None):
            continue
        far, named = abs(off.mm), point_at(job, x_m, y_m)
        many = off.last > off.first
        values = f"values {off.first} to {off.last}" if many else f"value {off.first}"
        found.append(
            ToMend(
                named or f"line {off.line} point {off.number}",
                do,
                far,
                off.sd_mm,
                far - most > _CLEAR_SDS * off.sd_mm and f"line {off.line}" not in doubtful,
                x_m,
                y_m,
                None,
                None,
                _passes(far) if do == GRIND else None,
                0,
                f"line {off.line}, {values}" if named else values,
            )
        )
    return tuple(found)


def _of_scan(job: Job, points: tuple[ToMend, ...]) -> tuple[ToMend, ...]:
    """Patches of the scan that are off, but where a point on them is listed itself."""
    most, found = float(punch_limit_of(job).mm), []
    listed = [(each.x_m, each.y_m, each.do) for each in points if each.x_m is not None]
    card = one_card(job)
    for patch in patches_off(job, most):
        do, (x_m, y_m) = GRIND if patch.mm > 0 else FILL, patch.place_m
        if any(do == other and y is not None and patch.is_at((x, y)) for x, y, other in listed):
            continue
        far = abs(patch.mm)
        found.append(
            ToMend(
                place_words(job, x_m, y_m),
                do,
                far,
                patch.sd_mm,
                far - most > _CLEAR_SDS * patch.sd_mm,
                x_m,
                y_m,
                patch.area_m2,
                None if do == GRIND or card is None else _bags_of(job, card, patch.litres),
                _passes(far) if do == GRIND else None,
                0,
                "by the scan",
            )
        )
    return tuple(found)


def _bags(job: Job, point: str, litres: float) -> float | None:
    card = card_at(job, point)
    if card is None:
        return None
    return _bags_of(job, card, litres)


def _bags_of(job: Job, card: Card, litres: float) -> float:
    waste = 1 + float(job.waste_percent) / 100
    return litres * waste / (card.mix(0.0).yield_m3 * 1000)


def _places_m2(
    job: Job, off: Mapping[str, float], sign: int, most: float
) -> dict[str, tuple[float, float]]:
    """
    Area around each point that is off by more than is let pass, m², and litres to bring it right.

    The floor between the points is that of the tally's triangles; what several points have in
    common is shared out among them, so that all add up to what is off.
    """
    surface = surface_of(job) if area_of(job.layout) else None
    if surface is None:
        return {}
    excess = np.array([sign * off.get(name, 0.0) - most for name in surface.names]) / 1000
    beyond = np.flatnonzero(excess > 0)
    if not len(beyond):
        return {}
    whole = _filled(surface.mesh, excess)
    alone = []
    for row in beyond.tolist():
        one = np.minimum(excess, 0.0)
        one[row] = excess[row]
        alone.append(_filled(surface.mesh, one))
    shares = np.array(alone)
    share = shares / shares.sum(axis=0)
    areas = share[:, 0] * whole[0]
    # What is beyond the limit, and what lies below it over the same area.
    litres = 1000 * (share[:, 1] * whole[1] + areas * most / 1000)
    return {
        surface.names[row]: (float(area), float(litre))
        for row, area, litre in zip(beyond.tolist(), areas, litres, strict=True)
    }


def _filled(mesh: Mesh, depths_m: FloatArray) -> tuple[float, float]:
    from assistant.levels.volume import fill

    found = fill(mesh, depths_m)
    return found.filled_area_m2, found.volume_m3


def whole_bags(found: tuple[ToMend, ...]) -> int | None:
    """
    Bags for all points that are to be filled, rounded up once; None where no product is known.

    What an edge or a line showed has no area, and so no bags.
    """
    to_fill = [
        each.bags
        for each in found
        if each.do == FILL and not (each.seen_by and each.area_m2 is None)
    ]
    known = [bags for bags in to_fill if bags is not None]
    return ceil(sum(known) - 1e-9) if known and len(known) == len(to_fill) else None
