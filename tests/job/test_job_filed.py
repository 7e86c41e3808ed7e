"""Whose job it is, and what becomes of its file: renamed, copied, put away, brought back."""

from __future__ import annotations

import os
import shutil
import sqlite3
import subprocess
import sys
import unicodedata
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from typing import Any

import pytest

from assistant.conversation.conversation import Conversation
from assistant.errors import JournalError, LeadsmanError
from assistant.record import drafts
from assistant.record.job_files import JobFiles
from assistant.record.journal import Journal
from assistant.record.places import AWAY
from assistant.reply.replies import Reply
from tests.job.conftest import WORLD, Site

LINES = ("room 8 by 6 metres", "grid 2 metres", "A1 -18", "B1 -17")


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    folder = tmp_path / "jobs"
    folder.mkdir()
    return folder


class Chat:
    """A conversation about a job in a folder."""

    def __init__(self, folder: Path, name: str = "shed") -> None:
        self.journal = Journal.open(folder / f"{name}.leadsman")
        self.talk = Conversation(self.journal, WORLD, files=JobFiles(self.journal, folder))
        for line in LINES:
            assert self.talk.hear(line).ok

    def say(self, line: str) -> Reply:
        self.turn = self.talk.hear(line)
        return self.turn.reply

    @property
    def path(self) -> Path:
        assert self.journal.path is not None
        return self.journal.path


@pytest.fixture
def chat(folder: Path) -> Iterator[Chat]:
    opened = Chat(folder)
    yield opened
    with suppress(JournalError):
        opened.journal.close()


def said_in(path: Path) -> list[str]:
    with Journal.open(path) as journal:
        return [entry.said for entry in journal.entries()]


def files_in(folder: Path) -> list[str]:
    return sorted(str(path.relative_to(folder)) for path in folder.rglob("*") if path.is_file())


def test_client_and_address_are_kept_told_and_undone(site: type[Site]) -> None:
    floor = site()
    assert floor.told("client is Smith & Sons, Builders").headline == (
        "Client: Smith & Sons, Builders"
    )
    assert floor.told("client Jones").details == ("It was Smith & Sons, Builders.",)
    floor.told("address 12 Mill Lane, flat B3")
    told = floor.told("job")
    assert told.data["job"]["client"] == "Jones"
    assert told.data["job"]["address"] == "12 Mill Lane, flat B3"
    assert not floor.job.readings
    floor.told("undo", "undo")
    assert floor.told("job").data["job"]["client"] == "Smith & Sons, Builders"
    assert floor.told("job").data["job"]["address"] is None


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("rename the job", "Say the name, too"),
        ("copy job to", "Say the name, too"),
        ("job done", "“quit” ends the chat"),
    ],
)
def test_half_a_command_about_a_file_says_what_is_missing(
    line: str, told: str, chat: Chat, folder: Path
) -> None:
    assert told in chat.say(line).headline
    assert files_in(folder)[0] == "shed.leadsman"


@pytest.mark.parametrize(
    "line", ["client wants oak", "address the crack at B2", "client says minus 18", "client"]
)
def test_talk_about_a_client_names_none(line: str, chat: Chat) -> None:
    chat.say(line)
    assert chat.turn.recorded == ()


def test_a_renamed_job_is_whole_and_goes_on(chat: Chat, folder: Path) -> None:
    told = chat.say("rename job to Boat Shed / 2")
    assert told.headline == "The job is called boat-shed-2 now; it was shed."
    assert chat.path == folder / "boat-shed-2.leadsman"
    assert chat.turn.recorded == ()
    assert chat.say("C1 -16").headline.startswith("C1 16 mm below")
    assert chat.say("job").headline == "Job boat-shed-2."
    chat.say("client Smith")
    chat.say("address 12 Mill Lane")
    assert chat.say("who is the client").headline == "Job boat-shed-2, for Smith, 12 Mill Lane."
    with pytest.raises(JournalError, match="already open here"):
        Journal.open(chat.path)
    chat.journal.close()
    assert files_in(folder) == ["boat-shed-2.leadsman"]
    assert said_in(chat.path) == [*LINES, "C1 -16", "client Smith", "address 12 Mill Lane"]


def test_the_renamed_job_is_locked_against_other_windows(chat: Chat) -> None:
    chat.say("rename job to hut")
    code = (
        "import sys; from pathlib import Path; from assistant.record.journal import Journal\n"
        "Journal.open(Path(sys.argv[1]))"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, str(chat.path)], capture_output=True, text=True, check=False
    )
    assert "open in another Leadsman" in done.stderr


def test_a_copy_is_whole_while_the_job_stays_open(chat: Chat, folder: Path) -> None:
    chat.say("C1 18")
    told = chat.say("copy job to shed upstairs")
    assert told.headline == "Copied to shed-upstairs; shed stays the one that is open."
    assert chat.talk.pending is not None
    assert chat.path == folder / "shed.leadsman"
    assert said_in(folder / "shed-upstairs.leadsman") == list(LINES)
    chat.say("below")
    chat.journal.close()
    assert said_in(folder / "shed.leadsman") == [*LINES, "C1 18\nbelow"]
    assert files_in(folder) == ["shed-upstairs.leadsman", "shed.leadsman"]


def test_put_away_it_is_kept_and_comes_back(chat: Chat, folder: Path) -> None:
    told = chat.say("put job away")
    assert told.headline == "shed is put away; nothing is deleted."
    assert chat.path == folder / AWAY / "shed.leadsman"
    assert chat.say("jobs").data["jobs"] == []
    assert chat.say("C1 -16").headline.startswith("C1 16 mm below")
    assert "put away already" in chat.say("put job away").headline
    assert chat.say("bring back job").headline == "shed is back in the list."
    assert "is not put away" in chat.say("bring back job").headline
    chat.journal.close()
    assert said_in(folder / "shed.leadsman") == [*LINES, "C1 -16"]


def test_two_of_one_name_may_be_away(chat: Chat, folder: Path) -> None:
    (folder / AWAY).mkdir()
    chat.journal.copy_to(folder / AWAY / "shed.leadsman")
    chat.say("put job away")
    assert chat.path == folder / AWAY / "shed-2.leadsman"
    assert chat.say("bring back job shed").headline == "shed is back in the list."
    assert files_in(folder)[-1] == "shed.leadsman"


NAMES = [
    ("shed", "called 'shed' already"),
    ("SHED", "called 'shed' already"),
    ("Other", "a job 'other' already"),
    ("OTHER", "a job 'other' already"),
    (unicodedata.normalize("NFD", "Küche"), "a job"),
    ("& *", "letters and numbers"),
    ("../..", "letters and numbers"),
    ("/", "letters and numbers"),
    ("x" * 101, "too long"),
    ("\u6c34" * 40, "too long"),
    ("left behind", "already"),
]


@pytest.mark.parametrize(("name", "why"), NAMES, ids=[name[:8] for name, _ in NAMES])
def test_names_that_cannot_be_are_refused_and_nothing_moves(
    name: str, why: str, chat: Chat, folder: Path
) -> None:
    for other in ("other", unicodedata.normalize("NFD", "küche")):
        chat.journal.copy_to(folder / f"{other}.leadsman")
    (folder / "left-behind.leadsman-wal").write_bytes(b"lines of a lost job")
    before = files_in(folder)
    for verb in ("rename", "copy"):
        reply = chat.say(f"{verb} job to {name}")
        assert not chat.turn.ok
        if (verb, name.casefold()) != ("copy", "shed"):
            assert why in reply.headline, reply.headline
    assert files_in(folder) == before
    assert chat.say("C1 -16").data["reading"]["point"] == "C1"


def test_a_job_with_a_name_of_its_own_gets_one_of_ours(tmp_path: Path) -> None:
    chat = Chat(tmp_path, "Mein Büro")
    shutil.move(chat.path, tmp_path / "kept")  # a file moved by hand is put back first
    chat.say("rename job to mein büro")
    assert chat.path.name == "mein-büro.leadsman"
    chat.journal.close()
    assert said_in(chat.path) == list(LINES)


def test_moved_by_hand_meanwhile_nothing_is_lost(chat: Chat, folder: Path) -> None:
    chat.path.rename(folder / "elsewhere.leadsman")
    chat.say("rename job to hut")
    assert chat.path == folder / "hut.leadsman"
    assert chat.say("C1 -16").data["reading"]["point"] == "C1"
    chat.journal.close()
    assert said_in(folder / "hut.leadsman") == [*LINES, "C1 -16"]
    assert said_in(folder / "elsewhere.leadsman") == list(LINES)


@pytest.mark.parametrize("line", ["rename job to hut", "copy job to hut", "put job away"])
def test_a_disk_that_takes_nothing_leaves_all_as_it_was(
    line: str, chat: Chat, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: Any, **__: Any) -> None:
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as broken:
        broken.setattr(os, "link", full)
        broken.setattr(os, "open", _full_for_new_files(os.open))
        reply = chat.say(line)
    assert not chat.turn.ok
    assert "No space left on device" in reply.headline
    assert [name for name in files_in(folder) if name.endswith("leadsman")] == ["shed.leadsman"]
    assert chat.say("C1 -16").data["reading"]["point"] == "C1"
    chat.journal.close()
    assert said_in(folder / "shed.leadsman") == [*LINES, "C1 -16"]


def _full_for_new_files(real: Any) -> Any:
    def opened(path: Any, flags: int, *mode: Any, **more: Any) -> int:
        if flags & os.O_CREAT and flags & os.O_EXCL:
            raise OSError(28, "No space left on device")
        return int(real(path, flags, *mode, **more))

    return opened


def test_where_there_are_no_links_it_is_renamed_all_the_same(
    chat: Chat, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def none(*_: Any) -> None:
        raise OSError(1, "Operation not permitted")

    monkeypatch.setattr(os, "link", none)
    chat.say("rename job to hut")
    assert chat.path == folder / "hut.leadsman"
    assert chat.say("C1 -16").data["reading"]["point"] == "C1"
    assert files_in(folder)[0] == "hut.leadsman"


def test_a_name_taken_at_the_last_moment_is_not_overwritten(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path, target = folder / "a.leadsman", folder / "b.leadsman"
    for links in (True, False):
        path.write_text("a")
        target.write_text("b")
        if not links:
            monkeypatch.setattr(os, "link", _no_links)
        with pytest.raises(FileExistsError):
            drafts.move_in_place(path, target)
        assert (path.read_text(), target.read_text()) == ("a", "b")


def _no_links(*_: Any) -> None:
    raise OSError(1, "Operation not permitted")


def test_a_job_in_memory_has_no_file() -> None:
    talk = Conversation(Journal.open(None), WORLD)
    for line in ("rename job to hut", "copy job to hut", "put job away", "bring back job"):
        turn = talk.hear(line)
        assert not turn.ok
        assert "has no file" in turn.reply.headline


def test_no_undo_and_no_what_if_reaches_a_file(chat: Chat, folder: Path) -> None:
    chat.say("rename job to hut")
    assert chat.say("undo").headline.startswith("Undone: B1 -17")
    assert chat.path == folder / "hut.leadsman"
    chat.say("what if rename job to barn")
    assert chat.path == folder / "hut.leadsman"


def test_what_was_nearly_said_is_offered_and_done_on_a_yes(chat: Chat, folder: Path) -> None:
    assert chat.say("could you archive this one").ask == "Did you mean: put job away?"
    assert chat.path == folder / "shed.leadsman"
    assert chat.say("yes").headline == "shed is put away; nothing is deleted."
    assert chat.path == folder / AWAY / "shed.leadsman"


def test_the_list_says_where_each_stands(chat: Chat, folder: Path) -> None:
    chat.say("copy job to hut")
    with Journal.open(folder / "hut.leadsman") as journal:
        other = Conversation(journal, WORLD)
        other.hear("C1 -16")
        other.hear("client Smith")
    (folder / "torn.leadsman").write_bytes(b"SQLite format 3\0torn")
    (folder / "cut.leadsman").write_bytes(b"")
    (folder / "cut.leadsman-journal").write_bytes(b"half a line")
    told = chat.say("jobs")
    found = {each["name"]: each for each in told.data["jobs"]}
    assert found["shed"]["stands"] == "2 of 12 read"
    assert found["shed"]["open"]
    assert found["hut"]["stands"] == "3 of 12 read"
    assert found["hut"]["client"] == "Smith"
    assert "cannot be read" in found["torn"]["stands"]
    assert "cut off" in found["cut"]["stands"]
    assert told.data["answer"] == {"id": "jobs", "value": 4, "unit": "jobs"}


def test_a_glance_leaves_a_job_that_is_open_here_locked(chat: Chat, folder: Path) -> None:
    link = folder.parent / "linked"
    link.symlink_to(folder)
    chat.talk = Conversation(chat.journal, WORLD, files=JobFiles(chat.journal, link))
    assert chat.say("jobs").data["jobs"][0]["stands"] == "2 of 12 read"
    test_the_renamed_job_is_locked_against_other_windows(chat)


def test_a_job_that_another_window_has_open_is_told_and_stays(chat: Chat, folder: Path) -> None:
    from assistant.record.job_files import put_away

    with pytest.raises(LeadsmanError, match="already open here"):
        put_away(folder, "shed")
    assert chat.path == folder / "shed.leadsman"
    assert chat.path.exists()


def test_the_copy_is_a_sound_database(chat: Chat, folder: Path) -> None:
    chat.say("copy job to hut")
    connection = sqlite3.connect(folder / "hut.leadsman")
    assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
    connection.close()
    assert (folder / "hut.leadsman").stat().st_mode & 0o077 == 0
