"""A floor with fifty columns on it: what it costs beside the same floor with none.

``python -m pytest tests/benchmarks/test_bench_things.py --benchmark-only`` prints both. 600 points
in 600 m²; the goal, a tally with its interval in 300 ms, is the bare floor's of DEVELOPERS.md.
"""

from __future__ import annotations

from decimal import Decimal
from functools import cache
from math import cos, sin

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from assistant.answers import answer
from assistant.decide import World, decide, resolve
from assistant.events.readings import ReadingTaken
from assistant.floor import places, surfaces
from assistant.floor.interval import volume_of
from assistant.floor.tally import tally_of
from assistant.job import EMPTY, Job, fold, record
from assistant.levels.kriged import cells
from assistant.products.cards import cards_in, shipped_folder
from grammar import understand
from grammar.commands import Measure
from tests.benchmarks.yardstick import Clocked, within

WORLD = World(cards_in(shipped_folder()))
FLOOR = ("room 30 by 20 metres", "grid 1 metre", "product example standard")
COLUMNS = tuple(
    f"column 0.4 by 0.4 m at {3 * i + 1.5} by {4 * j + 2} m" for i in range(10) for j in range(5)
)


def told(job: Job, line: str) -> Job:
    command = resolve(job, understand(line)[0])
    events = decide(job, command, WORLD, confirmed=True).events
    return record(job, len(job.history) + 1, line, events)


@cache
def floor(columns: int) -> Job:
    """All points read, on a floor that waves."""
    job = EMPTY
    for line in (*FLOOR, *COLUMNS[:columns]):
        job = told(job, line)
    readings = [
        ReadingTaken(name, Measure(Decimal(-round(15 + 3 * sin(x) + 2 * cos(y))), "mm"))
        for name, (x, y) in places.places_of(job.layout).at_m.items()
    ]
    return record(job, len(job.history) + 1, "", readings)


def anew(columns: int) -> Job:
    """The same job with nothing worked out of it yet."""
    surfaces._mesh.cache_clear()
    cells._cells_over.cache_clear()
    history = floor(columns).history
    return fold((one.number, one.said, one.events, one.time) for one in history)


@pytest.mark.benchmark(group="a tally with its interval, 600 points in 600 m²")
@pytest.mark.parametrize("columns", [0, 50])
def test_tally_with_columns(benchmark: BenchmarkFixture, columns: int) -> None:
    jobs = [anew(columns)]

    def tallied() -> None:
        assert tally_of(jobs[0]).area_m2 == pytest.approx(600 - 0.16 * columns)
        assert volume_of(jobs[0]) is not None

    def next_job() -> None:
        jobs[0] = anew(columns)

    clocked = Clocked(tallied)
    tallied()  # what is loaded once is loaded
    benchmark.pedantic(clocked, setup=next_job, rounds=7)
    within(300, clocked)


@pytest.mark.benchmark(group="one more column supposed, 600 points in 600 m²")
def test_what_if_one_more(benchmark: BenchmarkFixture) -> None:
    job = floor(50)
    command = resolve(job, understand("what if column 0.4 by 0.4 m at 2.5 by 8.5 m")[0])

    def supposed() -> object:
        decision = decide(job, command, WORLD)
        after = record(job, len(job.history) + 1, "", decision.supposed)
        return answer(job, after, command, decision.supposed, WORLD)

    benchmark(supposed)
