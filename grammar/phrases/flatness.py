"""Phrases: flatness and levelness, gaps under a straightedge, and what the floor is held to."""

from __future__ import annotations

from grammar.commands.flatness import (
    AskFlatness,
    AskScan,
    AskStraightedge,
    AskVerdicts,
    ChooseSpec,
    DropScan,
    DropSpecs,
    ListSpecs,
    SetOwnSpec,
)
from grammar.phrase import Phrase

_TOPIC = "flatness"

PHRASES: tuple[Phrase, ...] = (
    Phrase(
        "flatness",
        AskFlatness,
        "FF and FL by the E1155 formula from lines read every 300 mm, or why there are none",
        ("flatness",),
        _TOPIC,
        speakable=False,
        ways=(
            "(f numbers | levelness | flatness and levelness)",
            "how (flat | level) is (it | floor)",
            "(what is | what's) flatness [of floor]",
        ),
    ),
    Phrase(
        "straightedge [<length>]",
        AskStraightedge,
        "the largest gap under a straightedge laid anywhere along what was read, both ways; 2 m, "
        "or 10 ft, where no length is said",
        ("straightedge 2 metres", "straightedge 10 ft", "straightedge"),
        _TOPIC,
        speakable=False,
        ways=(
            "straight edge [<length>]",
            "[largest | worst | biggest] gap under [straightedge of] <length> [straightedge]",
            "<length> straightedge",
        ),
    ),
    Phrase(
        "spec <gap:length> under <length>",
        SetOwnSpec,
        "hold the floor to a gap under a straightedge in your own words",
        ("spec 3 mm under 2 metres", "spec 1/8 in under 10 ft"),
        _TOPIC,
        speakable=False,
        ways=(
            "spec of <gap:length> under <length>",
            "hold (it | floor) to <gap:length> under <length>",
        ),
    ),
    Phrase(
        "spec <name>",
        ChooseSpec,
        "hold the floor to a named limit: met, not met, or cannot be told from these readings",
        ("spec DIN 18202 row 3", "spec SR1"),
        _TOPIC,
        speakable=False,
    ),
    Phrase(
        "verdicts",
        AskVerdicts,
        "what the floor is held to, limit by limit",
        ("verdicts",),
        _TOPIC,
        speakable=False,
        ways=(
            "is (it | floor) flat enough",
            "(flat enough | verdict)",
            "does (it | floor) meet (it | its limits)",
        ),
    ),
    Phrase(
        "specs",
        ListSpecs,
        "all that a floor can be held to by name",
        ("specs",),
        _TOPIC,
        speakable=False,
        ways=("(list | show | which | what) specs [are there | do you (have | know)]",),
    ),
    Phrase(
        "drop specs",
        DropSpecs,
        "hold it to nothing any more",
        ("drop specs",),
        _TOPIC,
        speakable=False,
        ways=("(no specs | no more specs | forget specs)",),
    ),
    Phrase(
        "scan",
        AskScan,
        "the points of leadsman import: cells, what stands on the floor, and the map of them",
        ("scan",),
        _TOPIC,
        speakable=False,
        ways=("(show | map of) scan", "scan map"),
    ),
    Phrase(
        "drop scan",
        DropScan,
        "it counts for nothing any more",
        ("drop scan",),
        _TOPIC,
        speakable=False,
        ways=("(forget | remove | no more) scan",),
    ),
)
