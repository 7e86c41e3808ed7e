"""In a job kept in inches no reply asks anybody to say millimetres or metres."""

from __future__ import annotations

import re
from types import FunctionType

import pytest

from assistant.conversation.conversation import Conversation
from assistant.decide import World
from assistant.record.journal import Journal
from assistant.reply import examples
from grammar import understand
from grammar.example import Example

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
        ((), "correct B3", "What should it be? Say the value, or strike it."),
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
    ("said", "shown"),
    [
        ("B3 minus 18", "“B3 minus 18”"),
        ("room 12 by 8 metres", "“room 12 by 8 metres”"),
        ("grid 2 metres", "grid 2 m?"),  # what is likely meant, and lacks a room
        ("finish 4 millimetres above zero", "“finish 4 millimetres above zero”"),
    ],
)
def test_what_was_said_stays_as_it_was_said(world: World, said: str, shown: str) -> None:
    turn = in_inches(world).hear(f"{said} qwx")
    assert shown in turn.reply.headline
    finsh = in_inches(world).hear(said.replace("grid", "gridd").replace("finish", "finsh"))
    assert "Nearest: grid 6" not in finsh.reply.headline
    assert "Nearest: finish 1/8" not in finsh.reply.headline


COMMANDS = [
    *(each for each in vars(examples).values() if isinstance(each, Example)),
    examples.reading_of("B3"),
    examples.correction_of("B3"),
    examples.place_of("K1"),
    examples.height_of_benchmark(2),
    examples.tie_on_benchmark(2),
    examples.tie_on_point("B3"),
    examples.jambs_of(2),
    examples.outside_of(2),
]


@pytest.mark.parametrize("example", COMMANDS, ids=lambda example: example.metric)
@pytest.mark.parametrize("unit", ["mm", "in"])
def test_an_example_is_there_to_be_said(example: Example, unit: str) -> None:
    for line in example.in_unit(unit).split(", then "):
        begun = {"starting": "grid 2 metres ", "leg": ""}.get(line.split()[0], "")
        assert len(understand(begun + line)) == 1, line


def test_no_example_is_left_out_here() -> None:
    made = [each for each in vars(examples).values() if isinstance(each, FunctionType)]
    assert len(COMMANDS) == sum(isinstance(e, Example) for e in vars(examples).values()) + len(made)


def test_temperatures_of_an_inch_job_are_degrees_fahrenheit(world: World) -> None:
    """An example that says 70 degrees would be taken as Celsius, and refused in its turn."""
    talk = in_inches(world)
    turn = talk.hear("air 900 degrees")
    assert "air 70 degrees Fahrenheit" in turn.reply.headline
    assert talk.hear("air 70 degrees Fahrenheit").ok
