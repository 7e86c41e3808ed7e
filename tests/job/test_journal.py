"""What goes into the record, stays in it, and comes out of it."""

from __future__ import annotations

import os
import sqlite3
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import closing
from datetime import UTC, datetime, timedelta, timezone
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.errors import JournalError
from assistant.events.doors import DoorPlaced
from assistant.events.material import ProductChosen, WasteSet
from assistant.events.readings import ReadingTaken
from assistant.record.journal import Journal, RecordEntry
from grammar.commands import Measure

ROOT = Path(__file__).parents[2]
B3 = ReadingTaken("B3", Measure(Decimal("-18.0"), "mm"))
C3 = ReadingTaken("C3", Measure(Decimal("0.375"), "in"))
NOON = datetime(2026, 11, 25, 12, 0, 0, 5, tzinfo=UTC)


def at_noon() -> datetime:
    return NOON


@pytest.fixture(params=["file", "memory"])
def journal(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Journal]:
    path = tmp_path / "job.leadsman" if request.param == "file" else None
    with Journal.open(path, at_noon) as journal:
        yield journal


def test_a_new_record_is_empty(journal: Journal) -> None:
    assert journal.entries() == []
    assert list(journal.utterances()) == []
    assert journal.last_utterance() == 0


def test_an_utterance_comes_back_with_its_words_time_and_events(journal: Journal) -> None:
    assert journal.append("B3 18.0 low, and C3 3/8 high", [B3, C3]) == 1
    assert journal.append("waste 7 percent", (WasteSet(Decimal(7)),)) == 2
    assert journal.last_utterance() == 2
    assert journal.entries() == [
        RecordEntry(1, NOON, "B3 18.0 low, and C3 3/8 high", (B3, C3)),
        RecordEntry(2, NOON, "waste 7 percent", (WasteSet(Decimal(7)),)),
    ]
    assert list(journal.utterances()) == [
        (1, "B3 18.0 low, and C3 3/8 high", [B3, C3], NOON, ""),
        (2, "waste 7 percent", [WasteSet(Decimal(7))], NOON, ""),
    ]


def test_times_are_kept_in_utc(tmp_path: Path) -> None:
    path = tmp_path / "job.leadsman"
    here = NOON.astimezone(timezone(timedelta(hours=-5)))
    with Journal.open(path, lambda: here) as journal:
        journal.append("B3 18 low", [B3])
    with sqlite_of(path) as connection:
        times = connection.execute("SELECT time FROM utterances").fetchall()
    assert times == [("2026-11-25T12:00:00.000005+00:00",)]


def test_a_clock_without_a_zone_records_nothing(journal: Journal) -> None:
    journal._clock = lambda: NOON.replace(tzinfo=None)
    with pytest.raises(ValueError, match="zone"):
        journal.append("B3 18 low", [B3])
    assert journal.last_utterance() == 0


@pytest.mark.parametrize(
    "said",
    ["", "B3 −18", "Böden früh", "床 B3", "\U0001f4a7 B3", "a\0b", "\udc80 B3", "\ud83d\ude00",
     "caf\u00e9", "cafe\u0301", "  B3\t-18\r\n", "'; DROP TABLE events; --", "x" * 100_000],
    ids=ascii,
)  # fmt: skip
def test_words_survive_unchanged(said: str, tmp_path: Path) -> None:
    path = tmp_path / "job.leadsman"
    with Journal.open(path) as journal:
        journal.append(said, [B3])
    with Journal.open(path) as journal:
        assert [entry.said for entry in journal.entries()] == [said]


@given(said=st.text(st.characters(exclude_categories=[])))
def test_any_words_survive_unchanged(said: str) -> None:
    with Journal.open(None) as journal:
        journal.append(said, [B3])
        assert journal.entries()[0].said == said


def test_the_record_goes_on_where_it_stopped(tmp_path: Path) -> None:
    path = tmp_path / "job.leadsman"
    for number in range(1, 6):
        with Journal.open(path) as journal:
            assert journal.append(f"line {number}", [B3] * number) == number
    with Journal.open(path) as journal:
        assert [len(entry.events) for entry in journal.entries()] == [1, 2, 3, 4, 5]


def test_one_file_remains_and_reading_does_not_change_it(tmp_path: Path) -> None:
    path = tmp_path / "job.leadsman"
    with Journal.open(path) as journal:
        journal.append("B3 18 low", [B3])
        assert not (tmp_path / "job.leadsman-shm").exists()
    assert os.listdir(tmp_path) == ["job.leadsman"]
    before = path.read_bytes(), path.stat().st_mtime_ns
    with Journal.open(path) as journal:
        journal.entries()
    assert (path.read_bytes(), path.stat().st_mtime_ns) == before
    assert os.listdir(tmp_path) == ["job.leadsman"]


def test_the_file_is_marked_as_ours_and_flushed_in_full(tmp_path: Path) -> None:
    path = tmp_path / "job.leadsman"
    with Journal.open(path) as journal:
        # In the file itself and not only in its log, so that anyone can tell what it is.
        header = path.read_bytes()[:100]
        assert header[68:72] == b"LEAD"
        assert header[60:64] == b"\0\0\0\3"  # version, and no utterance counted
        settings = {
            name: journal._connection.execute(f"PRAGMA {name}").fetchone()[0]
            for name in ("journal_mode", "synchronous", "locking_mode")
        }
    assert settings == {"journal_mode": "truncate", "synchronous": 2, "locking_mode": "exclusive"}


def test_the_record_is_readable_with_any_sqlite_tool(tmp_path: Path) -> None:
    path = tmp_path / "job.leadsman"
    with Journal.open(path, at_noon) as journal:
        journal.append("bravo three, eighteen low", [B3, DoorPlaced(1, "B3")])
    with sqlite_of(path) as connection:
        said = connection.execute("SELECT number, said FROM utterances").fetchall()
        facts = connection.execute("SELECT name, version, facts FROM events").fetchall()
    assert said == [(1, "bravo three, eighteen low")]
    assert facts == [
        ("reading-taken", 1, '{"point": "B3", "reading": {"number": "-18.0", "unit": "mm"}}'),
        ("door-placed", 1, '{"door": 1, "point": "B3"}'),
    ]


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE utterances SET said = 'B3 16 low'",
        "UPDATE events SET facts = '{}' WHERE place = 1",
        "DELETE FROM utterances WHERE number = 2",
        "DELETE FROM events",
        "INSERT OR REPLACE INTO utterances SELECT 1, time, said, digest FROM utterances LIMIT 1",
        "INSERT OR REPLACE INTO events SELECT * FROM events",
        "INSERT INTO utterances VALUES (4, '', '', '')",
        "INSERT INTO events VALUES (1, 2, 'reading-taken', 1, '{}', '')",
        "INSERT INTO events VALUES (2, 3, 'reading-taken', 1, '{}', '')",
    ],
)
def test_nothing_in_the_record_can_be_changed(statement: str, journal: Journal) -> None:
    journal.append("B3 18 low", [B3])
    journal.append("C3 3/8 high", [C3])
    before = journal.entries()
    with pytest.raises(sqlite3.IntegrityError, match="only grows at its end"):
        journal._connection.execute(statement)
    assert journal.entries() == before


# --- when it cannot be written ---------------------------------------------------


Change = Callable[[sqlite3.Connection], None]


def fill_up(connection: sqlite3.Connection) -> None:
    (pages,) = connection.execute("PRAGMA page_count").fetchone()
    connection.execute(f"PRAGMA max_page_count = {pages}")


def make_room(connection: sqlite3.Connection) -> None:
    connection.execute("PRAGMA max_page_count = 1000000")


def forbid(connection: sqlite3.Connection) -> None:
    connection.execute("PRAGMA query_only = ON")


def allow(connection: sqlite3.Connection) -> None:
    connection.execute("PRAGMA query_only = OFF")


@pytest.mark.parametrize(
    ("stop", "go", "reason"),
    [(fill_up, make_room, "disk is full"), (forbid, allow, "may not be written")],
)
def test_an_utterance_that_does_not_fit_is_not_recorded_at_all(
    journal: Journal, stop: Change, go: Change, reason: str
) -> None:
    journal.append("B3 18 low", [B3])
    before = journal.entries()
    stop(journal._connection)
    with pytest.raises(JournalError, match=f"Nothing was recorded: .*{reason}"):
        journal.append("many", [ProductChosen({"name": "x" * 3000})] * 20)
    assert journal.entries() == before
    go(journal._connection)
    assert journal.append("C3 3/8 high", [C3]) == 2
    assert journal.entries()[:1] == before


ON_A_SMALL_DISK = """
import resource, sys
from decimal import Decimal
from pathlib import Path
from typing import Any
from assistant.errors import JournalError
from assistant.events.material import ProductChosen, WasteSet
from assistant.record.journal import Journal

limits = resource.getrlimit(resource.RLIMIT_FSIZE)
with Journal.open(Path(sys.argv[1])) as journal:
    resource.setrlimit(resource.RLIMIT_FSIZE, (60_000, limits[1]))
    told = 0
    try:
        for told in range(1000):
            journal.append("a card", [ProductChosen({"name": "x" * 700})])
    except JournalError as error:
        print(told, error)
    assert journal.last_utterance() == told == len(journal.entries())
    resource.setrlimit(resource.RLIMIT_FSIZE, limits)
    assert journal.append("waste 7 percent", [WasteSet(Decimal(7))]) == told + 1
"""


@pytest.mark.skipif(sys.platform == "win32", reason="there is no such limit there")
def test_a_file_that_can_grow_no_further_loses_nothing(tmp_path: Path) -> None:
    path = tmp_path / "job.leadsman"
    done = python(ON_A_SMALL_DISK, path)
    assert done.returncode == 0, done.stderr
    told, _, message = done.stdout.partition(" ")
    assert int(told) > 3
    assert message.startswith("Nothing was recorded: the disk did not take it.")
    with Journal.open(path) as journal:
        assert [entry.said for entry in journal.entries()] == ["a card"] * int(told) + [
            "waste 7 percent"
        ]


def test_a_key_pressed_in_the_middle_leaves_all_or_nothing(journal: Journal) -> None:
    journal.append("B3 18 low", [B3])
    real = journal._connection

    class Connection:
        """Stands for Ctrl-C in the last moment."""

        def __getattr__(self, name: str) -> object:
            return getattr(real, name)

        def execute(self, statement: str, *values: Any) -> object:
            if statement == "COMMIT":
                raise KeyboardInterrupt
            return real.execute(statement, *values)

    journal._connection = Connection()  # type: ignore[assignment]
    with pytest.raises(KeyboardInterrupt):
        journal.append("C3 3/8 high", [C3])
    journal._connection = real
    assert journal.last_utterance() == 1
    assert journal.append("C3 3/8 high", [C3]) == 2


def test_an_event_that_cannot_be_written_takes_the_whole_utterance_with_it(
    journal: Journal,
) -> None:
    with pytest.raises(JournalError, match="Nothing was recorded: waste-set"):
        journal.append("two things", [B3, WasteSet(Decimal("NaN"))])
    assert journal.entries() == []


def test_a_closed_journal_records_nothing(journal: Journal) -> None:
    journal.close()
    journal.close()
    with pytest.raises(JournalError, match="Nothing was recorded"):
        journal.append("B3 18 low", [B3])
    with pytest.raises(JournalError, match="cannot be read"):
        journal.entries()


# --- one Leadsman at a time --------------------------------------------------------


OPEN = """
import sys
from pathlib import Path
from typing import Any
from assistant.errors import JournalError
from assistant.record.journal import Journal
try:
    Journal.open(Path(sys.argv[1])).close()
except JournalError as error:
    print(error)
else:
    print("opened")
"""
HOLD = """
import sys
from pathlib import Path
from typing import Any
from assistant.record.journal import Journal
journal = Journal.open(Path(sys.argv[1]))
print("held", flush=True)
sys.stdin.read()
"""


@pytest.mark.parametrize("written", [False, True])
def test_a_second_leadsman_is_refused_until_the_first_ends(tmp_path: Path, written: bool) -> None:
    path = tmp_path / "job.leadsman"
    with Journal.open(path) as journal:
        if written:
            journal.append("B3 18 low", [B3])
        before = journal.entries()
        assert "is open in another Leadsman" in python(OPEN, path).stdout
        assert journal.entries() == before
    assert python(OPEN, path).stdout == "opened\n"


def test_the_lock_goes_with_a_killed_process(tmp_path: Path) -> None:
    path = tmp_path / "job.leadsman"
    with subprocess.Popen(
        [sys.executable, "-c", HOLD, str(path)],
        cwd=ROOT,
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
    ) as other:
        assert other.stdout is not None
        assert other.stdout.readline() == b"held\n"
        with pytest.raises(JournalError, match="open in another Leadsman"):
            Journal.open(path)
        other.kill()
    with Journal.open(path) as journal:
        assert journal.append("B3 18 low", [B3]) == 1


def test_two_journals_on_one_file_are_refused_here_too(tmp_path: Path) -> None:
    path = tmp_path / "job.leadsman"
    link = tmp_path / "link.leadsman"
    link.symlink_to(path)
    with Journal.open(path):
        for name in (path, link, tmp_path / "." / "job.leadsman"):
            with pytest.raises(JournalError, match="already open"):
                Journal.open(name)
        # The refused attempts must not have cost the first one its lock.
        assert "is open in another Leadsman" in python(OPEN, path).stdout


def test_a_file_that_another_program_is_reading_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "job.leadsman"
    Journal.open(path).close()
    with sqlite_of(path) as reader:
        reader.execute("BEGIN")
        reader.execute("SELECT * FROM utterances").fetchall()
        assert "is in use by another program" in python(OPEN, path).stdout
    assert python(OPEN, path).stdout == "opened\n"


# --- helpers -----------------------------------------------------------------------


def sqlite_of(path: Path) -> closing[sqlite3.Connection]:
    """The file as any SQLite tool sees it."""
    return closing(sqlite3.connect(path))


def python(code: str, path: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-W", "error", "-c", code, str(path)],
        cwd=ROOT,
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
