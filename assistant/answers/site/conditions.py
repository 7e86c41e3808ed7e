"""Answers about the site: its readings, the dew point, and drying."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from typing import Any

from assistant.answers.parts import Answerer, Moment
from assistant.errors import Refusal, SurveyError
from assistant.job import Job
from assistant.job.site import (
    AIR,
    CLIMATE,
    EMISSION,
    HUMIDITY,
    KINDS,
    PH,
    SLAB,
    SLAB_HUMIDITY,
    SiteReading,
)
from assistant.limits.cautions import CAUTIONS
from assistant.limits.site_limits import DEW_MARGIN, PROBE_DEPTH_SOURCE
from assistant.reply import wording
from assistant.reply.examples import AIR_AND_HUMIDITY
from assistant.reply.replies import LimitWarning, Reply, Table
from assistant.reply.times import shown_time
from assistant.site.climate import DewPoint, dew_point_of
from assistant.site.drying import drying_estimate
from assistant.site.moisture import emission_g_per_m2, probe_depth_mm
from assistant.site.reason import Reason
from assistant.site.rules import site_reasons
from assistant.site.slab import moisture_tests, takes_tests
from assistant.units.lengths import exact_mm
from assistant.units.temperature import celsius
from grammar.commands import Command
from grammar.commands.site import (
    AcceptReason,
    AskDewPoint,
    AskDrying,
    AskSite,
    DescribeFloor,
    TakeAirTemperature,
    TakeEmission,
    TakeHumidity,
    TakePh,
    TakeSlabHumidity,
    TakeSlabTemperature,
    Temperature,
)
from grammar.numbers import spelled_digits

# --- what was recorded ---------------------------------------------------------------------


def floor_told(moment: Moment, command: DescribeFloor) -> Reply:
    substrate = command.substrate
    told = _ABOUT_FLOOR.get(substrate)
    cautions = (CAUTIONS["old-adhesive"],) if substrate == "old adhesive" else ()
    return Reply(
        f"The floor is {substrate}.",
        details=(told,) if told else (),
        warnings=_warnings(moment.job, moment, "old-adhesive"),
        cautions=cautions,
        data={"site": {"substrate": substrate}},
    )


_ABOUT_FLOOR = {
    "timber": "Stiffness, fixings and moisture of timber are for its data sheets and licensed "
    "people; the weight of a pour too.",
    "tile": "Whether tiles hold, and what primer they want, is for the product's data sheet.",
    "levelling compound": "No emission test on it; moisture is read with a probe in the slab.",
}


def reading_told(moment: Moment, _command: Command) -> Reply:
    """A reading of the site, read back, with the limit it is past."""
    reading = moment.job.site.readings[-1]
    where = f" at {reading.point}" if reading.point else ""
    said_at = f" at {wording.spoken_name(reading.point)}" if reading.point else ""
    warnings = _warnings(_blamed(moment.job), moment, *_PAST[reading.kind])
    spoken = f"{_capital(reading.kind)}{said_at} {_spoken_value(reading)}."
    if warnings:
        spoken += f" {_SHORT[warnings[0].id]}."
    return Reply(
        f"{_capital(reading.kind)}{where} {_shown_value(reading)}.",
        spoken,
        tuple(_beside(moment.job, reading)),
        warnings=warnings,
        data={"site": _as_data(reading)},
    )


def accepted_told(_moment: Moment, command: AcceptReason) -> Reply:
    """Reads back a reason that was accepted, as the speaker's own words."""
    return Reply(
        f"On record for the {command.matter}, in your words: “{command.words}”.",
        f"On record, the {command.matter}, in your words.",
        ("It counts until what stood against the pour reads otherwise.",
         "Who answers for the site decides; this program has judged nothing."),
        data={"accepted": {"matter": command.matter, "words": command.words}},
    )  # fmt: skip


_PAST = {
    AIR: ("air-cold", "air-warm", "dew-point"),
    SLAB: ("slab-cold", "slab-warm", "dew-point"),
    HUMIDITY: ("dew-point",),
    SLAB_HUMIDITY: ("slab-humidity",),
    EMISSION: ("emission",),
    PH: ("ph",),
}
_SHORT = {
    "air-cold": "Too cold for the product",
    "air-warm": "Too warm for the product",
    "slab-cold": "Too cold for the product",
    "slab-warm": "Too warm for the product",
    "dew-point": "Too near the dew point",
    "slab-humidity": "Over the usual limit, ask the data sheet",
    "emission": "Over the usual limit, ask the data sheet",
    "ph": "Outside the usual range, ask the data sheet",
}


def _blamed(job: Job) -> Job:
    """The job with only the latest slab test, so that earlier tests are not held against it."""
    last = job.site.readings[-1]
    if last.kind in CLIMATE:
        return job
    return replace(job, site=replace(job.site, readings=(last,)))


def _warnings(job: Job, moment: Moment, *ids: str) -> tuple[LimitWarning, ...]:
    """Reasons against the pour, as warnings beside what was just read."""
    reasons = site_reasons(job, moment.world.now)
    return tuple(_as_warning(reason) for reason in reasons if reason.id in ids)


def _as_warning(reason: Reason) -> LimitWarning:
    message = f"{reason.message} To clear it: {reason.clears_by}."
    return LimitWarning(reason.id, "caution", message, source=reason.source)


def _beside(job: Job, reading: SiteReading) -> list[str]:
    """What a reading shows together with those before it."""
    if reading.kind in (SLAB_HUMIDITY, EMISSION):
        tests = moisture_tests(job)
        lines = [f"{tests.most} of {wording.counted(tests.wanted, 'moisture test')}."]
        if reading.point is None:
            lines.append("It names no place and counts as a test of its own; better: … at B3.")
        return lines
    dew_point = dew_point_of(job.site)
    if reading.kind in (AIR, SLAB, HUMIDITY) and dew_point is not None:
        return [_margin_words(dew_point)]
    return []


# --- values to read, to say and for programs ---------------------------------------------------

_UNITS = {HUMIDITY: " %", SLAB_HUMIDITY: " %", PH: ""}
_SPOKEN_UNITS = {
    HUMIDITY: " percent",
    SLAB_HUMIDITY: " percent",
    EMISSION: " pounds a thousand square feet",
    PH: "",
}
_DATA_UNITS = {
    AIR: "C",
    SLAB: "C",
    HUMIDITY: "percent",
    SLAB_HUMIDITY: "percent",
    EMISSION: "lb/1000ft2/24h",
    PH: "pH",
}


def _shown_value(reading: SiteReading) -> str:
    said = reading.said
    if isinstance(said, Temperature):
        return shown_temperature(said)
    if reading.kind == EMISSION:
        grams = wording.figure(float(emission_g_per_m2(reading.value)), 1)
        return f"{_plain(said)} lb/1000 ft² in 24 h ({grams} g/m²)"
    return f"{_plain(said)}{_UNITS[reading.kind]}"


def shown_temperature(said: Temperature) -> str:
    """
    A temperature as it was said, Fahrenheit with its Celsius.

    >>> shown_temperature(Temperature(Decimal(70), "F"))
    '70 °F (21.1 °C)'
    """
    if said.scale != "F":
        return f"{_plain(said.number)} °C"
    return f"{_plain(said.number)} °F ({wording.figure(float(celsius(said)), 1)} °C)"


def _spoken_value(reading: SiteReading) -> str:
    said = reading.said
    if isinstance(said, Temperature):
        scale = "Fahrenheit" if said.scale == "F" else "Celsius"
        return f"{_spoken_signed(said.number)} degrees {scale}"
    return f"{spelled_digits(said)}{_SPOKEN_UNITS[reading.kind]}"


def _spoken_signed(number: Decimal) -> str:
    return f"{'minus ' if number < 0 else ''}{spelled_digits(abs(number))}"


def _spoken_tenths(number: float) -> str:
    return _spoken_signed(Decimal(wording.figure(number, 1)))


def _plain(number: Decimal) -> str:
    return wording.figure(number, 2)


def _capital(kind: str) -> str:
    return kind if kind == PH else kind.capitalize()


def _as_data(reading: SiteReading) -> dict[str, Any]:
    return {
        "kind": reading.kind,
        "value": float(reading.value),
        "unit": _DATA_UNITS[reading.kind],
        "point": reading.point,
    }


# --- the site at present ------------------------------------------------------------------


def site_told(moment: Moment, _command: AskSite) -> Reply:
    job, world = moment.job, moment.world
    site = job.site
    readings = [reading for kind in KINDS for reading in site.readings_of(kind)]
    floor = f"The floor is {site.substrate}." if site.substrate else "The floor is not described."
    counted = wording.counted(len(readings), "reading")
    rows = tuple(
        (
            _capital(each.kind),
            each.point or "",
            _shown_value(each),
            shown_time(each.time, world.now, world.zone),
        )
        for each in readings
    )
    return Reply(
        f"{floor} {counted} of the site." if readings else f"{floor} No readings of the site yet.",
        f"{floor} {wording.spoken_count(len(readings), 'reading')}.",
        tuple(_site_details(job)),
        (Table("The site", ("What", "Where", "Value", "When"), rows),) if rows else (),
        data={
            "site": {
                "substrate": site.substrate,
                "readings": [
                    {**_as_data(each), "time": each.time.isoformat()} for each in readings
                ],
            }
        },
    )


def _site_details(job: Job) -> list[str]:
    lines = []
    dew_point = dew_point_of(job.site)
    if dew_point is not None:
        lines.append(_margin_words(dew_point))
    if takes_tests(job):
        tests = moisture_tests(job)
        lines.append(f"{tests.most} of {wording.counted(tests.wanted, 'moisture test')}.")
    return lines


def _margin_words(dew_point: DewPoint) -> str:
    told = f"Dew point {wording.figure(dew_point.dew_point_c, 1)} °C"
    margin = dew_point.margin_c
    if margin is None:
        return f"{told}; the slab is not read yet."
    side = "above" if margin >= 0 else "below"
    return f"{told}, the slab {wording.figure(abs(margin), 1)} °C {side} it."


def dew_point_told(moment: Moment, _command: AskDewPoint) -> Reply:
    job = moment.job
    dew_point = dew_point_of(job.site)
    if dew_point is None:
        raise Refusal(
            "The dew point takes the air and its humidity: ",
            AIR_AND_HUMIDITY,
            ".",
            spoken="The dew point takes the air and its humidity.",
        )
    margin = dew_point.margin_c
    spoken = f"Dew point {_spoken_tenths(dew_point.dew_point_c)} degrees Celsius."
    if margin is not None:
        side = "above" if margin >= 0 else "below"
        spoken += f" The slab is {_spoken_tenths(abs(margin))} {side} it."
    least = wording.figure(dew_point.least_slab_c, 1)
    wanted = wording.figure(float(DEW_MARGIN.value), 1)
    return Reply(
        _margin_words(dew_point),
        spoken,
        (f"Slab at {least} °C at the least: {wanted} °C above ({DEW_MARGIN.source}).",
         "Formula: WMO Guide No. 8."),
        warnings=_warnings(job, moment, "dew-point"),
        data={"dew_point_c": dew_point.dew_point_c, "margin_c": margin},
    )  # fmt: skip


def drying_told(_moment: Moment, command: AskDrying) -> Reply:
    thickness = exact_mm(command.thickness)
    try:
        estimate = drying_estimate(thickness)
    except SurveyError as fault:
        raise Refusal(str(fault), spoken="No estimate for that thickness.") from fault
    least, most = _days(estimate.least_days), _days(estimate.most_days)
    range_ = least if estimate.agree else f"{least} to {most}"
    spoken = wording.spoken_number(int(least))
    if not estimate.agree:
        spoken += f" to {wording.spoken_number(int(most))}"
    return Reply(
        f"{wording.as_said(command.thickness)}: about {range_} days, an estimate and never a "
        "release.",
        f"About {spoken} days, an estimate, never a release.",
        (
            *(f"{_days(days)} days by {rule.source}." for rule, days in estimate.each),
            _probe_words(thickness, command.thickness.unit or "mm"),
            "At about 20 °C and at most 65 % humidity. Floors are known that were wet long after: "
            "only a moisture test says what is in it, and the covering's data sheet decides.",
        ),
        data={
            "drying_days": {"least": float(estimate.least_days), "most": float(estimate.most_days)}
        },
    )


def _probe_words(slab_mm: Fraction, unit: str) -> str:
    """Where the test is made that says more than the estimate."""
    deep, both = (
        wording.length(probe_depth_mm(slab_mm, dries_from_both_sides=both), unit)
        for both in (False, True)
    )
    where = f"sits {deep} deep, {both} where it dries both ways"
    return f"A humidity probe in it {where} ({PROBE_DEPTH_SOURCE})."


def _days(days: Fraction) -> str:
    return str(-int(-days // 1))


ANSWERS: dict[type[Command], Answerer] = {
    AcceptReason: accepted_told,
    DescribeFloor: floor_told,
    TakeAirTemperature: reading_told,
    TakeSlabTemperature: reading_told,
    TakeHumidity: reading_told,
    TakeSlabHumidity: reading_told,
    TakeEmission: reading_told,
    TakePh: reading_told,
    AskSite: site_told,
    AskDewPoint: dew_point_told,
    AskDrying: drying_told,
}
