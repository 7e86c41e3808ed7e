"""What a pour takes, at its ends: crew, batches, water, fronts, strips, stops."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from assistant.decide.parts import lacks_side, length_of, reason_said
from assistant.decide.pour.mixing import check_water, set_mix_water, tell_flow
from assistant.decide.pour.planning import set_batch, set_batch_time, set_crew, set_mixers, set_pump
from assistant.decide.pour.pouring import SAME_BATCH, _check_past_the_last, asks_after_front
from assistant.errors import Refusal
from assistant.events.pour import (
    BatchPoured,
    MixersSet,
    MixWaterSet,
    PourStarted,
    PourStopped,
    PumpSet,
    StripPoured,
)
from assistant.events.site import ClockEnded
from assistant.reply.mix_water import litres_said
from grammar.commands import Measure, Reading
from grammar.commands.pour import (
    SetBatch,
    SetBatchTime,
    SetCrew,
    SetMixers,
    SetMixWater,
    SetPump,
    TellFlow,
)
from tests.floor.plans import LEVEL, batches, pouring
from tests.job.conftest import WORLD, Site

START = "start pour anyway because this is a test"


def taken(decider: object, command: object, job: object = None) -> bool:
    try:
        decider(Site().job if job is None else job, command, WORLD)  # type: ignore[operator]
    except Refusal:
        return False
    return True


def test_the_most_of_each_that_is_taken() -> None:
    for decider, command, most in (
        (set_crew, SetCrew, 20), (set_mixers, SetMixers, 10), (set_batch, SetBatch, 20),
        (set_pump, SetPump, 2000),
    ):  # fmt: skip
        assert taken(decider, command(most)), command
        assert not taken(decider, command(most + 1)), command
    for minutes, is_taken in (("0.5", 1), ("0.4", 0), ("60", 1), ("60.1", 0), ("6", 1)):
        assert taken(set_batch_time, SetBatchTime(Decimal(minutes))) == bool(is_taken), minutes


def test_whoever_tells_of_mixers_has_no_pump() -> None:
    for line in ("mixers 2", "batches of 2 bags", "minutes per batch 6"):
        floor = Site("pump 60 bags per hour", line)
        assert floor.job.history[-1].events[-1] == PumpSet(None), line
        floor.told(line)
        assert len(floor.job.history[-1].events) == 1, line
    assert Site("mixers 2").job.history[-1].events == (MixersSet(2),)


def test_water_of_a_bag() -> None:
    for litres, is_taken in (
        ("30", True),
        ("30.01", False),
        ("0.01", True),
        ("0", False),
        ("5", True),
    ):
        if is_taken:
            check_water(Decimal(litres), "mm")
        else:
            with pytest.raises(Refusal, match="at most 30 L of water"):
                check_water(Decimal(litres), "mm")
    with pytest.raises(
        Refusal, match=r"at most 31[.]7 US qt of water, not 32 US qt: water 5[.]3 quarts"
    ):
        check_water(Decimal("30.283"), "in")
    # a US quart is 0.946352946 L (exact: 57.75 cubic inches)
    assert litres_said(None, Decimal(5)) == Decimal("4.7318")
    assert litres_said(None, None, Decimal("1.3")) == Decimal("4.9210")
    assert litres_said(Decimal("5.2"), None) == Decimal("5.2")
    assert litres_said(None, None) is None
    for line, litres in (
        ("water 1.3 gallons a bag", "4.9210"),
        ("water 5.3 quarts a bag", "5.0157"),
    ):
        assert Site(*LEVEL, line).job.setting(MixWaterSet) == MixWaterSet(Decimal(litres))
    poured = Site(*LEVEL, "batch 3 bags 5.2 litres a bag").job.pour.batches[-1]
    assert (poured.bags, poured.water_l) == (3, Decimal("5.2"))
    poured = Site(*LEVEL, "batch 1.3 gallons a bag").job.pour.batches[-1]
    assert (poured.bags, poured.water_l) == (2, Decimal("4.9210"))


def test_water_is_told_in_the_units_of_the_job() -> None:
    """The card's 4.75 to 5.25 L are 5.02 to 5.55 US quarts, 6 of which are 5.68 L."""
    inch = ("readings in inches", *LEVEL)
    said = Site(*inch).refused("water 6 quarts a bag")
    assert said.startswith("6 US qt a bag is over the card's 5.02 to 5.55 US qt (")
    assert "water 5.3 quarts a bag" in said
    floor = Site(*inch, "start pour anyway because this is a test")
    (warning,) = floor.told("batch 1.5 gallons a bag").warnings
    assert "6 US qt a bag is over the card's 5.02 to 5.55 US qt: too much" in warning.message
    assert "Water 5.3 US qt a bag" in Site(*inch).told("water 5.3 quarts a bag").headline
    (warning,) = Site(*LEVEL).told("batch 6 litres a bag").warnings
    assert "6 L a bag is over the card's 4.75 to 5.25 L: too much" in warning.message


def test_one_figure_of_water_is_held_against_every_card_that_is_poured() -> None:
    """Example standard takes 4.75 to 5.25 L a bag, example deep fill 4.5 to 5 L."""
    plain = Site(*LEVEL).job
    both = Site(*LEVEL, "zone kitchen columns A to C", "product in kitchen example deep fill").job
    for litres, of_one, of_both in (
        ("4.75", True, True), ("5.25", True, True), ("4.74", False, True), ("5.26", False, False),
        ("4.5", False, True), ("4.49", False, False), ("5", True, True),
    ):  # fmt: skip
        command = SetMixWater(litres=Decimal(litres))
        assert taken(set_mix_water, command, plain) is of_one, litres
        assert taken(set_mix_water, command, both) is of_both, litres
    assert "is over the card's" in Site(*LEVEL).refused("water 6 litres a bag")
    assert "is under the card's" in Site(*LEVEL).refused("water 4 litres a bag")
    assert taken(set_mix_water, SetMixWater(litres=Decimal(1)))  # no card, no limit


def test_a_flow_spreads_3_to_60_centimetres() -> None:
    for mm, is_taken in ((30, True), (29, False), (600, True), (601, False)):
        spread = Measure(Decimal(mm), "mm")
        assert taken(tell_flow, TellFlow(spread)) is is_taken, mm


def test_a_batch_has_twenty_bags_at_most() -> None:
    floor = pouring("batch 20 bags")
    assert floor.job.pour.batches[-1].bags == 20
    assert "at most 20 bags, not 21" in pouring().refused("batch 21 bags")


def test_a_batch_told_within_a_quarter_of_a_minute_is_asked_about() -> None:
    assert SAME_BATCH.total_seconds() == 15
    floor = pouring()
    floor.at_once("batch")  # the first never
    for seconds, asks in ((0, True), (1, True), (14, True), (15, False), (60, False)):
        again = Site()
        again.job, again.now = floor.job, floor.now
        again.wait(seconds / 60)
        if asks:
            told = "1 second" if seconds == 1 else f"{seconds} seconds"
            assert f"Another batch, {told} after the last?" in again.asked("batch").text
        else:
            again.at_once("batch")


def test_how_large_a_batch_is_that_nobody_said() -> None:
    bare = LEVEL[:9]
    for lines, bags in (
        (("batches of 3 bags",), 3), (("batches of 3 bags", "pump 60 bags per hour"), 1),
        (("pump 60 bags per hour", "batches of 3 bags"), 3), (("batch 4 bags",), 4),
        (("batches of 3 bags", "batch 4 bags"), 3),
    ):  # fmt: skip
        floor = Site(*bare, *lines)
        floor.wait(5)
        floor.told("batch")
        assert floor.job.history[-1].events == (BatchPoured(bags, None),), lines
    assert "How many bags were in it?" in Site(*bare).refused("batch")


def test_a_start_says_why_only_where_something_stands_against_it() -> None:
    floor = Site(*LEVEL)
    floor.told("start pour")
    assert floor.job.pour.started is None  # the answer says what stands against it
    floor.told(START)
    (begun,) = floor.job.history[-1].events
    assert isinstance(begun, PourStarted)
    assert begun.against
    assert begun.words == "this is a test"
    floor.told("batch")
    assert "The pour has begun" in floor.refused(START)
    assert "The pour has not begun" in Site(*LEVEL).refused("front at 3 metres")
    assert "finished on record" in Site(*LEVEL, "pour finished").refused(START)


def test_a_front_lies_on_the_floor_and_five_centimetres_beyond() -> None:
    """The floor is 12 m long that way."""
    for metres, is_taken in ((12, True), (12.05, True), (12.06, False), (0.5, True)):
        floor = pouring("batch 20 bags", "batch 20 bags", "batch 20 bags")
        if is_taken:
            floor.told(f"front at {metres} metres")
        else:
            assert "is 12 m long that way" in floor.refused(f"front at {metres} metres")


def test_a_front_from_the_far_side_lies_on_the_floor_too() -> None:
    floor = pouring("start at column F", "batch 20 bags", "front at 11 metres")
    assert "is 12 m long that way" in floor.refused("front at 12.1 metres")


def test_a_front_lies_farther_than_the_last() -> None:
    floor = pouring("batch 20 bags", "front at 3 metres")
    for metres, is_taken in ((3, False), (2.9, False), (3.001, True)):
        if is_taken:
            floor.told(f"front at {metres} metres")
        else:
            assert "was at 3 m already" in floor.refused(f"front at {metres} metres")
    # without a plan by what was reported in metres
    bare = Site("batch 2 bags", "front at 3 metres", "front at 5 metres")
    for metres, is_taken in ((5, False), (4, False), (5.001, True)):
        if is_taken:
            bare.told(f"front at {metres} metres")
        else:
            assert "was at 5 m already" in bare.refused(f"front at {metres} metres")


def test_fronts_told_otherwise_stand_in_no_ones_way_where_the_plan_is_gone() -> None:
    floor = pouring("batch 20 bags", "strip 1 done", "batch 20 bags", "front at column D")
    bare = replace(floor.job, card=None)
    _check_past_the_last(bare, 0.5)
    metres = pouring("batch 20 bags", "front at 3 metres", "batch 20 bags", "front at column D")
    for at_m, is_taken in ((3.1, True), (3.0, False)):
        if is_taken:
            _check_past_the_last(metres.job, at_m)
        else:
            with pytest.raises(Refusal, match="was at 3 m already"):
                _check_past_the_last(metres.job, at_m)


def test_strips_are_told_done_once_and_in_their_order() -> None:
    """Four strips of 3 m."""
    floor = pouring("batch 20 bags", "batch 20 bags")
    assert "4 strips, not 5" in floor.refused("strip 5 done")
    floor.told("strip 2 done")
    assert floor.job.history[-1].events == (StripPoured(2, 6.0),)
    for strip in (1, 2):
        assert f"Strip {strip} is done on record" in floor.refused(f"strip {strip} done")
    floor.told("strip 4 done")
    assert "Strip 3 is done" in floor.refused("strip 3 done")
    behind = pouring("batch 20 bags", "batch 20 bags", "front at 6 metres")
    assert "was at 6 m already" in behind.refused("strip 2 done")
    behind.told("strip 3 done")


def test_a_stop_ends_the_mix_that_runs() -> None:
    running = pouring("batch", "water in")
    assert [each.clock for each in running.job.site.clocks] == ["mix"]
    running.told("stop pour because rain")
    assert running.job.history[-1].events == (PourStopped("rain"), ClockEnded("mix"))
    other = pouring("batch", "primer on floor", "stop pour")
    assert other.job.history[-1].events == (PourStopped(None),)  # that clock is none of the mix
    stopped = pouring("batch", "stop pour")
    assert stopped.job.history[-1].events == (PourStopped(None),)
    assert "stands still already" in stopped.refused("stop pour")
    assert "does not stand still" in pouring("batch").refused("pour on")
    stopped.told("pour on", "stop pour")


def test_a_reason_has_three_hundred_characters_at_most() -> None:
    assert reason_said("x" * 300) == "x" * 300
    with pytest.raises(Refusal, match="at most 300 characters"):
        reason_said("x" * 301)
    assert reason_said("  too \n wet ") == "too wet"
    assert reason_said(" ") is reason_said(None) is reason_said("") is None


def test_every_height_but_level_has_a_side() -> None:
    for number, said, lacks in (("1", False, True), ("1", True, False), ("0", False, False),
                                ("-3", False, True), ("0.5", False, True)):  # fmt: skip
        assert lacks_side(Reading(Decimal(number), "mm", said)) is lacks, number


def test_a_length_is_more_than_nothing_and_a_kilometre_at_most() -> None:
    for number, unit, is_taken in (
        ("0", "mm", False), ("0.1", "mm", True), ("-1", "m", False), ("1000", "m", True),
        ("1000001", "mm", False), ("1000000", "mm", True),
    ):  # fmt: skip
        said = Measure(Decimal(number), unit)
        if is_taken:
            assert length_of(said, "A side") is said
        else:
            with pytest.raises(Refusal):
                length_of(said, "A side")


def test_a_hole_is_asked_after_with_the_bags_it_took() -> None:
    """Eighteen bags to 3 m, where 10.08 are planned."""
    floor = pouring()
    assert asks_after_front(floor.job) is None
    batches(floor, 9)
    assert asks_after_front(floor.job) is None
    floor.told("front at 3 metres")
    question = asks_after_front(floor.job)
    assert question is not None
    assert question.text.startswith("That part took 7.9 bags more than planned.")
    even = pouring()
    batches(even, 5)
    even.told("front at 3 metres")
    assert asks_after_front(even.job) is None
