"""A time of day, as a clock shows it or as it is said."""

from __future__ import annotations

from datetime import time
from typing import TYPE_CHECKING, Any

from grammar.errors import Impossible
from grammar.numbers import in_words
from grammar.slots.slot import Slot, TypedOnly, ValueKind

if TYPE_CHECKING:
    from random import Random

_RULES = """
clock_time: t_on_the_clock | t_on_the_clock r_half_day | t_hour r_oclock
t_on_the_clock: t_hour | t_hour t_minutes
t_hour: NUMERAL | n_under_hundred
t_minutes: NUMERAL | n_below | n_spelled
"""
_A_TIME = "a time of day is like 10:30, or 2 pm"


def _hour(said: Any) -> str:
    return str(said)


def _on_the_clock(hour: str, minutes: Any = None) -> time:
    if minutes is None:
        hour, minutes = _parted(hour)
    try:
        return time(int(hour), int(minutes))
    except ValueError:
        raise Impossible(_A_TIME) from None


def _parted(said: str) -> tuple[str, str]:
    """Hour and minutes of what was typed as one number: 10.30, 1030, 10."""
    hour, point, minutes = said.partition(".")
    if point:
        return (hour, minutes) if len(minutes) == 2 else (hour, "none")
    return (said[:-2], said[-2:]) if len(said) in (3, 4) else (said, "0")


def _clock_time(said: time | str, half: Any = None) -> time:
    if isinstance(said, str):
        return _on_the_clock(said, "0")
    if half not in ("am", "pm"):
        return said
    if not 1 <= said.hour <= 12:
        raise Impossible(_A_TIME)
    return said.replace(hour=said.hour % 12 + (12 if half == "pm" else 0))


def short_time(value: time) -> str:
    """
    A time of day as it is typed.

    >>> short_time(time(9, 5))
    '09:05'
    """
    return f"{value:%H:%M}"


def _sample(random: Random) -> tuple[str, time]:
    value = time(random.randrange(24), random.randrange(60))
    ways = [short_time(value), f"{value:%H %M}", f"{value:%H%M}"]
    if value.minute > 9 and value.hour:
        ways.append(f"{in_words(value.hour)} {in_words(value.minute)}")
    if 1 <= value.hour <= 12:
        return f"{value.hour}:{value:%M} pm", value.replace(hour=value.hour % 12 + 12)
    return random.choice(ways), value


KIND = ValueKind(
    slots=(
        Slot(
            name="clock_time",
            rule="",
            build=_clock_time,
            short=short_time,
            sample=_sample,
            aloud=TypedOnly(why="a time is two numbers in a row, heard as one too easily"),
        ),
    ),
    roles={"half_day": {"am": "am", "pm": "pm"}, "oclock": {"o'clock": "o'clock"}},
    rules=_RULES,
    builders={
        "t_on_the_clock": _on_the_clock,
        "t_hour": _hour,
        "t_minutes": lambda said: said,
    },
    expected={"clock_time": "a time (like 10:30)", "t_hour": "a time (like 10:30)",
              "t_minutes": "a number"},
)  # fmt: skip
