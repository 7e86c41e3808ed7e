"""Phrases: air, slab and moisture, clocks that run, and whether anything stands against pouring."""

from __future__ import annotations

from grammar.commands.site import (
    AcceptReason,
    AskClocks,
    AskDewPoint,
    AskDrying,
    AskReadyToPour,
    AskSite,
    AskWarmLeg,
    AskWhetherDry,
    DescribeFloor,
    StartClock,
    TakeAirTemperature,
    TakeEmission,
    TakeHumidity,
    TakePh,
    TakeSlabHumidity,
    TakeSlabTemperature,
)
from grammar.phrase import Phrase

_SITE = "the site"
_CLOCKS = "clocks"

PHRASES: tuple[Phrase, ...] = (
    Phrase(
        "floor is <substrate>",
        DescribeFloor,
        "what is to be poured on",
        ("floor is concrete", "floor is old adhesive", "floor is timber"),
        _SITE,
        ways=(
            "(it's | it is | we have | (pouring | going) (on | over)) [a] <substrate> "
            "[floor | slab]",
            "<substrate> (floor | slab)",
            "floor (is | is a) <substrate> (slab | floor)",
            "(substrate | base) is <substrate>",
        ),
    ),
    Phrase(
        "air <temperature> [at [point] <point>]",
        TakeAirTemperature,
        "air in the room; Celsius, or Fahrenheit where said",
        ("air 21 degrees", "air 70 degrees Fahrenheit", "air 21 C at B3"),
        _SITE,
        ways=(
            "(room | air) (temperature | temp | is | temp is | temperature is) <temperature>",
            "it's <temperature> (in here | in room | inside)",
            "air (is | at) <temperature>",
        ),
    ),
    Phrase(
        "slab <temperature> [at [point] <point>]",
        TakeSlabTemperature,
        "the slab's surface",
        ("slab 17 degrees", "slab 63 F"),
        _SITE,
        ways=(
            "(slab | floor) (temperature | temp | is | temp is | temperature is) "
            "<temperature> [at [point] <point>]",
            "floor <temperature> [at [point] <point>]",
        ),
    ),
    Phrase(
        "humidity <percent> [at [point] <point>]",
        TakeHumidity,
        "relative humidity of the air",
        ("humidity 55 percent",),
        _SITE,
        ways=(
            "(air | room | relative) humidity [is | at] <percent>",
            "humidity (is | of) <percent>",
        ),
    ),
    Phrase(
        "slab humidity <percent> [at [point] <point>]",
        TakeSlabHumidity,
        "relative humidity in the slab, from a probe",
        ("slab humidity 78 percent", "slab humidity 78 percent at B3"),
        _SITE,
        ways=(
            "slab rh [is] <percent> [at [point] <point>]",
            "(probe | slab humidity | humidity in slab) (is | reads | of) <percent> [at "
            "[point] <point>]",
            "moisture at [point] <point> [is] <percent>",
        ),
    ),
    Phrase(
        "moisture emission <rate:number> [at [point] <point>]",
        TakeEmission,
        "pounds a thousand square feet in 24 hours",
        ("moisture emission 4", "moisture emission 2.5 at C2"),
        _SITE,
        ways=(
            "(emission | calcium chloride) [test | rate | is] <rate:number> [at [point] <point>]",
        ),
    ),
    Phrase(
        "ph <value:number> [at [point] <point>]",
        TakePh,
        "alkalinity of the surface",
        ("pH 9",),
        _SITE,
    ),
    Phrase(
        "site",
        AskSite,
        "what was read of air, slab and moisture",
        ("site",),
        _SITE,
        ways=(
            "(what about | how is | show) (climate | site)",
            "(site | climate) readings",
            "(what is | what's | how is | how's) (climate | humidity | temperature | temp "
            "| moisture)",
            "is it too (cold | hot | warm | damp | humid)",
            "(climate | temperature | humidity | moisture)",
        ),
    ),
    Phrase(
        "dew point",
        AskDewPoint,
        "and how far the slab is above it",
        ("dew point",),
        _SITE,
        ways=("(what is | what's) dew point",),
    ),
    Phrase(
        "drying time <thickness:length>",
        AskDrying,
        "an estimate, never a release",
        ("drying time 60 millimetres",),
        _SITE,
    ),
    Phrase(
        "leg rising <run:length> at <leg:temperature> [and] rest at <rest:temperature>",
        AskWarmLeg,
        "what a hose leg warmer than the rest does to a reading",
        ("leg rising 0.5 metres at 25 degrees and rest at 20 degrees",),
        _SITE,
        speakable=False,
    ),
    Phrase(
        "is slab dry",
        AskWhetherDry,
        "no tool can say so: what decides it, and which tests are on record",
        ("is the slab dry",),
        _SITE,
        speakable=False,
        ways=(
            "is (it | floor | concrete | screed) [slab] dry [enough | yet | enough yet | now]",
            "is slab dry (enough | yet | enough yet | now)",
            "(has | is) (it | slab | floor | concrete | screed) (dried | cured | dried out) "
            "[enough | yet]",
        ),
        about="damp moisture",
    ),
    Phrase(
        "ready to pour",
        AskReadyToPour,
        "go or not yet, each reason, and what would clear it",
        ("ready to pour",),
        _SITE,
        ways=(
            "(are we | am (i | we) | is it | can (i | we)) (ready | ready to pour | good "
            "to pour | good to go | pour | start pouring) [today | yet | now]",
            "is it (safe | all right) to pour [today | yet]",
            "(what's | what is) stopping (me | us | pour)",
            "ready [yet]",
        ),
    ),
    Phrase(
        "accept weight because <words:sentence>",
        AcceptReason,
        "who has seen the weight and what they said, in your words, on record",
        ("accept weight because the engineer has seen it",),
        _SITE,
        speakable=False,
        fixed=(("matter", "weight"),),
    ),
    Phrase(
        "accept jambs because <words:sentence>",
        AcceptReason,
        "the same of jambs out of level",
        ("accept jambs because the joiner trims the frame",),
        _SITE,
        speakable=False,
        fixed=(("matter", "jambs"),),
    ),
    Phrase(
        "accept range because <words:sentence>",
        AcceptReason,
        "the same of readings past the instrument's range",
        ("accept range because they were read twice with the staff",),
        _SITE,
        speakable=False,
        fixed=(("matter", "range"),),
    ),
    Phrase(
        "accept zero because <words:sentence>",
        AcceptReason,
        "the same of a set-up whose zero was not checked",
        ("accept zero because the surveyor stood beside it",),
        _SITE,
        speakable=False,
        fixed=(("matter", "zero"),),
    ),
    Phrase(
        "accept readings because <words:sentence>",
        AcceptReason,
        "the same of points read long ago",
        ("accept readings because the room was locked since",),
        _SITE,
        speakable=False,
        fixed=(("matter", "readings"),),
    ),
    Phrase(
        "accept moisture because <words:sentence>",
        AcceptReason,
        "the same of the moisture of a floor that is not bare concrete",
        ("accept moisture because the joists were metered by the floor layer",),
        _SITE,
        speakable=False,
        fixed=(("matter", "moisture"),),
    ),
    Phrase(
        "accept adhesive because <words:sentence>",
        AcceptReason,
        "the same of old adhesive, once it was tested or removed",
        ("accept adhesive because the laboratory found no asbestos",),
        _SITE,
        speakable=False,
        fixed=(("matter", "adhesive"),),
    ),
    Phrase(
        "hose on [floor]",
        StartClock,
        "the hose lies on the floor and settles",
        ("hose on floor",),
        _CLOCKS,
        spoken="hose on floor",
        fixed=(("clock", "hose"),),
        ways=("hose (is on | is on floor | down | is down | laid out | is laid out)",),
    ),
    Phrase(
        "primer on [floor]",
        StartClock,
        "the primer begins to dry",
        ("primer on floor",),
        _CLOCKS,
        spoken="primer on floor",
        fixed=(("clock", "primer"),),
        ways=(
            "(primed | primer done | primer's on | primer is on | primer is down | primer "
            "down | floor primed | floor is primed | priming done | put primer on)",
            "(first | second) coat [of primer] [is] on",
        ),
    ),
    Phrase(
        "water in",
        StartClock,
        "a mix begins: its working time runs",
        ("water in",),
        _CLOCKS,
        fixed=(("clock", "mix"),),
        ways=(
            "(mixing | started mixing | start mixing | mix started | mixing now | mixing "
            "started | mix on)",
            "(first | next | new) mix [in | on]",
        ),
    ),
    Phrase(
        "pour finished",
        StartClock,
        "until it takes foot traffic; readings are the finished floor's from then on",
        ("pour finished",),
        _CLOCKS,
        fixed=(("clock", "pour"),),
        ways=(
            "(pour is finished | pour is done | pour done | pouring done | pouring "
            "finished | finished pouring | done pouring | poured | all poured | it's "
            "poured | floor is poured | pour complete | pour is complete)",
        ),
    ),
    Phrase(
        "clocks",
        AskClocks,
        "what is running, and how long still",
        ("clocks",),
        _CLOCKS,
        ways=(
            "(what is | what's) running",
            "(list | show) (clocks | timers)",
            "timers",
        ),
    ),
)
