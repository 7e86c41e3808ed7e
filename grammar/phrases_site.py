"""Phrases about the site, its clocks and the guide; part of the table in ``phrases.py``."""

from __future__ import annotations

from grammar import commands as c
from grammar.phrase import Phrase

_SITE = "the site"
_CLOCKS = "clocks"
_GUIDE = "the guide"

SITE_PHRASES: tuple[Phrase, ...] = (
    Phrase(
        "floor is <substrate>",
        c.DescribeFloor,
        "what is to be poured on",
        ("floor is concrete", "floor is old adhesive", "floor is timber"),
        _SITE,
    ),
    Phrase(
        "air <temperature> [at [point] <point>]",
        c.TakeAirTemperature,
        "air in the room; Celsius, or Fahrenheit where said",
        ("air 21 degrees", "air 70 degrees Fahrenheit", "air 21 C at B3"),
        _SITE,
    ),
    Phrase(
        "slab <temperature> [at [point] <point>]",
        c.TakeSlabTemperature,
        "the slab's surface",
        ("slab 17 degrees", "slab 63 F"),
        _SITE,
    ),
    Phrase(
        "humidity <percent> [at [point] <point>]",
        c.TakeHumidity,
        "relative humidity of the air",
        ("humidity 55 percent",),
        _SITE,
    ),
    Phrase(
        "slab humidity <percent> [at [point] <point>]",
        c.TakeSlabHumidity,
        "relative humidity in the slab, from a probe",
        ("slab humidity 78 percent", "slab humidity 78 percent at B3"),
        _SITE,
    ),
    Phrase(
        "moisture emission <rate:number> [at [point] <point>]",
        c.TakeEmission,
        "pounds a thousand square feet in 24 hours",
        ("moisture emission 4", "moisture emission 2.5 at C2"),
        _SITE,
    ),
    Phrase(
        "ph <value:number> [at [point] <point>]",
        c.TakePh,
        "alkalinity of the surface",
        ("pH 9",),
        _SITE,
    ),
    Phrase("site", c.AskSite, "what was read of air, slab and moisture", ("site",), _SITE),
    Phrase("dew point", c.AskDewPoint, "and how far the slab is above it", ("dew point",), _SITE),
    Phrase(
        "drying time <thickness:length>",
        c.AskDrying,
        "an estimate, never a release",
        ("drying time 60 millimetres",),
        _SITE,
    ),
    Phrase(
        "leg rising <run:length> at <leg:temperature> [and] rest at <rest:temperature>",
        c.AskWarmLeg,
        "what a hose leg warmer than the rest does to a reading",
        ("leg rising 0.5 metres at 25 degrees and rest at 20 degrees",),
        _SITE,
        speakable=False,
    ),
    Phrase(
        "ready to pour",
        c.AskReadyToPour,
        "go or not yet, each reason, and what would clear it",
        ("ready to pour",),
        _SITE,
    ),
    Phrase(
        "hose on [floor]",
        c.StartClock,
        "the hose lies on the floor and settles",
        ("hose on floor",),
        _CLOCKS,
        spoken="hose on floor",
        fixed=(("clock", "hose"),),
    ),
    Phrase(
        "primer on [floor]",
        c.StartClock,
        "the primer begins to dry",
        ("primer on floor",),
        _CLOCKS,
        spoken="primer on floor",
        fixed=(("clock", "primer"),),
    ),
    Phrase(
        "water in",
        c.StartClock,
        "a mix begins: its working time runs",
        ("water in",),
        _CLOCKS,
        fixed=(("clock", "mix"),),
    ),
    Phrase(
        "pour finished",
        c.StartClock,
        "until it takes foot traffic; readings are the finished floor's from then on",
        ("pour finished",),
        _CLOCKS,
        fixed=(("clock", "pour"),),
    ),
    Phrase("clocks", c.AskClocks, "what is running, and how long still", ("clocks",), _CLOCKS),
    Phrase(
        "guide", c.StartGuide, "be led through the job from where it stands", ("guide",), _GUIDE
    ),
    Phrase(
        "(next step | done)",
        c.FinishStep,
        "this step is done; on to the next",
        ("next step", "done"),
        _GUIDE,
        spoken="next step",
    ),
    Phrase("step back", c.StepBack, "to the step before", ("step back",), _GUIDE),
    Phrase(
        "skip because <reason:sentence>",
        c.SkipStep,
        "on without doing it; the reason is recorded",
        ("skip because the client has tested the slab last week",),
        _GUIDE,
        speakable=False,
    ),
    Phrase(
        "skip step not needed",
        c.SkipStep,
        "on without doing it: not needed",
        ("skip step not needed",),
        _GUIDE,
        fixed=(("reason", "not needed"),),
    ),
    Phrase(
        "skip step done before",
        c.SkipStep,
        "on without doing it: done before",
        ("skip step done before",),
        _GUIDE,
        fixed=(("reason", "done before"),),
    ),
    Phrase(
        "skip step told to",
        c.SkipStep,
        "on without doing it: told to",
        ("skip step told to",),
        _GUIDE,
        fixed=(("reason", "told to"),),
    ),
    Phrase("where am I", c.AskWhereAmI, "the step that is open", ("where am I",), _GUIDE),
    Phrase("why", c.AskWhy, "why the open step matters", ("why",), _GUIDE),
    Phrase("more", c.AskMore, "what to do in it, in detail", ("more",), _GUIDE),
)
