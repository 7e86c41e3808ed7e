"""Answers to words about the talk itself, without a conversation.

A conversation knows the waiting question and the last reply, and answers these
itself; the answers here are for where there is neither.
"""

from __future__ import annotations

from assistant.answers.parts import Answerer, Moment
from assistant.reply.replies import Reply
from grammar.commands import Command
from grammar.commands.talk import (
    AdjustVoice,
    CancelThat,
    ChooseSide,
    ChooseUnit,
    Confirm,
    SayAgain,
    SayInstead,
    SetEarsClosed,
    SetEarsOpen,
)


def nothing_waits(_moment: Moment, _command: Command) -> Reply:
    return Reply("No question is waiting for an answer.")


def nothing_said(_moment: Moment, _command: SayAgain) -> Reply:
    return Reply("Nothing has been said yet.")


def no_ears(_moment: Moment, _command: SetEarsOpen | SetEarsClosed) -> Reply:
    """The answer without a recogniser; a spoken chat answers this itself."""
    return Reply("Nothing is listening here. For a chat with ears: leadsman listen")


_ADJUSTED = {
    "shorter": "Replies aloud are shorter from now on",
    "longer": "Replies aloud are longer from now on",
    "slower": "The voice is slower from now on",
    "faster": "The voice is faster from now on",
    "softer": "The voice is softer from now on",
    "louder": "The voice is louder from now on",
    "quiet": "Nothing is said aloud now but what stops the work; speak ends that",
    "speak": "Replies are said aloud again, where there is a voice (leadsman listen)",
}


def voice_adjusted(_moment: Moment, command: AdjustVoice) -> Reply:
    """What is kept of it, a conversation keeps."""
    spoken = {"speak": "speaking", "quiet": "quiet"}.get(command.word, command.word)
    return Reply(f"{_ADJUSTED[command.word]}.", spoken, data={"voice": command.word})


ANSWERS: dict[type[Command], Answerer] = {
    ChooseSide: nothing_waits,
    ChooseUnit: nothing_waits,
    Confirm: nothing_waits,
    CancelThat: nothing_waits,
    SayInstead: nothing_waits,
    SayAgain: nothing_said,
    SetEarsOpen: no_ears,
    SetEarsClosed: no_ears,
    AdjustVoice: voice_adjusted,
}
