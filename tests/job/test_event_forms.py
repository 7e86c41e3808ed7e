"""How values are written in the record: what each form takes, and what it says of the rest."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from assistant.errors import JournalError, LeadsmanError, NewerRecordError
from assistant.events.room import RoomClosed
from assistant.record import event_rows
from assistant.record.event_rows import Row, UnfitError, event_of, form_of, row_of
from assistant.record.job_files import home_of
from assistant.record.places import free_job_path, job_path


def taken(form: Any, value: Any) -> bool:
    try:
        form(value)
    except UnfitError:
        return False
    return True


def test_names_that_are_missing_or_too_much_are_named() -> None:
    for wanted, found, told in (
        ("ab", "bc", "a missing and c too much"), ("ab", "", "a, b missing"),
        ("", "cd", "c, d too much"), ("ab", "ab", ""),
    ):  # fmt: skip
        assert event_rows._names_amiss(set(wanted), set(found)) == told, (wanted, found)


def test_each_simple_value_is_of_its_own_kind() -> None:
    for kind, value, written, read in (
        (int, 3, True, True), (int, True, False, False), (int, 3.0, False, False),
        (bool, True, True, True), (bool, 1, False, False),
        (float, 1.5, True, True), (float, 1, False, False), (float, float("inf"), False, False),
        (float, float("nan"), False, False), (str, "ü", True, True), (str, "\udc80", False, False),
        (str, 3, False, False), (Decimal, Decimal("18.0"), True, False),
        (Decimal, "18.0", False, True),
        (Decimal, "1_8", False, False), (Decimal, "x", False, False), (Decimal, 18, False, False),
        (Decimal, Decimal("NaN"), False, False), (Decimal, "Infinity", False, False),
        (int | None, None, True, True), (int | None, 3, True, True),
        (int | None, "3", False, False),
        (tuple[int, ...], (1, 2), True, False), (tuple[int, ...], [1, 2], False, True),
        (tuple[int, ...], ["1"], False, False), (dict[str, Any], {"a": [1, None, "b"]}, True, True),
        (dict[str, Any], {"a": {"b": float("nan")}}, False, False),
        (dict[str, Any], [1], False, False),
        (dict[str, Any], {"a": [{1}]}, False, False),
        (dict[str, Any], {"a": {"b": "\udc80"}}, False, False),
        (dict[str, Any], {"a": True, "b": 1.5}, True, True), (dict[str, Any], {1: 2}, False, False),
    ):  # fmt: skip
        form = form_of(kind)
        assert (taken(form.write, value), taken(form.read, value)) == (written, read), (kind, value)


def test_a_kind_that_has_no_form_is_no_field_of_an_event() -> None:
    for kind in (
        dict[str, int],
        dict[int, Any],
        tuple[int, int],
        list[int],
        int | str | None,
        bytes,
    ):
        with pytest.raises(TypeError, match="no way to write"):
            form_of(kind)


def test_versions_between_the_first_and_ours_are_read() -> None:
    row = row_of(RoomClosed(straight_wall_added=True))
    assert event_of(row) == RoomClosed(straight_wall_added=True)
    assert row.version == RoomClosed.VERSION
    with pytest.raises(NewerRecordError):
        event_of(Row(row.name, row.version + 1, row.facts))
    with pytest.raises(NewerRecordError):
        event_of(Row("no-event", 1, row.facts))
    with pytest.raises(JournalError, match="there has been no version 0 of it"):
        event_of(Row(row.name, 0, row.facts))
    for facts, told in (('{"a": 1, "a": 2}', "twice"), ("[]", "no JSON object"),
                        ('{"straight_wall_added": Infinity}', "is no number")):  # fmt: skip
        with pytest.raises(JournalError, match=told):
            event_of(Row(row.name, row.version, facts))


def test_an_old_version_is_brought_up_step_by_step(monkeypatch: pytest.MonkeyPatch) -> None:
    def renamed(facts: dict[str, Any]) -> dict[str, Any]:
        return {"straight_wall_added": facts["wall"]}

    monkeypatch.setattr(RoomClosed, "VERSION", 3)
    ups = {("room-closed", 1): lambda facts: {"wall": facts["w"]}, ("room-closed", 2): renamed}
    monkeypatch.setattr(event_rows, "UPGRADES", ups)
    for version, facts in ((1, '{"w": true}'), (2, '{"wall": true}'),
                           (3, '{"straight_wall_added": true}')):  # fmt: skip
        assert event_of(Row("room-closed", version, facts)) == RoomClosed(straight_wall_added=True)


# --- where a job's file is to be ----------------------------------------------------------------


def test_a_name_of_a_hundred_letters_is_the_longest(tmp_path: Path) -> None:
    assert job_path(tmp_path, "a" * 100).stem == "a" * 100
    with pytest.raises(LeadsmanError, match=f"100 letters at most, as “{'a' * 30}”"):
        job_path(tmp_path, "a" * 101)
    with pytest.raises(LeadsmanError, match="makes no file name"):
        job_path(tmp_path, "..")


def test_a_name_is_free_or_gets_the_next_number(tmp_path: Path) -> None:
    shed = tmp_path / "shed.leadsman"
    for name in ("shed.leadsman", "shed-2.leadsman", "shed-3.leadsman"):
        assert free_job_path(tmp_path, "shed").name == name
        (tmp_path / name).touch()
    for name, itself, told in (
        ("Shed", None, "There is a job 'shed' already"), ("shed", shed, "called 'shed' already"),
        ("shed-2", shed, "There is a job 'shed-2' already"),
    ):  # fmt: skip
        with pytest.raises(LeadsmanError, match=told):
            job_path(tmp_path, name, itself=itself)
    # what lies beside a job that is gone takes its name too
    Path(tmp_path / "hut.leadsman-wal").touch()
    with pytest.raises(LeadsmanError, match="There is a job 'hut' already"):
        job_path(tmp_path, "hut")
    assert home_of(tmp_path / "away" / "shed.leadsman") == tmp_path
    assert home_of(shed) == tmp_path
