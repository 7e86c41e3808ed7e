"""How fast it is for the person using it.

``python -m pytest tests/benchmarks --benchmark-only`` prints the tables that
DEVELOPERS.md quotes. What has a goal there is held to it against other work in the same run
(``yardstick.py``): machines differ and are shared. What has none is only measured.
"""

from __future__ import annotations

import os
import pty
import re
import select
import signal
import subprocess
import sys
from collections.abc import Iterator
from itertools import count
from pathlib import Path

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from assistant.conversation.conversation import Conversation
from assistant.conversation.filing import job_at_a_glance
from assistant.decide import World
from assistant.record.journal import Journal
from assistant.record.places import jobs_in
from assistant.wiring import gather_cards
from tests.benchmarks.yardstick import Clocked, OfChildren, starts_within, within


def floor_of(points: int, path: Path | None) -> tuple[Journal, Conversation]:
    """A job with so many points, all but the last of them read."""
    columns = max(2, round(points**0.5))
    rows = -(-points // columns)
    cards, _ = gather_cards(None, ())
    journal = Journal.open(path)
    talk = Conversation(journal, World(cards))
    for line in (
        f"room {columns} by {rows} metres",
        "product example standard",
        "grid 1 metre starting 0.5 metres",
    ):
        assert talk.hear(line).ok
    for number in range(points - 1):
        assert talk.hear(f"-{10 + number * 7 % 11}").ok
    return journal, talk


@pytest.fixture(params=[50, 500])
def floor(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Conversation]:
    journal, talk = floor_of(request.param, tmp_path / "floor.leadsman")
    yield talk
    journal.close()


def test_a_reading_is_answered(benchmark: BenchmarkFixture, floor: Conversation) -> None:
    """One point read for ever, the event on disk in between; a walk has a goal of its own."""
    values = count(1)
    benchmark(lambda: floor.hear(f"B3 -{next(values) % 30}.5 mm"))


def test_a_tally_is_answered(benchmark: BenchmarkFixture, floor: Conversation) -> None:
    """After a reading, so that nothing is ready beforehand; goal 300 ms at 500 points."""
    values = count(1)
    tally = Clocked(lambda: floor.hear("tally"))
    benchmark.pedantic(
        tally, setup=lambda: floor.hear(f"B3 -{next(values) % 30}.5 mm") and None, rounds=20
    )
    within(300, tally)


def test_a_tally_with_zones_is_answered(benchmark: BenchmarkFixture, tmp_path: Path) -> None:
    """500 points in eight zones and a rest, one with its own finish; the goal is a tally's."""
    journal, talk = floor_of(500, tmp_path / "floor.leadsman")
    corners = [
        (f"{first}{row}", f"{last}{end}")
        for row, end in ((1, 11), (12, 23))
        for first, last in ("AE", "FJ", "KO", "PT")
    ]
    for number, (first, last) in enumerate(corners, start=1):
        assert talk.hear(f"zone {number} {first} to {last}").ok
    assert talk.hear("finish in zone 1 +4 mm").ok
    values = count(1)
    tally = Clocked(lambda: talk.hear("tally"))
    benchmark.pedantic(
        tally, setup=lambda: talk.hear(f"B3 -{next(values) % 30}.5 mm") and None, rounds=10
    )
    within(300, tally)
    journal.close()


def test_what_if_is_answered(benchmark: BenchmarkFixture, floor: Conversation) -> None:
    """A change tried on a copy."""
    benchmark(lambda: floor.hear("what if raise finish 3 millimetres"))


def test_a_miss_is_answered(benchmark: BenchmarkFixture, floor: Conversation) -> None:
    """A line that is not understood, with the nearest one that works."""
    benchmark(lambda: floor.hear("raise finsh 3 milimeters"))


def test_ten_thousand_points_are_loaded(benchmark: BenchmarkFixture, tmp_path: Path) -> None:
    """From the job's file to a job that can be asked; goal 2 s."""
    from decimal import Decimal

    from assistant.events.readings import ReadingTaken
    from assistant.events.room import GridSet, RoomMeasured
    from grammar.commands import Measure

    path = tmp_path / "large.leadsman"
    metres = [Measure(Decimal(number), "m") for number in (99, 102, 1)]
    with Journal.open(path) as journal:
        journal.append("room", [RoomMeasured(metres[1], metres[0])])
        journal.append("grid", [GridSet(metres[2], metres[2], Measure(Decimal("0.5"), "m"))])
        columns = [one + two for one in ["", *"ABC"] for two in "ABCDEFGHIJKLMNOPQRSTUVWXYZ"]
        names = [f"{column}{row}" for column in columns[:102] for row in range(1, 100)]
        for number, name in enumerate(names[:10_000]):
            reading = Measure(Decimal(-(5 + number % 17)), "mm")
            journal.append(f"{name} {reading.number}", [ReadingTaken(name, reading)])

    def load() -> None:
        with Journal.open(path) as journal:
            talk = Conversation(journal, World({}))
            assert len(talk.job.readings) == 10_000

    loaded = Clocked(load)
    benchmark.pedantic(loaded, rounds=3)
    within(2000, loaded)


def test_a_list_of_two_hundred_jobs(benchmark: BenchmarkFixture, tmp_path: Path) -> None:
    """Each with a hundred readings, and looked into; in the chat the latest forty are."""
    journal, _ = floor_of(101, tmp_path / "job.leadsman")
    for number in range(199):
        journal.copy_to(tmp_path / f"job-{number}.leadsman")
    journal.close()
    jobs = benchmark(lambda: [job_at_a_glance(each) for each in jobs_in(tmp_path)])
    assert [job.stands for job in jobs] == ["100 of 110 read"] * 200


def test_version_is_printed(benchmark: BenchmarkFixture) -> None:
    """Goal 0.15 s: 15 times what Python's own start takes."""
    version = OfChildren(
        lambda: subprocess.run(
            [sys.executable, "-m", "assistant", "--version"], check=True, capture_output=True
        )
    )
    benchmark.pedantic(version, rounds=10)
    starts_within(150, version)


@pytest.mark.parametrize("line", ["tally", "room 4 by 3 metres", "B3 18 below"])
def test_one_answer_is_given(benchmark: BenchmarkFixture, line: str, tmp_path: Path) -> None:
    """
    A line played on an empty job, from start to end.

    Held to three times what numpy takes to be loaded. Both with their modules compiled, as an
    installer leaves them.
    """
    env = {**os.environ, "PYTHONDONTWRITEBYTECODE": "", "PYTHONPYCACHEPREFIX": str(tmp_path)}

    def run(*words: str, told: str = "") -> OfChildren:
        command = [sys.executable, *words]
        return OfChildren(
            lambda: subprocess.run(
                command, input=told.encode(), check=True, capture_output=True, env=env
            )
        )

    answer, alone = run("-m", "assistant", "run", "-", told=line), run("-c", "import numpy")
    answer()
    answer.taken_ms.clear()
    benchmark.pedantic(answer, setup=lambda: alone() and None, rounds=20)
    told = f"{answer.median_ms:.0f} ms, {answer.median_ms / alone.median_ms:.1f} imports of numpy"
    print(told)
    assert answer.median_ms <= 3 * alone.median_ms, told


def test_python_alone(benchmark: BenchmarkFixture) -> None:
    """What of the above is Python's own start: compare, do not add."""
    benchmark.pedantic(
        lambda: subprocess.run([sys.executable, "-c", "pass"], check=True), rounds=10
    )


def test_the_prompt_is_ready(benchmark: BenchmarkFixture, tmp_path: Path) -> None:
    """
    From the command to a prompt on a real terminal that takes a line; goal 0.5 s.

    Fifty times what Python's own start takes.
    """
    jobs = count()

    def until_ready() -> None:
        command = [
            sys.executable,
            "-m",
            "assistant",
            "--job",
            str(tmp_path / f"{next(jobs)}.leadsman"),
        ]
        player, terminal = pty.fork()
        if player == 0:
            # The bare line at the other end can't say where its cursor is.
            os.environ.update(
                TERM="xterm-256color", LEADSMAN_HOME=str(tmp_path), PROMPT_TOOLKIT_NO_CPR="1"
            )
            os.execv(sys.executable, command)
        shown = b""
        while not re.search(rb"Ctrl-D.*\n[^\n]*>", shown, re.DOTALL):
            if not select.select([terminal], [], [], 20)[0]:
                raise TimeoutError(shown)
            shown += os.read(terminal, 4096)
        os.kill(player, signal.SIGKILL)
        os.waitpid(player, 0)
        os.close(terminal)

    ready = OfChildren(until_ready)
    benchmark.pedantic(ready, rounds=5)
    starts_within(500, ready)
