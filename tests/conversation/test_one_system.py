"""A reply keeps to one system of units: that of the job's readings."""

from __future__ import annotations

import re
from datetime import UTC, datetime

import pytest

from assistant.conversation.conversation import Conversation
from assistant.decide import World
from assistant.products.cards import cards_in, shipped_folder
from assistant.record.journal import Journal
from assistant.reply.replies import Reply
from grammar import PHRASES

JOBS = {
    "mm": (
        "room 8 by 6 metres",
        "grid 2 metres",
        *(f"minus {11 + 3 * n % 7}" for n in range(11)),
        "door 1 left minus 4 right minus 9 outside plus 2",
    ),
    "in": (
        "readings in inches",
        "room 26 by 20 feet",
        "grid 6 feet",
        *(f"minus {7 + 3 * n % 5}/16" for n in range(11)),
        "door 1 left -1/4 right -1/2 outside plus 1/8",
    ),
}
OTHERS = {
    # A slope of 1 in 48, or a risk of 1 in 20, is no inch.
    "mm": re.compile(
        r"\d (?:in(?! \d)|ft|ft²|ft³|lb|lb/ft²|US gal|inch(?:es)?|feet|pounds?|gallons?)\b"
    ),
    "in": re.compile(
        r"\d (?:mm|cm|m|m²|m³|L|kg|kg/m²|millimetres?|metres?|litres?|kilos?|kilograms?)(?![\w/])"
    ),
}
SAYS_A_UNIT = re.compile(
    r"\d ?(?:mm|cm|m|in|ft|\"|')(?!\w)|metre|inch|feet|foot|litre"
    r"|gallon|quart|drying|eighth|readings in"
)
"""What was said in a unit is shown in it; and rules of drying are for millimetres."""
STANDARD = ("moisture emission",)
"""Pounds a thousand square feet, wherever the floor is: the test's own unit."""


def told_in(reply: Reply) -> str:
    """All that is read and said of a reply, its cautions left out: they quote their sources."""
    rows = [" ".join(row) for table in reply.tables for row in table.rows]
    messages = [warning.message for warning in reply.warnings]
    return "\n".join([reply.first_line, reply.say, *reply.details, *messages, *rows])


@pytest.mark.parametrize("unit", JOBS)
def test_every_reply_keeps_to_the_job_s_system(unit: str, journal: Journal) -> None:
    conversation = Conversation(
        journal,
        World(cards_in(shipped_folder())),
        clock=lambda: datetime(2026, 5, 4, 9, 0, tzinfo=UTC),
    )

    def hear(line: str) -> Reply:
        turn = conversation.hear(line)
        if conversation.pending is not None:
            conversation.hear("cancel that")
        # What a refusal would have taken may be said in any unit.
        return turn.reply if turn.ok else Reply("")

    for line in (*JOBS[unit], "product example standard"):
        assert conversation.hear(line).ok, line
        if conversation.pending is not None:
            conversation.hear("confirm")
    mixed = {}
    for phrase in PHRASES:
        for example in phrase.examples:
            if SAYS_A_UNIT.search(example) or example.startswith(STANDARD):
                continue
            before = conversation.on_record
            if found := OTHERS[unit].search(told := told_in(hear(example))):
                mixed[example] = told[max(found.start() - 40, 0) : found.end() + 20]
            if conversation.on_record > before:
                conversation.hear("take that back")
    # The list of all that can be said has examples in every unit.
    assert set(mixed) <= {"help", "help doors"}, mixed


def test_a_room_and_a_grid_are_told_in_the_system_they_were_said_in(journal: Journal) -> None:
    # The job has said nothing of its readings yet, or reads in the other system.
    conversation = Conversation(journal, World(cards_in(shipped_folder())))
    walls = ("wall east 12 feet", "wall north 9 feet", "wall west 11 feet", "wall south 9 feet")
    imperial = ("room 20 by 16 feet", "grid 4 feet", "room 18 by 16 feet", *walls, "close room")
    for line in imperial:
        assert not OTHERS["in"].search(told := told_in(conversation.hear(line).reply)), told
    conversation.hear("readings in inches")
    for line in ("room 6 by 4 metres", "grid 1 metre", "room 5 by 4 metres"):
        assert not OTHERS["mm"].search(told := told_in(conversation.hear(line).reply)), told
