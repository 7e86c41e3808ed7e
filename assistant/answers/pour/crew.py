"""Answers about who mixes and pours, and where it begins and ends."""

from __future__ import annotations

from assistant.answers.parts import Answerer, Moment
from assistant.events.pour import MixersSet
from assistant.floor.pour.placing import MOST_IN_A_BARREL, mixers_running, placing_lacks, placing_of
from assistant.floor.pour.way import way_out_of
from assistant.job import Job
from assistant.reply import wording
from assistant.reply.replies import Reply
from grammar.commands import Command
from grammar.commands.pour import (
    PlaceDam,
    SetBatch,
    SetBatchTime,
    SetCrew,
    SetMixers,
    SetPourStart,
    SetPump,
    SetStripWidth,
    SetWayOut,
    TakeUpDams,
)


def crew_told(moment: Moment, command: SetCrew) -> Reply:
    people = command.people
    alone = people == 1
    return Reply(
        f"A crew of {people}." if not alone else "One person, who mixes and pours.",
        f"A crew of {wording.spoken_number(people)}." if not alone else "One person, alone.",
        (*idle_mixers(moment.job), *_pace_words(moment.job)),
        data=_data(moment.job),
    )


def mixers_told(moment: Moment, command: SetMixers) -> Reply:
    return Reply(
        f"{wording.counted(command.mixers, 'mixer')}.",
        f"{wording.spoken_count(command.mixers, 'mixer')}.",
        (*idle_mixers(moment.job), *_pace_words(moment.job)),
        data=_data(moment.job),
    )


def batch_told(moment: Moment, command: SetBatch) -> Reply:
    many = command.bags > MOST_IN_A_BARREL
    note = f"At most {MOST_IN_A_BARREL} bags go in one barrel (one independent trade article)."
    return Reply(
        f"Batches of {wording.counted(command.bags, 'bag')}.",
        f"Batches of {wording.spoken_count(command.bags, 'bag')}.",
        (*((note,) if many else ()), *_pace_words(moment.job)),
        data=_data(moment.job),
    )


def batch_time_told(moment: Moment, command: SetBatchTime) -> Reply:
    minutes = wording.figure(command.minutes, 2)
    one = command.minutes == 1
    return Reply(
        f"A batch takes {minutes} {'minute' if one else 'minutes'}.",
        f"{minutes} {'minute' if one else 'minutes'} a batch.",
        _pace_words(moment.job),
        data=_data(moment.job),
    )


def pump_told(moment: Moment, command: SetPump) -> Reply:
    return Reply(
        f"A pump that places {wording.counted(command.bags, 'bag')} an hour.",
        f"Pump, {wording.spoken_count(command.bags, 'bag')} an hour.",
        ("It counts until mixers, batches or their minutes are told.",),
        data=_data(moment.job),
    )


def way_out_told(moment: Moment, command: SetWayOut) -> Reply:
    placed = way_out_of(moment.job) is not None
    where = f"Where it stands is not told: door {command.door} at B1."
    return Reply(
        f"The way out is door {command.door}.",
        f"Way out, door {wording.spoken_number(command.door)}.",
        () if placed else (where,),
        data={"pour_way": {"way_out": command.door, "placed": placed}},
    )


def start_told(_moment: Moment, command: SetPourStart) -> Reply:
    if command.wall is not None:
        where = said = f"the {command.wall} wall"
    elif command.column is not None:
        where = f"column {command.column}"
        said = f"column {wording.spoken_name(command.column)}"
    else:
        where = f"row {command.row}"
        said = f"row {wording.spoken_number(command.row or 0)}"
    return Reply(
        f"The pour starts at {where}.", f"Start at {said}.", data={"pour_way": {"start": where}}
    )


def strip_width_told(_moment: Moment, command: SetStripWidth) -> Reply:
    return Reply(
        f"Strips at most {wording.as_said(command.width)} wide.",
        f"Strips {wording.spoken_said(command.width)} at most.",
    )


def dam_told(moment: Moment, command: PlaceDam) -> Reply:
    if command.distance is not None:
        where = f"{wording.as_said(command.distance)} from the start"
        said = f"at {wording.spoken_said(command.distance)}"
    elif command.column is not None:
        where = f"along column {command.column}"
        said = f"at column {wording.spoken_name(command.column)}"
    else:
        where = f"along row {command.row}"
        said = f"at row {wording.spoken_number(command.row or 0)}"
    dams = len(moment.job.pour.dams)
    return Reply(
        f"Dam {where}.",
        f"Dam {said}.",
        (f"{wording.counted(dams, 'dam')} told. What is poured on both sides of one is poured "
         "apart; movement joints of the floor below are carried through.",),
    )  # fmt: skip


def dams_taken_up_told(_moment: Moment, _command: TakeUpDams) -> Reply:
    return Reply("No dams.")


def idle_mixers(job: Job) -> tuple[str, ...]:
    """Mixers that nobody runs, as one of the crew spreads."""
    mixers, running = job.setting(MixersSet), mixers_running(job)
    if mixers is None or running == mixers.mixers:
        return ()
    run = "mixer runs" if running == 1 else "mixers run"
    return (
        f"{running} of {mixers.mixers} {run}, as somebody has to spread: crew {mixers.mixers + 1} "
        f"would run {'both' if mixers.mixers == 2 else 'all'}.",
    )


def _pace_words(job: Job) -> tuple[str, ...]:
    """How many bags an hour that is, or what is still to be said."""
    placing = placing_of(job)
    if placing is None:
        return (f"For a plan: {', '.join(placing_lacks(job))}.",)
    an_hour = wording.figure(placing.bags_per_min * 60, 1)
    between = wording.figure(placing.batch_min, 1)
    return (f"{an_hour} bags an hour, a batch every {between} minutes.",)


def _data(job: Job) -> dict[str, object]:
    placing = placing_of(job)
    return {
        "placing": None
        if placing is None
        else {
            "bags_per_hour": placing.bags_per_min * 60,
            "batch_bags": placing.batch_bags,
            "mixers": placing.mixers,
            "batch_min": placing.batch_min,
        }
    }


ANSWERS: dict[type[Command], Answerer] = {
    SetCrew: crew_told,
    SetMixers: mixers_told,
    SetBatch: batch_told,
    SetBatchTime: batch_time_told,
    SetPump: pump_told,
    SetWayOut: way_out_told,
    SetPourStart: start_told,
    SetStripWidth: strip_width_told,
    PlaceDam: dam_told,
    TakeUpDams: dams_taken_up_told,
}
