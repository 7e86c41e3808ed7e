"""Rows by the class of a command: those of its matter are loaded, once, and no others."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from importlib import import_module
from pkgutil import iter_modules
from threading import Barrier
from types import ModuleType

import pytest

from assistant.answers import ANSWERS
from assistant.decide import DECIDERS
from assistant.decide.by_matter import ByMatter
from assistant.decide.parts import Decider
from assistant.decide.room import set_room
from grammar.commands import Change, Command
from grammar.commands.doors import MeasureDoor
from grammar.commands.overview import AskTally
from grammar.commands.room import SetRoom


@pytest.fixture
def loaded(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The modules whose rows were loaded."""
    names: list[str] = []

    def noted(name: str) -> ModuleType:
        names.append(name)
        return import_module(name)

    monkeypatch.setattr("assistant.decide.by_matter.import_module", noted)
    return names


@pytest.fixture
def rows() -> ByMatter[type[Change], Decider]:
    return ByMatter("assistant.decide", "DECIDERS", ("room", "doors", "site"))


def test_only_its_own_matter_is_loaded(
    rows: ByMatter[type[Change], Decider], loaded: list[str]
) -> None:
    assert rows[SetRoom] is set_room
    assert loaded == ["assistant.decide.room"]
    assert MeasureDoor in rows
    assert loaded == ["assistant.decide.room", "assistant.decide.doors"]


def test_walked_it_has_all_rows(rows: ByMatter[type[Change], Decider], loaded: list[str]) -> None:
    assert MeasureDoor in rows
    in_order = [kind for name in ("room", "doors", "site") for kind in _table(name)]
    assert len(rows) == len(in_order)
    assert set(rows) == set(in_order)
    assert sorted(loaded) == [f"assistant.decide.{name}" for name in ("doors", "room", "site")]


@pytest.mark.parametrize(
    ("floor", "name", "table"),
    [("decide", "DECIDERS", DECIDERS), ("answers", "ANSWERS", ANSWERS)],
)
def test_every_matter_with_rows_is_named(
    floor: str, name: str, table: ByMatter[type[Command], object]
) -> None:
    package = import_module(f"assistant.{floor}")
    for module in iter_modules(package.__path__, f"assistant.{floor}."):
        rows = vars(import_module(module.name)).get(name, {})
        assert set(rows) <= set(table), f"{module.name} is not in the list of assistant.{floor}"


def test_a_command_of_no_row_is_not_there(rows: ByMatter[type[Change], Decider]) -> None:
    with pytest.raises(KeyError):
        rows[AskTally]  # type: ignore[index]


def test_threads_that_ask_at_once_load_it_once(
    rows: ByMatter[type[Change], Decider], loaded: list[str]
) -> None:
    together = Barrier(8)

    def asked(_: int) -> Decider:
        together.wait(20)
        return rows[SetRoom]

    with ThreadPoolExecutor(8) as threads:
        assert set(threads.map(asked, range(8))) == {set_room}
    assert loaded == ["assistant.decide.room"]


def _table(matter: str) -> dict[type[Change], Decider]:
    table: dict[type[Change], Decider] = import_module(f"assistant.decide.{matter}").DECIDERS
    return table
