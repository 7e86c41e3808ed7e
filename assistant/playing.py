"""Typed lines from a file or a pipe, one utterance a line."""

from __future__ import annotations

import io
import re
from collections.abc import Callable, Iterable, Iterator
from typing import BinaryIO, Protocol

from assistant.replies import Turn

_COMMENT = re.compile(r"(?:^|(?<=\s))#.*", re.DOTALL)


class Hears(Protocol):
    """What lines are played to."""

    def hear(self, text: str) -> Turn:
        """One utterance in, what came of it out."""


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
) -> bool:
    """
    Say every line to the conversation; True where all of them were taken.

    Lines that are all comment are handed to `remark`, for a story told along the way.
    """
    all_ok = True
    for number, line in enumerate(lines, start=1):
        text = utterance_in(line)
        if text:
            turn = conversation.hear(text)
            show(number, turn)
            all_ok = all_ok and turn.ok
        elif told := remark_in(line):
            remark(told)
    return all_ok
