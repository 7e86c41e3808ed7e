"""A phone talks into a chat that stands at a real prompt, with half a line typed at it."""

from __future__ import annotations

import http.client
import re
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from assistant.record.journal import Journal
from tests.board.test_board import told
from tests.board.test_talk import Phone
from tests.conversation.test_at_a_terminal import opened

CODE = re.compile(r"(http://127\.0\.0\.1:\d+/)pair/[\w-]{22}")


def told_up_to(phone: Phone) -> str:
    """The mark that a page would have."""
    connection = http.client.HTTPConnection("127.0.0.1", phone.port, timeout=20)
    try:
        connection.request("GET", "/talk-events", headers=phone.good)
        answer = connection.getresponse()
        while not (line := answer.readline().decode()).startswith("id: "):
            assert line
        return line[4:].strip()
    finally:
        connection.close()


@pytest.mark.slow
def test_what_a_phone_says_comes_in_above_a_line_that_is_typed(tmp_path: Path) -> None:
    job = tmp_path / "floor.leadsman"
    told(job, "room 12 by 8 metres", "grid 2 metres")
    program = ("-m", "assistant", "board", "--talk", "--port", "0")
    with opened(job, *program) as terminal:
        terminal.wait_for("0/24 points")
        found = CODE.search(terminal.shown)
        assert found, terminal.shown
        board: Any = SimpleNamespace(address=found[1], code=found[0])
        phone = Phone(board)
        terminal.wait_for("(phone 1 is in.")
        phone.seen = told_up_to(phone)
        terminal.type("B1 -1", "B1 -1")
        assert phone.say("-12")[1]["ok"]
        terminal.wait_for("phone 1> -12")
        terminal.wait_for("A1 12 mm below", terminal.shown.index("phone 1> -12"))
        terminal.type("4\r", "B1 14 mm below")
        why = phone.say("undo")[1]
        assert not why["ok"], "the keyboard said something since"
        terminal.type("/board off\r", "The board is off.")
        # Ctrl-D between two prompts would be the end of no line.
        terminal.wait_for("2/24 points", terminal.shown.rindex("The board is off."))
        terminal.type("\x04", "The job is on disk")
        terminal.read_to_the_end()
        assert "Traceback" not in terminal.shown
    with Journal.open(job) as journal:
        said = [(each.said, each.device) for each in journal.entries()]
    assert said[2:] == [("-12", "phone 1"), ("B1 -14", "")]
