"""What a plan can show of a floor: the slab, what is to be poured, and what came of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.errors import LeadsmanError
from assistant.floor.depths import depths_of
from assistant.floor.geometry import area_to_pour
from assistant.floor.heights import heights_of, survey_of
from assistant.floor.places import places_of
from assistant.floor.punch_limit import punch_limit_of
from assistant.floor.surfaces import surface_of
from assistant.floor.zones import poured_parts
from assistant.handover.isolines import Sampled, sampled_surface
from assistant.job import Job
from assistant.job.surveys import finished_floor
from assistant.reply import wording
from grammar.frozen import frozen, frozen_identity

if TYPE_CHECKING:
    from assistant.levels.arrays import FloatArray

BEFORE, PLANNED, AFTER, DIFFERENCE = VIEWS = ("before", "planned", "after", "difference")
TITLES = {
    BEFORE: "The slab, below and above the zero",
    PLANNED: "Depth to pour",
    AFTER: "The finished floor, below and above its finish",
    DIFFERENCE: "What was poured, from slab to finished floor",
}
_LOW, _HIGH = "below", "above"


@frozen
class Spot:
    """A point of the plan."""

    name: str
    x_m: float
    y_m: float
    value_mm: float | None
    """None where it was not read."""
    doubtful: bool = False


@frozen_identity
class View:
    """One thing shown of a floor; its values grow downwards, or with what is poured."""

    name: str
    title: str
    surfaces: tuple[Sampled, ...]
    """Of each part of the floor; none before there is a reading."""
    spots: tuple[Spot, ...]
    unit: str
    to_grind: bool
    """Whether what is less than nothing stands above the finish."""
    let_pass_mm: float = 0.0
    """How far above the finish is let pass: of a poured floor, as its punch list has it."""

    @property
    def range_mm(self) -> tuple[float, float]:
        """The least and the most at points that were read."""
        read = [spot.value_mm for spot in self.spots if spot.value_mm is not None]
        return (min(read), max(read)) if read else (0.0, 0.0)

    def words(self, value_mm: float) -> str:
        """
        A value to read on a plan: below nothing with a word or an arrow is longer, so an up arrow
        stands for above.
        """
        shown = wording.length(abs(round(value_mm, 1)), self.unit)
        number = shown.removesuffix(" mm").removesuffix(" in")
        return f"↑{number}" if value_mm < 0 and number != "0" else number


def view_of(job: Job, name: str = "") -> View:
    """
    A view by its name; without one what was poured last is shown, or is to be.

    Raises LeadsmanError for what there is nothing of yet, and says what there is.
    """
    after = finished_floor(job)
    surveyed = after is not None and bool(after.readings)
    name = name or (AFTER if surveyed else PLANNED)
    if name not in VIEWS:
        raise LeadsmanError(f"{name!r} is nothing that a picture shows: {', '.join(VIEWS)}.")
    if name in (AFTER, DIFFERENCE) and (after is None or not surveyed):
        raise LeadsmanError(
            "The finished floor was not surveyed yet, so there are: before and planned."
        )
    if area_to_pour(job.layout) is None:
        raise LeadsmanError("There is nothing to draw yet: a picture needs the room.")
    if name == BEFORE:
        return _view(name, job, _below_zero(job), -float(job.finish_mm))
    if name == PLANNED or after is None:
        return _view(name, job, _depths(job), 0.0)
    if name == AFTER:
        return _view(name, after, _depths(after), 0.0)
    return _difference(job, after)


def _below_zero(job: Job) -> dict[str, float]:
    return {point: -float(height) for point, height in heights_of(job).items()}


def _depths(job: Job) -> dict[str, float]:
    return {point: float(depth) for point, depth in depths_of(job).items()}


def _view(name: str, floor: Job, values: dict[str, float], more_mm: float) -> View:
    """A view of a floor's depths; of its heights where the finish is taken off again."""
    surfaces = []
    for part in poured_parts(floor) if name != BEFORE else [floor]:
        surface, area = surface_of(part), area_to_pour(part.layout)
        if surface is None or area is None or area.is_empty:
            continue

        def at(places: FloatArray, surface: object = surface) -> FloatArray:
            assert surface is not None
            depths: FloatArray = surface.mesh.heights_at(  # type: ignore[attr-defined]
                places,
                surface.depths_m,  # type: ignore[attr-defined]
            )
            return depths * 1000 + more_mm

        surfaces.append(sampled_surface(area, at))
    let_pass = float(punch_limit_of(floor).mm) if name == AFTER else 0.0
    return View(name, TITLES[name], tuple(surfaces), _spots(floor, values), floor.reading_unit,
                name in (PLANNED, AFTER), let_pass)  # fmt: skip


def _difference(job: Job, after: Job) -> View:
    before, now, area = surface_of(job), surface_of(after), area_to_pour(job.layout)
    heights, later = heights_of(job), heights_of(after)
    values = {point: float(later[point] - heights[point]) for point in later if point in heights}
    surfaces: tuple[Sampled, ...] = ()
    if before is not None and now is not None and area is not None:

        def poured(places: FloatArray) -> FloatArray:
            rest: FloatArray = now.mesh.heights_at(places, now.depths_m)
            rise: FloatArray = before.mesh.heights_at(places, before.depths_m) - rest
            return rise * 1000

        surfaces = (sampled_surface(area, poured),)
    return View(DIFFERENCE, TITLES[DIFFERENCE], surfaces, _spots(after, values), job.reading_unit,
                to_grind=False)  # fmt: skip


def _spots(floor: Job, values: dict[str, float]) -> tuple[Spot, ...]:
    doubtful = survey_of(floor).doubtful
    return tuple(
        Spot(name, x, y, values.get(name), name in doubtful)
        for name, (x, y) in places_of(floor.layout).at_m.items()
    )
