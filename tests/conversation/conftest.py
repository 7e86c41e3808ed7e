"""A conversation to talk to, with nothing kept."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from assistant.conversation.conversation import Conversation
from assistant.decide import World
from assistant.products.cards import cards_in, shipped_folder
from assistant.record.journal import Journal
from assistant.reply.replies import Turn

JOB = """\
# a small room
room 8 by 6 metres
grid 2 metres

A1 -18   # at the post
"""


@pytest.fixture
def world() -> World:
    return World(cards_in(shipped_folder()))


@pytest.fixture
def journal() -> Iterator[Journal]:
    with Journal.open(None) as opened:
        yield opened


@pytest.fixture
def talk(journal: Journal, world: World) -> Conversation:
    """On a floor of four columns and three rows, nothing read."""
    conversation = Conversation(journal, world)
    for line in ("room 8 by 6 metres", "grid 2 metres"):
        assert conversation.hear(line).ok
    return conversation


@pytest.fixture
def say(talk: Conversation) -> Callable[..., Turn]:
    """Say some lines; what came of the last."""

    def said(*lines: str) -> Turn:
        for line in lines:
            turn = talk.hear(line)
        return turn

    return said


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A data folder of the test's own, for this process and those it starts."""
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    monkeypatch.setenv("COLUMNS", "60")
    return tmp_path / "data" / "leadsman"


@pytest.fixture
def lines(tmp_path: Path) -> Path:
    """A file of lines to play."""
    path = tmp_path / "lines.txt"
    path.write_text(JOB)
    return path
