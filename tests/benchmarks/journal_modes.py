"""What an answer costs on disk, by the way SQLite keeps its journal.

    python tests/benchmarks/journal_modes.py [FOLDER] [LINES]

prints milliseconds a line (median, and the 95th of a hundred) for a record like ours in FOLDER
(the temporary one unless named: name one on the disk that the jobs lie on).
"""

from __future__ import annotations

import sqlite3
import sys
import tempfile
from collections.abc import Iterator
from datetime import UTC, datetime
from decimal import Decimal
from pathlib import Path
from statistics import quantiles
from time import perf_counter

from assistant.events.readings import ReadingTaken
from assistant.record.event_rows import row_of
from assistant.record.table import insert_utterance, make_tables
from grammar.commands import Measure

WAYS = (
    ("WAL", "FULL", False), ("WAL", "FULL", True),
    *((mode, flushed, False) for mode in ("DELETE", "PERSIST", "TRUNCATE")
      for flushed in ("FULL", "EXTRA")),
)  # fmt: skip
"""Journal mode, ``synchronous``, and whether the log is folded in after every line."""
ROW = row_of(ReadingTaken("B3", Measure(Decimal("-18.0"), "mm")))


def timed(path: Path, way: tuple[str, str, bool], lines: int) -> Iterator[float]:
    """Seconds of each line."""
    mode, flushed, folded = way
    connection = sqlite3.connect(path, isolation_level=None)
    # A rollback journal under the exclusive lock is kept and not deleted, whatever its mode.
    locking = "NORMAL" if mode == "DELETE" else "EXCLUSIVE"
    connection.execute(f"PRAGMA locking_mode = {locking}").fetchone()
    connection.execute(f"PRAGMA journal_mode = {mode}").fetchone()
    connection.execute(f"PRAGMA synchronous = {flushed}")
    make_tables(connection)
    for number in range(lines):
        begun = perf_counter()
        connection.execute("BEGIN IMMEDIATE")
        insert_utterance(connection, datetime.now(UTC), f"B3 18 low, line {number}", [ROW])
        connection.execute("COMMIT")
        if folded:
            connection.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchone()
        yield perf_counter() - begun
    connection.close()


def main(folder: str | None, lines: int) -> None:
    print("| journal | synchronous | ms a line | 95 of 100 within |\n|---|---|---|---|")
    for number, way in enumerate(WAYS):
        with tempfile.TemporaryDirectory(dir=folder) as place:
            spent = quantiles(timed(Path(place) / f"{number}.leadsman", way, lines), n=20)
        mode, flushed, folded = way
        name = f"{mode}, folded in each time" if folded else mode
        print(f"| {name} | {flushed} | {spent[9] * 1e3:.2f} | {spent[18] * 1e3:.2f} |")


if __name__ == "__main__":
    main(sys.argv[1] if sys.argv[1:] else None, int(sys.argv[2]) if sys.argv[2:] else 300)
