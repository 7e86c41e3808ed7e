"""A number of doors, benchmarks or things to undo, and a larger count of bags."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING, Any

from grammar.errors import Impossible
from grammar.numbers import in_words
from grammar.slots.number import SpokenNumbers
from grammar.slots.slot import Slot, SpokenForm, ValueKind

if TYPE_CHECKING:
    from random import Random


def to_99(said: Any, rule: str) -> int:
    """A whole number from 1 to 99; raises Impossible with the rule for another."""
    number = int(said) if str(said).isdigit() else 0
    if not 1 <= number <= 99:
        raise Impossible(rule)
    return number


def _whole(said: Any) -> int:
    rule = "doors, strips, people, readings and changes are counted in whole ones, from 1 to 99"
    return to_99(said, rule)


_MOST_COUNTED = 9999


def _count(number: Decimal) -> int:
    if number != number.to_integral_value() or not 0 <= number <= _MOST_COUNTED:
        raise Impossible(f"bags are counted in whole ones, up to {_MOST_COUNTED}")
    return int(number)


def _say_count(voice: SpokenNumbers, count: int) -> str:
    return voice.whole(count, below=1000)


def _sample_count(random: Random) -> tuple[str, int]:
    count = random.randrange(1, random.choice((100, _MOST_COUNTED)))
    return random.choice((str(count), in_words(count))), count


def _sample(random: Random) -> tuple[str, int]:
    number = random.randrange(1, 100)
    return random.choice((str(number), in_words(number))), number


KIND = ValueKind(
    slots=(
        Slot(
            name="whole",
            rule="NUMERAL | r_digit | p_two_digits | n_below",
            build=_whole,
            short=str,
            sample=_sample,
            aloud=SpokenForm(heard="<under_hundred>", say=SpokenNumbers.whole),
        ),
        Slot(
            name="count",
            rule="plain_number",
            build=_count,
            short=str,
            sample=_sample_count,
            aloud=SpokenForm(heard="<under_thousand>", say=_say_count),
        ),
    ),
    rules="p_two_digits: r_digit n_any_digit",
    builders={"p_two_digits": lambda tens, ones: tens * 10 + ones},
    unbroken=("whole",),
    expected={"whole": "a number"},
)
