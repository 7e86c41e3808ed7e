"""What is on record: a point's readings, the last ones, what changed, and the record itself."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime, time, timedelta
from pathlib import Path

import pytest

from assistant.conversation.conversation import Conversation
from assistant.record.journal import Journal
from assistant.reply.replies import Reply
from assistant.reply.speaking_time import PIECE_S, speaking_seconds
from grammar import Misunderstood, short_form, understand
from grammar.commands.record import AskChanges
from tests.job.conftest import WORLD

NINE = datetime(2026, 5, 4, 9, 0, tzinfo=UTC)


class Day:
    """A conversation whose lines have their times."""

    def __init__(self, *lines: str, journal: Journal | None = None) -> None:
        self.now = NINE
        self.talk = Conversation(journal or Journal.open(None), WORLD, clock=lambda: self.now)
        self.say(*lines)

    def say(self, *lines: str) -> Reply:
        """A minute apart each; the last reply."""
        turns = []
        for line in lines:
            turns.append(self.talk.hear(line))
            self.now += timedelta(minutes=1)
        self.taken = turns[-1].ok if turns else True
        return turns[-1].reply if turns else Reply("")


FLOOR = ("room 8 by 6 metres", "grid 2 metres", "A1 -18", "minus 16")


def test_a_reading_is_told_with_its_time_and_what_it_was_before() -> None:
    day = Day(*FLOOR, "correct B1 to minus 17", "note at B1 crack", "B1 -19")
    told = day.say("what was B1")
    assert told.headline == "B1 19 mm below, read at 09:06."
    assert told.details == (
        "Before that, 09:04: put right to 17 mm below.",
        "Before that, 09:03: 16 mm below.",
        "Noted 09:05 at B1 “crack”",
    )
    assert told.say == "Bravo one, one nine millimetres below. At nine zero six."
    assert told.data["answer"] == {"id": "reading", "value": -19.0, "unit": "mm"}
    assert [each["what"] for each in told.data["earlier"]] == ["read", "put right"]


@pytest.mark.parametrize(
    "line",
    [
        "what was b one", "so what was the reading at B1 then", "what did I read at B1",
        "when did I read B1", "read me B1", "history of B1", "what changed at B1", "B1?",
    ],
)  # fmt: skip
def test_it_is_asked_for_in_many_ways(line: str) -> None:
    told = Day(*FLOOR).say(line)
    assert told.data["answer"] == {"id": "reading", "value": -16.0, "unit": "mm"}, told.headline


def test_what_was_undone_is_no_earlier_reading() -> None:
    day = Day(*FLOOR, "B1 -19", "undo")
    told = day.say("what was B1")
    assert told.headline == "B1 16 mm below, read at 09:03."
    assert told.details == ()


def test_a_struck_reading_is_told_as_what_it_was() -> None:
    told = Day(*FLOOR, "strike B1").say("what was B1")
    assert told.headline == "B1 has no reading now; it was 16 mm below till 09:04."
    assert told.data["answer"]["value"] is None


def test_the_set_up_is_named_once_there_are_several() -> None:
    day = Day(*FLOOR, "new set up", "tie on A1 minus 20", "B1 -21", "C1 -22")
    told = day.say("what was B1")
    assert told.headline == "B1 21 mm below, read at 09:06 from set-up 2."
    assert told.details == ("Before that, 09:03: 16 mm below, set-up 1.",)


def test_of_the_finished_floor_it_tells_both() -> None:
    day = Day(*FLOOR, "pour finished", "A1 -1")
    told = day.say("what was A1")
    assert told.headline == "A1 1 mm below, read at 09:05."
    assert told.details == ("Before the pour: 18 mm below.",)
    assert day.say("what was B1").headline.endswith("before it: 16 mm below.")


@pytest.mark.parametrize(
    ("lines", "why"),
    [
        (("what was C1",), "not read yet"),
        (("what was Z9",), "no point Z9"),
        (("skip C1 because a pallet stands there", "what was C1"), "a pallet stands there"),
    ],
)
def test_nothing_read_is_told_with_its_reason(lines: Sequence[str], why: str) -> None:
    day = Day(*FLOOR, *lines[:-1])
    assert why in day.say(lines[-1]).headline
    assert not day.taken


def test_the_last_readings_are_those_that_count() -> None:
    day = Day(*FLOOR, "C1 -15", "strike C1")
    told = day.say("last reading")
    assert told.headline == "B1 16 mm below, read at 09:03."
    assert told.data["answer"] == {"id": "reading", "value": -16.0, "unit": "mm"}
    (table,) = day.say("last 5 readings").tables
    assert [row[:2] for row in table.rows] == [("B1", "16 mm below"), ("A1", "18 mm below")]
    assert not Day("last reading").taken


def test_many_last_readings_are_said_in_pieces() -> None:
    lines = [f"{column}{row} -{10 + row}" for row in (1, 2, 3) for column in "ABCD"]
    told = Day(*FLOOR[:2], *lines).say("last 12 readings")
    assert len(told.tables[0].rows) == 12
    assert speaking_seconds(told.say) <= PIECE_S


def test_changes_are_told_newest_first_with_what_was_undone() -> None:
    day = Day(*FLOOR, "C1 -15", "undo")
    told = day.say("changes")
    (table,) = told.tables
    assert [row[1:] for row in table.rows] == [
        ("undo", ""),
        ("C1 15 mm below", "undone"),
        ("B1 16 mm below", ""),
        ("A1 18 mm below", ""),
        ("grid 2 metres", ""),
        ("room 8 by 6 metres", ""),
    ]
    assert told.data["answer"] == {"id": "changes", "value": 6, "unit": "changes"}
    two = day.say("last 2 changes")
    assert len(two.tables[0].rows) == 2
    assert two.details == ("4 changes before these: last 6 changes.",)


@pytest.mark.parametrize(
    ("line", "count"),
    [
        ("changes since 9:02", 2),
        ("changes since 9.03", 1),
        ("what changed since nine", 4),
        ("changes since 0900", 4),
        ("what did I change since 9 am", 4),
        ("changes since 11:00", 4),  # yesterday's
    ],
)
def test_changes_since_a_time(line: str, count: int) -> None:
    told = Day(*FLOOR).say(line)
    assert told.data["answer"]["value"] == count, told.headline


def test_in_the_afternoon_two_is_two_in_the_afternoon() -> None:
    day = Day(*FLOOR)
    day.now = NINE.replace(hour=14, minute=10)
    day.say("C1 -15")
    day.now = NINE.replace(hour=15)
    assert day.say("changes since 2").headline == "1 change since 14:00, the newest first."
    day.now = NINE.replace(hour=13)
    assert day.say("changes since 2 am").data["answer"]["value"] >= 4


def test_a_time_that_is_none_is_refused() -> None:
    assert understand("changes since 2:30 pm") == (AskChanges(since=time(14, 30)),)
    assert short_form(AskChanges(since=time(9, 5))) == "changes since 09:05"
    for line in ("changes since 25:00", "changes since 10:75", "changes since 14:00 pm"):
        with pytest.raises(Misunderstood) as refused:
            understand(line)
        assert "a time of day is like 10:30" in refused.value.explain(), line


def test_the_record_tells_its_file_and_what_waits(tmp_path: Path) -> None:
    path = tmp_path / "floor.leadsman"
    with Journal.open(path) as journal:
        day = Day(journal=journal)
        assert day.say("record").headline == "Nothing is on record yet."
        day.say(*FLOOR, "undo", "C1 18")
        told = day.say("is it saved")
        assert told.headline == "5 entries since 09:01, all on disk."
        assert told.details == (
            f"In {path}",
            "The last, 09:05: undo.",
            "Waits for an answer: C1, 18 mm: below or above?",
            "1 of them undone.",
        )
        assert told.data["record"]["file"] == str(path)
        assert told.data["answer"] == {"id": "entries", "value": 5, "unit": "entries"}
        assert "A question waits." in told.say
        day.say("below")
        assert "Nothing waits." in day.say("what is on record").say


def test_a_thousand_entries_are_not_all_listed() -> None:
    day = Day(*FLOOR)
    for number in range(300):
        day.say(f"note {number}")
    assert len(day.say("changes").tables[0].rows) == 10
    told = day.say("changes since 9:00")
    assert len(told.tables[0].rows) == 200
    assert told.headline.startswith("304 changes since 09:00")
