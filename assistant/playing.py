"""Typed lines from a file or a pipe, one utterance a line."""

from __future__ import annotations

import io
import re
from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from typing import BinaryIO, Protocol

from assistant.errors import Refusal
from assistant.played_clock import split_time
from assistant.replies import Reply, Turn

_COMMENT = re.compile(r"(?:^|(?<=\s))#.*", re.DOTALL)


class Hears(Protocol):
    """What lines are played to."""

    def hear(self, text: str) -> Turn:
        """One utterance in, what came of it out."""


class SetsTime(Protocol):
    """The clock that lines can set."""

    def set(self, told: str, *, meant: bool = False) -> bool:
        """Put it to a time, or refuse; whether it is one that is ahead, and meant."""


MEANT = "confirm"
"""After a time that is ahead of the machine's clock, in place of words: it is no slip."""

Shows = Callable[[int, Turn], None]
"""Takes a line's number and what came of it; called after its events are on disk."""


def utterance_in(line: str) -> str:
    """The line without its comment: a ``#`` at the start or after a blank begins one."""
    return _COMMENT.sub("", line).strip()


def lines_of(stream: BinaryIO) -> Iterator[str]:
    """Lines as they come, whatever editor wrote them.

    A byte order mark is dropped, any line end is taken, and bytes that are no
    UTF-8 become replacement characters: that line is then not understood, and
    the others still count.
    """
    with io.TextIOWrapper(stream, encoding="utf-8-sig", errors="replace", newline=None) as text:
        # readline, not iteration: a reply has to come when its line comes.
        while line := text.readline():
            yield line.removesuffix("\n")


def remark_in(line: str) -> str:
    """What a line that is all comment says."""
    return line.strip().lstrip("#").strip() if line.lstrip().startswith("#") else ""


def play(
    lines: Iterable[str],
    conversation: Hears,
    show: Shows,
    remark: Callable[[str], None] = lambda _: None,
    clock: SetsTime | None = None,
    first: str = "",
) -> bool:
    """
    Say every line to the conversation; True where all of them were taken.

    Lines that are all comment are handed to `remark`, for a story told along the way.
    A time at the start of a line sets the `clock`, where there is one. `first` is said
    before the first line, at that line's time.
    """
    all_ok = True
    for number, line in enumerate(lines, start=1):
        text = utterance_in(line)
        if not text:
            if told := remark_in(line):
                remark(told)
            continue
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
            all_ok = all_ok and turn.ok
    if first:
        show(0, conversation.hear(first))
    return all_ok


def _at_its_time(text: str, clock: SetsTime | None) -> tuple[str, Turn | None]:
    """The words of a line, its time set; and the turn that says so where it can't be."""
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
