"""The one file that people see is the whole job: what a plain copy of it holds.

``kept/written_with_wal.leadsman`` was made by a Leadsman that kept a write-ahead log, from the
lines of ``OLD`` (``leadsman run LINES --job FILE``).
"""

from __future__ import annotations

import json
import os
import shutil
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from assistant.conversation.conversation import Conversation
from assistant.decide import World
from assistant.events.material import ProductChosen
from assistant.products.cards import card_from_dict, cards_in, shipped_folder
from assistant.record.journal import Journal
from tests.signals import heed_endings

OLD = (
    "room 8 by 6 metres", "grid 2 metres", "product example standard", "A1 -18", "B1 -17 mm",
    "C1 -19", "scratch that", "D1 -16", "B3 -15.5",
)  # fmt: skip

READINGS = ("A1 -18", "B1 -17", "C1 -19", "D1 -16", "A2 -18", "B2 -17")


def said_in(path: Path) -> list[str]:
    with Journal.open(path) as journal:
        return [entry.said for entry in journal.entries()]


@pytest.fixture
def old(tmp_path: Path) -> Path:
    path = tmp_path / "old.leadsman"
    shutil.copyfile(Path(__file__).parent / "kept" / "written_with_wal.leadsman", path)
    assert path.read_bytes()[18:20] == b"\2\2"  # with a log: SQLite's file format, "header"
    return path


def test_a_job_kept_with_a_log_opens_to_the_same_job(old: Path) -> None:
    with Journal.open(old) as journal, Journal.open(None) as fresh:
        (kept,) = (
            event.card
            for entry in journal.entries()
            for event in entry.events
            if isinstance(event, ProductChosen)
        )
        # A job keeps its card as it was that day; the shipped one may only say more since.
        assert kept.items() <= cards_in(shipped_folder())[kept["name"]].as_dict().items()
        world = World({kept["name"]: card_from_dict(kept)})
        opened, played = Conversation(journal, world), Conversation(fresh, world)
        for line in OLD:
            played.hear({"scratch that": "undo"}.get(line, line))  # as it is called by now
        assert [entry.said for entry in journal.entries()] == list(OLD)
        assert [entry.events for entry in journal.entries()] == [
            entry.events for entry in fresh.entries()
        ]
        assert opened.job.readings == played.job.readings
        assert opened.hear("A2 -12").recorded
    assert sorted(os.listdir(old.parent)) == [old.name, f"{old.name}.as-it-was"]
    assert said_in(old) == [*OLD, "A2 -12"]


def test_a_copy_made_after_any_answer_is_the_whole_job(tmp_path: Path) -> None:
    path, copy = tmp_path / "floor.leadsman", tmp_path / "stick" / "floor.leadsman"
    copy.parent.mkdir()
    with Journal.open(path) as journal:
        for number in range(1, 40):
            journal.append(f"line {number}", [])
            shutil.copyfile(path, copy)
            assert len(said_in(copy)) == number
    assert os.listdir(tmp_path / "stick") == [copy.name]


def test_so_is_a_copy_of_a_job_that_had_a_log(old: Path, tmp_path: Path) -> None:
    copy = tmp_path / "copy.leadsman"
    with Journal.open(old) as journal:
        journal.append("A2 -12", [])
        shutil.copyfile(old, copy)
    assert said_in(copy) == [*OLD, "A2 -12"]


def test_a_journal_tidied_away_is_made_anew(tmp_path: Path) -> None:
    path, beside = tmp_path / "floor.leadsman", tmp_path / "floor.leadsman-journal"
    with Journal.open(path) as journal:
        journal.append("one", [])
        beside.unlink()
        journal.append("two", [])
        assert beside.exists(), "a commit cut short would find no way back"
    assert os.listdir(tmp_path) == [path.name]
    assert said_in(path) == ["one", "two"]


@pytest.mark.slow
@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="needs the signal")
@pytest.mark.parametrize("ending", ["SIGKILL", "SIGHUP", "SIGTERM"])
def test_ended_from_outside_a_copy_of_the_file_is_the_whole_job(
    ending: str, tmp_path: Path
) -> None:
    path, copy = tmp_path / "floor.leadsman", tmp_path / "stick" / "floor.leadsman"
    copy.parent.mkdir()
    lines = ("room 8 by 6 metres", "grid 2 metres", *READINGS)
    with subprocess.Popen(
        [sys.executable, "-m", "assistant", "run", "-", "--json", "--job", str(path)],
        cwd=Path(__file__).parents[2],
        env={**os.environ, "LEADSMAN_HOME": str(tmp_path / "home")},
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
        preexec_fn=heed_endings,
    ) as program:
        assert program.stdin is not None
        assert program.stdout is not None
        for line in lines:
            program.stdin.write(f"{line}\n")
            program.stdin.flush()
            assert json.loads(program.stdout.readline())["ok"], line
        program.send_signal(getattr(signal, ending))
        program.wait(20)
    shutil.copyfile(path, copy)  # the one file, without anything beside it
    assert said_in(copy) == list(lines)
