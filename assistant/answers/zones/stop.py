"""The answer about a pour that stops at a column or row."""

from __future__ import annotations

from assistant.answers.parts import Answerer, Moment
from assistant.errors import Refusal
from assistant.floor.pour.stop_at import Half, halves_at
from assistant.reply import wording
from assistant.reply.replies import Reply
from grammar.commands import Command
from grammar.commands.zones import StopAt


def stop_told(moment: Moment, command: StopAt) -> Reply:
    job, unit = moment.job, moment.unit
    if command.column is None and command.row is None:
        raise Refusal(
            "Where does it stop? At a column or a row: what if stop at column C. Or give that part "
            "a name: zone kitchen A1 to C3.",
            spoken="Where? Say a column or a row.",
        )
    line = f"column {command.column}" if command.column else f"row {command.row}"
    found = halves_at(job, command.column, command.row)
    first, rest = found.first, found.rest
    if min(first.area_m2, rest.area_m2) <= 0:
        raise Refusal(
            f"{wording.sentence(line).rstrip('.')} lies along a wall: nothing is left on one side.",
            spoken="That lies along a wall.",
        )
    ends = [f"{wording.length(end, unit)}" for end in found.edge_depth_mm]
    deep = ends[0] if ends[0] == ends[1] else f"{ends[0]} to {ends[1]}"
    details = [
        f"The dam runs along {line}, {wording.distance(found.edge_m, unit)}, {deep} deep.",
        f"Left for later: {_takes(rest, unit)}, {wording.area(rest.area_m2, unit)}.",
        "By the readings, waste included in the bags. Nothing is recorded.",
    ]
    if first.bags is not None and rest.bags is not None and found.bags is not None:
        more = first.bags + rest.bags - found.bags
        if more > 0:
            details.append(f"In two pours {wording.counted(more, 'bag')} more: each rounds up.")
    if found.edge_m <= 0:
        details[0] = "No dam is needed there."
    return Reply(
        f"Up to {line}: {_takes(first, unit)}, {wording.area(first.area_m2, unit)}.",
        (
            f"{wording.spoken_count(first.bags, 'bag')}"
            if first.bags is not None
            else wording.spoken_volume(first.volume_m3, unit),
            f"dam {wording.spoken_distance(found.edge_m, unit)}",
        ),
        tuple(details),
        data={"stop": found.as_data(line)},
    )


def _takes(half: Half, unit: str) -> str:
    told = wording.liquid(unit, half.volume_m3 * 1000)
    return told if half.bags is None else f"{told}, {wording.counted(half.bags, 'bag')}"


ANSWERS: dict[type[Command], Answerer] = {StopAt: stop_told}
