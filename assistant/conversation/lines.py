"""Typed lines from files and terminals: the utterance in each, and its comment."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from typing import BinaryIO

from grammar.words import OWN_WORDS_AFTER_FIRST

LEAVE = frozenset({"quit", "exit", "bye"})
"""What people type to leave besides Ctrl-D; known where lines come from, not to the language."""

_OWN = "|".join(sorted(OWN_WORDS_AFTER_FIRST))
_ALL_SAID = re.compile(rf"\s*(?:@\S+\s+(?:\d\d:\d\d\s+)?)?(?:{_OWN})\b", re.IGNORECASE)
"""Lines that hold words of one's own; a ``#`` may be one of them."""
_COMMENT = re.compile(r"(?:^|(?<=\s))#.*", re.DOTALL)


def utterance_in(line: str) -> str:
    """
    The line without its comment: a ``#`` at the start or after a blank begins one.

    >>> utterance_in("tally  # at noon"), utterance_in("note bag # 4711 is wet")
    ('tally', 'note bag # 4711 is wet')
    """
    return (line if _ALL_SAID.match(line) else _COMMENT.sub("", line)).strip()


def lines_of(stream: BinaryIO) -> Iterator[str]:
    """Lines as they come, whatever editor wrote them.

    A byte order mark is dropped, any line end is taken, and bytes that are no
    UTF-8 become replacement characters: that line is then not understood, and
    the others still count.
    """
    with io.TextIOWrapper(stream, encoding="utf-8-sig", errors="replace", newline=None) as text:
        # readline, not iteration, which reads ahead: each line is answered when it comes.
        while line := text.readline():
            yield line.removesuffix("\n")


def remark_in(line: str) -> str:
    """The text of a line that is all comment."""
    return line.strip().lstrip("#").strip() if line.lstrip().startswith("#") else ""


def help_in_words(text: str) -> str:
    """
    What is typed for help in as few keys as can be, in words of the language.

    >>> help_in_words("?"), help_in_words("? doors"), help_in_words("how deep at B3?")
    ('help', 'help doors', 'how deep at B3?')
    """
    found = text.strip()
    return f"help {found.lstrip('? ')}".strip() if found.startswith("?") else text
