"""A morning of the apprentice: from the guide to ready to pour, played twice and spoken."""

from __future__ import annotations

import contextlib
import io
import json
import os
import re
import time
from collections.abc import Iterator
from datetime import UTC, date
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from assistant.__main__ import main
from assistant.command_line.demo_job import demo_folder
from assistant.command_line.played_clock import PlayedClock, split_time
from assistant.conversation.conversation import Conversation
from assistant.conversation.lines import utterance_in
from assistant.decide import World
from assistant.ears.script import ScriptEngine
from assistant.products.cards import cards_in, shipped_folder
from assistant.record.journal import Journal, utc_now
from grammar.numbers import spelled_digits

LINES = demo_folder() / "apprentice_morning.txt"
REPLIES = demo_folder() / "apprentice_morning.replies.txt"


def said(*options: str) -> str:
    """What the program prints when it plays the morning."""
    out = io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(io.StringIO()):
        main(["run", str(LINES), *options])
    return out.getvalue()


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
    assert said("--plain") == REPLIES.read_text(encoding="utf-8")


def test_played_again_and_elsewhere_it_is_the_same() -> None:
    replies = said("--plain")
    for name in ("Asia/Kathmandu", "America/St_Johns"):
        with zone(name):
            assert said("--plain") == replies


def turns() -> list[dict[str, Any]]:
    return [json.loads(line) for line in said("--json").splitlines()]


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


LETTERS = {"A": "alpha", "B": "bravo", "C": "charlie", "D": "delta"}


def aloud(line: str) -> str:
    """A typed line as it is said: points by their alphabet, figures one by one, minus in words."""
    line = re.sub(r"\b([A-D])(\d)\b", lambda found: f"{LETTERS[found[1]]} {found[2]}", line)
    line = re.sub(r"(?:^|(?<= ))-", "minus ", line)
    return re.sub(r"\d+(?:\.\d+)?", lambda found: spelled_digits(Decimal(found[0])), line)


def test_aloud() -> None:
    assert aloud("D2 -14") == "delta two minus one four"
    assert aloud("moisture emission 2.4 at B3") == "moisture emission two point four at bravo three"


def test_spoken_it_comes_to_the_same(tmp_path: Path) -> None:
    """Every line in spoken words, through the ears' seam."""
    lines = [text for line in LINES.read_text("utf-8").splitlines() if (text := utterance_in(line))]
    words = [split_time(line) for line in lines]
    ears = ScriptEngine([aloud(spoken) for _, spoken in words])
    clock = PlayedClock(date(2026, 1, 1), utc_now, UTC)
    world = World(cards_in(shipped_folder()), zone=UTC)
    with Journal.open(tmp_path / "spoken.leadsman") as journal:
        talk = Conversation(journal, world, clock=clock)
        replies = []
        for when, _ in words:
            if when:
                clock.set(when)
            heard = ears.finish()
            assert heard.tier == "sure", heard.text
            replies.append(talk.hear(heard.text).reply.say)
    assert replies == [turn["say"] for turn in turns()]
