"""Answers: what the floor is held to, limit by limit."""

from __future__ import annotations

from typing import Any

from assistant.answers.parts import Answerer, Moment
from assistant.errors import Refusal
from assistant.floor.f_limits import whole_f
from assistant.floor.limit_check import LimitCheck
from assistant.floor.profiles import lines_of
from assistant.floor.proof_lines import mended_words
from assistant.floor.spec_check import OWN, found_of, held_to, overall_verdict
from assistant.limits.specs import Spec, SpecLimit, apart_specs, specs
from assistant.reply import side_by_side, wording
from assistant.reply.replies import Reply, Table
from grammar.commands import Command
from grammar.commands.flatness import AskVerdicts, ChooseSpec, DropSpecs, ListSpecs, SetOwnSpec

_ABOUT = "About these readings and these limits alone; who specified them decides."
_WORDS = {True: "met", False: "not met", None: "cannot be told"}

_UNTOLD = "cannot be told from these readings"
_IN_FULL = "cannot be told in full"


def verdicts_told(moment: Moment, command: AskVerdicts | ChooseSpec | SetOwnSpec) -> Reply:
    job = moment.job
    held = held_to(job)
    if not held:
        raise Refusal(
            "The floor is held to nothing yet: specs lists what there is, spec NAME chooses.",
            spoken="The floor is held to nothing yet.",
        )
    rows = [(spec, found_of(job, spec)) for spec in held]
    every = [each for _, found in rows for each in found]
    data = {
        "spec": [_row_data(each) for each in every],
        "held_to": [spec.name for spec in held],
        "overall": [{"name": spec.name, "met": overall_verdict(found)} for spec, found in rows],
    }
    sources = [f"Source: {spec.told_source}." for spec in held]
    asked = [each for each in rows if _is_asked(each[0], command)]
    if not job.readings and not lines_of(job) and not job.proof.gaps:
        names = ", ".join(spec.name for spec, _ in asked)
        return Reply(f"Held to {names}; nothing is read yet.", details=tuple(sources), data=data)
    heads = [f"{spec.name}: {_headline(spec, found)}" for spec, found in asked]
    if len(heads) > 1:
        heads = [head.replace(_UNTOLD, _WORDS[None]) for head in heads]
    tells = dict.fromkeys(f"To tell {each.test}: {each.tells}." for each in every if each.tells)
    notes = dict.fromkeys(note for each in every for note in each.notes)
    return Reply(
        f"{'. '.join(heads)}.",
        tuple(heads),
        (*tells, *notes, *mended_words(job), *sources, _ABOUT),
        (_table(every, moment.unit, many=len(held) > 1),),
        data=data,
    )


def _is_asked(spec: Spec, command: AskVerdicts | ChooseSpec | SetOwnSpec) -> bool:
    """Whether the command is about this one of what the floor is held to."""
    if isinstance(command, AskVerdicts):
        return True
    return (spec.use == OWN) == isinstance(command, SetOwnSpec)


def _headline(spec: Spec, found: tuple[LimitCheck, ...]) -> str:
    met = overall_verdict(found)
    if met is None:
        told = [each.test for each in found if each.met]
        return f"{_IN_FULL}; met, {wording.join_names(told)} alone" if told else _UNTOLD
    if not spec.ways or met:
        return _WORDS[met]
    return f"{_WORDS[met]}, {next(each.test for each in found if each.met is met)}"


def _table(every: list[LimitCheck], unit: str, *, many: bool) -> Table:
    rows = tuple(
        (
            f"{each.spec}, {each.test}" if many else each.test,
            *_against(each, unit),
            _good_to(each, unit),
            _WORDS[each.met],
            each.where or "-",
        )
        for each in every
    )
    return Table("", ("Test", "Found", "Limit", "Good to", "Verdict", "Where"), rows)


def _against(found: LimitCheck, unit: str) -> tuple[str, str]:
    """The value and its limit, with enough digits that they look different where they differ."""
    if not found.unit:
        return "-" if found.value is None else whole_f(found.value), whole_f(found.limit)
    if found.value is None:
        return "-", wording.length(found.limit, unit) if found.limit else "-"
    # To a hundredth first: what a float differs by is nothing that was read.
    value, limit = side_by_side.lengths(unit, round(found.value, 2), round(found.limit, 4))
    return value, limit


def _good_to(found: LimitCheck, unit: str) -> str:
    """Two deviations of what was found; for an F-number the bounds that readings leave."""
    if found.sd is None or found.value is None:
        return "-"
    return wording.error_size(2 * found.sd, unit)


def _row_data(found: LimitCheck) -> dict[str, Any]:
    value = found.value
    return {
        "id": found.id,
        "met": found.met,
        "value": None if value is None or value == float("inf") else value,
        "limit": found.limit,
        "unit": found.unit,
        "sd": found.sd,
        "where": found.where,
        "source": found.source,
        "tells": found.tells,
    }


def specs_dropped(_moment: Moment, _command: DropSpecs) -> Reply:
    return Reply("Held to nothing any more.", "Held to nothing any more.", data={"held_to": []})


def specs_listed(moment: Moment, _command: ListSpecs) -> Reply:
    held = {spec.name for spec in held_to(moment.job)}
    rows = tuple(
        (
            f"{spec.name} (chosen)" if spec.name in held else spec.name,
            spec.use,
            _limits(spec, moment.unit),
        )
        for spec in specs()
    )
    own = "spec 1/8 in under 10 ft" if moment.unit == "in" else "spec 3 mm under 2 m"
    return Reply(
        f"{wording.counted(len(rows), 'spec')} by name, or in your own words: {own}.",
        f"{wording.spoken_count(len(rows), 'spec')} by name.",
        (
            f"Asked for, and not held to here: "
            f"{wording.join_names([each.name for each in apart_specs()])}; spec with the name says "
            "why.",
        ),
        tables=(Table("", ("Name", "For", "Limits"), rows),),
        data={"specs": [{"name": s.name, "use": s.use, "source": s.told_source} for s in specs()]},
    )


def _limits(spec: Spec, unit: str) -> str:
    return ", ".join(told for limit in spec.limits if (told := _limit(limit, unit)))


def _limit(limit: SpecLimit, unit: str) -> str:
    if limit.columns is not None:
        # Once: levels by neighbours have the same.
        ends = [(1, limit.columns.at(1)), (4, limit.columns.at(4))] * (limit.test == "own distance")
        return ", ".join(
            f"{wording.length(mm, unit)} at {wording.distance(metres, unit)}" for metres, mm in ends
        )
    assert limit.limit is not None
    if limit.length_m is not None:
        edge = wording.distance(float(limit.length_m), unit)
        return f"{wording.length(limit.limit, unit)} under {edge}"
    if limit.test == "from finish":
        return f"{wording.length(limit.limit, unit)} off the finish"
    if limit.test.endswith(" local"):
        return f"{limit.test[:2].upper()} {limit.limit} of any part"
    return f"{limit.test.upper()} {limit.limit}"


ANSWERS: dict[type[Command], Answerer] = {
    ChooseSpec: verdicts_told,
    SetOwnSpec: verdicts_told,
    AskVerdicts: verdicts_told,
    DropSpecs: specs_dropped,
    ListSpecs: specs_listed,
}
