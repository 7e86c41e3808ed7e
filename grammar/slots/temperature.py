"""A temperature, with or without its scale."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING, Any

from grammar.commands.site import Temperature
from grammar.numbers import plain_number
from grammar.slots.number import SpokenNumbers
from grammar.slots.reading import BELOW
from grammar.slots.slot import Slot, SpokenForm, ValueKind

if TYPE_CHECKING:
    from random import Random

_SCALES = {"C": " celsius", "F": " fahrenheit", None: ""}


def _temperature(*said: Any) -> Temperature:
    number = next(part for part in said if isinstance(part, Decimal))
    scale = next((part for part in said if part in ("C", "F")), None)
    below = any(part == BELOW and isinstance(part, int) for part in said)
    return Temperature(-number if below and number else number, scale)


def short_temperature(temperature: Temperature) -> str:
    """
    A temperature in its short typed form.

    >>> short_temperature(Temperature(Decimal(70), "F"))
    '70 degrees fahrenheit'
    """
    return f"{plain_number(temperature.number)} degrees{_SCALES[temperature.scale]}"


def _say(voice: SpokenNumbers, temperature: Temperature) -> str:
    sign = "minus " if temperature.number < 0 else ""
    return f"{sign}{voice.number(abs(temperature.number))} degrees{_SCALES[temperature.scale]}"


def _sample(random: Random) -> tuple[str, Temperature]:
    number = random.randrange(-30, 120)
    said = f"minus {-number}" if number < 0 else str(number)
    scale, words = random.choice(
        ((None, ("", " degrees", "°")), ("C", (" degrees celsius", " C")), ("F", ("°F", " f")))
    )
    return said + random.choice(words), Temperature(Decimal(number), scale)


KIND = ValueKind(
    slots=(
        Slot(
            name="temperature",
            rule="[r_sign] number [r_degree] [r_celsius | r_fahrenheit]",
            build=_temperature,
            short=short_temperature,
            sample=_sample,
            aloud=SpokenForm(
                heard="[minus] <under_hundred> degrees [celsius | fahrenheit]", say=_say
            ),
        ),
    ),
    roles={
        "degree": dict.fromkeys(("degrees", "degree"), None),
        "celsius": dict.fromkeys(("celsius", "centigrade", "c"), "C"),
        "fahrenheit": dict.fromkeys(("fahrenheit", "f"), "F"),
    },
    expected={"r_degree": "degrees"},
    never_unsaid={"degree": "unit"},
    usual={"degree": "degrees"},
)
