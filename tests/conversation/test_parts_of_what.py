"""A fraction without a unit in a job kept in millimetres: the unit is asked for first."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest

from assistant.__main__ import main
from assistant.conversation.conversation import Conversation
from assistant.decide.questions import WhichUnit
from grammar import short_form, understand
from grammar.commands import Measure
from tests.there import there


def heights(talk: Conversation) -> dict[str, float]:
    return {name: float(reading.mm) for name, reading in talk.job.readings.items()}


@pytest.mark.parametrize(
    "line",
    ["A1 three eighths low", "A1 -3/8", "three eighths low", "3/8 below", "A1 -⅜", "-3/8"],
)
def test_eighths_are_of_an_inch_only_once_confirmed(talk: Conversation, line: str) -> None:
    asked = talk.hear(line)
    assert asked.ok
    assert not asked.recorded
    assert asked.reply.headline == (
        "“A1 -3/8” has no unit: is it 3/8 of an inch? Confirm, or say millimetres."
    )
    assert asked.reply.say == (
        "Alfa one, is it three eighths of an inch? Confirm, or say millimetres."
    )
    assert asked.canonical == "A1 -3/8"
    assert talk.hear("confirm").recorded
    assert heights(talk) == {"A1": -9.525}  # exact arithmetic: 3/8 of 25.4 mm
    assert talk.job.readings["A1"].said == Measure(Decimal("-0.375"), "in")


@pytest.mark.parametrize(
    ("answer", "mm"),
    [
        ("confirm", -34.925),
        ("inches", -34.925),
        ("yes inches", -34.925),
        ("in inches", -34.925),
        ("1 3/8 inches", -34.925),
        ("A1 -1 3/8 in", -34.925),
        ("one and three eighths inches low", -34.925),
        ("millimetres", -1.375),
        ("no, millimetres", -1.375),
        ("mm", -1.375),
        ("1 3/8 mm", -1.375),
        ("A1 -14", -14),
    ],
)
def test_an_answer_in_any_form(talk: Conversation, answer: str, mm: float) -> None:
    talk.hear("A1 -1 3/8")
    turn = talk.hear(answer)
    assert turn.recorded, turn.reply
    assert talk.pending is None
    assert heights(talk) == {"A1": mm}


@pytest.mark.parametrize(
    "line", ["A1 minus four and a half", "A1 -4 1/2", "A1 -4½", "A1 -4.5", "minus 4 1/2"]
)
def test_a_half_beside_a_whole_number_is_a_half_millimetre(talk: Conversation, line: str) -> None:
    assert talk.hear(line).recorded
    assert talk.job.readings["A1"].said == Measure(Decimal("-4.5"), "mm")


@pytest.mark.parametrize("line", ["A1 -1/2", "A1 half low", "A1 three quarters low", "A1 -2 1/4"])
def test_a_half_alone_and_quarters_are_asked_about(talk: Conversation, line: str) -> None:
    assert not talk.hear(line).recorded
    assert talk.pending is not None
    assert isinstance(talk.pending, WhichUnit)


@pytest.mark.parametrize("line", ["A1 -0.375", "A1 point three seven five low", "A1 -3/8 mm"])
def test_a_decimal_and_a_said_unit_are_as_said(talk: Conversation, line: str) -> None:
    talk.hear(line)
    assert heights(talk) == {"A1": -0.375}


def test_the_side_is_asked_about_as_well(talk: Conversation) -> None:
    talk.hear("A1 3/8")
    asked = talk.hear("inches")
    assert asked.reply.headline == "A1, 3/8 in: below or above?"
    talk.hear("below")
    assert heights(talk) == {"A1": -9.525}


@pytest.mark.parametrize("given", ["below", "A1 -3/8", "-3/8"])
def test_the_side_may_come_before_the_unit(talk: Conversation, given: str) -> None:
    talk.hear("A1 3/8")
    asked = talk.hear(given)
    assert asked.reply.headline.startswith("“A1 -3/8” has no unit")
    assert not any("lapsed" in line for line in asked.reply.details)
    talk.hear("inches")
    assert heights(talk) == {"A1": -9.525}


@pytest.mark.parametrize("given", ["+3/8 in", "-5/8 in", "-14"])
def test_another_value_without_a_point_is_no_answer(talk: Conversation, given: str) -> None:
    talk.hear("A1 -3/8")
    turn = talk.hear(given)
    assert not turn.ok
    assert not turn.recorded
    assert talk.pending is not None
    assert not talk.job.readings


def test_values_typed_ahead_on_a_walk_land_nowhere(talk: Conversation) -> None:
    """The second may be the next point's; the side of the first is not taken from it either."""
    for line in ("-14", "3/8", "-3/8", "-15"):
        talk.hear(line)
    assert heights(talk) == {"A1": -14}
    for line in ("confirm", "-3/8", "-15"):
        talk.hear(line)
    assert heights(talk) == {"A1": -14}


@pytest.mark.parametrize(
    ("line", "short"),
    [
        ("finish 3/8 above", "finish +3/8"),
        ("raise finish by three quarters", "raise finish 3/4"),
        ("door 1 left -3/8 right -1", "door 1 left -3/8 right -1"),
        ("door 1 outside 1/4 above", "door 1 outside +1/4"),
        ("benchmark 1 at 5/8 above", "benchmark 1 at +5/8"),
        ("check zero +1/16", "check zero +1/16"),
        ("instrument offset +1/16", "instrument offset +1/16"),
        ("fix B3 at minus three eighths", "fix B3 at -3/8"),
        ("grind B3 by 1/4", "grind B3 1/4"),
        ("A1 -3/8 1 1", "A1 -3/8 1 1"),
        ("what if finish 3/8 above", "what if finish +3/8"),
    ],
)
def test_whatever_takes_a_height(talk: Conversation, line: str, short: str) -> None:
    talk.hear("B3 +9")
    asked = talk.hear(line)
    assert talk.pending is not None
    assert isinstance(talk.pending, WhichUnit)
    assert not asked.recorded
    assert asked.canonical == short
    settled = talk.hear("inches")
    assert settled.ok
    assert not isinstance(talk.pending, WhichUnit)


def test_one_answer_is_for_the_whole_line(talk: Conversation) -> None:
    """Beside 3/8 of an inch a bare 1 is one inch, not one millimetre."""
    talk.hear("door 1 left -3/8 right -1")
    talk.hear("inches")
    door = talk.job.doors[1]
    assert (float(there(door.left).mm), float(there(door.right).mm)) == (-9.525, -25.4)


def test_what_the_job_cannot_take_is_refused_at_once(talk: Conversation) -> None:
    turn = talk.hear("Z9 -3/8")
    assert not turn.ok
    assert "There is no point Z9" in turn.reply.headline
    assert talk.pending is None


def test_in_an_inch_job_nothing_is_asked(talk: Conversation) -> None:
    talk.hear("readings in inches")
    for line in ("A1 three eighths low", "-1 3/8", "finish 1/4 above", "C1 half low"):
        assert talk.hear(line).recorded, line
    assert talk.job.readings["B1"].said == Measure(Decimal("-1.375"), "in")


def test_cancelled_nothing_is_left_of_it(talk: Conversation) -> None:
    talk.hear("A1 -3/8")
    talk.hear("cancel that")
    talk.hear("-3")
    assert heights(talk) == {"A1": -3}


def test_a_word_for_a_unit_needs_a_question(talk: Conversation) -> None:
    assert not talk.hear("inches").ok


def test_a_played_file_never_guesses(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    lines = tmp_path / "lines.txt"
    lines.write_text("room 8 by 6 metres\ngrid 2 metres\nA1 three eighths low\n")
    assert main(["run", str(lines)]) == 1
    assert "a question was left open" in capsys.readouterr().err
    lines.write_text("room 8 by 6 metres\ngrid 2 metres\nA1 three eighths low\ninches\n")
    assert main(["run", str(lines)]) == 0


@pytest.mark.parametrize("line", ["A1 -3/8", "-1 3/8", "grind B3 1/4", "A1 -3/8 17 18", "A1 -9/8"])
def test_parts_come_back_from_their_short_form(line: str) -> None:
    (command,) = understand(line)
    assert understand(short_form(command)) == (command,)


@pytest.mark.parametrize("line", ["A1 16/8 low", "A1 8/8 low", "A1 1 0/8 low"])
def test_whole_numbers_in_parts_are_whole_numbers(talk: Conversation, line: str) -> None:
    assert talk.hear(line).recorded
