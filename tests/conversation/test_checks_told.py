"""What a look at the zero does to readings is said, and so is its taking that back."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime, timedelta

from assistant.conversation.conversation import Conversation
from assistant.decide import World
from assistant.floor.heights import heights_of
from assistant.record.journal import Journal
from assistant.reply.replies import Turn

Say = Callable[..., Turn]


def test_readings_that_a_check_changed_are_named_when_the_next_one_leaves_them(
    journal: Journal, world: World
) -> None:
    """Once they went back by 3 mm, and the check was only "within what is usual"."""
    now = datetime(2026, 5, 4, 8, tzinfo=UTC)
    talk = Conversation(journal, world, clock=lambda: now)
    floor = ("room 8 by 6 metres", "grid 2 metres")
    for line in (*floor, "check zero level", "A1 -11", "-12", "-13", "check zero plus 3"):
        now += timedelta(minutes=1)
        told = talk.hear(line).reply.details
    assert any(line.startswith("A1, B1 and C1 changed by ") for line in told)
    changed = dict(heights_of(talk.job))

    now += timedelta(minutes=20)
    told = talk.hear("check zero plus 2").reply.details
    assert dict(heights_of(talk.job)) != changed
    assert any(line.startswith("A1, B1 and C1 no longer changed: ") for line in told)


def test_what_was_never_changed_is_not_named(say: Say) -> None:
    told = say("check zero level", "A1 -11", "-12", "check zero plus 1", "check zero level")
    assert not any("changed" in line for line in told.reply.details)
