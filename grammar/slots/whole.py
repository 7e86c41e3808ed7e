"""A count or a number of doors, benchmarks, things to undo."""

from __future__ import annotations

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
    return to_99(said, "doors, benchmarks and things to undo are counted from 1 to 99")


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
    ),
    rules="p_two_digits: r_digit n_any_digit",
    builders={"p_two_digits": lambda tens, ones: tens * 10 + ones},
    unbroken=("whole",),
    expected={"whole": "a number"},
)
