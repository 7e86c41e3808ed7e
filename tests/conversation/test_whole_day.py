"""A whole day, from the guide to a floor that is shut: typed, replayed and spoken."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

import pytest

from assistant.command_line.demo_job import demo_folder
from assistant.record.journal import Journal
from tests.conversation.days import played, spoken, turns_of

LINES = demo_folder() / "whole_day.txt"
REPLIES = demo_folder() / "whole_day.replies.txt"


@cache
def turns() -> list[dict[str, Any]]:
    return turns_of(LINES)


def test_the_replies_are_those_kept(monkeypatch: Any) -> None:
    """After a meant change they are made anew; DEVELOPERS.md says how."""
    monkeypatch.setenv("COLUMNS", "80")
    assert played(LINES, "--plain") == REPLIES.read_text(encoding="utf-8")


def test_it_goes_from_the_guide_through_the_pour_to_the_finished_floor() -> None:
    told = turns()
    assert all(turn["ok"] for turn in told), [turn["text"] for turn in told if not turn["ok"]]
    assert told[0]["command"] == "StartGuide"
    started = [turn["data"] for turn in told if turn["command"] == "StartPour"]
    assert [bool(data["pour_started"]) for data in started] == [False, True]
    assert {reason["id"] for reason in started[0]["reasons"]} == {"edge-strip", "joints"}
    poured = [turn["data"]["pour"]["bags_used"] for turn in told if "pour" in turn["data"]]
    assert poured[-1] == 42
    finished = next(turn for turn in told if turn["text"].endswith("pour finished"))
    assert finished["data"]["poured"]["left_over"]["bags"] == 3
    assert told[-1]["data"]["survey"] == "finished floor"


@pytest.mark.slow
def test_spoken_it_comes_to_the_same(tmp_path: Path) -> None:
    with Journal.open(tmp_path / "spoken.leadsman") as journal:
        assert spoken(LINES, journal) == [turn["say"] for turn in turns()]
