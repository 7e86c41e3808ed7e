"""What is said to a device whose line is not heard, and which lines hang on what it was shown."""

from __future__ import annotations

from collections.abc import Sequence

from assistant.conversation.lines import LEAVE, help_in_words
from assistant.reply.replies import Reply
from grammar import Misunderstood, understand
from grammar.commands import Ask, Command
from grammar.commands.readings import CorrectReading, TakeReading

OWN_MARK = "/"
"""Begins a line that is for the program and not for the job."""


def is_for_the_keyboard(text: str) -> bool:
    """Whether a line is about the program itself, as "quit" is."""
    return text.casefold() in LEAVE or text.startswith(OWN_MARK)


def hangs_on_what_is_shown(text: str) -> bool:
    """
    Whether a line may mean something else once others have spoken.

    A question does not, nor does a reading with its point; "confirm", "undo", "batch" or a value
    for the next point does.

    >>> [hangs_on_what_is_shown(line) for line in ("tally", "B3 -18", "-18", "undo", "confirm")]
    [False, False, True, True, True]
    """
    try:
        meanings = understand(help_in_words(text))
    except Misunderstood:
        return True  # a sentence that answers a question, perhaps
    return not all(map(_stands_alone, meanings))


def _stands_alone(command: Command) -> bool:
    if isinstance(command, TakeReading | CorrectReading):
        return command.point is not None
    return isinstance(command, Ask)


def left_to_the_keyboard() -> Reply:
    """Says that a line about the program itself is only taken at its keyboard."""
    return Reply("That is for the keyboard of the program. To leave, close this page.")


def files_are_for_the_keyboard() -> Reply:
    """A device asked for what becomes of files."""
    return Reply(
        "Files are written, renamed and put away from the keyboard of the program only; "
        "nothing was done."
    )


def other_meanwhile(others: Sequence[tuple[str, str]]) -> Reply:
    """
    Somebody else changed the job, or the question, before this line came.

    Without others the program itself was started again.
    """
    told = "; ".join(f"{who}: {text or 'a message'}" for who, text in others[-3:])
    why = f"Meanwhile {told}." if told else "The program was started again meanwhile."
    return Reply(
        f"{why} So this was not heard, nothing recorded. Send it again if it still holds.",
        "Something else was said meanwhile. Nothing recorded. Look, and send it again.",
    )


def on_record_already(events: Sequence[str]) -> Reply:
    """The line was recorded before, and its answer got lost."""
    return Reply(f"On record already: {'; '.join(events)}.", "On record already.")


def too_many(waiting: int) -> str:
    """Says that a device sends lines faster than they are answered."""
    return f"{waiting} lines of this device wait already; nothing recorded. Send it again."


def program_ended_reply() -> str:
    """Says that the program has ended and takes no more lines."""
    return "The program has ended; nothing recorded of this line."
