"""A whole day, from the guide to a floor that is shut: typed, replayed and spoken."""

from __future__ import annotations

import contextlib
import io
import json
from datetime import UTC, date
from functools import cache
from pathlib import Path
from typing import Any

from assistant.__main__ import main
from assistant.command_line.demo_job import demo_folder
from assistant.command_line.played_clock import PlayedClock, split_time
from assistant.conversation.conversation import Conversation
from assistant.conversation.lines import utterance_in
from assistant.decide import World
from assistant.ears.script import ScriptEngine
from assistant.products.cards import cards_in, shipped_folder
from assistant.record.journal import Journal, utc_now
from tests.conversation.test_apprentice import aloud

LINES = demo_folder() / "whole_day.txt"
REPLIES = demo_folder() / "whole_day.replies.txt"


def played(*options: str) -> str:
    """What the program prints when it plays the day."""
    out = io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(io.StringIO()):
        main(["run", str(LINES), *options])
    return out.getvalue()


@cache
def turns() -> list[dict[str, Any]]:
    return [json.loads(line) for line in played("--json").splitlines()]


def spoken(journal: Journal) -> list[str]:
    """What is said back where every line is spoken, through the ears' seam."""
    lines = [text for line in LINES.read_text("utf-8").splitlines() if (text := utterance_in(line))]
    words = [split_time(line) for line in lines]
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


def test_the_replies_are_those_kept(monkeypatch: Any) -> None:
    """After a meant change they are made anew; DEVELOPERS.md says how."""
    monkeypatch.setenv("COLUMNS", "80")
    assert played("--plain") == REPLIES.read_text(encoding="utf-8")


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


def test_spoken_it_comes_to_the_same(tmp_path: Path) -> None:
    with Journal.open(tmp_path / "spoken.leadsman") as journal:
        assert spoken(journal) == [turn["say"] for turn in turns()]
