"""Temperatures and floors as they are said."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from typing import Any

from grammar import numbers
from grammar.commands.site import Temperature
from grammar.quantities import BELOW

SUBSTRATES = ("concrete", "screed", "timber", "tile", "old adhesive", "levelling compound")

ROLES: dict[str, dict[str, Any]] = {
    "degree": dict.fromkeys(("degrees", "degree"), None),
    "celsius": dict.fromkeys(("celsius", "centigrade", "c"), "C"),
    "fahrenheit": dict.fromkeys(("fahrenheit", "f"), "F"),
    "one_word_floor": {
        **{word: word for word in ("concrete", "screed", "timber", "tile")},
        "wood": "timber", "tiles": "tile", "cement": "concrete",
    },
    "old": {"old": None},
    "adhesive": dict.fromkeys(("adhesive", "glue"), "old adhesive"),
    "levelling": dict.fromkeys(("levelling", "leveling"), None),
    "compound": {"compound": "levelling compound"},
}  # fmt: skip

RULES = """
temperature: [r_sign] number [r_degree] [r_celsius | r_fahrenheit]
substrate: r_one_word_floor | [r_old] r_adhesive | r_levelling r_compound
"""


def _temperature(*said: Any) -> Temperature:
    number = next(part for part in said if isinstance(part, Decimal))
    scale = next((part for part in said if part in ("C", "F")), None)
    below = any(part == BELOW and isinstance(part, int) for part in said)
    return Temperature(-number if below and number else number, scale)


BUILDERS: dict[str, Callable[..., Any]] = {
    "temperature": _temperature,
    "substrate": lambda *words: next(word for word in words if word),
}


def short_temperature(temperature: Temperature) -> str:
    """
    A temperature in its short typed form.

    >>> short_temperature(Temperature(Decimal(70), "F"))
    '70 degrees fahrenheit'
    """
    scale = {"C": " celsius", "F": " fahrenheit", None: ""}[temperature.scale]
    return f"{numbers.plain(temperature.number)} degrees{scale}"
