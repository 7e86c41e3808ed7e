"""A value as the ways to say it: in words or figure by figure, and as a recogniser may write it."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from typing import Any

import pytest

from grammar.commands import Measure, Reading
from grammar.errors import Impossible, Unsayable
from grammar.filling import parsed
from grammar.slots import change, measure, reading, run
from grammar.slots.number import SpokenNumbers
from grammar.spoken import Manner, Spoken


def ways(say: Callable[..., str], *value: Any, **settings: Any) -> str | None:
    """How it is said; None where there are no words for it."""
    try:
        return say(*value, **settings)
    except Unsayable:
        return None


def voice(
    manner: Manner = "words", written: bool = False, opened: bool = False, missed: bool = False
) -> SpokenNumbers:
    """With a unit that may be left out, in millimetres; or that is missed where it is."""
    return SpokenNumbers(Spoken(manner, open_unit=opened, unit_missed=missed), written)


def test_whole_numbers() -> None:
    for number, below, words, more, digits, figures in (
        (0, 100, None, None, None, None),
        (1, 100, "one", "1", "one", "1"), (9, 100, "nine", "9", "nine", "9"),
        (10, 100, "ten", "1 +0", "one zero", "1 +0 | 1 0"),
        (20, 100, "twenty", "2 +0", "two zero", "2 +0 | 2 0"),
        (21, 100, "twenty one", "2 +1 | twenty +- +one", "two one", "2 +1 | 2 1"),
        (30, 100, "thirty", "3 +0", "three zero", "3 +0 | 3 0"),
        (99, 100, "ninety nine", "9 +9 | ninety +- +nine", "nine nine", "9 +9 | 9 9"),
        (100, 100, None, None, None, None), (1000, 1000, None, None, None, None),
        (100, 1000, "(one | a) hundred", "1 +0 +0", "one zero zero", "1 +0 +0 | 1 0 0"),
        (105, 1000, "(one | a) hundred [and] five", "1 +0 +5", "one zero five", "1 +0 +5 | 1 0 5"),
        (200, 1000, "two hundred", "2 +0 +0", "two zero zero", "2 +0 +0 | 2 0 0"),
        (321, 1000, "three hundred [and] twenty one", "3 +2 +1", "three two one",
         "3 +2 +1 | 3 2 1"),
    ):  # fmt: skip
        plain = [ways(voice(manner).whole, number, below) for manner in ("words", "digits")]
        also = [ways(voice(manner, True).whole, number, below) for manner in ("words", "digits")]
        if words is None:
            assert plain == also == [None, None], number
            continue
        assert plain == [f"({words})", f"({digits})"], number
        assert also == [f"({words} | {more})", f"({digits} | {figures})"], number


def test_numbers_with_parts() -> None:
    for number, places, words, figures in (
        ("18", 1, "(eighteen)", "(eighteen | 1 +8)"), ("1.25", 1, None, None),
        ("-1.5", 1, None, None),
        ("0.5", 1, "(zero point five)", "(zero point five | 0 +. +5)"), ("100.5", 1, None, None),
        ("99.5", 1, "(ninety nine point five)", "(ninety nine point five | 9 +9 +. +5)"),
        ("1.25", 2, "(one point two five)", "(one point two five | 1 +. +2 +5)"),
    ):  # fmt: skip
        said = [
            ways(voice(written=w).number, Decimal(number), places=places) for w in (False, True)
        ]
        assert said == [words, figures], (number, places)
    for number, _, words, figures in (
        ("3", 0, "(three)", "(three | 3)"), ("0.3", 0, None, None),
        ("0.5", 0, "((one | a) half)", "((one | a) half | 1 +/ +2)"),
        ("0.125", 0, "((one | an) eighth)", "((one | an) eighth | 1 +/ +8)"),
        ("0.0625", 0, "((one | a) sixteenth)", "((one | a) sixteenth | 1 +/ +1 +6)"),
        ("1.5", 0, "((one) and (one | a) half)", "((one | 1) and (one | a) half | 1 1 +/ +2)"),
        ("2.375", 0, "((two) and three eighths)", "((two | 2) and three eighths | 2 3 +/ +8)"),
    ):  # fmt: skip
        said = [ways(voice(written=w).fraction, Decimal(number)) for w in (False, True)]
        assert said == [words, figures], number


def test_readings_without_a_unit_are_said_where_they_may_be_heard_so() -> None:
    settings: dict[str, bool]
    for number, unit, settings, written, said in (
        ("0", None, {}, False, "level"), ("0", "mm", {}, False, None),
        ("-18", None, {}, False, None), ("-18", None, {}, True, None),
        ("-18", None, {"opened": True}, True, None),
        ("-18", None, {"missed": True}, False, None),
        ("-18", None, {"missed": True}, True, "minus (eighteen | 1 +8)"),
        ("-18", "mm", {}, True, "minus (eighteen | 1 +8) millimetres"),
        ("-18", "mm", {"opened": True}, False, "minus (eighteen) millimetres"),
        ("-18", "mm", {"opened": True}, True,
         "minus ((eighteen | 1 +8) millimetres | (eighteen | 1 +8))"),
        ("-18", "mm", {"opened": True, "missed": True}, True,
         "minus (eighteen | 1 +8) millimetres"),
        ("3", "in", {"opened": True}, True, "plus (three | 3) inches"),
        ("120", "mm", {}, False, "plus ((one | a) hundred [and] twenty) millimetres"),
        ("120", "cm", {}, False, None), ("3", "m", {}, False, None),
    ):  # fmt: skip
        value = Reading(Decimal(number), unit, side_said=True)
        found = ways(reading._say_reading, voice("words", written, **settings), value)
        assert found == said, (number, unit, settings, written)
    assert ways(reading._say_reading, voice(), Reading(Decimal(3), "mm", side_said=False)) is None


def test_a_change_is_said_as_its_own_phrase_where_that_can_be_said() -> None:
    (raised,), (client,) = parsed("raise finish 3 mm"), parsed("client Smith")
    said = ways(change._say, voice(), raised)
    assert said is not None
    assert said.startswith("(raise finish")
    assert ways(change._say, voice(), client) is None


def test_lengths() -> None:
    for number, unit, said in (
        ("18", "ft-in", "(one) feet (six) inches"), ("24", "ft-in", None),
        ("13", "ft-in", "(one) feet (one) inches"),
        ("2.5", "m", "(two point five) metres"), ("2.25", "m", "(two point two five) metres"),
        ("2.125", "m", None), ("2", "mm", "(two) millimetres"), ("2.5", "mm", None),
        ("9999", "mm", "(nine thousand nine hundred [and] ninety nine) millimetres"),
        ("10000", "mm", None), ("3", "in", "(three) inches"), ("3.5", "in", None),
        ("3", "ft", "(three) feet"), ("99", "cm", "(ninety nine) centimetres"), ("100", "cm", None),
    ):  # fmt: skip
        length = Measure(Decimal(number), unit)
        assert ways(measure._say_length, voice(), length) == said, (number, unit)


def test_so_many_readings_go_in_one_breath() -> None:
    low = Reading(Decimal(-8), "mm", side_said=True)
    assert len(run._run(*[low] * 20)) == 20
    assert run._pairs(*[("B3", low)] * 12) == (("B3",) * 12, (low,) * 12)
    for many in (lambda: run._run(*[low] * 21), lambda: run._pairs(*[("B3", low)] * 13)):
        with pytest.raises(Impossible, match="go in one breath"):
            many()
    for said, is_zero in (("0", True), ("0.0", True), ("8", False), ("0/4", False), ("1/2", False)):
        for build in (run._nought, *([] if "/" in said else [run._alone])):
            try:
                build(said)
            except Impossible as error:
                assert not is_zero, said
                assert f"{said} lacks minus or plus" in str(error)
            else:
                assert is_zero, said
