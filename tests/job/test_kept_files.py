"""Job files that older programs wrote open, and are the same jobs.

``kept/every_event.leadsman`` was written by 0.1.0, before the house was rebuilt, with every kind of
event there was; ``kept/every_event.json`` is what that program answered about it, but for one
thing: a step's line runs through the middles of ten cells of that floor, and rounding had put two
of them on its other side, which moved the interval's ends by 0.2 %.
"""

from __future__ import annotations

import json
import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from assistant.record.event_rows import Row, event_of, row_of
from tests.job.kept_files import KEPT, answers_about

ANSWERED = sorted(KEPT.glob("*.json"))
FIRST_KINDS = 54
"""Kinds of event in 0.1.0."""


def _amiss(old: Any, new: Any, where: str = "") -> Iterator[str]:
    """Where what was answered is no longer; what is answered beside it does not count."""
    if isinstance(old, dict) and isinstance(new, dict):
        for name, value in old.items():
            if name not in new:
                yield f"{where}.{name} is gone"
            else:
                yield from _amiss(value, new[name], f"{where}.{name}")
    elif isinstance(old, list) and isinstance(new, list) and len(old) == len(new):
        for place, (one, other) in enumerate(zip(old, new, strict=True)):
            yield from _amiss(one, other, f"{where}[{place}]")
    elif isinstance(old, float) and isinstance(new, float):
        # Libraries of linear algebra differ in the last digits.
        if new != pytest.approx(old, rel=1e-6, abs=1e-9):
            yield f"{where} was {old} and is {new}"
    elif old != new or type(old) is not type(new):
        yield f"{where} was {old!r} and is {new!r}"


def _rows(path: Path) -> list[Row]:
    with closing(sqlite3.connect(f"file:{path}?mode=ro", uri=True)) as connection:
        order = "SELECT name, version, facts FROM events ORDER BY utterance, place"
        return [Row(*row) for row in connection.execute(order)]


def test_there_are_such_files() -> None:
    assert ANSWERED


@pytest.mark.parametrize("answered", ANSWERED, ids=lambda path: path.stem)
def test_a_file_of_an_older_program_is_the_same_job(answered: Path) -> None:
    path = answered.with_suffix(".leadsman")
    before = path.read_bytes()
    told = json.loads(json.dumps(answers_about(path), default=str))
    assert not list(_amiss(json.loads(answered.read_text("utf-8")), told))
    assert path.read_bytes() == before


def test_it_holds_every_kind_of_event_there_was() -> None:
    assert len({row.name for row in _rows(KEPT / "every_event.leadsman")}) == FIRST_KINDS


def test_each_event_is_written_as_it_was(tmp_path: Path) -> None:
    """Or a file that two programs wrote would hold two spellings of one thing."""
    copy = Path(shutil.copy(KEPT / "every_event.leadsman", tmp_path))
    for row in _rows(copy):
        again = row_of(event_of(row))
        if again.version == row.version:
            assert again == row


@pytest.mark.parametrize(
    ("old", "new", "named"),
    [
        ({"bags": 70}, {"bags": 71}, ".bags was 70 and is 71"),
        ({"bags": 70}, {}, ".bags is gone"),
        ({"sd": 1.0}, {"sd": 1.00001}, ".sd was 1.0 and is 1.00001"),
        ([1], [1, 2], " was [1] and is [1, 2]"),
        ({"flag": 1}, {"flag": True}, ".flag was 1 and is True"),
    ],
)
def test_a_job_that_changed_is_noticed(old: Any, new: Any, named: str) -> None:
    assert list(_amiss(old, new)) == [named]
