"""How long a reading takes to be looked at, and a few floors of the mishearings' table.

``mishearings.py`` prints the whole table over 300 simulated floors. What has a goal is held to it
against other work in the same run (``yardstick.py``).
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import cycle

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from assistant.conversation.conversation import Conversation
from assistant.decide import World
from assistant.record.journal import Journal
from assistant.wiring import gather_cards
from tests.benchmarks.yardstick import Clocked, within

READING_MS = {200: 50, 500: 150}
"""Goals by the number of points."""
ASK_MS = {"tally": 300, "best plane": 200}
"""Goals at 500 points."""


@pytest.fixture(params=[200, 500])
def talk(request: pytest.FixtureRequest) -> Iterator[Conversation]:
    """So many points of a gently waved floor, all but a few of them read."""
    columns = round(request.param**0.5)
    rows = -(-request.param // columns)
    with Journal.open(None) as journal:
        conversation = Conversation(journal, World(gather_cards(None, ())[0]))
        for line in (
            f"room {columns} by {rows} metres",
            "product example standard",
            "grid 1 metre starting 0.5 metres",
        ):
            assert conversation.hear(line).ok
        for number in range(request.param - 12):
            row, column = divmod(number, columns)
            height = 15 + 4 * math.sin(column / 4 if row % 2 == 0 else (columns - 1 - column) / 4)
            assert conversation.hear(f"-{round(height) + number * 7 % 3}").ok
            if conversation.pending:
                conversation.hear("confirm")
        yield conversation


@pytest.mark.benchmark(group="a reading, looked at and recorded")
def test_a_reading_is_answered(benchmark: BenchmarkFixture, talk: Conversation) -> None:
    points = next(count for count in READING_MS if len(talk.job.readings) < count)
    values = cycle(("B3 -15", "B3 -14", "B3 -13"))
    reading = Clocked(lambda: talk.hear(next(values)))
    assert benchmark.pedantic(reading, rounds=10).ok
    within(READING_MS[points], reading)


@pytest.mark.parametrize("line", ["tally", "best plane", "order", "survey check", "where next"])
@pytest.mark.benchmark(group="asks, with nothing ready")
def test_an_ask_is_answered(benchmark: BenchmarkFixture, talk: Conversation, line: str) -> None:
    def another_reading() -> None:
        talk.hear("B3 -14" if talk.job.readings["B3"].mm == -15 else "B3 -15")

    ask = Clocked(lambda: talk.hear(line))
    assert benchmark.pedantic(ask, setup=another_reading, rounds=5).ok
    if line in ASK_MS:
        within(ASK_MS[line], ask)


@pytest.mark.slow
def test_slips_are_asked_about_and_true_readings_seldom() -> None:
    """A few floors, whose heights need no library of random fields."""
    from tests.benchmarks import floors, mishearings

    result = mishearings.walked(range(12), floors.franke)
    assert result.all_far.tried > 150
    assert result.all_far.share > 0.92
    assert result.true.share < 0.02
    assert result.named.share > 0.7
