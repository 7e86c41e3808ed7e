"""Typed lines from a file or a pipe, one utterance a line."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
from typing import Protocol

from assistant.command_line.played_clock import split_time
from assistant.conversation.lines import LEAVE, remark_in, utterance_in
from assistant.errors import Refusal
from assistant.reply.replies import Reply, Turn


class Hears(Protocol):
    """Takes the lines that are played."""

    def hear(self, text: str) -> Turn:
        """One utterance in, what came of it out."""


class SetsTime(Protocol):
    """The clock that lines can set."""

    def set(self, told: str, *, meant: bool = False) -> bool:
        """Set it to a time, or refuse; returns whether that is ahead of now on purpose."""


MEANT = "confirm"
"""Stands after a time, in place of words: it is ahead of the machine's clock on purpose."""

Shows = Callable[[int, Turn], None]
"""Takes a line's number and what came of it; called after its events are on disk."""


def play(
    lines: Iterable[str],
    conversation: Hears,
    show: Shows,
    remark: Callable[[str], None] = lambda _: None,
    clock: SetsTime | None = None,
    first: str = "",
    left: Callable[[str], None] = lambda _: None,
) -> bool:
    """
    Say every line to the conversation; True where all were taken, and no question passed over.

    Lines that are all comment are handed to `remark`, to be shown between the others.
    A time at the start of a line sets the `clock`, where there is one. `first` is said
    before the first line, at that line's time. `left` is called where a line ends the playing.
    """
    all_ok = True
    for number, line in enumerate(lines, start=1):
        text = utterance_in(line)
        if not text:
            if told := remark_in(line):
                remark(told)
            continue
        if text.casefold() in LEAVE:
            left(f"left at line {number}; nothing after it is heard.")
            break
        words, refused = _at_its_time(text, clock)
        if first and refused is None:
            show(0, conversation.hear(first))
            first = ""
        turn = refused
        if turn is None and words:
            # Shown with its time, as it stands in the file.
            turn = replace(conversation.hear(words), text=text)
        if turn is not None:
            show(number, turn)
            all_ok = all_ok and turn.ok and turn.lapsed is None
    if first:
        show(0, conversation.hear(first))
    return all_ok


def _at_its_time(text: str, clock: SetsTime | None) -> tuple[str, Turn | None]:
    """Set a line's time; returns its words, and a refusing turn where the time can't be set."""
    time, words = split_time(text) if clock is not None else ("", text)
    if clock is None or not time:
        return text, None
    try:
        is_ahead = clock.set(time, meant=words.lower() == MEANT)
    except Refusal as refusal:
        reply = Reply(str(refusal), data={"refused": str(refusal)})
        return "", Turn(text, False, None, None, (), reply)
    if is_ahead:
        reply = Reply(f"It is {time} by your word, ahead of this machine's clock.")
        return "", Turn(text, True, None, None, (), reply)
    return words, None
