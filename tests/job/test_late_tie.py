"""Readings taken before their tie was made: held against the floor once the tie comes."""

from __future__ import annotations

from decimal import Decimal

from assistant.events.readings import ReadingTaken
from assistant.job import next_number, record
from grammar.commands import Measure
from tests.job.conftest import Site

FLOOR = ("room 12 by 8 metres", "grid 2 metres", "product example standard")
FIRST = [f"{column}{row} -{15 + (ord(column) + row) % 2}" for row in (1, 2) for column in "ABCDEF"]
THIRD = [f"{column}3 -{25 + ord(column) % 2}" for column in "ABDEF"]
"""From a second set-up that stands 10 mm higher."""


def test_what_does_not_fit_the_floor_is_named_once(site: type[Site]) -> None:
    floor = site(*FLOOR, *FIRST, "new set up", *THIRD, "C3 -52")
    floor.told("tie on A2 -26")
    assert floor.data["tie"]["look_at"] == ["C3"]
    assert "C3 is about 27 mm below what its neighbours say" in " ".join(floor.reply.details)
    assert "Look again at charlie three" in floor.reply.say
    floor.told("tie on B2 -25")
    assert floor.data["tie"]["look_at"] == []


def test_what_fits_is_not_spoken_of(site: type[Site]) -> None:
    floor = site(*FLOOR, *FIRST, "new set up", *THIRD, "C3 -26", "tie on A2 -26")
    assert floor.data["tie"]["look_at"] == []
    assert "Look again" not in floor.reply.say


def test_a_reading_from_before_that_is_wrong_is_no_matter_of_this_tie(site: type[Site]) -> None:
    floor = site(*FLOOR, *FIRST, "new set up", *THIRD)
    # as an older record has it: never asked about
    event = ReadingTaken("C4", Measure(Decimal(-60), "mm"))
    before = site(*FLOOR, *FIRST)
    before.job = record(before.job, next_number(before.job), "C4 -60", (event,))
    before.told("new set up", *THIRD, "tie on A2 -26")
    assert before.data["tie"]["look_at"] == []
    assert "C4" in before.told("survey check").headline
    floor.told("tie on A2 -26")
    assert floor.data["tie"]["look_at"] == []
