"""The two tables are whole, and every answer can be shown, said and printed as JSON."""

from __future__ import annotations

import json
import re
import sys
from collections.abc import Iterable, Iterator

import pytest

from assistant.answers import ANSWERS, answer
from assistant.decide import DECIDERS, World, decide, resolve
from assistant.errors import Refusal
from assistant.events import Event, Setting
from assistant.job import EMPTY
from assistant.job.effects import TAKEN_BY
from assistant.record.event_rows import event_classes
from grammar import PHRASES, understand
from grammar.commands import Change, Command
from grammar.commands.material import ChooseProduct, ListProducts
from grammar.commands.talk import WhatIf
from tests.job.conftest import Site

WHOLE_JOB = (
    "readings in millimetres", "instrument range 250 mm",
    "wall east 6 metres", "wall north 4 metres", "wall west 5.99 metres", "wall south 4 metres",
    "close room", "grid 2 metres", "point K1 at 3.2 by 2.5 metres", "product example deep fill",
    "product example standard", "waste 7 percent", "aggregate 20 percent", "no aggregate",
    "A1 -18", "minus 16", "C1 plus 3", "C2 -45", "B2 level", "A2 -2", "K1 -1 1/2 in", "B1 -17",
    "correct A1 to minus 19", "strike B2", "take that back", "bring that back", "undo 2", "redo 2",
    "door 1 left minus 4 right minus 9", "door 1 outside plus 14", "door 1 at B1",
    "finish 4 millimetres above zero", "raise finish 3 mm", "lower finish 2 mm",
    "most depth 40 mm", "least depth 2 mm", "no most depth",
    "tally", "how deep at B2", "how deep at 3 by 3 metres", "cut list", "cut for A1",
    "high spots", "low spots", "doors", "readings", "next point", "what is missing", "warnings",
    "map", "weight", "products", "help",
    "what if raise finish 30 mm", "what if strike A1", "what if waste 0 percent",
)  # fmt: skip


def _leaves(base: type[object]) -> Iterator[type[object]]:
    """All classes below one; a class made anew for its slots leaves its first self behind."""
    for child in base.__subclasses__():
        if vars(sys.modules[child.__module__]).get(child.__name__) is child:
            # nor is what a test makes up inside a function one of them
            below = list(_leaves(child))
            yield from below or [child]


def _missing(table: Iterable[type], base: type, floor: str) -> list[str]:
    """Of all classes below one, those with no row, each with the file that wants it."""
    return [
        f"{kind.__name__} has no row in {floor}/{kind.__module__.rpartition('.')[2]}"
        for kind in sorted(set(_leaves(base)) - set(table), key=lambda kind: kind.__name__)
    ]


def test_every_change_is_decided() -> None:
    assert not _missing(DECIDERS, Change, "assistant/decide")
    assert set(DECIDERS) <= set(_leaves(Change))


def test_every_command_is_answered() -> None:
    assert not _missing(ANSWERS, Command, "assistant/answers")
    assert set(ANSWERS) <= set(_leaves(Command))


def test_every_command_can_be_said() -> None:
    said = [phrase.command for phrase in PHRASES]
    assert not _missing(said, Command, "grammar/phrases")


def test_every_event_is_taken_up() -> None:
    # a setting needs no row: the job keeps the last of each kind
    assert set(TAKEN_BY) == set(_leaves(Event)) - set(_leaves(Setting))


def test_every_event_can_be_put_on_record() -> None:
    assert set(event_classes().values()) == set(_leaves(Event))


def test_an_answer_with_no_question_waiting_is_refused(site: type[Site]) -> None:
    for line in ("below", "confirm", "cancel that"):
        assert "No question is waiting" in site().refused(line)


def test_a_whole_job_is_answered_so_that_it_can_be_shown_said_and_printed(site: type[Site]) -> None:
    floor = site()
    for line in WHOLE_JOB:
        reply = floor.told(line)
        json.dumps(reply.data, allow_nan=False)
        assert reply.headline, line
        assert "\n" not in reply.headline
        # never a bare sign, and nothing that a voice would stumble over
        assert not re.search(r"[-+]\d|[_@#|]", reply.say), (line, reply.say)
        for warning in reply.warnings:
            assert warning.severity in ("stop", "caution", "note")


def test_a_whole_job_in_inches_too(site: type[Site]) -> None:
    floor = site("readings in inches", *WHOLE_JOB[2:])
    for line in ("tally", "cut list", "doors", "map", "weight", "warnings", "what is missing"):
        assert floor.told(line).headline


@pytest.mark.slow
@pytest.mark.parametrize("history", [(), WHOLE_JOB[:16], WHOLE_JOB[:36]], ids=len)
def test_every_example_of_the_grammar_is_taken_or_refused_on_any_job(
    site: type[Site], history: tuple[str, ...]
) -> None:
    floor = site(*history)
    for phrase in PHRASES:
        for example in phrase.examples:
            for command in understand(example):
                _try(floor, command)


def _try(floor: Site, command: Command) -> None:
    job, world = floor.job, floor.world
    try:
        command = resolve(job, command)
        decision = decide(job, command, world)
        if decision.ask is None and isinstance(command, Change):
            floor_after = type(floor)()
            floor_after.job = job
            json.dumps(floor_after.done(command).data, allow_nan=False)
        elif decision.ask is None and not isinstance(command, WhatIf):
            json.dumps(answer(job, job, command, (), world).data, allow_nan=False)
    except Refusal as refusal:
        assert str(refusal)[-1] in ".?"


def test_no_cards_at_hand() -> None:
    nothing = World({})
    with pytest.raises(Refusal, match="no product cards"):
        decide(EMPTY, ChooseProduct("example standard"), nothing)
    reply = answer(EMPTY, EMPTY, ListProducts(), (), nothing)
    assert reply.data == {"products": []}
