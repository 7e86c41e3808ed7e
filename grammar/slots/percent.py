"""A share of a hundred."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from grammar.numbers import plain_number
from grammar.slots.number import SpokenNumbers
from grammar.slots.slot import Slot, SpokenForm, ValueKind

if TYPE_CHECKING:
    from random import Random


def _short(value: Decimal) -> str:
    return f"{plain_number(value)} percent"


def _say(voice: SpokenNumbers, number: Decimal) -> str:
    said = voice.number(number, 101)
    return f"{said} (percent | +%)" if voice.written else f"{said} percent"


def _sample(random: Random) -> tuple[str, Decimal]:
    number = random.randrange(1, 101)
    mark = random.choice((" percent", "%", " per cent", ""))
    return f"{number}{mark}", Decimal(number)


KIND = ValueKind(
    slots=(
        Slot(
            name="percent",
            rule="number | number r_percent_mark | number r_per r_cent",
            build=lambda number, *_mark: number,
            short=_short,
            sample=_sample,
            aloud=SpokenForm(
                heard="(<under_hundred> | <hundred> | <tenths>) percent",
                say=_say,
            ),
        ),
    ),
    roles={
        "percent_mark": dict.fromkeys(("percent", "%"), None),
        "per": {"per": None},
        "cent": {"cent": None},
    },
    expected={"r_percent_mark": "percent"},
    offered={"percent_mark": ("percent",)},
    never_unsaid={"percent_mark": "unit"},
    usual={"percent_mark": "%"},
    figures={"percent": "(<under_hundred> | <hundred> | <tenths>) +%"},
)
