"""The file of steps: whole, sayable, with cautions that have a source; errors name each fault."""

from __future__ import annotations

import pytest

from assistant.guide.checks import CHECKS
from assistant.guide.steps import STEPS_FILE, GuideStep, StepsError, read_steps, step_of, steps
from assistant.limits.cautions import CAUTIONS
from tests.there import there


@pytest.mark.parametrize("step", steps(), ids=lambda step: step.id)
def test_every_step_is_whole(step: GuideStep) -> None:
    assert step.title
    assert step.say
    assert step.why
    assert step.more
    assert step.check in CHECKS
    assert bool(step.caution_ids) != bool(step.no_caution_because)
    assert len(step.cautions()) == len(step.caution_ids)
    for caution in step.cautions(25):
        assert caution.source
        assert caution.message


def test_they_go_from_the_site_to_handing_over() -> None:
    assert [step.id for step in steps()] == [
        "walk", "moisture", "climate", "outline", "product", "grid", "settle", "zero",
        "doors", "readings", "closing", "finish", "pins", "order", "prep", "primer",
        "bays", "trial", "ready", "pour", "protect", "verify", "edge",
        "held", "mend", "record",
    ]  # fmt: skip
    assert [step.number for step in steps()] == list(range(1, 27))
    assert {step.of for step in steps()} == {26}


def test_every_caution_and_every_check_is_used() -> None:
    assert {id for step in steps() for id in step.caution_ids} == set(CAUTIONS)
    assert {step.check for step in steps()} == set(CHECKS)


def test_the_bag_in_hand_is_named() -> None:
    assert "A 25 kg bag" in there(step_of("order")).cautions(25)[0].message
    assert step_of("nowhere") is None


GOOD = """
[[step]]
id = "walk"
title = "Walk"
say = "Walk the room."
why = "It matters."
more = ["Look."]
no_caution_because = "walking is safe enough"
check = "your_word"
"""


def test_a_good_file_is_read() -> None:
    (step,) = read_steps(GOOD, "steps")
    assert (step.id, step.number, step.of) == ("walk", 1, 1)


BAD = [
    ("", "nothing else"),
    ("[[step", "is not a TOML file"),
    ("step = 3", "nothing else"),
    (GOOD + GOOD, "two steps are called 'walk'"),
    ("other = 1\n" + GOOD, "nothing else"),
    (GOOD.replace("why =", "whence ="), "whence is not a key"),
    (GOOD.replace('why = "It matters."\n', ""), "why is missing"),
    (GOOD.replace('"It matters."', '"  "'), "why is missing"),
    (GOOD.replace('["Look."]', "[]"), "more must be a list"),
    (GOOD.replace('["Look."]', '["Look.", ""]'), "none empty"),
    (GOOD.replace('more = ["Look."]\n', ""), "more must be a list"),
    (GOOD.replace('no_caution_because = "walking is safe enough"\n', ""), "and not both"),
    (GOOD + 'cautions = ["wet-cement"]', "and not both"),
    (GOOD.replace('no_caution_because = "walking is safe enough"', 'cautions = ["ghosts"]'),
     "no caution 'ghosts'"),
    (GOOD.replace('no_caution_because = "walking is safe enough"', "cautions = []"), "not empty"),
    (GOOD.replace("your_word", "their_word"), "no check 'their_word'"),
    (GOOD.replace("check =", "cheque ="), "cheque is not a key"),
    (GOOD.replace("Walk the room.", "Walk the room. Then stop."), "one sentence"),
    (GOOD.replace("Walk the room.", "walk the room."), "one sentence"),
    (GOOD.replace("Walk the room.", "Walk" + " on" * 22 + "."), "more than 22 words"),
    (GOOD.replace("Walk the room.", "Say B3 -18."), "cannot be said aloud"),
    (GOOD.replace("It matters.", "It matters | a lot."), "cannot be said aloud"),
    (GOOD.replace('id = "walk"', 'id = "Walk 1"'), "small letters"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "told"), BAD, ids=[told for _, told in BAD])
def test_a_fault_is_told(text: str, told: str) -> None:
    with pytest.raises(StepsError) as fault:
        read_steps(text, "steps.toml")
    assert told in str(fault.value)
    assert "steps.toml" in str(fault.value)


def test_the_file_is_shipped_beside_the_code() -> None:
    assert STEPS_FILE.is_file()
