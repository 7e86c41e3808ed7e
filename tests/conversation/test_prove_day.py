"""The floor that is proved, played as it stands in the demo folder."""

from __future__ import annotations

import pytest

from assistant.command_line.demo_job import demo_folder
from tests.conversation.days import played

LINES = demo_folder() / "prove_day.txt"
REPLIES = demo_folder() / "prove_day.replies.txt"


def test_the_replies_are_those_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    """After a meant change they are made anew; DEVELOPERS.md says how."""
    monkeypatch.setenv("COLUMNS", "80")
    assert played(LINES, "--plain") == REPLIES.read_text(encoding="utf-8")
