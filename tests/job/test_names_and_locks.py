"""Which file a lock is of, and which name a record takes that lost its own."""

from __future__ import annotations

import os
import sys
import types
from contextlib import closing
from pathlib import Path

import pytest

from assistant.errors import JournalError
from assistant.record import put_back as module
from assistant.record.beginning import in_memory
from assistant.record.lock import LOCK_BYTE, FileLock
from assistant.record.put_back import put_back

# --- the lock ------------------------------------------------------------------------------------


def test_a_lock_is_of_the_file_and_not_of_its_name(tmp_path: Path) -> None:
    path, moved = tmp_path / "floor.leadsman", tmp_path / "moved.leadsman"
    path.touch()
    lock = FileLock(path)
    assert lock.is_at(path)
    path.rename(moved)
    assert lock.is_at(moved)
    assert not lock.is_at(path)
    path.touch()  # another file under the old name
    assert not lock.is_at(path)
    assert not lock.is_at(path / "inside")
    lock.release()


def test_once_released_a_lock_says_only_whether_there_is_a_file(tmp_path: Path) -> None:
    path = tmp_path / "floor.leadsman"
    path.touch()
    lock = FileLock(path)
    lock.release()
    lock.release()
    assert lock.released
    assert lock.is_at(path)
    path.unlink()
    assert not lock.is_at(path)
    (tmp_path / "other").touch()
    os.link(tmp_path / "other", path)
    assert lock.is_at(path)


def test_a_file_that_was_renumbered_is_still_the_same(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    # Some network file systems give another number to a file that is in use.
    path = tmp_path / "floor.leadsman"
    path.touch()
    lock = FileLock(path)
    (tmp_path / "other").touch()
    device, number = lock._key
    # Numbers of files are given one after the other: one further may be the other file's.
    nobodys = max(number, (tmp_path / "other").stat().st_ino) + 2**20
    for key in ((device, nobodys), (device + 1, number)):
        monkeypatch.setattr(lock, "_key", key)
        assert lock.is_at(path)
        assert not lock.is_at(tmp_path / "other")
    monkeypatch.setattr(lock, "_key", (device, number))
    lock.release()


def test_a_file_out_of_reach_is_not_gone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "floor.leadsman"
    path.touch()
    lock = FileLock(path)

    def unreachable(*_: object) -> None:
        raise OSError("the network is down")

    monkeypatch.setattr("assistant.record.lock.os.stat", unreachable)
    assert lock.is_at(path)
    monkeypatch.undo()
    lock.release()


def test_a_file_is_locked_once_and_again_once_it_is_released(tmp_path: Path) -> None:
    path = tmp_path / "floor.leadsman"
    path.touch()
    lock = FileLock(path)
    with pytest.raises(JournalError, match="already open here"):
        FileLock(path)
    lock.release()
    FileLock(path).release()


@pytest.mark.parametrize("what", ["folder", "pipe"])
def test_only_a_file_is_locked(what: str, tmp_path: Path) -> None:
    path = tmp_path / "floor.leadsman"
    if what == "folder":
        path.mkdir()
    elif hasattr(os, "mkfifo"):
        os.mkfifo(path)
    else:
        pytest.skip("no pipes there")
    with pytest.raises(JournalError, match="is a folder" if what == "folder" else "is not a file"):
        FileLock(path)


# --- another name --------------------------------------------------------------------------------


@pytest.mark.parametrize(("taken", "name"), [(0, "floor"), (1, "floor-2"), (98, "floor-99")])
def test_a_record_takes_the_next_free_name(taken: int, name: str, tmp_path: Path) -> None:
    path = tmp_path / "floor.leadsman"
    for number in range(1, taken + 1):
        path.with_stem(f"floor-{number}" if number > 1 else "floor").touch()
    with closing(in_memory()) as connection:
        assert put_back(connection, path) == path.with_stem(name)


def test_with_99_names_taken_it_goes_on_at_home(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    home, folder = tmp_path / "home", tmp_path / "jobs"
    monkeypatch.setenv("HOME", str(home))
    folder.mkdir()
    path = folder / "floor.leadsman"
    for number in range(1, 100):
        path.with_stem(f"floor-{number}" if number > 1 else "floor").touch()
    with closing(in_memory()) as connection:
        assert put_back(connection, path) == home / "floor.leadsman"
    assert not list(folder.glob("*100*"))


@pytest.mark.parametrize("ending", ["-wal", "-journal"])
@pytest.mark.parametrize("held", [0, 1])
def test_a_name_with_a_log_that_holds_something_is_left_alone(
    ending: str, held: int, tmp_path: Path
) -> None:
    path = tmp_path / "floor.leadsman"
    log = Path(f"{path}{ending}")
    log.write_bytes(b"x" * held)
    with closing(in_memory()) as connection:
        found = put_back(connection, path)
    assert found == (path.with_stem("floor-2") if held else path)
    # Emptied ones of ours go with the file that they were of.
    assert log.exists() == bool(held)


def test_an_empty_log_stays_where_another_file_may_own_it(tmp_path: Path) -> None:
    path = tmp_path / "floor.leadsman"
    path.touch()
    log = Path(f"{path}-journal")
    log.touch()
    with closing(in_memory()) as connection:
        assert put_back(connection, path) == path.with_stem("floor-2")
    assert log.exists()


@pytest.mark.parametrize("same", [True, False])
def test_where_the_record_is_now_is_told(same: bool, tmp_path: Path) -> None:
    was = tmp_path / "floor.leadsman"
    found = module.PutBack(was, was if same else was.with_stem("floor-2"))
    assert ("put back there" in found.text) == same == ("put back" in found.spoken)
    assert ("Open that one next time" in found.text) != same


def test_on_windows_the_same_byte_is_locked_and_the_file_read_from_its_beginning(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """With Microsoft's locking as its reference tells it: so many bytes from where the file is."""
    path = tmp_path / "floor.leadsman"
    path.write_bytes(b"head")
    locked: list[tuple[int, int, int]] = []

    class Msvcrt(types.ModuleType):
        LK_NBLCK = 2

        @staticmethod
        def locking(descriptor: int, mode: int, count: int) -> None:
            locked.append((os.lseek(descriptor, 0, os.SEEK_CUR), mode, count))

    monkeypatch.setattr("assistant.record.lock.sys.platform", "win32")
    monkeypatch.setitem(sys.modules, "msvcrt", Msvcrt("msvcrt"))
    lock = FileLock(path)
    assert locked == [(LOCK_BYTE, 2, 1)]
    assert lock.file.read(4) == b"head"
    lock.release()
