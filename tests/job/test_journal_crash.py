"""Killed at any moment, the record has every line that was acknowledged, whole.

Run as a script this file is the other side of its test: a small process of its own
that forks writers and kills them, so that no thread of the test run is forked along.
"""

from __future__ import annotations

import os
import random
import signal
import struct
import subprocess
import sys
import time
import traceback
from decimal import Decimal
from pathlib import Path

import pytest

from assistant.events.kinds import Event
from assistant.events.readings import ReadingTaken
from assistant.record.journal import Journal
from grammar.commands import Measure
from tests.there import on_disk

KILLS = int(os.environ.get("LEADSMAN_KILLS", "250"))
"""Raise it for a long run."""
KILLS_PER_JOB = 20
"""Fewer, and more of the kills fall into the making of a job."""
LINES_PER_OPENING = 7
"""Fewer, and more of the kills fall into the opening and closing."""
NUMBER = struct.Struct("<I")


def said_in(number: int) -> str:
    return f"line {number}, as it was said"


def events_in(number: int) -> tuple[Event, ...]:
    """One to four events; sometimes long, so that a line spreads over several pages."""
    point = "B" * (3000 if number % 10 == 0 else 1)
    return tuple(
        ReadingTaken(point, Measure(Decimal(-number), "mm")) for _ in range(1 + number % 4)
    )


def write_until_killed(path: Path, answers: int) -> None:
    while True:
        with Journal.open(path) as journal:
            for _ in range(LINES_PER_OPENING):
                coming = journal.last_utterance() + 1
                number = journal.append(said_in(coming), events_in(coming))
                os.write(answers, NUMBER.pack(number))


def acknowledged_before_kill(path: Path, lines: int, rest_s: float) -> list[int]:
    """Kill a writer that long after it has acknowledged so many lines; what it had printed."""
    ours, theirs = os.pipe()
    writer = os.fork()
    if writer == 0:
        os.close(ours)
        try:
            write_until_killed(path, theirs)
        except BaseException:
            traceback.print_exc()
        finally:
            os._exit(1)
    os.close(theirs)
    with os.fdopen(ours, "rb") as answers:
        told = answers.read(lines * NUMBER.size)
        time.sleep(rest_s)
        os.kill(writer, signal.SIGKILL)
        _, status = os.waitpid(writer, 0)
        told += answers.read()
    if os.waitstatus_to_exitcode(status) != -signal.SIGKILL:
        raise SystemExit("the writer ended by itself")
    return [number for (number,) in NUMBER.iter_unpack(told)]


def moment(chance: random.Random) -> tuple[int, float]:
    """Any time from the first opening on, or any time between two lines well under way."""
    if chance.random() < 0.4:
        return 0, chance.uniform(0, 0.02)
    return chance.randrange(1, 15), chance.uniform(0, 0.003)


def check(path: Path, acknowledged: int) -> int:
    """Everything is there, and at most the one line whose answer was cut off comes on top."""
    with Journal.open(path) as journal:
        entries = journal.entries()
    assert acknowledged <= len(entries) <= acknowledged + 1, (acknowledged, len(entries))
    for number, entry in enumerate(entries, start=1):
        assert (entry.number, entry.said) == (number, said_in(number))
        assert entry.events == events_in(number)
    assert [found.name for found in path.parent.glob(f"{path.name}*")] == [path.name]
    return len(entries)


def kill_many(folder: Path, kills: int, seed: int) -> None:
    chance = random.Random(seed)
    acknowledged = there = cut_off = 0
    for kill in range(kills):
        if kill % KILLS_PER_JOB == 0:
            there = 0
        path = folder / f"job-{kill // KILLS_PER_JOB}.leadsman"
        numbers = acknowledged_before_kill(path, *moment(chance))
        assert numbers == list(range(there + 1, there + 1 + len(numbers)))
        left_a_log = Path(f"{path}-journal").exists()
        acknowledged += len(numbers)
        cut_off += left_a_log
        there = check(path, there + len(numbers))
    print(kills, acknowledged, cut_off)


@pytest.mark.slow
@pytest.mark.skipif(not hasattr(os, "fork"), reason="needs fork and SIGKILL")
def test_no_acknowledged_line_is_lost_however_often_it_is_killed() -> None:
    seed = random.SystemRandom().randrange(10**6)
    # In memory a line is written so fast that few kills fall into it.
    with on_disk() as folder:
        done = subprocess.run(
            [sys.executable, "-W", "error", __file__, str(folder), str(KILLS), str(seed)],
            env={
                **os.environ,
                "PYTHONPATH": str(Path(__file__).parents[2]),
                # A kill while a copy is examined leaves the copy.
                "TMPDIR": str(folder),
            },
            capture_output=True,
            text=True,
            timeout=60 + KILLS,
            check=False,
        )
    assert done.returncode == 0, f"seed {seed}: {done.stdout}{done.stderr}"
    kills, acknowledged, cut_off = map(int, done.stdout.split())
    assert kills == KILLS >= 200
    assert acknowledged > kills, "the writers were killed before they wrote much"
    # About two in five are; a third would be missed by chance in one run of twenty-five.
    assert cut_off > kills / 5, "too few were killed with the job open"


if __name__ == "__main__":
    kill_many(Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3]))
