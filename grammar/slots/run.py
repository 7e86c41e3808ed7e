"""Several readings in one breath: a run of them, or each with its point."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from grammar.commands import Reading
from grammar.errors import Impossible
from grammar.slots import point, reading
from grammar.slots.number import typed_number
from grammar.slots.slot import Slot, TypedOnly, ValueKind, one_of

if TYPE_CHECKING:
    from random import Random

_MOST = 20
"""In one breath: as many as a line of words takes, each with its sign."""
_MOST_POINTS = 12
"""With their points; nobody says more without looking up."""

_RULES = """
u_signed: q_signed | q_sided | q_level | u_nought
u_nought: NUMERAL | FRACTION
u_pair: u_point u_signed
u_point: LABEL | p_letter p_row
_more_signed: u_signed | u_signed _more_signed
_more_pairs: u_pair | u_pair _more_pairs
"""
"""Two letters on their own are no column here: after a value, "kg" is a wrong unit."""


def _nought(said: str) -> Reading:
    """A zero, which has no side; any other figure needs one."""
    if "/" in said or typed_number(said) != 0:
        raise Impossible(f"{said} lacks minus or plus, below or above")
    return Reading(Decimal(0), None)


def _run(*readings: Reading) -> tuple[Reading, ...]:
    return _in_one_breath(readings, _MOST)


def _in_one_breath(readings: tuple[Reading, ...], most: int) -> tuple[Reading, ...]:
    if len(readings) > most:
        raise Impossible(f"at most {most} readings go in one breath")
    return readings


def _alone(said: str) -> tuple[Reading, ...]:
    if typed_number(said) != 0:
        raise Impossible(f"{said} lacks minus or plus, below or above")
    return (_nought(said),)


def _pairs(*pairs: tuple[str, Reading]) -> tuple[tuple[str, ...], tuple[Reading, ...]]:
    points, readings = zip(*pairs, strict=True)
    return tuple(points), _in_one_breath(readings, _MOST_POINTS)


def short_run(readings: tuple[Reading, ...]) -> str:
    """
    Readings one after the other, each with its side.

    >>> from decimal import Decimal
    >>> short_run((Reading(Decimal(-8), "mm"), Reading(Decimal(0), None)))
    '-8 mm level'
    """
    return " ".join(reading.short_signed(each) for each in readings)


def short_pairs(pairs: tuple[tuple[str, ...], tuple[Reading, ...]]) -> str:
    """
    Points with their readings.

    >>> from decimal import Decimal
    >>> short_pairs((("A1", "B1"), (Reading(Decimal(-8), None), Reading(Decimal(9), None))))
    'A1 -8, B1 +9'
    """
    said = zip(*pairs, strict=True)
    return ", ".join(f"{name} {reading.short_signed(each)}" for name, each in said)


def _sample_values(random: Random) -> tuple[list[str], tuple[Reading, ...]]:
    # In signs, so that no side could belong to the value before it.
    sizes = [random.randrange(1, 60) for _ in range(random.randrange(2, 5))]
    signs = [random.choice(("minus", "plus")) for _ in sizes]
    said = [f"{sign} {size}" for sign, size in zip(signs, sizes, strict=True)]
    made = (
        Reading(Decimal(size if sign == "plus" else -size), None)
        for sign, size in zip(signs, sizes, strict=True)
    )
    return said, tuple(made)


def _sample_run(random: Random) -> tuple[str, tuple[Reading, ...]]:
    values, readings = _sample_values(random)
    return " ".join(values), readings


def _sample_pairs(
    random: Random,
) -> tuple[str, tuple[tuple[str, ...], tuple[Reading, ...]]]:
    values, readings = _sample_values(random)
    columns = random.sample("BCDEFGHKLN", len(values))
    points = [f"{letter}{random.randrange(1, 30)}" for letter in columns]
    pairs = (f"{name} {value}" for name, value in zip(points, values, strict=True))
    return random.choice((", ", " ")).join(pairs), (tuple(points), readings)


def _sample_on_line(random: Random) -> tuple[str, tuple[Reading, ...]]:
    values, readings = _sample_values(random)
    count = random.randrange(1, len(readings) + 1)
    joined = random.choice((", ", " ")).join(values[:count])
    return f"{joined}, 0", (*readings[:count], Reading(Decimal(0), None))


_WHY = "several values in a row sound like one; said aloud, they are given one by one"

KIND = ValueKind(
    slots=(
        Slot(
            name="run",
            rule="u_signed _more_signed",
            build=_run,
            short=short_run,
            sample=_sample_run,
            aloud=TypedOnly(why=_WHY),
        ),
        Slot(
            name="line_values",
            rule="_more_signed",
            build=_run,
            short=short_run,
            sample=_sample_on_line,
            aloud=TypedOnly(why=_WHY),
        ),
        Slot(
            name="nought",
            rule="NUMERAL",
            build=_alone,
            short=lambda _readings: "0",
            sample=one_of({"0": (Reading(Decimal(0), None),)}),
            aloud=TypedOnly(why="one short word, which noise is taken for; aloud it is level"),
        ),
        Slot(
            name="points_and_readings",
            rule="u_pair _more_pairs",
            build=_pairs,
            short=short_pairs,
            sample=_sample_pairs,
            aloud=TypedOnly(why=_WHY),
        ),
    ),
    rules=_RULES,
    builders={
        "u_point": point.named_point,
        "u_signed": lambda value: value,
        "u_nought": _nought,
        "u_pair": lambda name, value: (name, value),
    },
)
