"""Readings in doubt that were read again: what they may differ by, and how the reply words it."""

from __future__ import annotations

from decimal import Decimal

import pytest

from assistant.decide.suspect import _read_back
from assistant.floor.holding import Held, Pair, _noise_mm
from assistant.floor.holding_words import comparison_words, why_not
from assistant.job import EMPTY
from assistant.job.set_ups import Height
from grammar.commands import Measure


def height(order: int) -> Height:
    said = Measure(Decimal(-18), "mm")
    return Height(said, Decimal(-18), 0, order)  # type: ignore[arg-type]


def pair(point: str, off_mm: float, zeros_mm: tuple[float, ...] = ()) -> Pair:
    return Pair(point, height(1), height(2), off_mm, zeros_mm)


@pytest.mark.parametrize(
    ("sd_mm", "zeros_mm", "most_mm"),
    [
        # Exact arithmetic: 1.96 of the root of both variances and those of the zeros' errors.
        (1.0, (), 2.772), (2.0, (), 5.544), (1.0, (3.0,), 6.501), (0.5, (1.0, -2.0), 4.597),
    ],
)  # fmt: skip
def test_two_readings_differ_by_what_95_of_100_do(
    sd_mm: float, zeros_mm: tuple[float, ...], most_mm: float
) -> None:
    assert _noise_mm(pair("B1", 0, zeros_mm), sd_mm) == pytest.approx(most_mm, abs=6e-4)


def held(pairs: tuple[Pair, ...], odd: tuple[Pair, ...] = (), chance: float = 0.02) -> Held:
    sure = len(pairs) > len(odd)
    return Held(
        0, ("B1", "C1"), pairs, odd, 0.5 if sure else 0.0, 1.2 if sure else 0.0, 3.0,
        chance, "", (),
    )  # fmt: skip


@pytest.mark.parametrize(
    ("chance", "cases"),
    [(0.0, "fewer than 1"), (0.0094, "fewer than 1"), (0.0096, "1"), (0.021, "2.1"),
     (0.0949, "9.5"), (0.0951, "10"), (0.31, "31")],
)  # fmt: skip
def test_how_well_they_agree_is_told_in_cases_of_a_hundred(chance: float, cases: str) -> None:
    words = comparison_words(EMPTY, held((pair("B1", 0.5),), chance=chance))
    assert words.startswith("B1, read again, differs by 0.5 mm (standard deviation 1.2 mm).")
    assert words.endswith(f"they would agree so well in {cases} of 100 cases.")


def test_several_differ_on_average_and_odd_ones_are_told_one_by_one() -> None:
    b1, c1, d1 = pair("B1", 0.5), pair("C1", 0.5), pair("D1", -7.0)
    assert "B1 and C1, read again, differ on average by" in comparison_words(EMPTY, held((b1, c1)))
    told = comparison_words(EMPTY, held((b1, d1), (d1,)))
    assert told.endswith("D1 reads 7 mm below what it read before.")
    alone = comparison_words(EMPTY, held((d1,), (d1,)))
    assert alone == "D1 reads 7 mm below what it read before."
    assert comparison_words(EMPTY, held(())) == ""


def test_why_they_do_not_hold_says_what_to_do() -> None:
    b1, d1 = pair("B1", 0.5), pair("C1", 9.0)
    assert "Read the last one again, C1" in why_not(held(()))
    assert why_not(held((d1,), (d1,))).startswith("They do not hold")
    assert "5 of 100 is the most. Read one more of them again, C1" in why_not(held((b1,)))


@pytest.mark.parametrize(
    ("number", "unit", "job_unit", "ways"),
    [
        ("-18", "mm", "mm", ["one eight millimetres below", "one eight below"]),
        ("18", "mm", "mm", ["one eight millimetres above", "one eight above"]),
        ("-18", None, "mm", ["one eight millimetres below", "one eight below"]),
        ("0", "mm", "mm", ["level"]),
        # Another unit than the job's may be the slip, and stays.
        ("-1.5", "in", "mm", ["one and one half inches below"]),
        ("-1.5", "in", "in", ["one and one half inches below"]),
        ("-18", "mm", "in", ["one eight millimetres below"]),
        ("-1", "cm", "mm", ["one centimetre below"]),
    ],
)
def test_a_unit_is_left_out_only_where_it_is_the_job_s(
    number: str, unit: str | None, job_unit: str, ways: list[str]
) -> None:
    value = Measure(Decimal(number), unit)
    assert _read_back("B3", value, job_unit) == tuple(f"Bravo three, {way}?" for way in ways)
