"""The day of a pour, played as it stands in the demo folder."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from assistant.command_line.demo_job import demo_folder
from assistant.record.journal import Journal
from tests.conversation.days import played, spoken, turns_of

LINES = demo_folder() / "pour_day.txt"
REPLIES = demo_folder() / "pour_day.replies.txt"


@pytest.fixture(autouse=True)
def wide(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "80")


def turns() -> list[dict[str, Any]]:
    return turns_of(LINES)


def test_the_replies_are_those_kept_and_the_same_each_time() -> None:
    """After a meant change they are made anew; DEVELOPERS.md says how."""
    first = played(LINES, "--plain")
    assert first == REPLIES.read_text(encoding="utf-8")
    assert played(LINES, "--plain") == first


def test_the_day_tells_of_the_hole_and_the_shortage() -> None:
    told = turns()
    assert all(turn["ok"] for turn in told), [turn["text"] for turn in told if not turn["ok"]]
    pours = [turn["data"]["pour"] for turn in told if "pour" in turn["data"]]
    assert [pour["bags_used"] for pour in pours] == sorted(pour["bags_used"] for pour in pours)
    asked = [turn["text"] for turn in told if turn["data"].get("pour", {}).get("asks") == "hole"]
    assert any("strip 2 done" in text for text in asked)
    short = next(turn["data"]["short"] for turn in told if "short" in turn["data"])
    assert short["lower_mm"] == 2
    assert short["more_bags"] > 0
    poured = next(turn["data"]["poured"] for turn in told if "pour finished" in turn["text"])
    assert poured["bags_used"] == 56
    assert poured["left_over"]["bags"] == 2
    assert all(part["to_m"] > part["from_m"] for part in poured["parts"])
    assert poured["parts"][-1]["to_m"] == 12
    assert 5 < poured["parts"][-1]["mean_depth_mm"] < 10
    assert [part["hole"] for part in poured["parts"]][:3] == [None, True, False]


@pytest.mark.slow
def test_spoken_it_comes_to_the_same(tmp_path: Path) -> None:
    with Journal.open(tmp_path / "spoken.leadsman") as journal:
        said = spoken(LINES, journal)
    told = turns()
    assert said == [turn["say"] for turn in told]
    # the hole is asked about aloud, and the shortage warned of
    assert any("Did it go down a hole?" in each for each in said)
    assert any("short by" in each.lower() for each in said)


def test_what_is_said_of_a_batch_or_a_strip_is_few_words() -> None:
    """What stops the work, asks or comes from a clock is said after it."""
    pouring = ("PourBatch", "ReachFront", "FinishStrip", "TellSpiked")
    plain = [
        turn
        for turn in turns()
        if turn["command"] in pouring
        and not turn["ask"]
        and not turn["warnings"]
        and "rung" not in turn["data"]
        and turn["data"].get("pour", {}).get("asks") is None
    ]
    assert len(plain) > 20
    for turn in plain:
        assert len(turn["say"].split()) <= 12, turn["say"]
