"""A disk that is really full: a small file system of its own, filled to the last page.

Run as a script this file is the other side of its test, in a name space of its own where anyone may
mount: ``python test_full_disk.py FOLDER``.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from decimal import Decimal
from pathlib import Path

import pytest

from assistant.conversation.conversation import Conversation
from assistant.decide import World
from assistant.errors import JournalError
from assistant.events.readings import ReadingTaken
from assistant.record.journal import Journal
from grammar.commands import Measure

pytestmark = pytest.mark.slow

KB = 1024
SIZE_KB = 512
UNSHARED = ["unshare", "--user", "--map-root-user", "--mount"]
MOUNT = f'mount -t tmpfs -o size={SIZE_KB}k none "$1" && shift && exec "$@"'
ROOT = Path(__file__).parents[2]
LONG = ReadingTaken("B" * 3000, Measure(Decimal(-18), "mm"))


def _can_mount() -> bool:
    if shutil.which("unshare") is None:
        return False
    tried = [*UNSHARED, "mount", "-t", "tmpfs", "none", "/mnt"]
    return subprocess.run(tried, capture_output=True, check=False).returncode == 0


@pytest.mark.skipif(not _can_mount(), reason="needs Linux, and leave to mount in a name space")
def test_no_line_is_lost_or_half_written_when_the_disk_is_full(tmp_path: Path) -> None:
    disk = tmp_path / "disk"
    disk.mkdir()
    done = subprocess.run(
        [*UNSHARED, "sh", "-c", MOUNT, "sh", str(disk), sys.executable, __file__, str(disk)],
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr
    refused, taken = map(int, done.stdout.split())
    assert refused > 20
    assert taken > 100


def fill(folder: Path, left_kb: int) -> Path:
    """Take up all room but so much."""
    filler = folder / "filler"
    free = os.statvfs(folder)
    room = free.f_bavail * free.f_bsize - left_kb * KB
    filler.write_bytes(bytes(max(room, 0)))
    return filler


def try_with(folder: Path, left_kb: int) -> tuple[int, int]:
    """Lines refused and taken, with so little room at first."""
    path = folder / "floor.leadsman"
    answered = []
    refused = 0
    with Journal.open(path) as journal:
        filler = fill(folder, left_kb)
        for number in range(60):
            if number == 50:
                filler.unlink()
            try:
                journal.append(f"line {number}", [LONG] * (number % 3))
            except JournalError as error:
                assert "Nothing was recorded: the disk is full" in str(error), error
                refused += 1
                assert number < 50, "there is room again"
            else:
                answered.append(f"line {number}")
            assert [entry.said for entry in journal.entries()] == answered
    with Journal.open(path) as journal:
        assert [entry.said for entry in journal.entries()] == answered
    path.unlink()
    return refused, len(answered)


def begin_with(folder: Path, left_kb: int) -> None:
    """A job that cannot even be begun leaves nothing, and can be later."""
    filler = fill(folder, left_kb)
    path = folder / "floor.leadsman"
    try:
        Journal.open(path).close()
    except JournalError:
        assert os.listdir(folder) == [filler.name]
    filler.unlink()
    Journal.open(path).close()
    path.unlink()


def talk_with(folder: Path, left_kb: int) -> None:
    """A question is asked on a full disk, and answered once there is room."""
    path = folder / "floor.leadsman"
    with Journal.open(path) as journal:
        conversation = Conversation(journal, World({}))
        filler = fill(folder, left_kb)
        conversation.hear("A1 18 mm")
        conversation.hear("below")
        filler.unlink()
        if conversation.pending is not None:
            assert conversation.hear("below").recorded
        assert conversation.job.readings["A1"].mm == -18
    with Journal.open(path) as journal:
        assert [entry.said for entry in journal.entries()] == ["A1 18 mm\nbelow"]
    path.unlink()


def main(folder: Path) -> None:
    assert shutil.disk_usage(folder).total <= SIZE_KB * KB, "not the small disk"
    refused = taken = 0
    for left_kb in range(0, 80, 8):
        counts = try_with(folder, left_kb)
        refused, taken = refused + counts[0], taken + counts[1]
        begin_with(folder, left_kb)
        talk_with(folder, left_kb)
    print(refused, taken)


if __name__ == "__main__":
    main(Path(sys.argv[1]))
