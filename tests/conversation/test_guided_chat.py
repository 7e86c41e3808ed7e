"""The guide from the command line, and clocks that have something to say while a line is typed."""

from __future__ import annotations

import io
import json
import threading
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from prompt_toolkit.input import PipeInput, create_pipe_input
from prompt_toolkit.output import DummyOutput

from assistant.__main__ import main
from assistant.conversation.conversation import Conversation
from assistant.decide import World
from assistant.record.journal import Journal
from assistant.record.places import Folders
from assistant.reply.replies import Reply
from assistant.terminal import prompt
from assistant.terminal.opening import Opening
from assistant.terminal.prompt import edited_lines, open_chat

SEVEN = datetime(2026, 5, 4, 7, 0, tzinfo=UTC)


@pytest.fixture
def keyboard() -> Iterator[PipeInput]:
    with create_pipe_input() as pipe:
        # a test that waits in vain ends all the same
        end = threading.Timer(20, lambda: pipe.send_text("\x04"))
        end.start()
        yield pipe
        end.cancel()


def test_a_clock_is_told_above_the_line_while_it_is_typed(
    keyboard: PipeInput,
    journal: Journal,
    world: World,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(prompt, "LISTEN_S", 0.01)
    now = [SEVEN]
    talk = Conversation(journal, world, clock=lambda: now[0])
    talk.hear("hose on floor")
    opening = Opening(lambda: talk, lambda: None)
    assert opening.conversation is talk
    now[0] += timedelta(minutes=10)
    told: list[str] = []

    def tell(reply: Reply) -> None:
        told.extend((reply.headline, *reply.details))
        keyboard.send_text("A1 -18\r\x04")

    folders = Folders(tmp_path / "data")
    assert list(edited_lines(opening, folders, keyboard, DummyOutput(), tell)) == ["A1 -18"]
    assert ["has lain 10 minutes" in line for line in told] == [False, True]
    assert not talk.rings


def test_the_chat_begins_with_the_guide(
    world: World,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def leave(_before: str) -> str:
        raise EOFError

    monkeypatch.setattr("builtins.input", leave)
    with Journal.open(tmp_path / "floor.leadsman") as journal:
        open_chat(
            journal, world.cards, Folders(tmp_path), tmp_path / "floor", plain=True,
            first=("guide",),
        )  # fmt: skip
        assert [said for _, said, *_ in journal.utterances()] == ["guide"]
    assert "Step 1 of 26, walk the site" in capsys.readouterr().out


def test_from_a_pipe_the_guide_begins_at_the_first_line_s_time(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    typed = io.BytesIO(b"@2026-05-04 07:30 floor is concrete\n")
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(typed))
    path = tmp_path / "floor.leadsman"
    assert main(["guide", "--job", str(path)]) == 0
    assert "> guide\nStep 1 of 26" in capsys.readouterr().out
    with Journal.open(path) as journal:
        entries = journal.entries()
    assert [entry.said for entry in entries] == ["guide", "floor is concrete"]
    assert entries[0].time == entries[1].time


def test_a_job_that_is_gone_on_with_has_its_clocks(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    first, second = tmp_path / "first.txt", tmp_path / "second.txt"
    first.write_text("@2026-05-04 07:30 hose on floor\n")
    second.write_text("@2026-05-04 07:29 tally\n@2026-05-04 07:45 tally\n")
    job = str(tmp_path / "floor.leadsman")
    assert main(["run", str(first), "--job", job]) == 0
    capsys.readouterr()
    assert main(["run", str(second), "--job", job, "--json"]) == 1
    early, late = (json.loads(line) for line in capsys.readouterr().out.splitlines())
    assert "Time does not run backwards" in early["say"]
    assert early["recorded"] == []
    assert [each["clock"] for each in late["data"]["rung"]] == ["hose", "hose"]
