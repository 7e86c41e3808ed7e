"""Killed at any moment, the program has lost no line whose reply was printed.

Run as a script this file is the other side of its test: a process that has the
whole program loaded, forks it again and again on one job, and kills it.
"""

from __future__ import annotations

import gc
import json
import os
import random
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

KILLS = int(os.environ.get("LEADSMAN_KILLS", "40"))
"""Raise it for a long run."""
KILLS_PER_JOB = 10
ROWS = 9


def lines(start: int) -> list[str]:
    """The room first, then readings that differ in their value; undo, redo and a pour among them.

    Batches are a minute apart, as one reported again at once would be asked about; each time that
    the program is opened again it is an hour later.
    """
    opening = ["room 30 by 20 metres", "grid 2 metres", "product example standard"]
    readings = []
    hour = 10 + max(start - 1, 0) % KILLS_PER_JOB
    for number in range(start, start + 400):
        point = f"{'ABCDEFGHIJKLMN'[number % 14]}{1 + number % ROWS}"
        # No wilder than a floor is, or the reading would be asked about.
        readings.append(f"{point} -{12 + number % 3}.{number % 10} mm")
        if number % 7 == 6:
            readings += ["take that back", "bring that back"]
        if (minute := number - start) < 60:
            readings += [f"@{hour}:{minute:02} batch 2 bags", f"bags left {90 - minute}"]
    first, *others = [*(opening if start == 0 else []), *readings]
    return [f"@{hour}:00 {first}", *others]


def played_until_killed(path: Path, start: int, chance: random.Random) -> list[dict[str, object]]:
    """What the program had printed, whole lines only, when it was killed."""
    ours, theirs = os.pipe()
    feed, into = os.pipe()
    player = os.fork()
    if player == 0:
        for end in (ours, into):
            os.close(end)
        os.dup2(feed, 0)
        os.dup2(theirs, 1)
        from assistant.__main__ import main

        try:
            main(["run", "-", "--json", "--job", str(path)])
        finally:
            os._exit(1)
    os.close(theirs)
    os.close(feed)
    with os.fdopen(into, "w") as lines_in, os.fdopen(ours, "rb") as printed:
        lines_in.write("\n".join(lines(start)) + "\n")
        lines_in.flush()
        told = b""
        for _ in range(chance.randrange(12)):
            told += printed.readline()
        time.sleep(chance.uniform(0, 0.01))
        os.kill(player, signal.SIGKILL)
        os.waitpid(player, 0)
        told += printed.read()
    return [json.loads(line) for line in told.split(b"\n")[:-1]]


def recorded_in(path: Path) -> list[tuple[str, list[str]]]:
    from assistant.record.journal import Journal

    with Journal.open(path) as journal:
        return [
            (said, [event.NAME for event in events]) for _, said, events, *_ in journal.utterances()
        ]


def kill_many(folder: Path, kills: int, seed: int) -> None:
    # All of it is loaded once, with what such lines need, so that a fork starts in the middle of
    # the work.
    from assistant.conversation.conversation import Conversation
    from assistant.decide import World
    from assistant.record.journal import Journal
    from assistant.wiring import gather_cards, warm_up

    cards = gather_cards(None, ())[0]
    warm_up(cards)
    with Journal.open(None) as journal:
        talk = Conversation(journal, World(cards))
        for line in lines(0)[:40]:
            talk.hear(line.partition(" ")[2] if line.startswith("@") else line)
    gc.freeze()  # or each fork copies it to look whether it is garbage
    chance = random.Random(seed)
    printed = 0
    acknowledged: list[tuple[str, list[str]]] = []
    for kill in range(kills):
        path = folder / f"job-{kill // KILLS_PER_JOB}.leadsman"
        if kill % KILLS_PER_JOB == 0:
            acknowledged = []
        turns = played_until_killed(path, len(acknowledged) and 1 + kill, chance)
        for turn in turns:
            assert turn["ok"], turn
            said = str(turn["text"])
            said = said.split(" ", 1)[1] if said.startswith("@") else said
            acknowledged.append((said, list(turn["recorded"])))  # type: ignore[call-overload]
        printed += len(turns)
        if path.exists():
            there = recorded_in(path)
            assert there[: len(acknowledged)] == acknowledged, (kill, path)
            assert len(there) <= len(acknowledged) + 1
            acknowledged = there
        else:
            assert not acknowledged
    print(kills, printed)


@pytest.mark.slow
@pytest.mark.skipif(not hasattr(os, "fork"), reason="needs fork and SIGKILL")
def test_no_line_whose_reply_was_printed_is_lost(tmp_path: Path) -> None:
    seed = random.SystemRandom().randrange(10**6)
    done = subprocess.run(
        [sys.executable, __file__, str(tmp_path), str(KILLS), str(seed)],
        env={
            **os.environ,
            "PYTHONPATH": str(Path(__file__).parents[2]),
            "LEADSMAN_HOME": str(tmp_path / "home"),
            # A kill while a copy is examined leaves the copy.
            "TMPDIR": str(tmp_path),
        },
        capture_output=True,
        text=True,
        timeout=120 + 2 * KILLS,
        check=False,
    )
    assert done.returncode == 0, f"seed {seed}: {done.stdout}{done.stderr[-3000:]}"
    kills, printed = map(int, done.stdout.split())
    assert kills == KILLS >= 40
    assert printed > kills, "the program was killed before it had said much"


if __name__ == "__main__":
    kill_many(Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3]))
