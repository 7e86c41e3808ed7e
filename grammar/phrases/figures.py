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


def _figure(name: str, template: str, help: str, *ways: str) -> Phrase:
    return Phrase(
        template,
        AskFigure,
        help,
        (template.replace("[", "").replace("]", ""),),
        _TOPIC,
        fixed=(("figure", name),),
        ways=ways,
    )


_WHAT_IS = "(what is | what's | where is | where's)"
_SPOT = "point | spot | bit | place | part"

PHRASES: tuple[Phrase, ...] = (
    _figure(
        "bags",
        "how many bags",
        "bags for the pour, waste included",
        "how many bags (am i | are we) (looking at | at | on)",
        "how many bags (will | does) (this | that | floor | job) take",
        "number of bags for (job | floor)",
        "bags for (job | floor | room)",
        "how many bags [do] (i | we) need [in all]",
        "how many bags (will it take | does it take | are needed | altogether | in all | in total)",
        "(bags | number of bags | bag count)",
        "how much (do (i | we) need | product | powder | stuff)",
        "how many bags (should | would | will | must | do) (i | we | you) (need | use | want | "
        "be using | get through | go through | mix | open | take)",
        "how many bags (is | are) (it | that | there) [going to (be | take) | all in | to do | "
        "in it | in this]",
        "how many bags (of (powder | stuff | leveller | compound) [do (i | we) need] | "
        "is this going to (take | need) | are we talking | for (this | it | whole) [floor | job "
        "| room | lot | thing] | to do (it | floor | room | this) | to (pour | fill) (it | floor "
        "| room))",
        "(what is | what's) (bag count | number of bags | total [number of] bags | bags total | "
        "total in bags)",
        "(total | overall) (bags | bag count | number of bags)",
        "how much (powder | leveller | compound | stuff | levelling compound | self "
        "leveller) (do (i | we) need | will (i | we) need | for this | for floor | is it | is "
        "needed | will it take | does it take | should i get)",
        "how many (sacks | sacks do (i | we) need | sacks is that)",
        "bags (needed | required | in total | altogether | total | for it)",
    ),
    _figure(
        "litres",
        "how many litres",
        "what the pour takes, without the waste",
        "how many litres (all together | altogether | in all | is it | is that)",
        "what volume (are we pouring | is it | is that)",
        "how much (leveller | mix) [is that] in litres",
        "how much mix (all in | in all)",
        Aloud("how much volume"),
        "(volume | litres | liters | how many liters)",
        "[what is | what's] (volume | total volume)",
        "how much (mix | material) [do (i | we) need]",
        "how many litres (do (i | we) need | will it take | does it take | of (mix | leveller | "
        "material | stuff | compound) | in total | total | are there | is it all)",
        "how (big is | much is) (volume | pour)",
        "(total | overall | pour) (volume | litres | liters)",
        "(what is | what's) (volume | total volume | volume of pour | pour volume) [in (litres | "
        "liters | cubic metres)]",
        "how many (cubic metres | cubes | cubic feet | gallons | quarts) [is (it | that) | do (i "
        "| we) need]",
        "volume (of (pour | it | floor) | needed | in litres)",
    ),
    _figure(
        "water",
        "how much water",
        "mix water for all the bags",
        "how much water (all told | all in | altogether)",
        "how much water (in all | altogether | in total | do (i | we) need)",
        "total water",
        "how much water (will (i | we) need | is that | is needed | for (all | everything | job "
        "| lot | whole job | it | floor) | all up | is that in all | should (i | we) have | do "
        "(i | we) want)",
        "how many litres of water [do (i | we) need | in all | is that | altogether]",
        "(water | water needed | water total | water required) (for (job | lot | all of it | "
        "everything))",
        "(total | overall | all) (mix water | mixing water | water needed)",
    ),
    _figure(
        "water-per-bag",
        "water a bag",
        "mix water for one bag, least and most",
        "how wet do (i | we) mix it",
        Aloud("how much water a bag"),
        "[how much] water (per | in a | for a | to a | for each | for one | each | in each) bag",
        "[how much] water (goes in | do (i | we) put in) (a | each) bag",
        "((mixing | mix) water | (mix | water) ratio | how do (i | we) mix it)",
        "how much water (do (i | we) add | do (i | we) mix in | goes with | should go in | does "
        "one bag take | does a bag take | does each bag take | does a bag need | does a bag "
        "want) [to (a | each | one) bag | with (a | each) bag | in (a | each | one) bag]",
        "water (amount per | ratio per | dose per | for one | for every | needed per | to one) bag",
        "how (much | many litres of) water (do (i | we) add | do (i | we) mix | is it | is in | "
        "should (i | we) (add | use)) (to | with | in | per | for) [a | each | one | "
        "every] bag",
        "(what is | what's) (water ratio | mix ratio | mixing ratio | water per bag | water "
        "content | mix)",
        "(water ratio | mixing ratio | litres per bag | litres a bag | water per)",
    ),
    _figure(
        "primer",
        "how much primer",
        "primer for all coats",
        "primer (how much | quantity | volume)",
        "primer [needed | amount | litres | liters]",
        "how much primer do (i | we) need",
        "how many (coats [of primer] | litres of primer | liters of primer)",
        "how much primer (is needed | will (i | we) need | should (i | we) (get | buy | use) | "
        "do (i | we) (want | use | have to use) | for (floor | room | this | it | job) | is it | "
        "is that | does it (take | need))",
        "how many (litres | liters | tubs | cans | bottles | buckets) of primer [do (i | we) "
        "need | is that | will (i | we) need]",
        "(what is | what's) primer (amount | quantity | needed)",
        "(total | amount of | primer for) (primer | floor | room)",
    ),
    _figure(
        "mixing-time",
        "mixing time",
        "how long a bag is mixed",
        "how many minutes do (i | we) mix [a bag | it | each bag]",
        "(what is | what's) mixing time",
        "how long (do (i | we) | should (i | we) | to) mix [it | for | each bag | a bag]",
        "how long (do (i | we) | should (i | we) | must (i | we) | to | does it need) (mix | "
        "stir | whisk | paddle) [it | for | each bag | a bag | one bag | bag | each one | them | "
        "it for]",
        "(mix | stirring | whisking) time",
        "how long (is it mixed | does mixing take | does it need mixing | to mix it for | is "
        "mixing | does a bag need mixing)",
        "how many minutes (of mixing | mixing | to mix | of stirring | does it mix | should (i | "
        "we) mix) [a bag | it | each bag | for]",
        "(what is | what's) (mix time | time for mixing)",
    ),
    _figure(
        "working-time",
        "working time",
        "how long a mix can be worked",
        "(pot life | open time)",
        "(what is | what's) (working time | pot life | open time)",
        "how long (can (i | we) work it | does (it | a mix) last | is it workable)",
        "how long (have (i | we) got to (work | use | place | spread) it | before it (sets | "
        "goes off | stiffens | hardens | gels) | till it (sets | goes off | stiffens | hardens) "
        "| until it (sets | goes off) | does it stay (workable | open | wet | liquid | runny | "
        "usable) | is it (usable | good for | open | good) | can it be worked | can (i | we) "
        "(use | spread | play with) it | do (i | we) have to (use | work | spread | place) it)",
        "how (quick | fast | soon) does it (set | go off | stiffen | harden)",
        "when does it (set | go off | start to set | start setting | stiffen)",
        "(what is | what's) (work time | working life | usable time)",
        "(work time | working life | setting time | set time)",
        "how long (can (i | we) work (it | mix) | is mix good for | is a mix good for | does mix "
        "(last | stay workable | stay open))",
    ),
    _figure(
        "mean-depth",
        "mean depth",
        "mean of the depths at the points",
        "(average | mean) (depth | thickness) of (pour | floor)",
        Aloud("average depth"),
        "[what is | what's] (mean | average) [depth | thickness]",
        "how (thick | deep) (on average | is it on average)",
        "(what is | what's) (average | mean) (pour | pour depth | pour thickness | floor depth | "
        "build up)",
        "how (thick | deep) is it (on average | typically | overall)",
        "average (thickness | pour | pour depth | pour thickness | build up)",
        "how (thick | deep) (on average is it | will it be on average | is pour on average | is "
        "floor on average)",
        "mean (thickness | pour | pour depth)",
    ),
    _figure(
        "deepest",
        "deepest [point]",
        "where the pour is deepest, and how deep",
        "(biggest | max | most) (depth | thickness)",
        "(what is | how deep is) deepest (we have got | there is)",
        "(lowest | deepest) (spot | point | bit | place) in room",
        Aloud("where is lowest point"),
        f"[{_WHAT_IS}] (deepest | lowest) [{_SPOT} | depth]",
        f"[{_WHAT_IS}] (deepest | lowest) ({_SPOT}) (of | in | on) floor",
        "[what is | what's] (maximum | max | greatest | most) depth",
        "how (deep | thick) (does it get | does it go | is it at (its | most | deepest [point | "
        "spot]) | is it at worst | is it at most | will it get)",
        "(what is | what's) (deepest | lowest | thickest) (it goes | it gets | pour gets | bit | "
        "part | area | we have)",
        "where (does it get | is pour | is floor) (deepest | lowest | thickest)",
        "which (point | spot | bit | part | place) is (deepest | lowest | thickest)",
        "(thickest | thickest (bit | point | spot | part | place) | worst low [spot] | biggest "
        "(dip | hole | hollow) | lowest corner)",
        "how deep is (deepest | lowest) (point | spot | bit | part | place)",
    ),
    _figure(
        "thinnest",
        "thinnest [point]",
        "where the pour is thinnest, or the floor stands proud",
        "(smallest | min | least) thickness",
        "(highest | thinnest) (spot | point | bit | place) in room",
        Aloud("where is highest point"),
        f"[{_WHAT_IS}] (thinnest | shallowest | highest) [{_SPOT} | depth]",
        f"[{_WHAT_IS}] (thinnest | highest) ({_SPOT}) (of | in | on) floor",
        "[what is | what's] (minimum | min | least) depth",
        "how thin (does it (get | go) | is it at (its thinnest | thinnest [point | spot] | "
        "least) | will it (get | be))",
        "(what is | what's) (thinnest | highest | shallowest) (it goes | it gets | pour gets | "
        "bit | part | area | we have)",
        "where (does it get | is pour | is floor) (thinnest | highest | shallowest)",
        "which (point | spot | bit | part | place) is (thinnest | highest | shallowest)",
        "(biggest (hump | bump | lump) | highest corner | tightest (spot | point) | shallowest)",
        "how (thin | high) is (thinnest | highest) (point | spot | bit | part | place)",
    ),
    _figure(
        "area",
        "floor area",
        "area of the floor",
        "[what is | what's] (area [of (room | floor)] | room area)",
        "how (big | large) is (room | floor | it)",
        "[how many] (square metres | square feet)",
        "how (big | large) (is it | is this (floor | room | place) | are we talking | an area is "
        "it)",
        "how many (square metres | square meters | square feet | metres square | sqm | "
        "squares) (is (it | that | room | floor | this) | are there | have (i | we) got | do (i "
        "| we) have)",
        "(size of (room | floor) | floor size | room size | total area | area total | floor "
        "space | area of (it | slab))",
        "(what is | what's) (size of (room | floor) | floor size | floor area | room size | "
        "total area | square footage | area of (it | slab | this))",
    ),
    _figure(
        "points-left",
        "points left",
        "points that are not read yet",
        "(points | readings) (remaining | to go | still to do)",
        "how many [readings | points] left to (take | read | do)",
        Aloud("how many points left"),
        "how many [more] [points | readings] ([are] [still] left | to go | remain | to do)",
        "how many more [points | readings]",
        "how many [more] (points | readings | spots | shots) (have (i | we) [got] left | are "
        "(still to do | to go | outstanding | remaining | missing | unread | not done) | do (i | "
        "we) (still have to do | have left | still need | need to do | still have | have to go))",
        "how many (have (i | we) [got] (left | to go | to do) | are left | still to go | "
        "remaining | more to go | more to do)",
        "(points | readings) (left to do | not (done | read) | outstanding | still to go)",
        "how far (through | along) am i",
        "how many (to go | left to go | not read | not done)",
    ),
    _figure(
        "time-left",
        "time left",
        "working time left in the mix",
        Aloud("how long left"),
        "how (long | much time) (have (i | we) [got] [left] | is left | left | do (i | we) have)",
        "how (long | much time) [is] left (in | on | of) (mix | it | this mix)",
        "how long (have (i | we) got (left | on this | with this | for this) [mix | one | batch "
        "| bucket] | is this (mix | one | batch | bucket) good for | till this (mix | one | "
        "batch | bucket) goes off | before this (mix | one | batch | bucket) (goes off | sets) | "
        "for this (mix | one | batch | bucket))",
        "(time | minutes | how many minutes) (left | remaining | to go) [in mix | in this mix | "
        "on this mix | on mix | on this one]",
        "how many minutes (have (i | we) got [left] | do (i | we) have [left] | are left)",
        "is (mix | this mix | it) still (good | usable | workable)",
    ),
    _figure(
        "foot-traffic",
        "traffic time",
        "when the pour takes foot traffic",
        "when is it walkable",
        "how soon can (i | we | you) walk on it",
        "when can (i | we | you) get on it",
        Aloud("when can i walk on it"),
        "foot traffic [time]",
        "when can (i | we | you | they) (walk on | step on | go on) (it | floor)",
        "how long (until | till | before) (foot traffic | (i | we | you) can walk on it)",
        "when is it (walkable | hard)",
        "when (can | will | could) (i | we | you | they | people | anyone) [be able to] (walk | "
        "step | go | get | stand | tread | be) (on it | on floor | on there | back on it | over "
        "it)",
        "how long (until | till | before | is it before) (i | we | you | they | people | anyone) "
        "can (get | go | step | stand | be) (on it | on floor | back on it | on there)",
        "how (soon | quickly) can (i | we | you | they | people) (step | go | get | be) on (it | "
        "floor | there)",
        "(can (i | we | you) walk on it | is it walkable | walk on time | walking time | light "
        "traffic [time] | time to foot traffic)",
        "when (is | will) (it | floor) [be] (safe | ready | alright | good | hard enough | fit) "
        "to walk on",
    ),
    _figure(
        "covering",
        "covering time",
        "when the pour may be covered",
        "when can (tiles | vinyl | carpet | flooring | floor) go down",
        "when can (i | we | they) put tiles down",
        "how soon can (i | we | they) (tile | cover | lay) [it]",
        "when can (i | we | you | they) (tile | cover | lay) [it | on it | floor | tiles | carpet]",
        "how long (until | till | before) (i | we | you) can (tile | cover | lay) [it | floor]",
        "when can (i | we | they | you) (lay | put | fit | start) (tiles | tiling | vinyl | "
        "carpet | lino | laminate | wood | floor covering | flooring | boards | finish floor) "
        "[down | on it]",
        "when can (tiler | tilers | fitter | fitters | carpet fitter | floor layer | floor "
        "layers | tiles | vinyl | carpet | lino | laminate | covering | wood) (start | come [in] "
        "| go (on | down) | be laid | be fitted | begin | get on it)",
        "how long (until | till | before) (i | we | they | you) can (lay | put | fit) (tiles | "
        "vinyl | carpet | lino | laminate | wood | flooring | covering) [down | on it]",
        "how long (until | till | before) (tiles | tiling | vinyl | carpet | lino | laminate | "
        "covering | flooring) [can go (on | down)]",
        "when (is | will) (it | floor) [be] (ready | alright | good | dry enough) (to (tile | "
        "cover | lay) [on | it] | for (tiles | tiling | vinyl | carpet | covering | flooring))",
        "(tile time | tiling time | time to cover | time to covering | when to (tile | cover))",
    ),
    _figure(
        "finish",
        "what is finish",
        "the finish, and what it comes from",
        "(what's finish | finish height)",
        "(what is | what's | where is | where's) (finish | finish height)",
        "(where | how high) is finish",
        "(where have (i | we) | what have (i | we) | what did (i | we)) (set | got | put) finish "
        "[at | to]",
        "(what is | what's) (finish | finished) (level | height | set [at | to] | at)",
        "what (height | level) is finish [set] [at]",
        "(current finish | finished level | finish now)",
        "how high (is | will) (finish | finished floor) [be]",
        "what (height | level) are (i | we) (finishing | pouring) (at | to)",
        "where (are | will) (i | we) [be] (finishing | pouring to)",
    ),
    _figure(
        "time",
        "what time is it",
        "the time of day",
        "(time | what is time | what's time | what's time now)",
        "(date | what date is it | what day is it | what's date)",
        "(what is | what's) (time now | time today | time of day | current time)",
        "(time now | current time | got time | have you got time)",
        "what time (is it now | do you make it | have you got)",
        "what day is today",
    ),
    _figure(
        "cost",
        "how much will it cost",
        "what the bags cost, where a bag's price was said",
        "how much money [is it | is that]",
        "[what is | what's] (cost | price | total cost)",
        "how much (does it | is it going to | do bags | would it) cost",
        "(what does it | what will it | what's it | what would it) cost [me | us]",
        "(what is | what's) (it | this | that | job | pour | all this | material | total) (going "
        "to | likely to) (cost | come to | set (me | us) back) [me | us]",
        "how much (will | would | does | is) (it | this | that | job | pour | material | all "
        "this) (cost | come to | costing | be | set (me | us) back) [me | us]",
        "what (do | will | would | does) (bags | it | job | this | that | material | pour) (cost "
        "| come to | cost (me | us)) [in all | altogether]",
        "(what is | what's) (cost of (bags | job | pour | it) | material cost | total price | "
        "bill | damage | price for (job | lot | bags) | cost for (job | lot | bags))",
        "(material cost | cost of (bags | job | pour | it) | total cost | price for (job | lot) "
        "| cost of material | bag cost total)",
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
            "how (much | far) (does it | does floor) (fall | drop | rise | go up | go down) from "
            "[point] <start:point> to [point] <end:point>",
            "how far (out | off | different) (is | are) [point] <start:point> (and | from | to) "
            "[point] <end:point>",
            "(compare | height between | difference of | drop between | rise between | fall "
            "between | step between points) [point] <start:point> (and | to | with) [point] "
            "<end:point>",
            "how much (is | does) [point] <start:point> (above | below | over | under | differ "
            "from) [point] <end:point>",
            "(what is | what's) (drop | rise | height difference | level difference) (from | "
            "between) [point] <start:point> (to | and) [point] <end:point>",
            "(drop | rise | height difference | level difference) [from | between] [point] "
            "<start:point> (to | and) [point] <end:point>",
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
            "how (steep | much slope) (is it | is floor | is there) (from | between) [point] "
            "<start:point> (to | and) [point] <end:point>",
            "(what is | what's) (percent | percentage | fall in percent) (from | between) "
            "[point] <start:point> (to | and) [point] <end:point>",
            "(gradient | slope | pitch) [from | between] [point] <start:point> (to | and) "
            "[point] <end:point>",
            "how (steep | much fall) (from | between) [point] <start:point> (to | and) [point] "
            "<end:point>",
        ),
    ),
    Phrase(
        "where is [point] <point>",
        AskPlace,
        "where a point lies",
        ("where is B3", "how do I get to B3"),
        _TOPIC,
        ways=(
            "where do (i | we) find [point] <point>",
            "where is [point] <point> at",
            "how far over is [point] <point>",
            "where's [point] <point>",
            "how do (i | we) get to [point] <point>",
            "how far (is [point] <point> from [wall | walls] | from wall is [point] <point>)",
            "(show | find | locate) (where is | where | position of) [point] <point>",
            "(locate | position of | whereabouts is | whereabouts) [point] <point>",
            "where (about | abouts | exactly) is [point] <point>",
            "where (on floor | in room) is [point] <point>",
            "which way (is | to) [point] <point>",
            "(how far | what distance) (in | along | over | up | out) is [point] <point>",
            "where (should | would) [point] <point> be",
        ),
    ),
    Phrase(
        "are <bags:count> bags enough",
        AskBagsEnough,
        "whether so many bags will do",
        ("are 25 bags enough", "will 30 bags be enough"),
        _TOPIC,
        ways=(
            "(is | are) <bags:count> enough bags",
            "(i | we) have [got] <bags:count> bags [is that enough]",
            "got <bags:count> bags [is that enough]",
            "have (i | we) got enough with <bags:count> bags",
            "<bags:count> bags on site",
            "is <bags:count> bags enough",
            "is <bags:count> [bags] enough",
            "(will | would) <bags:count> bags (do [it] | be enough)",
            "(is | are | will) <bags:count> bags [be] going to be enough",
            "do (i | we) have enough with <bags:count> bags",
            "(i have | i've | we've | we have | there are | there's) [got] <bags:count> bags "
            "(here | on site | in van | on van | left | will that do | is that enough | enough)",
            "(can | could) (i | we) do it with <bags:count> bags",
            "<bags:count> bags (enough | will that do | do it | is that enough)",
            "(do | does) <bags:count> bags (do it | cover it | cover floor | finish it)",
            "(will | would) <bags:count> bags (cover it | cover floor | cover room | finish it | "
            "be plenty | be sufficient | see us through | get (us | me) through)",
            "(enough | plenty) with <bags:count> bags",
        ),
    ),
    Phrase(
        "how far do <bags:count> bags go",
        AskBagsReach,
        "how much of the floor so many bags make",
        ("how far do 25 bags go",),
        _TOPIC,
        ways=(
            "how (much | far) does <bags:count> bags (cover | go | do)",
            "how far (will | would | does) <bags:count> bags (go | get (me | us))",
            "how much (floor | area) do <bags:count> bags (do | cover | make)",
            "how (much | far) (can (i | we) do | will (i | we) get | do (i | we) get | can (i | "
            "we) get) with <bags:count> bags",
            "how much (can (i | we) pour | of floor | of room | floor | area) (with | from | for "
            "| out of | do (i | we) get from | can (i | we) do with) <bags:count> bags",
            "what (will | would | do | can) <bags:count> bags (do | cover | make | pour)",
            "where (will | would | do) <bags:count> bags (get (me | us) | run out | end)",
            "how (much | far) will <bags:count> bags (do | cover | stretch | go)",
        ),
    ),
)
