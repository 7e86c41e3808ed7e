"""A pour as it is talked through: questions, clocks, a restart, midnight, a clock that jumps."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest

from assistant.reply.replies import Turn
from tests.site.conftest import Morning

LEVEL = (
    "room 12 by 8 metres", "grid 2 metres", "product example standard",
    "A1 -6", "F1 -6", "A4 -6", "F4 -6", "C2 -6", "D3 -6",
    "crew 3", "mixers 2", "batches of 2 bags", "minutes per batch 6", "start at column A",
    "start pour anyway because this is a test",
)  # fmt: skip
"""40.32 bags, 40 an hour, four strips of 10.08; an edge keeps 17 minutes."""


def pouring(*lines: str) -> Morning:
    return Morning(*LEVEL, *lines)


def batches(day: Morning, count: int, minutes: float = 3) -> Turn:
    for _ in range(count):
        day.later(minutes=minutes)
        turn = day.talk.hear("batch")
    return turn


def said(day: Morning, line: str) -> Turn:
    return day.talk.hear(line)


def bags(turn: Turn) -> Any:
    return turn.reply.data["pour"]["bags_used"]


def holed() -> tuple[Morning, Turn]:
    day = pouring()
    batches(day, 5)
    assert said(day, "strip 1 done").reply.ask is None
    batches(day, 7)
    return day, said(day, "strip 2 done")


@pytest.mark.parametrize(
    ("answer", "lost"),
    [("yes", True), ("confirm", True), ("hole", True), ("no", False), ("no hole", False)],
)
def test_a_hole_is_asked_about_and_any_way_to_answer_will_do(answer: str, lost: bool) -> None:
    day, turn = holed()
    assert turn.reply.ask is not None
    assert "Did it go down a hole?" in turn.reply.ask
    told = said(day, answer)
    assert told.recorded == ("hole-told",)
    assert told.reply.data["hole"] is lost
    assert told.reply.ask is None


def test_the_question_is_put_aside_by_cancel_and_lapses_without_a_word() -> None:
    day, _ = holed()
    assert said(day, "cancel that").recorded == ()
    assert day.talk.job.pour.fronts[-1].lost is None
    day, _ = holed()
    turn = batches(day, 1)
    assert turn.recorded == ("batch-poured",)
    assert "lapsed" not in turn.reply.say
    assert said(day, "no hole").recorded == ("hole-told",)


def test_a_batch_heard_twice_is_asked_about() -> None:
    day = pouring()
    batches(day, 1)
    day.later(minutes=0.1)
    turn = said(day, "batch")
    assert turn.recorded == ()
    assert turn.reply.ask == "Another batch, 6 seconds after the last? Confirm, or cancel that."
    assert said(day, "cancel that").recorded == ()
    assert bags(batches(day, 1)) == 4
    day.later(minutes=0.1)
    said(day, "batch")
    assert said(day, "yes").recorded == ("batch-poured",)
    assert day.talk.job.pour.bags_used == 6


def test_an_undone_batch_was_never_poured() -> None:
    day = pouring()
    batches(day, 2)
    said(day, "take that back")
    assert bags(batches(day, 1)) == 4
    assert len(day.talk.job.pour.batches) == 2


def test_the_edge_speaks_up_by_itself_when_two_minutes_are_left() -> None:
    day = pouring()
    batches(day, 5)
    assert not day.talk.rings
    day.later(minutes=2.9)
    assert not day.talk.rings
    # laid at 3 minutes, kept 17; now 15 have gone since
    day.later(minutes=0.2)
    assert day.talk.rings
    rung = day.talk.rung()
    assert rung is not None
    assert rung.say == "Edge, two minutes left."
    assert day.talk.rung() is None
    day.later(minutes=2)
    over = day.talk.rung()
    assert over is not None
    assert over.say == "Edge, time over."


def test_an_edge_that_the_batch_met_is_warned_of_no_more() -> None:
    day = pouring()
    batches(day, 5)
    day.later(minutes=3.05)
    turn = said(day, "batch")
    assert "rung" not in turn.reply.data
    assert turn.reply.data["pour"]["wet_edge_min"] > 2


def test_a_mix_in_the_barrel_ends_when_it_is_poured() -> None:
    day = pouring()
    day.later(minutes=3)
    said(day, "water in")
    day.later(minutes=1)
    said(day, "water in")
    day.later(minutes=2)
    said(day, "batch")
    running = [each for each in day.talk.job.site.clocks if each.ended is None]
    assert [each.clock for each in running] == ["mix"]
    assert running[0].time == day.time - timedelta(minutes=2)
    # the one that nobody pours goes over its working time, 20 minutes, and says so
    day.later(minutes=18.5)
    rung = day.talk.rung()
    assert rung is not None
    assert "The working time of that mix is over" in rung.say


def test_a_restart_in_the_middle_comes_back_to_the_same_minute() -> None:
    day = pouring()
    batches(day, 5)
    said(day, "strip 1 done")
    batches(day, 2)
    before = said(day, "how goes the pour").reply
    job = day.talk.job
    day.reopen()
    assert day.talk.job == job
    rung = day.talk.rung()
    assert rung is not None
    assert "pouring strip 2, 14 bags poured" in rung.headline
    after = said(day, "how goes the pour").reply
    assert after.data["pour"] == before.data["pour"]
    assert after.headline == before.headline


def test_over_midnight_the_clocks_go_on() -> None:
    day = pouring()
    day.later(minutes=17 * 60 - 10)  # 23:50
    first = batches(day, 1)
    assert first.reply.data["pour"]["wet_edge_min"] == pytest.approx(17)
    turn = batches(day, 4)
    assert day.time.hour == 0
    assert turn.reply.data["pour"]["wet_edge_min"] == pytest.approx(5)


def test_an_hours_pause_makes_nobody_late_and_is_no_rate() -> None:
    day = pouring()
    batches(day, 3)
    said(day, "stop pour because lunch")
    day.later(minutes=60)
    assert day.talk.rung() is None
    said(day, "pour on")
    assert "on time" in batches(day, 1).reply.headline


def test_a_clock_that_jumps_back_loses_no_batch() -> None:
    day = pouring()
    batches(day, 3)
    day.later(minutes=-45)
    turn = said(day, "batch")
    # asked about, as the clock cannot say how long ago the last one was
    if turn.reply.ask is not None:
        turn = said(day, "confirm")
    assert day.talk.job.pour.bags_used == 8
    assert turn.reply.data["pour"]["wet_edge_min"] <= 17
    day.later(minutes=3)
    assert bags(batches(day, 1)) == 10


def test_the_same_day_played_again_gives_the_same_replies() -> None:
    def played() -> list[str]:
        day = pouring()
        turns = [batches(day, 5), said(day, "strip 1 done"), batches(day, 7)]
        turns += [said(day, line) for line in ("strip 2 done", "no", "bags left 20", "short")]
        return [f"{turn.reply.headline} {turn.reply.say} {turn.reply.data}" for turn in turns]

    assert played() == played()


def test_no_question_of_the_pour_swallows_another_line() -> None:
    day, _ = holed()
    turn = said(day, "clocks")
    assert turn.reply.headline == "No clock was started: hose on floor, primer on floor, water in."
    assert turn.reply.ask is not None
    batches(day, 1)
    assert said(day, "yes").recorded == ()


def test_a_mix_that_has_to_slake_says_when_it_stands_and_when_it_is_stirred() -> None:
    """Example deep fill: mixed 3 minutes, stands 2, 25 in all."""
    day = pouring("product example deep fill")
    turn = said(day, "water in")
    assert "Mix it 3 minutes, let it stand 2 minutes" in " ".join(turn.reply.details)
    told = []
    for minutes in (2.9, 0.2, 1.8, 0.2):
        day.later(minutes=minutes)
        rung = day.talk.rung()
        told.append(rung.say if rung else None)
    assert told == [None, "Mixed, let it stand.", None, "Slaked, stir it."]


def test_the_clock_tells_of_covering_and_heating_when_their_time_has_come() -> None:
    day = pouring()
    batches(day, 1)
    said(day, "pour finished")
    told = []
    for hours in (4.1, 20, 144):
        day.later(minutes=60 * hours)
        rung = day.talk.rung()
        assert rung is not None, hours
        told.append(" ".join([rung.headline, *rung.details]))
    assert "time to foot traffic" in told[0]
    assert "until it may be covered" in told[1]
    assert "heating in the floor may be warmed up" in told[2]
