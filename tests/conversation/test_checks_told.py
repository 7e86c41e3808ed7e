"""What a look at the zero does to readings is said, and so is its taking that back."""

from __future__ import annotations

from collections.abc import Callable

from assistant.conversation.conversation import Conversation
from assistant.floor.heights import heights_of
from assistant.reply.replies import Turn

Say = Callable[..., Turn]


def test_readings_that_a_check_changed_are_named_when_the_next_one_leaves_them(
    say: Say, talk: Conversation
) -> None:
    """Once they went back by 3 mm, and the check was only "within what is usual"."""
    told = say("check zero level", "A1 -11", "-12", "-13", "check zero plus 3").reply.details
    assert any(line.startswith("A1, B1 and C1 changed by ") for line in told)
    changed = dict(heights_of(talk.job))

    told = say("check zero plus 2").reply.details
    assert dict(heights_of(talk.job)) != changed
    assert any(line.startswith("A1, B1 and C1 no longer changed: ") for line in told)


def test_what_was_never_changed_is_not_named(say: Say) -> None:
    told = say("check zero level", "A1 -11", "-12", "check zero plus 1", "check zero level")
    assert not any("changed" in line for line in told.reply.details)
