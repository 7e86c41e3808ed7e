"""A thing by its number: dropped, plugged or repaired."""

from __future__ import annotations

from assistant.decide.parts import Decider, Decision, World
from assistant.decide.room import layout_after
from assistant.decide.things.lines import with_known_things
from assistant.decide.things.obstacles import check_not_poured, said_thing, thing_name
from assistant.errors import Refusal
from assistant.events.things import (
    CrackRepaired,
    OpeningPlugged,
    ThingDropped,
)
from assistant.job import Job
from assistant.job.things import OFF_THE_AREA
from assistant.reply import wording
from grammar.commands import Change
from grammar.commands.things import (
    DropThing,
    PlugOpening,
    RepairCrack,
)


def _check_there(job: Job, kind: str, number: int) -> None:
    numbers = job.layout.things.numbers(kind)
    if number in numbers:
        return
    if not numbers:
        raise Refusal(f"There is no {kind} on record.", spoken=f"There is no {kind} on record.")
    there = wording.join_names([thing_name(kind, each) for each in sorted(numbers)])
    raise Refusal(
        f"There is no {thing_name(kind, number)}; there {'is' if len(numbers) == 1 else 'are'} "
        f"{there}. obstacles lists all.",
        spoken=f"There is no {said_thing(kind, number)}.",
    )


def drop_thing(job: Job, command: DropThing, _world: World) -> Decision:
    _check_there(job, command.kind, command.number)
    if command.kind in (*OFF_THE_AREA, "drain"):
        check_not_poured(job)
    dropped = ThingDropped(command.kind, command.number)
    layout_after(job, dropped)
    return Decision((dropped,))


def plug_opening(job: Job, command: PlugOpening, _world: World) -> Decision:
    number = _known_number(job, command)
    _check_there(job, "opening", number)
    return Decision((OpeningPlugged(number),))


def repair_crack(job: Job, command: RepairCrack, _world: World) -> Decision:
    number = _known_number(job, command)
    _check_there(job, "crack", number)
    return Decision((CrackRepaired(number),))


def _known_number(job: Job, command: PlugOpening | RepairCrack) -> int:
    known = with_known_things(job, command)
    assert isinstance(known, PlugOpening | RepairCrack)
    assert known.number is not None  # it is filled in, or refused
    return known.number


DECIDERS: dict[type[Change], Decider] = {
    DropThing: drop_thing,
    PlugOpening: plug_opening,
    RepairCrack: repair_crack,
}
