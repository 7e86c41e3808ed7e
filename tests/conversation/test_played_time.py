"""Lines with times: clocks run by them, wherever and whenever they are played."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta, timezone

import pytest

from assistant.command_line.played_clock import PlayedClock, split_time
from assistant.command_line.playing import play
from assistant.conversation.conversation import Conversation
from assistant.decide import World
from assistant.errors import Refusal
from assistant.record.journal import Journal
from assistant.reply.replies import Turn

DAY = date(2026, 5, 4)
NOON = datetime(2026, 5, 4, 12, 0, tzinfo=UTC)


@pytest.mark.parametrize(
    ("line", "time", "words"),
    [
        ("@09:30 air 21 degrees", "09:30", "air 21 degrees"),
        ("@9:30   tally", "9:30", "tally"),
        ("@2026-05-04 09:30 B3 -18", "2026-05-04 09:30", "B3 -18"),
        ("@09:30", "09:30", ""),
        ("@2026-05-04", "2026-05-04", ""),
        ("@ tally", "@", "tally"),
        ("tally", "", "tally"),
        ("B3 @09:30", "", "B3 @09:30"),
    ],
)
def test_a_line_and_its_time(line: str, time: str, words: str) -> None:
    assert split_time(line) == (time, words)


def clock() -> PlayedClock:
    return PlayedClock(DAY, lambda: NOON, UTC)


def test_until_a_time_is_told_the_machine_s_counts() -> None:
    played = clock()
    assert played() == NOON
    played.set("09:30")
    assert played() == datetime(2026, 5, 4, 9, 30, tzinfo=UTC)


def test_a_day_goes_on_until_another_is_told() -> None:
    played = clock()
    for told, then in [
        ("2026-05-05 09:30", datetime(2026, 5, 5, 9, 30, tzinfo=UTC)),
        ("09:30", datetime(2026, 5, 5, 9, 30, tzinfo=UTC)),
        ("23:59", datetime(2026, 5, 5, 23, 59, tzinfo=UTC)),
        ("2026-05-06 00:00", datetime(2026, 5, 6, tzinfo=UTC)),
    ]:
        played.set(told)
        assert played() == then


@pytest.mark.parametrize(
    "told", ["24:00", "09:60", "930", "@", "2026-05-04", "2026-02-30 09:30", "tomorrow", "-1:00"]
)
def test_no_time(told: str) -> None:
    played = clock()
    with pytest.raises(Refusal, match="@09:30"):
        played.set(told)
    assert played() == NOON


def test_backwards_is_refused_with_what_would_be_right() -> None:
    played = clock()
    played.set("09:30")
    with pytest.raises(Refusal, match=r"it was 2026-05-04 09:30 already.*From @09:30 on"):
        played.set("09:29")
    with pytest.raises(Refusal, match="backwards"):
        played.set("2026-05-03 23:00")
    assert played().hour == 9


def test_a_record_that_is_gone_on_with_is_not_gone_behind() -> None:
    played = clock()
    played.not_before = NOON + timedelta(seconds=20)
    with pytest.raises(Refusal, match="backwards"):
        played.set("11:59")
    played.set("12:00")  # the minute that it ended in


def test_the_zone_says_what_the_wall_clock_means() -> None:
    there = PlayedClock(DAY, lambda: NOON, timezone(timedelta(hours=-5)))
    there.set("09:30")
    assert there() == datetime(2026, 5, 4, 14, 30, tzinfo=UTC)


# --- played ------------------------------------------------------------------------


def played(*lines: str, first: str = "") -> list[tuple[int, Turn]]:
    """Lines played on a job of their own, each with its number."""
    shown: list[tuple[int, Turn]] = []
    with Journal.open(None) as journal:
        time = clock()
        talk = Conversation(journal, World({}), clock=time)
        play(lines, talk, lambda line, turn: shown.append((line, turn)), clock=time, first=first)
        times = [entry.time for entry in journal.entries()]
    assert times == sorted(times)
    return shown


def test_a_clock_rings_at_the_next_line() -> None:
    turns = played("@07:00 hose on floor", "clocks", "@07:20", "# nothing said", "A1 -18")
    assert [line for line, _ in turns] == [1, 2, 5]
    assert [len(turn.reply.data.get("rung", [])) for _, turn in turns] == [0, 0, 2]
    assert turns[0][1].text == "@07:00 hose on floor"


def test_a_line_at_no_time_is_not_heard() -> None:
    turns = played("@07:00 hose on floor", "@06:59 A1 -18", "@7 A2 -18", "A3 -18")
    assert [turn.ok for _, turn in turns] == [True, False, False, True]
    assert [turn.recorded for _, turn in turns][1:] == [(), (), ("reading-taken",)]
    assert "backwards" in turns[1][1].reply.data["refused"]


def test_what_is_said_first_is_said_at_the_first_line_s_time() -> None:
    turns = played("# a morning", "@07:00 floor is concrete", first="guide")
    assert [(line, turn.text) for line, turn in turns] == [
        (0, "guide"),
        (2, "@07:00 floor is concrete"),
    ]
    assert all(turn.ok for _, turn in turns)
    assert played(first="guide")[0][1].ok


# --- ahead of the machine --------------------------------------------------------------


def _kept() -> PlayedClock:
    """As lines are played on a job that may be kept: at noon by the machine."""
    time = clock()
    time.confirmed_to = NOON
    return time


def test_a_time_that_has_not_come_yet_is_a_slip_until_it_is_confirmed() -> None:
    time = _kept()
    time.set("2026-05-05 11:00")  # within a day
    with pytest.raises(Refusal, match=r"364 days ahead of this machine's clock.*own: "
                                      r"@2027-05-04 09:30 confirm"):  # fmt: skip
        time.set("2027-05-04 09:30")
    assert time().year == 2026
    assert time.set("2027-05-04 09:30", meant=True)
    assert not time.set("2027-05-05 09:00")  # and on from there
    with pytest.raises(Refusal, match="ahead"):
        time.set("2028-05-04 09:30")


def test_past_days_are_played_as_they_are() -> None:
    assert not _kept().set("2019-05-04 09:30")


def test_a_line_ahead_is_not_heard_and_the_next_goes_on_at_its_own_time() -> None:
    shown: list[Turn] = []
    with Journal.open(None) as journal:
        time = _kept()
        talk = Conversation(journal, World({}), clock=time)
        lines = ["@09:00 hose on floor", "@2027-05-04 09:05 A1 -18", "@09:06 B1 -17",
                 "@2027-05-04 09:05 confirm", "@09:07 C1 -17", "@09:08 confirm"]  # fmt: skip
        play(lines, talk, lambda _, turn: shown.append(turn), clock=time)
        years = [entry.time.year for entry in journal.entries()]
    assert [turn.ok for turn in shown] == [True, False, True, True, True, False]
    assert years == [2026, 2026, 2027]
    assert shown[3].reply.headline == "It is 2027-05-04 09:05 by your word, ahead of this " \
        "machine's clock."  # fmt: skip
    # otherwise the word is what it always is
    assert "No question is waiting" in shown[5].reply.headline


@pytest.mark.parametrize("year", ["0001", "0000", "1999", "2200", "9999"])
def test_a_year_that_no_floor_is_poured_in_is_refused_and_the_file_goes_on(year: str) -> None:
    turns = played(f"@{year}-12-31 23:59 A1 -18", "@07:00 A1 -18", "@07:01 tally")
    assert [turn.ok for _, turn in turns] == [False, True, True]
    assert turns[0][1].recorded == ()


def test_the_first_and_the_last_year_that_are_taken() -> None:
    played = clock()
    for told in ("2000-01-01 00:00", "2199-12-31 23:59"):
        played.set(told)
    with pytest.raises(Refusal, match="between 2000 and 2199"):
        played.set("2200-01-01 00:00")
