"""Answers about trade-offs: bags saved by grinding, and lifts where the pour is deep."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Any

from assistant.answers.parts import Answerer, Moment
from assistant.errors import Refusal
from assistant.floor.constraints import rounded_mm, wanted_of
from assistant.floor.depths import depths_of
from assistant.floor.order import bags_for
from assistant.floor.places import grid_of
from assistant.floor.steps import cell_of
from assistant.job import Job
from assistant.limits.cautions import cautions_at
from assistant.limits.limits import exact_number
from assistant.reply import wording
from assistant.reply.replies import Reply, Table
from assistant.reply.side_by_side import lengths
from grammar.commands import Command
from grammar.commands.finish import AskGrindingOptions, AskLifts

if TYPE_CHECKING:
    from assistant.levels.grinding import GrindingOption
    from assistant.levels.lifts import BayPlan

BAR = 20
"""Characters of the longest bar in the chart."""
MOST_NAMED = 3
MOST_LIFTS = 10
"""Most lifts on top of each other. Our own choice, no source."""


# --- grinding -------------------------------------------------------------------------


def grinding_told(moment: Moment, _command: AskGrindingOptions) -> Reply:
    from assistant.levels.grinding import grinding_options

    job = moment.job
    wanted = wanted_of(job, level=True)
    options = grinding_options(
        wanted.heights_m, wanted.weights_m2, wanted.min_m, wanted.held, mesh=wanted.surface.mesh
    )
    rows = [_option_data(job, wanted.names, option) for option in options]
    data = {"grinding": rows}
    if len(options) == 1:
        reason = "a door or a fixed height holds the finish up" if wanted.held else "it is even"
        return Reply(f"Grinding saves nothing: {reason}.", "Grinding saves nothing.", data=data)
    best, first = max(rows, key=lambda row: row["saved_m3"]), rows[1]
    if best["saved_m3"] < 0.0005:
        return Reply("Grinding saves nothing to speak of.", "Grinding saves nothing.", data=data)
    return Reply(
        f"Grinding {first['grinds'][0]['point']} alone saves {_saved(job, first)}; "
        f"{wording.counted(len(best['grinds']), 'point')}, {_saved(job, best)}.",
        f"Grinding can save {_spoken_saved(job, best)}.",
        (
            "Each line takes the finish down to the next highest point; "
            f"{wording.length(10, job.reading_unit)} at most is taken off anywhere (common "
            f"practice, no source). To see one: what if grind C1 by {_example(job)}.",
        ),
        (_option_table(job, rows), _curve(job, rows)),
        cautions=cautions_at("grind"),
        data=data,
    )


def _option_data(job: Job, names: tuple[str, ...], option: GrindingOption) -> dict[str, Any]:
    bags = None if job.card is None else bags_for(job, max(option.volume_m3, 0.0))
    before = option.volume_m3 + option.saved_m3
    saved = None if bags is None else bags_for(job, max(before, 0.0)) - bags
    return {
        "grinds": [
            {"point": names[one.point], "by_mm": round(one.height_m * 1000, 6)}
            for one in option.grinds
        ],
        "deepest_mm": round(option.deepest_m * 1000, 6),
        "ground_m2": option.ground_m2,
        "finish_mm": float(rounded_mm(option.finish_m)),
        "volume_m3": option.volume_m3,
        "saved_m3": option.saved_m3,
        "bags": bags,
        "bags_saved": saved,
    }


def _saved(job: Job, row: dict[str, Any]) -> str:
    if row["bags_saved"] is not None:
        return wording.counted(row["bags_saved"], "bag")
    return wording.volume(row["saved_m3"], job.reading_unit)


def _example(job: Job) -> str:
    return "1/8 in" if job.reading_unit == "in" else "4 mm"


def _spoken_saved(job: Job, row: dict[str, Any]) -> str:
    if row["bags_saved"] is not None:
        return wording.spoken_count(row["bags_saved"], "bag")
    return wording.spoken_volume(row["saved_m3"], job.reading_unit)


def _option_table(job: Job, rows: list[dict[str, Any]]) -> Table:
    unit = job.reading_unit
    shown = []
    for row in rows:
        points = (
            wording.join_names([one["point"] for one in row["grinds"]], MOST_NAMED) or "nothing"
        )
        shown.append(
            (
                points,
                wording.length(row["deepest_mm"], unit) if row["grinds"] else "-",
                wording.area(row["ground_m2"], unit) if row["grinds"] else "-",
                wording.height(rounded_mm(row["finish_mm"] / 1000), unit),
                _saved(job, row) if row["grinds"] else "-",
            )
        )
    columns = ("Grind", "Most off", "Area about", "Finish", "Saves")
    return Table("What grinding saves", columns, tuple(shown))


def _curve(job: Job, rows: list[dict[str, Any]]) -> Table:
    most = max(row["saved_m3"] for row in rows) or 1.0
    shown = tuple(
        (
            wording.length(row["deepest_mm"], job.reading_unit),
            "#" * round(BAR * row["saved_m3"] / most),
        )
        for row in rows
    )
    return Table("Saved against the most that is taken off", ("Off", "Saved"), shown)


# --- lifts ---------------------------------------------------------------------------------


def lifts_told(moment: Moment, _command: AskLifts) -> Reply:
    from assistant.levels.lifts import plan_bay, plan_bays

    job = moment.job
    card = job.card
    if card is None:
        raise Refusal(
            "The product first; its card says how deep a lift may be: product NAME.",
            spoken="The product first.",
        )
    depths = depths_of(job)
    if not depths:
        raise Refusal("No depth yet: no point of this floor has been read.")
    names = tuple(depths)
    deepest_mm = max(depths.values())
    if deepest_mm > MOST_LIFTS * Fraction(card.max_mm):
        raise Refusal(
            f"{wording.length(deepest_mm, moment.unit)} at the deepest is more than {MOST_LIFTS} "
            "lifts of this product. Lower the finish, or fill with something else first.",
            spoken="Too deep for this product. Lower the finish, or fill first.",
        )
    depths_m = [float(depth) / 1000 for depth in depths.values()]
    most = None if card.max_with_aggregate_mm is None else float(card.max_with_aggregate_mm) / 1000
    limits = (float(card.min_mm) / 1000, float(card.max_mm) / 1000, most)
    whole = plan_bay(depths_m, *limits)
    bays = plan_bays(depths_m, _columns(job, names), *limits)
    data = {
        "lifts": _plan_data(names, whole),
        "bays": {name: _plan_data(names, plan) for name, plan in bays.items()},
    }
    deepest, least, at_most = lengths(
        moment.unit, exact_number(whole.deepest_m * 1000), card.min_mm, card.max_mm
    )
    if whole.ways in (("nothing",), ("one lift",)):
        return Reply(
            f"One lift will do: {deepest} at the deepest, {at_most} at most.",
            "One lift will do.",
            (_who_decides(),),
            data=data,
        )
    if not whole.over_maximum:
        return Reply(
            f"{deepest} at the deepest is less than the product's minimum of {least}.",
            "Too thin for the product.",
            data=data,
        )
    rows = tuple(
        (f"column {name}", *_plan_cells(job, plan))
        for name, plan in bays.items()
        if plan.over_maximum
    )
    tables = (Table("Bays that are too deep for one lift",
                    ("Bay", "Deepest", "Lifts", "Or"), rows),) if rows else ()  # fmt: skip
    return Reply(
        f"{deepest} at the deepest, more than one lift takes ({at_most}): "
        f"{_ways_words(job, whole)}.",
        ("too deep for one lift", _spoken_ways(whole)),
        (*_thin_lines(names, whole), _who_decides()),
        tables,
        data=data,
    )


def _columns(job: Job, names: tuple[str, ...]) -> dict[str, list[int]]:
    """Points by the grid's columns, along which a pour goes bay by bay."""
    grid = grid_of(job.layout)
    on_grid = set() if grid is None else set(grid.names)
    bays: dict[str, list[int]] = {}
    for row, name in enumerate(names):
        if name in on_grid:
            bays.setdefault(cell_of(name)[0], []).append(row)
    return dict(sorted(bays.items(), key=lambda bay: (len(bay[0]), bay[0])))


def _plan_data(names: tuple[str, ...], plan: BayPlan) -> dict[str, Any]:
    return {
        "deepest_mm": round(plan.deepest_m * 1000, 6),
        "over_maximum": [names[row] for row in plan.over_maximum],
        "ways": list(plan.ways),
        "lifts": [
            {
                "thickness_mm": round(lift.thickness_m * 1000, 6),
                "points": [names[row] for row in lift.points],
                "thin": [names[row] for row in lift.thin],
            }
            for lift in plan.lifts
        ],
    }


def _plan_cells(job: Job, plan: BayPlan) -> tuple[str, str, str]:
    unit = job.reading_unit
    deepest = wording.length(round(plan.deepest_m * 1000, 3), unit)
    return deepest, _lifts_words(job, plan) or "none", _aggregate(plan)


def _aggregate(plan: BayPlan) -> str:
    return "one pour with aggregate" if plan.one_pour_with_aggregate else "-"


def _lifts_words(job: Job, plan: BayPlan) -> str:
    thick = [
        wording.length(round(lift.thickness_m * 1000, 1), job.reading_unit) for lift in plan.lifts
    ]
    return " + ".join(thick)


def _ways_words(job: Job, plan: BayPlan) -> str:
    ways = []
    if plan.one_pour_with_aggregate:
        ways.append("one pour with aggregate")
    if plan.lifts:
        ways.append(f"{len(plan.lifts)} lifts, {_lifts_words(job, plan)}")
    return " or ".join(ways) or "no lifts of this product make it up; lower the finish"


def _spoken_ways(plan: BayPlan) -> str:
    lifts = wording.spoken_count(len(plan.lifts), "lift")
    if plan.one_pour_with_aggregate:
        return f"Aggregate, or {lifts}." if plan.lifts else "Aggregate would do."
    return lifts if plan.lifts else "No lifts make it up."


def _thin_lines(names: tuple[str, ...], plan: BayPlan) -> list[str]:
    thin = [names[row] for lift in plan.lifts for row in lift.thin]
    if not thin:
        return []
    return [
        f"A lift would run out too thin at {wording.join_names(list(dict.fromkeys(thin)))}: "
        "a batten along that line, or grinding, keeps it whole."
    ]


def _who_decides() -> str:
    return "Primer and waiting time between lifts are for the product's data sheet."


ANSWERS: dict[type[Command], Answerer] = {
    AskGrindingOptions: grinding_told,
    AskLifts: lifts_told,
}
