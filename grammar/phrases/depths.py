"""Phrases: depths at points and places, pins, high and low spots, and where to read next."""

from __future__ import annotations

from grammar.commands.depths import (
    AskCut,
    AskCutList,
    AskDepthAtPlace,
    AskDepthAtPoint,
    AskEnough,
    AskHiddenHighSpots,
    AskHighSpots,
    AskLowSpots,
    AskWhereNext,
)
from grammar.phrase import Phrase

_QUESTIONS = "questions"
_SURE = "how sure, and where next"

PHRASES: tuple[Phrase, ...] = (
    Phrase(
        "how deep (at | is) [point] <point>",
        AskDepthAtPoint,
        "pour depth at a point",
        ("how deep at B3",),
        _QUESTIONS,
        spoken="how deep at [point] <point>",
        ways=(
            "(what is | how deep is) pour at [point] <point>",
            "pour (at | depth at) [point] <point>",
            "(depth | thickness) (at | of | for) [point] <point>",
            "(what is | what's) (depth | thickness) (at | of | for) [point] <point>",
            "how (deep | thick) [is it] (at | is) [point] <point>",
            "how (deep | thick) [point] <point>",
            "how (deep | thick) (will | would | does | is) (it | pour | leveller | floor | that) "
            "(be | get | come out | go | end up) (at | over | by | on) [point] <point>",
            "how much (depth | leveller | fill | stuff | material | compound | build "
            "up) (at | over | on | goes on | is there at | do (i | we) need at | for) [point] "
            "<point>",
            "(what depth | what thickness) (at | for | on | "
            "is it at | do (i | we) need at | will (i | we) have at | am i at at) [point] <point>",
            "(what is | what's) (pour | pour depth | pour thickness | fill | build up) (at | on "
            "| for | over) [point] <point>",
            "(fill | build up | pour thickness | pour depth) (at | on | for | over) [point] "
            "<point>",
            "how (deep | thick) (over | by | on | for) [point] <point>",
            "how thick is [point] <point>",
            "how deep will [point] <point> be",
            "[point] <point> (depth | thickness | how deep | how thick | pour depth)",
        ),
    ),
    Phrase(
        "how deep at <first,second:pair>",
        AskDepthAtPlace,
        "pour depth anywhere, measured from the corner",
        ("how deep at 3.2 by 4 metres",),
        _QUESTIONS,
        ways=(
            "how (deep | thick) [is it] [at | over at] <first,second:pair> [from corner]",
            "(depth | thickness | pour depth) (at | of pour at) <first,second:pair> [from corner]",
            "(what is | what's) (depth | thickness | pour depth) at <first,second:pair> [from "
            "corner]",
        ),
    ),
    Phrase(
        "cut list",
        AskCutList,
        "what to cut every pin to",
        ("cut list",),
        _QUESTIONS,
        ways=(
            "(pins | pin list | list pins | cuts | all cuts | pin lengths | pin heights)",
            "(what do (i | we) | what to) cut pins to",
            "how long are pins",
            "read [me] (cuts | pins | cut list)",
            "(what | how long | how high) (do (i | we) | should (i | we) | to | are "
            "(i | we) to) (cut | set) [all] pins [to | at]",
            "how (long | high) (are | should | do) [all] pins [be | need to be]",
            "(all | every) (pin lengths | pin heights | pin)",
            "(show | list | give | read) [me] [all] (cuts | pin lengths | pin heights | cut "
            "lengths | cut list)",
            "(what are | where are) (cuts | pin lengths | pin heights | all cuts)",
            "(cutting list | pin sizes | pin schedule | cut lengths | cut sheet | list of pins | "
            "list of cuts)",
        ),
    ),
    Phrase(
        "cut for [point] <point>",
        AskCut,
        "what to cut one pin to",
        ("cut for B3",),
        _QUESTIONS,
        ways=(
            "(pin | cut) (at | for) [point] <point>",
            "(what is | what's) (pin | cut) (at | for) [point] <point>",
            "how long is pin at [point] <point>",
            "(what | how long | how high) (do (i | we) | should (i | we) | to) (cut | "
            "set) [pin] [at | for | on] [point] <point> [to | at]",
            "how (long | high) is (pin | cut) (at | for | on) [point] <point>",
            "how (long | high) should pin (at | for | on) [point] <point> be",
            "[point] <point> (pin | cut | pin length | pin height)",
            "(pin length | pin height | length of pin | cut length) (at | for | on) [point] "
            "<point>",
            "cut pin (at | for | on) [point] <point> (to what | how long)",
        ),
    ),
    Phrase(
        "high spots",
        AskHighSpots,
        "where the floor leaves least depth",
        ("high spots",),
        _QUESTIONS,
        ways=(
            "where is it thinnest",
            "(any | show | list | where are | where's) (high | thin) (spots | points | "
            "bits | places)",
            "(humps | high points | too thin anywhere | is it too thin | thin spots)",
            "where is it (high | thin | too thin | thinnest | highest)",
            "(where | which (bits | spots | points | parts)) (is it | are | is floor | sit | "
            "stand | stick) (too high | high | proud | sticking up | sitting high | up)",
            "(any | are there any | is there any | have (i | we) got any | got any) (high spots "
            "| humps | bumps | lumps | high points | proud spots | thin spots | ridges)",
            "(where are | where's | show | list) [all] (humps | bumps | lumps | high ones | "
            "proud spots | ridges)",
            "(highs | bumps | lumps | proud spots | high areas | thin areas | high bits)",
            "is (floor | it) (high | too high | proud) anywhere",
        ),
    ),
    Phrase(
        "low spots",
        AskLowSpots,
        "where the pour is deepest",
        ("low spots",),
        _QUESTIONS,
        ways=(
            "where is it deepest",
            "(any | show | list | where are | where's) (low | deep) (spots | points | bits "
            "| places)",
            "(dips | low points | too deep anywhere | is it too (deep | thick) | deep spots)",
            "where is it (low | deep | too deep | deepest | lowest)",
            "(where | which (bits | spots | points | parts)) (is it | are | is floor | sit) (too "
            "low | low | sitting low | down | dipped | hollow)",
            "(any | are there any | is there any | have (i | we) got any | got any) (low spots | "
            "dips | hollows | low points | holes to fill | low areas | deep spots)",
            "(where are | where's | show | list) [all] (dips | hollows | low ones | low areas)",
            "(lows | hollows | low areas | deep areas | low bits)",
            "is (floor | it) (low | too low | hollow) anywhere",
        ),
    ),
    Phrase(
        "hidden high spots",
        AskHiddenHighSpots,
        "the chance of a high spot between the points, and where",
        ("hidden high spots",),
        _SURE,
        ways=(
            "(could | can | might) there be (high spots | a high spot | a hump | humps | bumps) "
            "(between | hiding | [that] (i | we) missed | in between) [points | readings]",
            "(any | are there any) hidden (high spots | humps | bumps | lumps)",
            "(chance of | risk of | what are chances of) [a] (hidden | missed) (high spot | high "
            "spots | hump | humps)",
            "(have (i | we) | did (i | we)) miss (a high spot | any high spots | a hump | any "
            "humps | any bumps)",
            "(high spots | humps | bumps) between points",
        ),
    ),
    Phrase(
        "where next",
        AskWhereNext,
        "the reading that tells most",
        ("where next",),
        _SURE,
        ways=(
            "where should (i | we) (read | measure) [next]",
            "which point (helps | tells) most",
            "where (should | shall | do | would) (i | we) (read | measure | shoot | take a "
            "reading | check) next",
            "(what is | what's | which is) (best | most useful) (point | reading | spot | place) "
            "[to (read | take | measure) next]",
            "where (would | will | does) (one more | another | an extra) (reading | point | "
            "shot) (tell | pay) [most]",
            "(best | most useful) next (point | reading | spot)",
            "which (reading | spot) (helps | tells) most",
        ),
    ),
    Phrase(
        "enough",
        AskEnough,
        "whether more points still pay",
        ("enough",),
        _SURE,
        ways=(
            "(is that | do (i | we) have | are there | have (i | we) got) enough [points | "
            "readings]",
            "do (i | we) need more (points | readings)",
            "can (i | we) stop [reading | measuring] [now]",
            "(is | are) (it | that | this | these | there) enough (points | readings | shots) "
            "[now | yet]",
            "(have (i | we) | did (i | we)) (got | taken | done | read | measured | take | do) "
            "enough (points | readings | shots | spots | now)",
            "(should | do) (i | we) (take | do | need | measure | read | shoot) [any] more "
            "(points | readings | shots | spots)",
            "(enough | sufficient) (points | readings | shots) [now | yet]",
        ),
    ),
)
