"""Readings of air, slab and moisture, reasons accepted, and clocks that start."""

from __future__ import annotations

from decimal import Decimal

from assistant.decide.parts import Decider, Decision, World
from assistant.decide.readings import check_point
from assistant.errors import Refusal
from assistant.events.readings import FinishedFloorBegun
from assistant.events.site import (
    AirTemperatureTaken,
    ClockEnded,
    ClockStarted,
    EmissionTaken,
    FloorDescribed,
    HumidityTaken,
    PhTaken,
    ReasonAccepted,
    SlabHumidityTaken,
    SlabTemperatureTaken,
)
from assistant.job import Job, second_survey_is_open
from assistant.job.clocks import CLOCKS, ENDED_BY_POUR
from assistant.limits.site_limits import (
    COLDEST_C,
    MOST_EMISSION,
    NOT_ON_COMPOUND_SOURCE,
    WARMEST_C,
)
from assistant.reply import wording
from assistant.reply.examples import AIR, SLAB
from assistant.site.rules import standing_in
from assistant.site.slab import why_no_emission
from assistant.units.temperature import celsius, to_fahrenheit
from grammar.commands import Change
from grammar.commands.site import (
    AcceptReason,
    DescribeFloor,
    StartClock,
    TakeAirTemperature,
    TakeEmission,
    TakeHumidity,
    TakePh,
    TakeSlabHumidity,
    TakeSlabTemperature,
    Temperature,
)
from grammar.example import Example

SUBSTRATES = ("concrete", "screed", "timber", "tile", "old adhesive", "levelling compound")


def describe_floor(_job: Job, command: DescribeFloor, _world: World) -> Decision:
    if command.substrate not in SUBSTRATES:
        raise Refusal(
            f"A floor is {wording.join_names(SUBSTRATES, most=9, last='or')}, "
            f"not {command.substrate}.",
            spoken="That is no floor I know.",
        )
    return Decision((FloorDescribed(command.substrate),))


# --- temperatures ------------------------------------------------------------------------


def take_air(job: Job, command: TakeAirTemperature, _world: World) -> Decision:
    temperature = _temperature(command.temperature, "air", AIR)
    return Decision((AirTemperatureTaken(temperature, _point(job, command.point)),))


def take_slab(job: Job, command: TakeSlabTemperature, _world: World) -> Decision:
    temperature = _temperature(command.temperature, "slab", SLAB)
    return Decision((SlabTemperatureTaken(temperature, _point(job, command.point)),))


def _temperature(said: Temperature, what: str, example: Example) -> Temperature:
    """The temperature with its scale, if a room can have it; else refused."""
    scaled = Temperature(said.number, said.scale or "C")
    if COLDEST_C <= celsius(scaled) <= WARMEST_C:
        return scaled
    low, high = (COLDEST_C, WARMEST_C)
    if scaled.scale == "F":
        low, high = (to_fahrenheit(bound) for bound in (low, high))
    meant, or_fahrenheit = Temperature(said.number, "F"), ""
    if said.scale is None and COLDEST_C <= celsius(meant) <= WARMEST_C:
        or_fahrenheit = (
            f" If it was Fahrenheit, say so: {what} {_plain(said.number)} degrees Fahrenheit."
        )
    raise Refusal(
        f"No {what} where floors are poured has {_plain(said.number)} °{scaled.scale}: "
        f"it is from {int(low)} to {int(high)}, as in ",
        example,
        f".{or_fahrenheit}",
        spoken="No site is that warm or cold."
        + (" If Fahrenheit, say so." if or_fahrenheit else ""),
    )


# --- humidity, emission, pH ----------------------------------------------------------------


def take_humidity(job: Job, command: TakeHumidity, _world: World) -> Decision:
    _check_humidity(command.percent, "humidity 55 percent", "Humidity")
    return Decision((HumidityTaken(command.percent, _point(job, command.point)),))


def take_slab_humidity(job: Job, command: TakeSlabHumidity, _world: World) -> Decision:
    _check_humidity(command.percent, "slab humidity 78 percent", "Slab humidity")
    return Decision((SlabHumidityTaken(command.percent, _point(job, command.point)),))


def _check_humidity(percent: Decimal, example: str, what: str) -> None:
    if not 0 < percent <= 100:
        raise Refusal(
            f"Relative humidity is more than 0 and at most 100 percent, "
            f"not {wording.percent(percent)}: {example}.",
            spoken=f"{what} is at most a hundred percent.",
        )


def take_emission(job: Job, command: TakeEmission, _world: World) -> Decision:
    why = why_no_emission(job)
    if why is not None:
        raise Refusal(
            f"No emission test here: {why} ({NOT_ON_COMPOUND_SOURCE}). "
            "A probe in the slab under it is read with slab humidity 78 percent.",
            spoken="No emission test here: it is for bare concrete.",
        )
    if not 0 <= command.rate <= MOST_EMISSION:
        raise Refusal(
            f"Moisture emission is from 0 to {int(MOST_EMISSION)} pounds a thousand square feet "
            f"in 24 hours, not {_plain(command.rate)}: moisture emission 4.",
            spoken="No slab gives off so much.",
        )
    return Decision((EmissionTaken(command.rate, _point(job, command.point)),))


def take_ph(job: Job, command: TakePh, _world: World) -> Decision:
    if not 0 <= command.value <= 14:
        raise Refusal(
            f"A pH is from 0 to 14, not {_plain(command.value)}: pH 9.",
            spoken="A pH is from zero to fourteen.",
        )
    return Decision((PhTaken(command.value, _point(job, command.point)),))


def _point(job: Job, point: str | None) -> str | None:
    if point is not None:
        check_point(job, point)
    return point


def _plain(number: Decimal) -> str:
    return wording.figure(number, 2)


# --- reasons that somebody accepts --------------------------------------------------------

LONGEST_WORDS = 300
"""Characters."""


def accept_reason(job: Job, command: AcceptReason, world: World) -> Decision:
    """Accepts only reasons that stand at present, so that none is accepted unseen."""
    words = " ".join(command.words.split())
    if len(words) > LONGEST_WORDS:
        raise Refusal(
            f"These words have at most {LONGEST_WORDS} characters; say it shorter.",
            spoken="That is too long. Say it shorter.",
        )
    seen = standing_in(job, world.now, command.matter)
    if not seen:
        raise Refusal(
            f"Of the {command.matter}, nothing that words can clear stands against the pour. Ready "
            "to pour tells what does, and what clears it.",
            spoken="Nothing of that can be cleared by words.",
        )
    return Decision((ReasonAccepted(command.matter, seen, words),))


# --- clocks -----------------------------------------------------------------------------


def start_clock(job: Job, command: StartClock, _world: World) -> Decision:
    if command.clock not in CLOCKS:
        clocks = f"The clocks are {wording.join_names(CLOCKS)}."
        raise Refusal(clocks, spoken="There is no such clock.")
    started = ClockStarted(command.clock)
    if command.clock != "pour":
        return Decision((started,))
    running = {each.clock for each in job.site.clocks if each.ended is None}
    ended = [ClockEnded(clock) for clock in ENDED_BY_POUR if clock in running]
    begun = [] if second_survey_is_open(job) else [FinishedFloorBegun()]
    return Decision((started, *ended, *begun))


DECIDERS: dict[type[Change], Decider] = {
    AcceptReason: accept_reason,
    DescribeFloor: describe_floor,
    TakeAirTemperature: take_air,
    TakeSlabTemperature: take_slab,
    TakeHumidity: take_humidity,
    TakeSlabHumidity: take_slab_humidity,
    TakeEmission: take_emission,
    TakePh: take_ph,
    StartClock: start_clock,
}
