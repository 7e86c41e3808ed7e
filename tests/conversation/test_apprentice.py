"""A morning of the apprentice: from the guide to ready to pour, played twice and spoken."""

from __future__ import annotations

import contextlib
import os
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from assistant.command_line.demo_job import demo_folder
from assistant.record.journal import Journal
from tests.conversation.days import played, spoken, turns_of

LINES = demo_folder() / "apprentice_morning.txt"
REPLIES = demo_folder() / "apprentice_morning.replies.txt"


@contextlib.contextmanager
def zone(name: str) -> Iterator[None]:
    """This machine somewhere else."""
    before = os.environ.get("TZ")
    os.environ["TZ"] = name
    time.tzset()
    try:
        yield
    finally:
        os.environ.pop("TZ") if before is None else os.environ.update(TZ=before)
        time.tzset()


@pytest.fixture(autouse=True)
def wide(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "80")


def test_the_replies_are_those_kept() -> None:
    """After a meant change they are made anew; DEVELOPERS.md says how."""
    assert played(LINES, "--plain") == REPLIES.read_text(encoding="utf-8")


@pytest.mark.slow
def test_played_again_and_elsewhere_it_is_the_same() -> None:
    replies = played(LINES, "--plain")
    for name in ("Asia/Kathmandu", "America/St_Johns"):
        with zone(name):
            assert played(LINES, "--plain") == replies


def turns() -> list[dict[str, Any]]:
    return turns_of(LINES)


def test_it_goes_from_the_guide_to_a_go() -> None:
    told = turns()
    assert told[0]["command"] == "StartGuide"
    asked = [turn["data"]["ready"] for turn in told if turn["command"] == "AskReadyToPour"]
    assert [ready["go"] for ready in asked] == [False, False, True]
    assert "dew-point" in {reason["id"] for reason in asked[0]["reasons"]}
    opened = [turn["data"]["step"]["number"] for turn in told if "step" in turn["data"]]
    assert opened[0] == 1
    assert opened[-1] == 20
    # the one that is meant to be wrong
    assert [turn["text"] for turn in told if not turn["ok"]] == ["@07:14 pH 15"]


@pytest.mark.slow
def test_spoken_it_comes_to_the_same(tmp_path: Path) -> None:
    """Every line in spoken words, through the ears' seam."""
    with Journal.open(tmp_path / "spoken.leadsman") as journal:
        assert spoken(LINES, journal) == [turn["say"] for turn in turns()]
