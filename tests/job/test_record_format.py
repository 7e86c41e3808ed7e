"""Every event survives the record, and nothing else is taken for one."""

from __future__ import annotations

import json
import types
import typing
from dataclasses import dataclass, fields, is_dataclass
from decimal import Decimal
from typing import Any, ClassVar

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from assistant.errors import JournalError, NewerRecordError
from assistant.events import EVENTS
from assistant.events.kinds import Event
from assistant.events.material import ProductChosen, WasteSet
from assistant.events.readings import ReadingTaken
from assistant.events.room import RoomClosed
from assistant.record import event_rows as record_format
from assistant.record.event_rows import Row, event_classes, event_of, row_of
from grammar.commands import Measure

TEXT = st.text(st.characters(exclude_categories=["Cs"]))
JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False, allow_infinity=False)
    | TEXT,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(TEXT, inner, max_size=3),
    max_leaves=8,
)  # fmt: skip
SIMPLE: dict[Any, st.SearchStrategy[Any]] = {
    str: TEXT,
    int: st.integers(),
    bool: st.booleans(),
    float: st.floats(allow_nan=False, allow_infinity=False),
    type(None): st.none(),
    Decimal: st.decimals(allow_nan=False, allow_infinity=False),
}


def values_of(kind: Any) -> st.SearchStrategy[Any]:
    """Anything a field of this type can hold; a type it does not know fails the test."""
    if kind in SIMPLE:
        return SIMPLE[kind]
    if isinstance(kind, type) and is_dataclass(kind):
        hints = typing.get_type_hints(kind)
        return st.builds(
            kind, **{field.name: values_of(hints[field.name]) for field in fields(kind)}
        )
    origin, arguments = typing.get_origin(kind), typing.get_args(kind)
    if origin is dict:
        assert arguments == (str, Any)
        return st.dictionaries(TEXT, JSON, max_size=4)
    if origin is tuple:
        return st.lists(values_of(arguments[0]), max_size=3).map(tuple)
    assert origin is types.UnionType, f"teach this test about {kind}"
    return st.one_of([values_of(argument) for argument in arguments])


ALL_EVENTS = sorted(EVENTS, key=lambda kind: kind.__name__)


def test_every_event_has_a_name_of_its_own() -> None:
    assert len(ALL_EVENTS) >= 19
    assert {kind.NAME: kind for kind in ALL_EVENTS} == event_classes()
    assert len(event_classes()) == len(ALL_EVENTS)


@pytest.mark.slow
@pytest.mark.parametrize("kind", ALL_EVENTS, ids=lambda kind: kind.NAME)
def test_an_event_comes_back_as_it_was(kind: type[Event]) -> None:
    # There are more than a hundred kinds, of the same few types of field.
    @settings(max_examples=settings().max_examples * 3 // 8)
    @given(values_of(kind))
    def there_and_back(event: Event) -> None:
        row = row_of(event)
        again = event_of(row)
        assert again == event
        assert repr(again) == repr(event)  # 18.0 is not 18, 1 is not True
        assert row_of(again) == row

    there_and_back()


def test_what_is_written_can_be_read_by_a_person() -> None:
    row = row_of(ReadingTaken("B3", Measure(Decimal("-18.0"), "mm")))
    assert row == Row(
        "reading-taken", 1, '{"point": "B3", "reading": {"number": "-18.0", "unit": "mm"}}'
    )


@pytest.mark.parametrize(
    ("said", "unit"), [("18.0", "mm"), ("-0", "mm"), ("1E+2", None), ("0.000", "in"), ("007", "mm")]
)
def test_a_number_stays_as_it_was_said(said: str, unit: str | None) -> None:
    event = event_of(row_of(ReadingTaken("B3", Measure(Decimal(said), unit))))
    assert isinstance(event, ReadingTaken)
    assert str(event.reading.number) == str(Decimal(said))


READING = '{"number": "-18", "unit": "mm"}'
NOT_AN_EVENT = {
    "no JSON": "{",
    "nothing": "",
    "no object": '["B3"]',
    "field missing": '{"point": "B3"}',
    "field too much": f'{{"point": "B3", "reading": {READING}, "note": "wet"}}',
    "field twice": f'{{"point": "B3", "point": "B4", "reading": {READING}}}',
    "point is a number": f'{{"point": 3, "reading": {READING}}}',
    "no point": f'{{"point": null, "reading": {READING}}}',
    "reading is bare": '{"point": "B3", "reading": "-18"}',
    "number is no string": '{"point": "B3", "reading": {"number": -18, "unit": "mm"}}',
    "number is no number": '{"point": "B3", "reading": {"number": "low", "unit": "mm"}}',
    "number has blanks": '{"point": "B3", "reading": {"number": " 18", "unit": "mm"}}',
    "number in other digits": '{"point": "B3", "reading": {"number": "١٨", "unit": "mm"}}',
    "not a number": '{"point": "B3", "reading": {"number": "NaN", "unit": "mm"}}',
    "unit missing": '{"point": "B3", "reading": {"number": "-18"}}',
    "nested too deep": "[" * 100_000,
}


@pytest.mark.parametrize("facts", NOT_AN_EVENT.values(), ids=NOT_AN_EVENT.keys())
def test_anything_else_is_not_taken_for_an_event(facts: str) -> None:
    with pytest.raises(JournalError, match="reading-taken"):
        event_of(Row("reading-taken", 1, facts))


@pytest.mark.parametrize(
    ("name", "facts"),
    [
        ("room-closed", '{"straight_wall_added": 1}'),
        ("utterance-scratched", '{"utterance": true}'),
        ("utterance-scratched", '{"utterance": 3.0}'),
        ("product-chosen", '{"card": {"bag_kg": NaN}}'),
        ("product-chosen", '{"card": {"bag_kg": 1e999}}'),
        ("product-chosen", '{"card": []}'),
    ],
)
def test_a_value_of_another_kind_is_refused(name: str, facts: str) -> None:
    with pytest.raises(JournalError, match=name):
        event_of(Row(name, 1, facts))


@pytest.mark.parametrize(
    "event",
    [
        WasteSet(Decimal("NaN")),
        WasteSet(10),  # type: ignore[arg-type]
        RoomClosed(1),  # type: ignore[arg-type]
        ReadingTaken("B3", Decimal(18)),  # type: ignore[arg-type]
        ReadingTaken("\udc80", Measure(Decimal(18), "mm")),
        ProductChosen({"water_l": (5.0, 5.5)}),
        ProductChosen({"bag_kg": Decimal(25)}),
        ProductChosen({"bag_kg": float("inf")}),
        ProductChosen({1: "one"}),  # type: ignore[dict-item]
    ],
    ids=repr,
)
def test_what_could_not_be_read_back_is_not_written(event: Event) -> None:
    with pytest.raises(JournalError, match="Nothing was recorded"):
        row_of(event)


@pytest.mark.parametrize("row", [Row("pin-cut", 1, "{}"), Row("reading-taken", 2, "{}")], ids=repr)
def test_an_event_of_a_newer_leadsman_is_told_apart_from_damage(row: Row) -> None:
    with pytest.raises(NewerRecordError, match="newer Leadsman"):
        event_of(row)


def test_a_version_that_never_was_is_refused() -> None:
    with pytest.raises(JournalError, match="version 0"):
        event_of(Row("reading-taken", 0, '{"point": "B3"}'))


def test_an_old_version_is_brought_up_to_the_new_one(monkeypatch: pytest.MonkeyPatch) -> None:
    @dataclass(frozen=True, slots=True)
    class WasteSetNow(Event):
        NAME: ClassVar[str] = "waste-set"
        VERSION: ClassVar[int] = 3
        percent: Decimal

    monkeypatch.setitem(event_classes(), "waste-set", WasteSetNow)
    steps: dict[tuple[str, int], Any] = {
        ("waste-set", 1): lambda facts: {"share": facts["percent"]},
        ("waste-set", 2): lambda facts: {"percent": facts["share"]},
    }
    monkeypatch.setattr(record_format, "UPGRADES", steps)
    row = Row("waste-set", 1, json.dumps({"percent": "7"}))
    assert event_of(row) == WasteSetNow(Decimal(7))


def test_a_field_that_has_no_form_shows_at_once() -> None:
    with pytest.raises(TypeError, match="no way to write"):
        record_format.form_of(set[int])


def test_only_events_of_the_record_are_written() -> None:
    class Stranger(ReadingTaken):
        pass

    with pytest.raises(JournalError, match="no event"):
        row_of(Stranger("B3", Measure(Decimal(1), "mm")))


@pytest.mark.parametrize(
    "kind",
    [dict[str, int], dict[int, Any], tuple[int, str], int | str, int | str | None, list[int]],
)
def test_a_field_that_is_not_quite_one_we_have_a_form_for_shows_too(kind: Any) -> None:
    with pytest.raises((TypeError, ValueError)):
        record_format.form_of(kind)


def test_a_field_may_be_missing_only_where_it_is_optional() -> None:
    form = record_format.form_of(int | None)
    assert form.write(None) is form.read(None) is None
    assert (form.write(3), form.read(3)) == (3, 3)
    with pytest.raises(ValueError, match="int expected"):
        form.read("3")
    row = record_format.form_of(tuple[int, ...])
    assert (row.write((1, 2)), row.read([1, 2])) == ([1, 2], (1, 2))
    for wrong in ((1, 2), [1, "2"], None):
        with pytest.raises(ValueError, match="expected"):
            row.read(wrong)
