"""Days in the demo folder: played as they stand, and spoken through the ears' seam."""

from __future__ import annotations

import contextlib
import io
import json
import re
from datetime import UTC, date
from decimal import Decimal
from pathlib import Path
from typing import Any

from assistant.__main__ import main
from assistant.command_line.played_clock import PlayedClock, split_time
from assistant.conversation.conversation import Conversation
from assistant.conversation.lines import utterance_in
from assistant.decide import World
from assistant.ears.script import ScriptEngine
from assistant.products.cards import cards_in, shipped_folder
from assistant.record.journal import Journal, utc_now
from grammar.numbers import spelled_digits

LETTERS = {"A": "alpha", "B": "bravo", "C": "charlie", "D": "delta", "E": "echo", "F": "foxtrot"}


def played(lines: Path, *options: str) -> str:
    """What the program prints when it plays a day."""
    out = io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(io.StringIO()):
        main(["run", str(lines), *options])
    return out.getvalue()


def turns_of(lines: Path) -> list[dict[str, Any]]:
    """The same as data, a turn a line."""
    return [json.loads(line) for line in played(lines, "--json").splitlines()]


def aloud(line: str) -> str:
    """
    A typed line as it is said: points by their alphabet, figures one by one, minus in words.

    >>> aloud("D2 -14"), aloud("moisture emission 2.4 at B3")
    ('delta two minus one four', 'moisture emission two point four at bravo three')
    """
    line = re.sub(r"\b([A-F])(\d)\b", lambda found: f"{LETTERS[found[1]]} {found[2]}", line)
    line = re.sub(r"(?:^|(?<= ))-", "minus ", line)
    return re.sub(r"\d+(?:\.\d+)?", lambda found: spelled_digits(Decimal(found[0])), line)


def spoken(lines: Path, journal: Journal) -> list[str]:
    """What is said back where every line of a day is spoken, through the ears' seam."""
    texts = [text for line in lines.read_text("utf-8").splitlines() if (text := utterance_in(line))]
    words = [split_time(line) for line in texts]
    ears = ScriptEngine([aloud(said) for _, said in words])
    clock = PlayedClock(date(2026, 1, 1), utc_now, UTC)
    talk = Conversation(journal, World(cards_in(shipped_folder()), zone=UTC), clock=clock)
    said = []
    for when, _ in words:
        if when:
            clock.set(when)
        heard = ears.finish()
        assert heard.tier == "sure", heard.text
        said.append(talk.hear(heard.text).reply.say)
    return said
