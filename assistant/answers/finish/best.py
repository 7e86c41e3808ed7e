"""Answers about the finish that suits the floor best, and the grinding it needs."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from assistant.answers.depths.cuts import cut_for
from assistant.answers.parts import Answerer, Moment, depth_cell, depth_sentence, with_matters
from assistant.errors import Refusal
from assistant.floor.constraints import (
    USUAL_SLOPE_PERCENT,
    Constrained,
    best_level_of,
    best_plane_of,
    changes_words,
    rounded_mm,
    wish_words,
)
from assistant.floor.depths import depths_of
from assistant.floor.order import bags_for
from assistant.floor.tally import tally_of
from assistant.floor.walk import points_missing
from assistant.job import Job
from assistant.limits.cautions import cautions_at
from assistant.limits.own_limits import NONE
from assistant.reply import wording
from assistant.reply.replies import Reply, Table
from grammar import spoken_measure
from grammar.commands import Command
from grammar.commands.finish import AskBestFinish, AskBestPlane, FixHeight, Grind, SetFall

if TYPE_CHECKING:
    from assistant.levels.best_finish import Conflict, Finish

STEEPEST_PERCENT = Decimal(10)
MOST_NAMED = 4
"""Most constraints listed by name; a conflict seldom has more than three."""

# --- what the finish must meet --------------------------------------------------------


def height_fixed(moment: Moment, command: FixHeight) -> Reply:
    job, unit, point = moment.job, moment.unit, command.point
    height = job.survey.fixed[point]
    off = height.mm - job.finish_mm
    details = ["The finish as it is meets it."]
    if off:
        side = "below" if off > 0 else "above"
        details = [
            f"The finish as it is lies {wording.length(abs(off), unit)} {side} that. "
            "To have it met with least material: best finish."
        ]
    reply = Reply(
        f"{point}: the finish is to be {wording.height(height.mm, unit)}.",
        f"{wording.spoken_name(point)} fixed, {wording.spoken_height(height.said)}.",
        tuple(details),
        data={"fixed": {"point": point, "height_mm": float(height.mm), "off_mm": float(off)}},
    )
    return with_matters(moment, reply)


def fall_set(moment: Moment, command: SetFall) -> Reply:
    point, percent = command.point, wording.percent(command.percent)
    data = {"fall": {"percent": float(command.percent), "point": point}}
    if not command.percent:
        return with_matters(moment, Reply("No fall: the floor is to be level.", data=data))
    name = wording.spoken_name(point)
    reply = Reply(
        f"The floor is to fall {percent} towards {point}.",
        f"Fall towards {name}.",
        (
            "To see it with its depths: best plane. The tally and the cut list go by the level "
            "finish. What levels itself will not hold a fall; ask the product's maker.",
        ),
        data=data,
    )
    return with_matters(moment, reply)


def tell_grinding(moment: Moment, command: Grind) -> Reply:
    job, unit, point = moment.job, moment.unit, command.point
    by = job.survey.ground[point]
    depth = depths_of(job).get(point)
    told = "" if depth is None else f" {depth_sentence(depth, unit)}"
    was = moment.before.survey.ground.get(point)
    details = [] if was is None else [f"Instead of {wording.length(was, unit)}."]
    reply = Reply(
        f"{point} is to be ground down by {wording.length(by, unit)}.{told}",
        f"Grind {wording.spoken_name(point)}, {wording.spoken_length(by, unit)}.",
        (*details, "Depths go by it as if it were done; read the point again afterwards."),
        data={
            "ground": {
                "point": point,
                "by_mm": float(by),
                "depth_mm": None if depth is None else float(depth),
            }
        },
    )
    return replace(with_matters(moment, reply), cautions=cautions_at("grind"))


# --- best level finish --------------------------------------------------------------------


def best_finish(moment: Moment, _command: AskBestFinish) -> Reply:
    from assistant.levels.best_finish import Conflict

    job, unit = moment.job, moment.unit
    wanted, found = best_level_of(job)
    if isinstance(found, Conflict):
        then = _level(job, rounded_mm(found.reconciled.height_m))
        return _conflict(job, wanted, found, "level finish", None, then)
    finish_mm = rounded_mm(found.height_m)
    data = {**_level(job, finish_mm), "binding": _binding(wanted, found)}
    now = tally_of(job)
    return Reply(
        f"Best finish {wording.height(finish_mm, unit)}: {_takes(job, data)}.",
        (
            f"best finish {wording.spoken_worked_height(finish_mm, unit)}",
            _spoken_takes(data, unit),
        ),
        (
            *_held_by(job, wanted, found, None),
            *_against_now(job, data, now.volume_m3),
            *_not_known_yet(job),
            f"To take it: finish {_said(finish_mm, unit)}.",
        ),
        data=data,
    )


def _level(job: Job, finish_mm: Fraction) -> dict[str, Any]:
    """What a level finish needs, worked out as in the tally."""
    tally = tally_of(replace(job, finish_mm=finish_mm))
    return {
        "finish_mm": float(finish_mm),
        "volume_m3": tally.volume_m3,
        "bags": tally.material.bags if tally.material else None,
    }


def _said(finish_mm: Fraction, unit: str) -> str:
    if unit == "in":
        sixteenths = -(-finish_mm * 16 // Fraction(127, 5))
        finish_mm = Fraction(sixteenths, 16) * Fraction(127, 5)
    return wording.height(finish_mm, unit, "zero")


def _takes(job: Job, data: dict[str, Any]) -> str:
    text = wording.volume(data["volume_m3"], job.reading_unit)
    if data["bags"] is not None:
        text += f", {wording.counted(data['bags'], 'bag')}"
    return text


def _spoken_takes(data: dict[str, Any], unit: str) -> str:
    if data["bags"] is not None:
        return wording.spoken_count(data["bags"], "bag")
    return wording.spoken_volume(data["volume_m3"], unit)


def _binding(wanted: Constrained, found: Finish) -> list[str]:
    return [wanted.id_of(wish) for wish in found.binding]


def _held_by(job: Job, wanted: Constrained, found: Finish, slope: Decimal | None) -> list[str]:
    """Why the finish has this height: the constraints that hold it there."""
    words = [wish_words(job, wanted, wish, slope) for wish in found.binding]
    if not words:
        return []
    return [f"Held there: {wording.join_names(words, most=MOST_NAMED)}."]


def _against_now(job: Job, data: dict[str, Any], now_m3: float | None) -> list[str]:
    if now_m3 is None or data["volume_m3"] is None:
        return []
    less = now_m3 - data["volume_m3"]
    if abs(less) < 0.0005:
        return ["That is what the finish as it is takes."]
    how = "less" if less > 0 else "more"
    return [f"{wording.volume(abs(less), job.reading_unit)} {how} than the finish as it is."]


def _not_known_yet(job: Job) -> list[str]:
    """What is not known yet and may change the answer."""
    lines = []
    if job.card is None:
        own = " but for your own limits" if job.own_limits != NONE else ""
        lines.append(f"No product chosen, so no depth is too thin or too deep{own}: product NAME.")
    if missing := len(points_missing(job)):
        points = wording.counted(missing, "point is", "points are")
        lines.append(f"{points} not read yet; read them before you settle the finish.")
    return lines


def _conflict(
    job: Job,
    wanted: Constrained,
    found: Conflict,
    what: str,
    slope: Decimal | None,
    then: dict[str, Any],
) -> Reply:
    """Which constraints conflict, and the least change that reconciles them."""
    against = [wish_words(job, wanted, wish, slope) for wish in found.members]
    changes = changes_words(job, wanted, found.changes)
    alone = [f"Or {words}, alone." for words in changes_words(job, wanted, found.alone)]
    data = {
        "finish_mm": None,
        "volume_m3": None,
        "bags": None,
        "binding": [],
        "conflict": [wanted.id_of(wish) for wish in found.members],
        "changes": [
            {"wish": wanted.id_of(change.wish), "amount_mm": change.amount * 1000}
            for change in found.changes
        ],
        "alone": [
            {"wish": wanted.id_of(change.wish), "amount_mm": change.amount * 1000}
            for change in found.alone
        ],
        "reconciled": then,
    }
    return Reply(
        f"No {what} meets everything: {wording.join_names(against, most=MOST_NAMED)}.",
        (
            f"no {what} meets everything",
            f"{wording.spoken_count(len(against), 'wish', 'wishes')} stand against each other",
        ),
        (
            f"Least change: {wording.join_names(changes, most=MOST_NAMED)}. "
            f"Then {wording.height(rounded_mm(found.reconciled.height_m), job.reading_unit)}"
            f"{'' if what == 'level finish' else ' in the middle'}: {_takes(job, then)}.",
            *(line for line in alone[:MOST_NAMED] if len(changes) > 1 or changes[0] not in line),
        ),
        data=data,
    )


# --- best plane -----------------------------------------------------------------------------


def best_plane(moment: Moment, command: AskBestPlane) -> Reply:
    from assistant.levels.best_finish import Conflict

    job, unit = moment.job, moment.unit
    if command.slope is not None and not 0 <= command.slope <= STEEPEST_PERCENT:
        raise Refusal(
            f"A slope is from 0 to {wording.percent(STEEPEST_PERCENT)}, not "
            f"{wording.percent(command.slope)}: best plane within 0.5 percent.",
            spoken="That is too steep for a finish.",
        )
    wanted, found = best_plane_of(job, command.slope)
    slope = USUAL_SLOPE_PERCENT if command.slope is None else command.slope
    if isinstance(found, Conflict):
        then = _plane(job, wanted, found.reconciled)
        return _conflict(job, wanted, found, "plane", slope, then)
    data = {**_plane(job, wanted, found), "binding": _binding(wanted, found)}
    middle = wording.height(rounded_mm(found.height_m), unit)
    level = _level(job, rounded_mm(best.height_m)) if (best := _level_or_none(job)) else None
    return Reply(
        f"Best plane, {_slope_words(found, unit)}, {middle} in the middle: {_takes(job, data)}.",
        (f"best plane, {_spoken_slope(found, unit)}", _spoken_takes(data, unit)),
        (
            *_held_by(job, wanted, found, slope),
            *_against_level(job, data, level),
            *([f"Without a place, not counted: {wording.join_names(wanted.left_out)}."]
              if wanted.left_out else []),
            *_not_known_yet(job),
            "What levels itself will not lie in a plane that slopes; ask the product's maker, "
            "or set it to rails.",
        ),
        (_plane_table(job, wanted, found),),
        data=data,
    )  # fmt: skip


def _level_or_none(job: Job) -> Finish | None:
    from assistant.levels.best_finish import Conflict

    _, found = best_level_of(job)
    return None if isinstance(found, Conflict) else found


def _plane(job: Job, wanted: Constrained, found: Finish) -> dict[str, Any]:
    from assistant.levels.volume import fill

    depths_m = found.depths_m[: len(wanted.surface.names)]
    volume = float(fill(wanted.surface.mesh, depths_m).volume_m3)
    x, y = found.slope
    return {
        "finish_mm": round(found.height_m * 1000, 6),
        "volume_m3": volume,
        "bags": None if job.card is None else bags_for(job, volume),
        "plane": {
            "height_mm": float(found.heights_at([[0.0, 0.0]])[0]) * 1000,
            "slope_x_mm_per_m": x * 1000,
            "slope_y_mm_per_m": y * 1000,
            "slope_percent": _steepness(found) * 100,
        },
    }


def _steepness(found: Finish) -> float:
    x, y = found.slope
    return float((x * x + y * y) ** 0.5)


def _slope_words(found: Finish, unit: str) -> str:
    steep = _steepness(found) * 1000
    if steep < 0.05:
        return "level"
    x, y = (-part for part in found.slope)
    ways = [
        way
        for part, way in (
            (x, "higher letters" if x > 0 else "lower letters"),
            (y, "higher numbers" if y > 0 else "lower numbers"),
        )
        if abs(part) * 1000 > 0.38 * steep
    ]
    return f"falling {wording.slope(steep, unit)} towards {wording.join_names(ways)}"


def _spoken_slope(found: Finish, unit: str) -> str:
    told, _, over = wording.slope(_steepness(found) * 1000, unit).partition(f" {unit} ")
    steep = Decimal(told)
    return f"{spoken_measure(steep, unit)} {over}" if steep else "level"


def _against_level(job: Job, data: dict[str, Any], level: dict[str, Any] | None) -> list[str]:
    if level is None or level["volume_m3"] is None:
        return []
    less = level["volume_m3"] - data["volume_m3"]
    how = "less" if less >= 0 else "more"
    return [f"{wording.volume(abs(less), job.reading_unit)} {how} than the best level finish."]


def _plane_table(job: Job, wanted: Constrained, found: Finish) -> Table:
    unit = job.reading_unit
    rows = []
    # The corners of the floor follow the points, and get no pin.
    for name, depth_m in zip(wanted.surface.names, found.depths_m.tolist(), strict=False):
        depth = Fraction(round(depth_m * 1_000_000), 1000)
        cut = cut_for(name, depth, unit)
        rows.append((name, depth_cell(depth, unit), cut.text or cut.remark))
    return Table("Depths under this plane", ("Point", "Depth", "Cut"), tuple(rows))


ANSWERS: dict[type[Command], Answerer] = {
    FixHeight: height_fixed,
    SetFall: fall_set,
    Grind: tell_grinding,
    AskBestFinish: best_finish,
    AskBestPlane: best_plane,
}
