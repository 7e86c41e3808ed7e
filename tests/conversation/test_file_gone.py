"""The job file is deleted, moved or replaced under a running program; nothing is lost."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

import pytest

from assistant.conversation.conversation import Conversation
from assistant.decide import World
from assistant.errors import JournalError
from assistant.record.journal import Journal
from assistant.record.lock import FileLock
from assistant.reply.replies import Turn

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="an open file stays there")

BEFORE = ("room 8 by 6 metres", "grid 2 metres", "A1 -18", "B1 -17")
ALL = [*BEFORE, "C1 -19", "D1 -16"]
JOB = "floor.leadsman"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    folder = tmp_path / "jobs"
    folder.mkdir()
    return folder


@pytest.fixture
def journal(folder: Path) -> Iterator[Journal]:
    opened = Journal.open(folder / JOB)
    yield opened
    with suppress(JournalError):
        opened.close()


@pytest.fixture
def talk(journal: Journal, world: World) -> Conversation:
    conversation = Conversation(journal, world)
    for line in BEFORE:
        assert conversation.hear(line).recorded, line
    return conversation


def said_in(path: Path) -> list[str]:
    with Journal.open(path) as journal:
        return [entry.said for entry in journal.entries()]


def told(turn: Turn) -> str:
    return "\n".join(turn.reply.details)


def goes_on(talk: Conversation, journal: Journal, path: Path) -> None:
    """One reading tells of it, the next no more; both are in the file, and it is locked."""
    first, second = talk.hear("C1 -19"), talk.hear("D1 -16")
    assert first.recorded == second.recorded == ("reading-taken",)
    assert "is gone from disk: it was deleted, moved or replaced. The whole record" in told(first)
    assert str(path) in told(first)
    assert "The job file was gone." in first.reply.say
    assert first.reply.say.startswith("Charlie one, one nine millimetres below.")
    assert "gone" not in told(second) + second.reply.say
    assert journal.path == path
    assert "is open in another Leadsman" in opened_elsewhere(path)
    journal.close()
    assert said_in(path) == ALL


def opened_elsewhere(path: Path) -> str:
    code = (
        "import sys; from pathlib import Path; from assistant.record.journal import Journal\n"
        "try: Journal.open(Path(sys.argv[1])).close()\n"
        "except Exception as error: print(error)"
    )
    command = [sys.executable, "-c", code, str(path)]
    root = Path(__file__).parents[2]
    return subprocess.run(command, cwd=root, capture_output=True, text=True, check=True).stdout


def test_deleted(talk: Conversation, journal: Journal, folder: Path) -> None:
    path = folder / JOB
    path.unlink()
    goes_on(talk, journal, path)
    assert os.listdir(folder) == [JOB]


def test_moved_away(talk: Conversation, journal: Journal, folder: Path) -> None:
    path, away = folder / JOB, folder / "elsewhere.leadsman"
    path.rename(away)
    goes_on(talk, journal, path)
    # The file that was moved is complete too, up to there.
    assert said_in(away) == [*BEFORE]


@pytest.mark.parametrize("there", ["text", "job", "folder"])
def test_replaced(talk: Conversation, journal: Journal, folder: Path, there: str) -> None:
    path, other = folder / JOB, folder / "other"
    if there == "folder":
        other.mkdir()
        path.unlink()
    elif there == "text":
        other.write_text("my notes")
    else:
        with Journal.open(other) as another:
            another.append("B3 -3", [])
    os.replace(other, path)
    (folder / "floor-2.leadsman").write_text("taken as well")
    goes_on(talk, journal, folder / "floor-3.leadsman")
    # What stands there now is as it was, also for SQLite, which would read our log into it.
    if there == "text":
        assert path.read_text() == "my notes"
    elif there == "job":
        assert said_in(path) == ["B3 -3"]
    assert (folder / "floor-2.leadsman").read_text() == "taken as well"


def test_a_log_that_is_not_ours_stays_and_is_not_read(
    talk: Conversation, journal: Journal, folder: Path
) -> None:
    (folder / JOB).unlink()
    log = folder / f"{JOB}-wal"
    log.write_text("the log of something else")
    goes_on(talk, journal, folder / "floor-2.leadsman")
    assert log.read_text() == "the log of something else"


def test_the_folder_deleted(talk: Conversation, journal: Journal, folder: Path) -> None:
    shutil.rmtree(folder)
    goes_on(talk, journal, folder / JOB)


def test_the_folder_replaced(
    talk: Conversation, journal: Journal, folder: Path, tmp_path: Path
) -> None:
    folder.rename(tmp_path / "old jobs")
    folder.mkdir()
    goes_on(talk, journal, folder / JOB)
    assert said_in(tmp_path / "old jobs" / JOB) == [*BEFORE]


def no_folder(folder: Path) -> None:
    shutil.rmtree(folder, ignore_errors=True)
    folder.write_text("not a folder any more")


def test_a_folder_that_cannot_be_made_again(
    talk: Conversation, journal: Journal, folder: Path, tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:  # fmt: skip
    (tmp_path / "me").mkdir()
    monkeypatch.setenv("HOME", str(tmp_path / "me"))
    no_folder(folder)
    goes_on(talk, journal, tmp_path / "me" / JOB)


def test_where_it_cannot_be_put_back_nothing_is_said_to_be_on_disk(
    talk: Conversation, journal: Journal, folder: Path, tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:  # fmt: skip
    no_folder(tmp_path / "me")
    monkeypatch.setenv("HOME", str(tmp_path / "me"))
    no_folder(folder)
    for _ in range(2):
        turn = talk.hear("C1 -19")
        assert not turn.ok
        assert turn.recorded == ()
        assert "gone from disk and cannot be put back" in turn.reply.headline
        assert "C1" not in talk.job.readings
    # Put right, it goes on with all that was said before.
    folder.unlink()
    goes_on(talk, journal, folder / JOB)


def test_gone_after_the_last_reading_it_is_put_back_in_the_end(
    talk: Conversation, journal: Journal, folder: Path
) -> None:
    for line in ALL[len(BEFORE) :]:
        talk.hear(line)
    (folder / JOB).unlink()
    with pytest.raises(JournalError, match=r"gone from disk.* put back there; nothing is lost"):
        journal.close()
    journal.close()
    assert said_in(folder / JOB) == ALL


def test_a_miss_that_finds_it_gone_leaves_it_to_the_next_reply(
    talk: Conversation, journal: Journal, folder: Path
) -> None:
    (folder / JOB).unlink()
    with journal._written_whole():  # as a miss is kept
        pass
    assert (folder / JOB).exists()
    assert "gone from disk" in told(talk.hear("C1 -19"))


def test_what_is_out_of_reach_for_a_moment_is_not_gone(
    talk: Conversation, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def unreachable(*_: object) -> os.stat_result:
        raise PermissionError

    with monkeypatch.context() as patch:
        patch.setattr("assistant.record.lock.os.stat", unreachable)
        turn = talk.hear("C1 -19")
    assert turn.recorded
    assert "gone" not in told(turn)
    assert sorted(os.listdir(folder)) == [JOB, f"{JOB}-journal"]


def test_played_lines(folder: Path, tmp_path: Path) -> None:
    """As in ``leadsman run --job``, with the file deleted between two lines."""
    path = folder / JOB
    with subprocess.Popen(
        [sys.executable, "-m", "assistant", "run", "-", "--json", "--job", str(path)],
        cwd=Path(__file__).parents[2],
        env={**os.environ, "LEADSMAN_HOME": str(tmp_path)},
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    ) as program:
        assert program.stdin is not None
        assert program.stdout is not None
        turns = []
        for line in ALL:
            program.stdin.write(f"{line}\n")
            program.stdin.flush()
            turns.append(json.loads(program.stdout.readline()))
            if line == BEFORE[-1]:
                path.unlink()
        program.stdin.close()
        assert program.wait(20) == 0
    assert all(turn["ok"] for turn in turns)
    news = [turn["data"].get("job_file") for turn in turns]
    assert news == [None] * 4 + [{"was": str(path), "now": str(path)}, None]
    assert said_in(path) == ALL


def test_put_back_and_locked_by_another_at_once_it_takes_no_more_and_says_so(
    talk: Conversation, journal: Journal, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Between the file's coming back and its being locked anew anything may open it."""
    taken = JournalError("It is open in another Leadsman.")

    def locked(_path: Path) -> None:
        raise taken

    (folder / JOB).unlink()
    monkeypatch.setattr("assistant.record.journal.FileLock", locked)
    for line in ("C1 -19", "D1 -16"):
        with pytest.raises(JournalError):
            journal.append(line, [])
    monkeypatch.undo()
    with suppress(JournalError):
        journal.close()
    # Nothing that was answered is missing.
    assert said_in(folder / JOB) == [*BEFORE]
    assert talk.job.readings


# --- another program writes into the file that is open ------------------------------------------


def test_a_copy_put_over_the_open_file_loses_no_line(
    journal: Journal, folder: Path, world: World
) -> None:
    """As `cp old.leadsman floor.leadsman` does: the file keeps its place, and its pages are old."""
    path, old = folder / JOB, folder / "old.leadsman"
    talk = Conversation(journal, world)
    for line in ("room 40 by 40 metres", "grid 1 metre", "A1 -18"):
        assert talk.hear(line).recorded, line
    shutil.copyfile(path, old)
    for number in range(150):
        assert talk.hear(f"minus {17 + number % 3}").recorded
    path.write_bytes(old.read_bytes())

    turn = talk.hear("minus 18")
    assert turn.recorded
    assert "was deleted, moved or replaced. The whole record is in" in told(turn)
    assert talk.hear("minus 17").recorded
    journal.close()
    assert len(said_in(folder / "floor-2.leadsman")) == 3 + 150 + 2
    assert said_in(path) == ["room 40 by 40 metres", "grid 1 metre", "A1 -18"]


@pytest.mark.usefixtures("talk")
def test_a_file_written_over_at_the_end_is_saved_as_it_is_closed(
    journal: Journal, folder: Path
) -> None:
    path = folder / JOB
    path.write_bytes(b"")
    with pytest.raises(JournalError, match="The whole record is in"):
        journal.close()
    assert said_in(folder / "floor-2.leadsman") == list(BEFORE)
    assert path.read_bytes() == b""


def test_a_commit_that_nobody_saw_the_end_of_is_no_other_program_s(
    journal: Journal, talk: Conversation, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Ctrl-C just after the line was on disk."""

    def stopped(_lock: FileLock) -> None:
        raise KeyboardInterrupt

    with monkeypatch.context() as patched:
        patched.setattr(FileLock, "remember", stopped)
        with pytest.raises(KeyboardInterrupt):
            talk.hear("C1 -19")
    turn = talk.hear("D1 -16")
    assert turn.recorded
    assert "replaced" not in told(turn)
    assert journal.path == folder / JOB
    assert [path.name for path in folder.glob("*.leadsman")] == [JOB]
