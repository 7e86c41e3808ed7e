"""Finishes, doors, checks and the guide's steps: what is taken, and what would be right instead."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from assistant.decide.doors import measure_clearance, set_covering
from assistant.decide.finish import finish_over_highest, only_door, own_limit, set_fall
from assistant.decide.guide import finish_step, skip_step, step_back
from assistant.decide.parts import World
from assistant.decide.questions import WhichSide, YesOrNo
from assistant.decide.set_ups import they_hold
from assistant.decide.suspect import (
    READ_AGAIN,
    _asked_aloud,
    _far_off,
    _height,
    _read_back,
    _spoken,
    _text,
    unless_far_off,
    unless_off,
)
from assistant.errors import Refusal
from assistant.events.finish import FinishSet, FinishSetOverHighest, LeastDepthSet, MostDepthSet
from assistant.events.guide import StepFinished, StepQuestioned, StepReopened, StepSkipped
from assistant.events.set_ups import ZeroChecked
from assistant.floor.suspicion import Suspicion
from assistant.guide.steps import steps
from grammar.commands import Measure, Reading
from grammar.commands.doors import MeasureClearance, SetCovering
from grammar.commands.finish import FinishOverHighest, OwnLimit, SetFall
from grammar.commands.guide import FinishStep, SkipStep, StepBack
from grammar.commands.readings import TakeReading
from grammar.commands.set_ups import TheyHold
from tests.job.conftest import WORLD, Site, command_of
from tests.there import there

ROOM = ("room 12 by 8 metres", "grid 2 metres")


def mm(number: str) -> Measure:
    return Measure(Decimal(number), "mm")


def reading(number: str, unit: str | None = "mm") -> Reading:
    return Reading(Decimal(number), unit)


def test_clearances_and_coverings_that_there_are() -> None:
    job = Site().job
    for number, taken in (
        ("0", True),
        ("0.5", True),
        ("200", True),
        ("200.1", False),
        ("-1", False),
    ):
        command = MeasureClearance(1, mm(number))
        if taken:
            assert measure_clearance(job, command, WORLD).events
        else:
            with pytest.raises(Refusal, match="No leaf clears"):
                measure_clearance(job, command, WORLD)
    for number, taken in (("100", True), ("100.1", False), ("0.5", True), ("0", False)):
        covering = SetCovering(mm(number))
        if taken:
            assert set_covering(job, covering, WORLD).events
        else:
            with pytest.raises(Refusal):
                set_covering(job, covering, WORLD)
    assert set_covering(job, SetCovering(None), WORLD).events


def test_sides_of_a_door_are_asked_for_one_after_the_other() -> None:
    floor = Site(*ROOM)
    for line, asked in (
        ("door 1 left 4 right -5", "Door 1 left, 4 mm: below or above?"),
        ("door 1 left -4 right 5", "Door 1 right, 5 mm: below or above?"),
        ("door 1 left -4 right -5 outside 6", "Door 1 outside, 6 mm: below or above?"),
        ("door 2 outside 6", "Door 2 outside, 6 mm: below or above?"),
    ):
        question = floor.asked(line)
        assert isinstance(question, WhichSide)
        assert question.text == asked
    floor.told("door 1 left 0 right -5")


def test_the_only_door_is_meant_and_of_several_the_one_named() -> None:
    one = Site(*ROOM, "door 3 outside -4").job
    two = Site(*ROOM, "door 3 outside -4", "door 1 outside -4").job
    assert [only_door(one, None), only_door(one, 7), only_door(two, 1)] == [3, 7, 1]
    with pytest.raises(Refusal, match=r"Which door: 1 or 3\?"):
        only_door(two, None)
    with pytest.raises(Refusal, match=r"No door is known yet: door 1 "):
        only_door(Site(*ROOM).job, None)


def test_a_finish_at_a_door_needs_the_floor_outside() -> None:
    floor = Site(*ROOM, "door 1 left -4 right -5")
    for number in (1, 2):
        assert f"outside door {number} is not read yet" in floor.refused(
            f"finish level with door {number}"
        )
    floor.told("door 1 outside -6", "finish level with door 1")
    assert floor.job.finish_mm == -6
    untied = Site(*ROOM, "A1 -9", "new set up", "door 1 outside -6")
    assert "read from set-up 2" in untied.refused("finish level with door 1")


def test_a_pour_runs_out_at_a_door_that_was_read_on_both_sides() -> None:
    line = "feather to door 1"
    card = there(Site(*ROOM, "product example thin skim").job.card)
    world = World({"example feather": replace(card, name="example feather", min_mm=0.0)})

    def site(*lines: str) -> Site:
        floor = Site(*ROOM)
        floor.standing_world = world
        floor.told("product example feather", *lines)
        return floor

    for lines, told in (
        ((), "The floor in door 1 is not read yet"),
        (("door 1 outside -6",), "The floor in door 1 is not read yet"),
        (("new set up", "door 1 left -4 right -5"), "a set-up that is not tied"),
    ):
        assert told in site("A1 -9", *lines).refused(line), lines
    floor = site("door 1 left -4 right -5", line)
    assert -5 <= floor.job.finish_mm <= -4
    assert "The product first" in Site(*ROOM, "door 1 left -4 right -5").refused(line)
    standard = Site(*ROOM, "product example standard", "door 1 left -4 right -5")
    assert "may not run out to nothing: its card's least depth" in standard.refused(line)
    own = site("door 1 left -4 right -5", "at least 2 mm")
    assert "Your own least depth is 2 mm" in own.refused(line)


def test_ones_own_least_is_not_over_ones_own_most() -> None:
    for lines, end, number, taken in (
        ((), "least", "5", True), ((), "most", "5", True),
        (("at most 20 mm",), "least", "20", True),
        (("at most 20 mm",), "least", "20.1", False), (("at least 5 mm",), "most", "5", True),
        (("at least 5 mm",), "most", "4.9", False), (("at least 5 mm",), "least", "99", True),
        (("at most 20 mm",), "most", "1", True),
    ):  # fmt: skip
        job = Site(*ROOM, *lines).job
        command = OwnLimit(end, mm(number))
        event = MostDepthSet if end == "most" else LeastDepthSet
        if taken:
            assert own_limit(job, command, WORLD).events == (event(mm(number)),)
            continue
        other, stands = ("most", "20 mm") if end == "least" else ("least", "5 mm")
        with pytest.raises(Refusal, match=f"own {other} depth is {stands}, so the {end} cannot"):
            own_limit(job, command, WORLD)
    for lines, end, taken in (
        (("at most 20 mm",), "most", True), (("at most 20 mm",), "least", False),
        (("at least 5 mm",), "least", True), (("at least 5 mm",), "most", False),
        ((), "most", False),
    ):  # fmt: skip
        job = Site(*ROOM, *lines).job
        if taken:
            assert len(own_limit(job, OwnLimit(end, None), WORLD).events) == 1
        else:
            with pytest.raises(Refusal, match=f"No {end} depth of your own"):
                own_limit(job, OwnLimit(end, None), WORLD)


def test_a_finish_over_the_highest_point() -> None:
    job = Site(*ROOM, "A1 -9", "B1 -5").job
    for over, height, told in ((mm("3"), -2, mm("3")), (None, -5, None), (mm("0"), -5, None)):
        (event,) = finish_over_highest(job, FinishOverHighest(over), WORLD).events
        assert event == FinishSetOverHighest("B1", told, mm(str(height)))
    assert "none is the highest" in Site(*ROOM).refused("finish 3 mm above highest")


def test_a_fall_is_ten_percent_at_most() -> None:
    job = Site(*ROOM).job
    for percent, taken in (
        ("0", True),
        ("10", True),
        ("10.1", False),
        ("0.5", True),
        ("-1", False),
    ):
        command = SetFall(Decimal(percent), "A1")
        if taken:
            assert set_fall(job, command, WORLD).events
        else:
            with pytest.raises(Refusal, match="from 0 to 10"):
                set_fall(job, command, WORLD)


# --- the guide --------------------------------------------------------------------------------


def test_a_step_that_is_not_met_is_questioned_once_and_then_passed() -> None:
    floor = Site("guide")
    first = floor.job.guide.open
    assert first is not None
    (asked,) = finish_step(floor.job, FinishStep(), WORLD).events
    assert asked == StepQuestioned(first)
    floor.told("next step")
    (passed,) = finish_step(floor.job, FinishStep(), WORLD).events
    assert isinstance(passed, StepFinished)
    assert (passed.step, passed.met) == (first, False)
    met = Site("guide", *ROOM)
    (done,) = finish_step(met.job, FinishStep(), WORLD).events
    assert isinstance(done, StepFinished | StepQuestioned)
    with pytest.raises(Refusal, match="guide is not on"):
        finish_step(Site().job, FinishStep(), WORLD)


def test_a_step_is_skipped_with_a_reason() -> None:
    job = Site("guide").job
    (skipped,) = skip_step(job, SkipStep("told to"), WORLD).events
    assert isinstance(skipped, StepSkipped)
    assert (skipped.step, skipped.reason) == (job.guide.open, "told to")
    for reason in ("", "  "):
        with pytest.raises(Refusal, match="Say why"):
            skip_step(job, SkipStep(reason), WORLD)


def test_a_step_back_goes_to_the_one_before_or_to_the_last() -> None:
    floor = Site("guide")
    every = [step.id for step in steps()]
    assert floor.job.guide.open == every[0]
    with pytest.raises(Refusal, match="This is the first step"):
        step_back(floor.job, StepBack(), WORLD)
    floor.told("skip step told to")
    second = floor.job.guide.open
    (back,) = step_back(floor.job, StepBack(), WORLD).events
    assert back == StepReopened(every[every.index(second or "") - 1])
    while floor.job.guide.open is not None:
        floor.told("skip step told to")
    assert step_back(floor.job, StepBack(), WORLD).events == (StepReopened(every[-1]),)
    with pytest.raises(Refusal, match="All steps are through"):
        finish_step(floor.job, FinishStep(), WORLD)


def test_what_is_not_in_doubt_needs_no_clearing() -> None:
    for lines, told in (
        ((), "No reading is in doubt, so there is nothing to clear."),
        (("A1 -18", "B1 -20", "reference moved"), "tie"),
    ):
        with pytest.raises(Refusal, match=told) as found:
            they_hold(Site(*ROOM, *lines).job, TheyHold(), WORLD)
        assert "what it hangs on is" not in str(found.value)
        assert (found.value.spoken == "No reading is in doubt.") is (not lines)


# --- what is asked about, in words ------------------------------------------------------------


def doubt(expected: float, sd: float = 1.5, by_plan: bool = False) -> Suspicion:
    return Suspicion("B3", -50.0, expected, sd, (), by_plan)


def test_a_doubt_is_told_with_what_the_floor_says() -> None:
    job = Site(*ROOM).job
    taken = TakeReading("B3", reading("-50"))
    text = _text(job, taken, doubt(-15.4))
    assert text.startswith("B3 50 mm below? The floor around says 15 mm below, give or take 3 mm.")
    assert _text(job, taken, doubt(-15.4, 4.0)).count("give or take 8 mm") == 1
    assert "The planned finish says level" in _text(job, taken, doubt(0.3, by_plan=True))
    assert "12 mm above" in _text(job, taken, doubt(12.2))
    for expected, told in ((-15.4, "one five below."), (0.2, "level."), (12, "above.")):
        assert told in _spoken(job, taken, doubt(expected)), expected
    assert "Planned, level" in _spoken(job, taken, doubt(0, by_plan=True))
    assert "below" in _spoken(job, taken, doubt(-15))
    inches = Site("readings in inches", *ROOM).job
    assert "above." in _spoken(inches, taken, doubt(0.79375))  # a thirty-second of an inch


def test_heights_are_told_to_the_millimetre_or_the_sixteenth() -> None:
    for height, unit, told in (
        (-15.4, "mm", "15 mm below"), (0.4, "mm", "level"), (-0.4, "mm", "level"),
        (0.6, "mm", "1 mm above"), (3.175, "in", "1/8 in above"), (0.7, "in", "level"),
        (-3.175, "in", "1/8 in below"), (0.0, "in", "level"), (0.79375, "in", "1/16 in above"),
    ):  # fmt: skip
        assert _height(height, unit) == told


def test_a_value_is_read_back_with_its_unit_and_shorter_without() -> None:
    assert _read_back("B3", mm("-18"), "mm") == (
        "Bravo three, one eight millimetres below?", "Bravo three, one eight below?"
    )  # fmt: skip
    assert _read_back("B3", mm("18"), "mm")[1] == "Bravo three, one eight above?"
    assert _read_back("B3", Measure(Decimal(-18), None), "mm")[1] == "Bravo three, one eight below?"
    assert len(_read_back("B3", mm("0"), "mm")) == 1
    inches = Measure(Decimal("-1.5"), "in")
    for value, unit in ((inches, "mm"), (inches, "in"), (mm("-18"), "in")):
        assert len(_read_back("B3", value, unit)) == 1


def test_a_question_gives_way_part_by_part_until_it_is_short_enough() -> None:
    long = "a very long way to say the thing that takes many seconds to be said aloud on a floor"
    for what, why, how, told in (
        (("W", "w"), ("Y", "y"), ("H", "h"), "W Y H"), (("W", "w"), (long, "y"),
        ("H", "h"), "W y H"),
        ((long, "w"), (long, "y"), ("H", "h"), "w y H"), (("W", "w"), (long, "y"),
        (long, "h"), "W y h"),
        ((long, "w"), (long, "y"), (long, "h"), "w y h"), ((long, "w"), (long, long),
        (long, "h"), "w h"),
    ):  # fmt: skip
        assert _asked_aloud(what, why, how) == told


def test_a_height_far_off_is_told_with_its_limit() -> None:
    job = Site(*ROOM).job
    assert _far_off(job, "B3", reading("-450")) == (
        "B3 450 mm below? A floor to be poured lies within 400 mm of the zero (common practice, "
        "no source)."
    )
    assert _far_off(job, "B3", reading("-450", None)).startswith("B3 450 below? A floor to be") or (
        "A floor to be poured" in _far_off(job, "B3", reading("-450", None))
    )
    inches = _far_off(job, "B3", reading("-20", "in"))
    assert "That is 508 mm, and a floor to be poured" in inches
    wide = Site(*ROOM, "instrument range 600 mm").job
    assert "within 600 mm of the zero (the range as set)" in _far_off(wide, "B3", reading("-650"))


def test_of_several_heights_the_first_that_is_far_off_is_asked_about() -> None:
    job = Site(*ROOM).job
    event, command = FinishSet(mm("1")), command_of("finish +1 mm")
    near, far, other = reading("9"), reading("-450"), reading("460")
    for heights, what in (
        ((("Left", near),), None), ((("Left", None),), None), ((("Left", far),), "Left"),
        ((("Left", near), ("Right", far)), "Right"), ((("Left", None), ("Right", far)), "Right"),
        ((("Left", other), ("Right", far)), "Left"),
    ):  # fmt: skip
        decision = unless_far_off(job, command, event, *heights)
        assert decision.events == (event,)
        if what is None:
            assert decision.ask is None
        else:
            assert isinstance(decision.ask, YesOrNo)
            assert decision.ask.text.startswith(f"{what} ")


def test_a_finish_is_of_the_datum_whichever_set_up_is_read_from() -> None:
    floor = Site(*ROOM, "A1 -18", "new set up", "tie on A1 -10", "finish +450 mm")
    floor.at_once("finish +500 mm")


def test_a_look_that_is_off_is_asked_about_with_what_it_should_read() -> None:
    job = Site(*ROOM, "benchmark 1 at 40 mm above zero", "A1 -18").job
    event, command = ZeroChecked(mm("9")), command_of("check zero +9")
    for on, value, told in (
        (None, "3", ""),
        (None, "9", "Zero 9 mm above? By what is known it should read level: 9 mm off."),
        (None, "-9", "should read level: 9 mm off"), (1, "41", ""),
        (1, "56", "Benchmark 1 56 mm above? By what is known it should read 40 mm above: 16 mm"),
        ("A1", "-30", "A1 30 mm below? By what is known it should read 18 mm below: 12 mm off"),
    ):  # fmt: skip
        decision = unless_off(job, command, event, on, reading(value))
        assert decision.events == (event,)
        assert (decision.ask is None) is (not told), value
        if decision.ask is not None:
            assert told in decision.ask.text
            assert decision.ask.data["off"]["on"] == (on or "zero")
    assert READ_AGAIN == "Confirm, or read again."
