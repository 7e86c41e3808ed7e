"""How much of what people say is understood, and that ordinary talk does nothing.

The whole lists are said by ``python -m pytest tests/benchmarks/talk --benchmark-only``, and
``python -m tests.benchmarks.talk.run`` prints the figures; the suite says a part of them.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import partial

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from assistant.job import EMPTY
from tests.benchmarks.talk.ordinary import ordinary
from tests.benchmarks.talk.outcome import Outcome, outcome, whole
from tests.benchmarks.talk.prepared import PreparedJob
from tests.benchmarks.talk.run import RIGHT_GOAL, WRONG_GOAL, counted, judged, prepared
from tests.benchmarks.talk.table import ASKED_BY, DOES, HELD_OUT, LISTS, Row, ordinary_talk, table
from tests.benchmarks.talk.verdict import (
    ANOTHER,
    ASKED,
    HINTED,
    LEFT,
    MEANT,
    NOTHING,
    OFFERED,
    WRONG,
    verdict,
)

RIGHT_AT_LEAST = {"said_on_site": 93.5, "second": 93.5, "third": 82.0, "unseen": 60.5}
"""Percent; where the lists stand, which may only get better."""
WRONG_AT_MOST = {"unseen": 3.8}
"""Percent, where the goal is not met."""
ANOTHER_AT_MOST = {"unseen": 1}
"""A note with an address in it: its words are on record, as said."""


@pytest.fixture(scope="module")
def job() -> Iterator[PreparedJob]:
    with prepared() as made:
        yield made


@pytest.mark.parametrize(
    ("row", "expected"),
    [
        (Row("bravo two minus nine", "take", ("B2 -9",), ()), MEANT),
        (Row("minus nine", "take", ("C2 -9",), ()), MEANT),
        (Row("B2 -9", "take", ("B2 -8",), ()), ANOTHER),
        (Row("B2 -9", "ask", ("side",), ()), ANOTHER),
        (Row("B2 -9", "refuse", (), ()), ANOTHER),
        (Row("tally", "take", ("map", "tally"), ()), MEANT),
        (Row("tally", "take", ("map",), ()), WRONG),
        (Row("tally", "refuse", (), ()), WRONG),
        (Row("tally", "say", ("tally",), ()), MEANT),
        (Row("B2 12", "ask", ("side",), ()), ASKED),
        # Either may be right: taken, or asked about as no reading.
        (Row("B2 about 9 low", "take", ("B2 -9", "any"), ()), ASKED),
        (Row("B2 12", "ask", ("unit",), ()), WRONG),
        (Row("B2 12", "refuse", (), ()), WRONG),
        (Row("B2 3/8 low", "ask", ("unit",), ()), ASKED),
        (Row("G2 minus 9", "ask", ("point",), ()), ASKED),
        # Taken for what it is, and refused with what the job lacks for it.
        (Row("next step", "take", ("next step",), ()), MEANT),
        (Row("confirm", "take", ("confirm",), ("raise finish 1/4",)), MEANT),
        (Row("undo", "take", ("undo",), ("B2 -9",)), MEANT),
        # The same by its effect, whatever it is called.
        (Row("B2 level", "take", ("B2 0",), ()), MEANT),
        (Row("zebra crossing", "say", (), ()), LEFT),
        (Row("zebra crossing", "take", ("tally",), ()), NOTHING),
    ],
)
def test_a_phrase_is_held_against_what_is_wanted(job: PreparedJob, row: Row, expected: str) -> None:
    got = outcome(job, row.before, row.phrase)
    assert verdict(row, got, partial(outcome, job, row.before)) == expected


@pytest.mark.parametrize(
    ("do", "want", "named", "offered", "expected"),
    [
        ("take", ("cut list",), "cut list", None, HINTED),
        ("take", ("tally",), "cut list", None, WRONG),
        ("say", (), "cut list", None, WRONG),
        ("say", ("cut list",), "cut list", None, LEFT),
        ("take", ("undo",), None, "undo", OFFERED),
        ("take", ("redo",), None, "undo", WRONG),
        ("take", ("redo", "which"), "undo", "undo", WRONG),
        ("refuse", ("undo",), None, "undo", WRONG),
        # All of it was said, so it should have been taken.
        ("take", ("B2 -9",), None, "B2 -9 mm", HINTED),
        ("ask", ("side", "B2 -9"), None, "B2 -9 mm", ASKED),
    ],
)
def test_what_is_only_named_or_offered(
    do: str, want: tuple[str, ...], named: str | None, offered: str | None, expected: str
) -> None:
    asked = f"Did you mean: {offered}? Which?" if offered else None
    hints = (whole(EMPTY, named),) if named else ()
    offers = (whole(EMPTY, offered),) if offered else ()
    told = asked or "Nothing recorded."
    got = Outcome(EMPTY, asked is not None, None, (), told, told, asked, offers, (), hints)
    silent = replace(got, asked=None, offered=(), hints=(), ok=False)
    assert verdict(Row("as said", do, want, ()), got, lambda _line: silent) == expected


@pytest.mark.parametrize("name", [*LISTS, *HELD_OUT])
def test_every_row_says_what_is_wanted(name: str) -> None:
    rows = table(name)
    assert len({row.phrase for row in rows}) >= 0.99 * len(rows)
    for row in rows:
        assert row.phrase == row.phrase.strip() != ""
        assert row.do in DOES, row
        if row.do == "take":
            assert row.commands, row
        if row.do == "ask":
            assert row.asked_by, row
        else:
            assert row.do == "take" or not set(row.want) & ASKED_BY.keys(), row


@pytest.mark.slow
def test_a_part_of_the_phrases_records_nothing_else(job: PreparedJob) -> None:
    found = list(judged(job, table("said_on_site")[::20]))
    assert [each for each in found if each.verdict == ANOTHER] == []


@pytest.mark.slow
def test_a_part_of_ordinary_talk_does_nothing(job: PreparedJob) -> None:
    lines = ordinary_talk()
    assert len(set(lines)) >= 1000
    found = ordinary(job, lines[::20])
    assert found.changed == ()
    assert found.same_events


@pytest.mark.parametrize("name", [*LISTS, *HELD_OUT])
def test_phrases_are_understood(benchmark: BenchmarkFixture, job: PreparedJob, name: str) -> None:
    """Goals: right 90 %, wrong hints 3 %, nothing else recorded. Not met: the first on the
    third list, and all of them on the one that nobody has seen."""
    counts = counted(benchmark.pedantic(lambda: list(judged(job, table(name))), rounds=1))
    benchmark.extra_info.update(counts.by_verdict)
    assert counts.right >= min(RIGHT_AT_LEAST[name], RIGHT_GOAL)
    assert counts.wrong_hints <= WRONG_AT_MOST.get(name, WRONG_GOAL)
    assert counts.another_change <= ANOTHER_AT_MOST.get(name, 0)


def test_ordinary_talk_does_nothing(benchmark: BenchmarkFixture, job: PreparedJob) -> None:
    found = benchmark.pedantic(lambda: ordinary(job, ordinary_talk()), rounds=1)
    assert found.changed == ()
    assert found.same_events
