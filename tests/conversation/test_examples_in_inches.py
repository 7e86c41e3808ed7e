"""In a job kept in inches nobody is told to say millimetres or metres."""

from __future__ import annotations

import re

import pytest

from assistant.conversation.conversation import Conversation
from assistant.conversation.examples import IN_FEET_AND_INCHES
from assistant.decide import World
from assistant.record.journal import Journal
from grammar import Misunderstood, understand

METRIC = re.compile(r"\b(milli|centi)?met(re|er)s?\b|\bmm\b|\b\d+ m\b")


def in_inches(world: World, *lines: str) -> Conversation:
    talk = Conversation(Journal.open(None), world)
    for line in ("readings in inches", *lines):
        assert talk.hear(line).ok, line
    return talk


@pytest.mark.parametrize(
    ("lines", "line", "told"),
    [
        ((), "tally", ""),
        ((), "B3", ""),
        ((), "-1/2", "B3 minus 3/4"),
        ((), "close room", "wall east 14 feet"),
        (("wall east 10 ft",), "close room", "wall north 10 feet"),
        ((), "how deep at 3 by 3 ft", "room 40 by 26 feet"),
        ((), "where next", "room 40 by 26 feet"),
        ((), "step between B and C", "grid 6 feet"),
        (("room 20 by 16 ft",), "grid 6 ft starting 0 ft", ""),
        (("room 20 by 16 ft", "grid 6 ft"), "Z9 -1/2", "point Z9 at 10 by 15 feet"),
        (("room 20 by 16 ft",), "grid 1/4 in", "grid 6 feet"),
        (("room 20 by 16 ft",), "grid 4000 ft", "3280 ft"),
        ((), "room 12 by 8", "say feet, inches, or another one"),
        ((), "door 1 left -1/4", "left minus 1/8 right minus 3/8"),
        ((), "B3 minus 1/2 below", "minus 3/4, or 3/4 below"),
        ((), "correct B3", "to minus 5/8"),
        ((), "wall 4 feet", "wall east 14 feet"),
        ((), "what if tally", "raise finish 1/8 inch"),
    ],
)
def test_refusals_in_the_units_of_the_job(
    world: World, lines: tuple[str, ...], line: str, told: str
) -> None:
    turn = in_inches(world, *lines).hear(line)
    said = " ".join((turn.reply.headline, turn.reply.say, *turn.reply.details))
    assert told in said
    if told:
        assert not METRIC.search(said.replace("Lengths are in mm, cm, m, in or ft", "")), said


@pytest.mark.parametrize(
    "said",
    ["B3 minus 18", "room 12 by 8 metres", "grid 2 metres", "finish 4 millimetres above zero"],
)
def test_what_was_said_stays_as_it_was_said(world: World, said: str) -> None:
    turn = in_inches(world).hear(f"{said} qwx")
    assert f"“{said}”" in turn.reply.headline
    finsh = in_inches(world).hear(said.replace("grid", "gridd").replace("finish", "finsh"))
    assert "Nearest: grid 6" not in finsh.reply.headline
    assert "Nearest: finish 1/8" not in finsh.reply.headline


@pytest.mark.parametrize("pieces", IN_FEET_AND_INCHES.items())
def test_both_forms_can_be_said(pieces: tuple[str, str]) -> None:
    """Those that are whole commands are understood in either form."""
    for piece in pieces:
        if piece.startswith(("grid", "wall", "finish", "raise", "room")):
            try:
                assert understand(piece)
            except Misunderstood as miss:  # pragma: no cover
                pytest.fail(str(miss))
