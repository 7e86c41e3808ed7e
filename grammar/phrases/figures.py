"""Phrases: one number of the job, asked for by itself."""

from __future__ import annotations

from grammar.commands.figures import (
    AskBagsEnough,
    AskBagsReach,
    AskDifference,
    AskFigure,
    AskPlace,
    AskSlope,
)
from grammar.phrase import Aloud, Phrase

_TOPIC = "one number"


def _figure(name: str, template: str, help: str, *ways: str, about: str = "") -> Phrase:
    return Phrase(
        template,
        AskFigure,
        help,
        (template.replace("[", "").replace("]", ""),),
        _TOPIC,
        fixed=(("figure", name),),
        ways=ways,
        about=about,
    )


_WHAT_IS = "(what is | what's | where is | where's)"
_SPOT = "point | spot | bit | place | part"

PHRASES: tuple[Phrase, ...] = (
    _figure(
        "bags",
        "how many bags",
        "bags for the pour, waste included",
        "how many bags [do] (i | we) need [in all]",
        "how many bags (will it take | does it take | are needed | altogether | in all | in total)",
        "(bags | number of bags | bag count)",
        "how much (do (i | we) need | product | powder | stuff)",
        about="sacks need total",
    ),
    _figure(
        "litres",
        "how many litres",
        "what the pour takes, without the waste",
        Aloud("how much volume"),
        "(volume | litres | liters | how many liters)",
        "[what is | what's] (volume | total volume)",
        "how much (mix | material) [do (i | we) need]",
        about="volume cubic amount",
    ),
    _figure(
        "water",
        "how much water",
        "mix water for all the bags",
        "how much water (in all | altogether | in total | do (i | we) need)",
        "total water",
    ),
    _figure(
        "water-per-bag",
        "water a bag",
        "mix water for one bag, least and most",
        Aloud("how much water a bag"),
        "[how much] water (per | in a | for a | to a | for each | for one | each | in each) bag",
        "[how much] water (goes in | do (i | we) put in) (a | each) bag",
        "((mixing | mix) water | (mix | water) ratio | how do (i | we) mix it)",
        about="ratio mixing",
    ),
    _figure(
        "primer",
        "how much primer",
        "primer for all coats",
        "primer [needed | amount | litres | liters]",
        "how much primer do (i | we) need",
        "how many (coats [of primer] | litres of primer | liters of primer)",
    ),
    _figure(
        "mixing-time",
        "mixing time",
        "how long a bag is mixed",
        "(what is | what's) mixing time",
        "how long (do (i | we) | should (i | we) | to) mix [it | for | each bag | a bag]",
        about="whisk stir",
    ),
    _figure(
        "working-time",
        "working time",
        "how long a mix can be worked",
        "(pot life | open time)",
        "(what is | what's) (working time | pot life | open time)",
        "how long (can (i | we) work it | does (it | a mix) last | is it workable)",
    ),
    _figure(
        "mean-depth",
        "mean depth",
        "mean of the depths at the points",
        Aloud("average depth"),
        "[what is | what's] (mean | average) [depth | thickness]",
        "how (thick | deep) (on average | is it on average)",
    ),
    _figure(
        "deepest",
        "deepest [point]",
        "where the pour is deepest, and how deep",
        Aloud("where is lowest point"),
        f"[{_WHAT_IS}] (deepest | lowest) [{_SPOT} | depth]",
        f"[{_WHAT_IS}] (deepest | lowest) ({_SPOT}) (of | in | on) floor",
        "[what is | what's] (maximum | max | greatest | most) depth",
        about="low hole dip",
    ),
    _figure(
        "thinnest",
        "thinnest [point]",
        "where the pour is thinnest, or the floor stands proud",
        Aloud("where is highest point"),
        f"[{_WHAT_IS}] (thinnest | shallowest | highest) [{_SPOT} | depth]",
        f"[{_WHAT_IS}] (thinnest | highest) ({_SPOT}) (of | in | on) floor",
        "[what is | what's] (minimum | min | least) depth",
        about="high hump proud",
    ),
    _figure(
        "area",
        "floor area",
        "area of the floor",
        "[what is | what's] (area [of (room | floor)] | room area)",
        "how (big | large) is (room | floor | it)",
        "[how many] (square metres | square feet)",
        about="size",
    ),
    _figure(
        "points-left",
        "points left",
        "points that are not read yet",
        Aloud("how many points left"),
        "how many [more] [points | readings] ([are] [still] left | to go | remain | to do)",
        "how many more [points | readings]",
        about="remaining go",
    ),
    _figure(
        "time-left",
        "time left",
        "working time left in the mix",
        Aloud("how long left"),
        "how (long | much time) (have (i | we) [got] [left] | is left | left | do (i | we) have)",
        "how (long | much time) [is] left (in | on | of) (mix | it | this mix)",
        about="minutes",
    ),
    _figure(
        "foot-traffic",
        "traffic time",
        "when the pour takes foot traffic",
        Aloud("when can i walk on it"),
        "foot traffic [time]",
        "when can (i | we | you | they) (walk on | step on | go on) (it | floor)",
        "how long (until | till | before) (foot traffic | (i | we | you) can walk on it)",
        "when is it (walkable | hard)",
    ),
    _figure(
        "covering",
        "covering time",
        "when the pour may be covered",
        "when can (i | we | you | they) (tile | cover | lay) [it | on it | floor | tiles | carpet]",
        "how long (until | till | before) (i | we | you) can (tile | cover | lay) [it | floor]",
        about="tiles carpet vinyl",
    ),
    _figure(
        "finish",
        "what is finish",
        "the finish, and what it comes from",
        "(what's finish | finish height)",
        "(what is | what's | where is | where's) (finish | finish height)",
        "(where | how high) is finish",
    ),
    _figure(
        "time",
        "what time is it",
        "the time of day",
        "(time | what is time | what's time | what's time now)",
        about="clock hour",
    ),
    _figure(
        "cost",
        "how much will it cost",
        "what the bags cost, where a bag's price was said",
        "[what is | what's] (cost | price | total cost)",
        "how much (does it | is it going to | do bags | would it) cost",
        "(what does it | what will it | what's it | what would it) cost [me | us]",
        about="money pay budget",
    ),
    Phrase(
        "difference <start:point> to <end:point>",
        AskDifference,
        "how much higher one point is than another",
        ("difference A1 to D3", "difference between A1 and D3"),
        _TOPIC,
        ways=(
            "[what is | what's] (difference | fall) [in height] between"
            " [point] <start:point> and [point] <end:point>",
            "[what is | what's] difference from [point] <start:point> to [point] <end:point>",
            "how much (higher | lower) is [point] <end:point> than [point] <start:point>",
        ),
    ),
    Phrase(
        "slope <start:point> to <end:point>",
        AskSlope,
        "how steeply the floor runs between two points",
        ("slope A1 to D3", "slope from A1 to D3"),
        _TOPIC,
        ways=(
            "[what is | what's] (slope | gradient | fall) from"
            " [point] <start:point> to [point] <end:point>",
            "[what is | what's] (slope | gradient) between"
            " [point] <start:point> and [point] <end:point>",
        ),
    ),
    Phrase(
        "where is [point] <point>",
        AskPlace,
        "where a point lies",
        ("where is B3", "how do I get to B3"),
        _TOPIC,
        ways=(
            "where's [point] <point>",
            "how do (i | we) get to [point] <point>",
            "how far (is [point] <point> from [wall | walls] | from wall is [point] <point>)",
        ),
    ),
    Phrase(
        "are <bags:count> bags enough",
        AskBagsEnough,
        "whether so many bags will do",
        ("are 25 bags enough", "will 30 bags be enough"),
        _TOPIC,
        ways=(
            "is <bags:count> [bags] enough",
            "(will | would) <bags:count> bags (do [it] | be enough)",
            "(is | are | will) <bags:count> bags [be] going to be enough",
            "do (i | we) have enough with <bags:count> bags",
        ),
    ),
    Phrase(
        "how far do <bags:count> bags go",
        AskBagsReach,
        "how much of the floor so many bags make",
        ("how far do 25 bags go",),
        _TOPIC,
        ways=(
            "how far (will | would | does) <bags:count> bags (go | get (me | us))",
            "how much (floor | area) do <bags:count> bags (do | cover | make)",
        ),
    ),
)
