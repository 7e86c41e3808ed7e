"""Random sentences of the language, each with the command it must be understood as.

They come from the phrase table itself, so a new phrase is tried by the tests
without a line added there.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal
from random import Random
from typing import Any

from grammar import numbers, points, quantities, site_words
from grammar.commands import IN_PARTS, Change, Command, Measure, Reading
from grammar.commands.site import Temperature
from grammar.phrase import Phrase
from grammar.phrases import PHRASES
from grammar.template import Literal, Node, SlotNode
from grammar.words import FILLERS


@dataclass(frozen=True, slots=True)
class SampleSentence:
    """A sentence and what it means."""

    text: str
    command: Command


def sentence(phrase: Phrase, random: Random) -> SampleSentence:
    """A random way to say a phrase, with random values in it."""
    values: dict[str, Any] = dict(phrase.fixed)
    words = _say(phrase.nodes, values, random)
    if "point" in phrase.command.__dataclass_fields__:
        values.setdefault("point", None)
    return SampleSentence(_roughen(words, random), phrase.command(**values))


def _say(nodes: tuple[Node, ...], values: dict[str, Any], random: Random) -> str:
    return " ".join(part for part in (_part(node, values, random) for node in nodes) if part)


def _part(node: Node, values: dict[str, Any], random: Random) -> str:
    if isinstance(node, Literal):
        return node.word
    if isinstance(node, SlotNode):
        said, value = SAMPLERS[node.slot](random)
        held = (value,) if len(node.fields) == 1 else value
        values.update(zip(node.fields, held, strict=True))
        return said
    if node.optional and random.random() < 0.5:
        return ""
    return _say(random.choice(node.ways), values, random)


def _roughen(text: str, random: Random) -> str:
    """Case, spaces and fillers that must not matter."""
    words = text.split(" ")
    if random.random() < 0.2:
        # A reason in one's own words keeps even its fillers.
        last = words.index("because") if "because" in words else len(words)
        words.insert(random.randrange(last + 1), random.choice(sorted(FILLERS)))
    if random.random() < 0.2:
        words = [word.upper() if random.random() < 0.5 else word for word in words]
    return random.choice((" ", " ", "  ")).join(words)


# --- values, each with one of the ways to say it --------------------------------


def _number(random: Random) -> tuple[str, Decimal]:
    return random.choice((_typed, _typed, _worded, _spelled, _decimal, _parts))(random)


def _typed(random: Random) -> tuple[str, Decimal]:
    said = random.choice((str(random.randrange(1, 1000)), f"{random.randrange(1, 300) / 10:.1f}"))
    return said, Decimal(said)


def _worded(random: Random) -> tuple[str, Decimal]:
    number = random.randrange(1, random.choice((20, 100, 10_000)))
    return numbers.in_words(number), Decimal(number)


def _spelled(random: Random) -> tuple[str, Decimal]:
    number = Decimal(random.randrange(10, 10_000))
    swaps = {"nine": "niner", "three": "tree", "four": "fower", "five": "fife", "zero": "oh"}
    words = [
        swaps[word] if word in swaps and random.random() < 0.3 else word
        for word in numbers.spelled(number).split()
    ]
    return " ".join(words), number


def _decimal(random: Random) -> tuple[str, Decimal]:
    whole, tenth = random.randrange(100), random.randrange(1, 10)
    return f"{numbers.in_words(whole)} point {numbers.in_words(tenth)}", Decimal(f"{whole}.{tenth}")


def _parts(random: Random) -> tuple[str, Decimal]:
    bottom = random.choice((2, 4, 8, 16))
    top = random.randrange(1, bottom, 2)
    whole = random.choice((0, 0, 1, 2, 7))
    value = whole + Decimal(top) / bottom
    typed = f"{whole} {top}/{bottom}" if whole else f"{top}/{bottom}"
    return random.choice((typed, numbers.spoken_fraction(whole, top, bottom))), value


def _unit(random: Random) -> tuple[str, str]:
    unit = random.choice(sorted(quantities.UNITS))
    return random.choice(quantities.UNITS[unit]), unit


def _length(random: Random) -> tuple[str, Measure]:
    if random.random() < 0.15:
        feet, inches = random.randrange(1, 40), random.randrange(12)
        return f"{feet} ft {inches} in", Measure(Decimal(feet * 12 + inches), "ft-in")
    (said, number), (unit_said, unit) = _number(random), _unit(random)
    return f"{said} {unit_said}", Measure(number, unit)


def _loose(random: Random) -> tuple[str, Measure]:
    if random.random() < 0.7:
        return _length(random)
    if random.random() < 0.2:
        said, number = _parts(random)
        return said, Measure(number, IN_PARTS)
    said, number = random.choice((_typed, _typed, _worded, _spelled, _decimal))(random)
    return said, Measure(number, None)


def _pair(random: Random) -> tuple[str, tuple[Measure, Measure]]:
    (second_said, second) = _length(random)
    by = random.choice(("by", "x"))
    if second.unit != "ft-in" and random.random() < 0.6:
        said, number = _number(random)
        return f"{said} {by} {second_said}", (Measure(number, second.unit), second)
    first_said, first = _length(random)
    return f"{first_said} {by} {second_said}", (first, second)


_SIGNS = {-1: ("minus", "-", "negative"), 1: ("plus", "+", "positive")}
_SIDES = {-1: ("below", "low", "under"), 1: ("above", "high", "over")}


def _reading(random: Random) -> tuple[str, Reading]:
    if random.random() < 0.1:
        return "level", Reading(Decimal(0), None)
    said, size = _loose(random)
    side = random.choice((-1, 1))
    sided = random.choice(
        (
            f"{random.choice(_SIGNS[side])} {said}",
            f"{said} {random.choice(_SIDES[side])}",
            f"{said} {random.choice(_SIDES[side])} zero",
        )
    )
    if random.random() < 0.1:
        return said, Reading(size.number, size.unit, side_said=False)
    return sided, Reading(size.number * side, size.unit)


def _point(random: Random) -> tuple[str, str]:
    letters = "".join(random.choice(points.ALPHABET)[0].upper() for _ in range(_letters(random)))
    row = random.randrange(1, 100)
    name = f"{letters}{row}"
    return random.choice(
        (name, name.lower(), points.spoken_point(name), " ".join((*letters, str(row))))
    ), name


def _letters(random: Random) -> int:
    return 2 if random.random() < 0.15 else 1


def _percent(random: Random) -> tuple[str, Decimal]:
    number = random.randrange(1, 101)
    mark = random.choice((" percent", "%", " per cent", ""))
    return f"{number}{mark}", Decimal(number)


def _whole(random: Random) -> tuple[str, int]:
    number = random.randrange(1, 100)
    return random.choice((str(number), numbers.in_words(number))), number


def _name(random: Random) -> tuple[str, str]:
    name = " ".join(random.sample(("harbour", "deep", "fine", "coarse", "fill", "standard"), 2))
    return name, name


def _change(random: Random) -> tuple[str, Command]:
    phrase = random.choice([phrase for phrase in PHRASES if issubclass(phrase.command, Change)])
    made = sentence(phrase, random)
    return made.text, made.command


def _several(random: Random) -> tuple[str, tuple[Reading, ...]]:
    side, unit = random.choice((-1, 1)), random.choice(("mm", "in", None))
    sizes = [random.randrange(1, 60) for _ in range(random.randrange(2, 5))]
    said = random.choice((" ", ", ")).join(map(str, sizes))
    end = f" {unit}" if unit else ""
    sided = random.choice(
        (f"{random.choice(_SIGNS[side])} {said}{end}", f"{said}{end} {random.choice(_SIDES[side])}")
    )
    return sided, tuple(Reading(Decimal(size * side), unit) for size in sizes)


def _line(random: Random) -> tuple[str, str]:
    letter, row = random.choice("BCDEFGHIJKLNOP"), str(random.randrange(1, 30))
    line = random.choice((letter, row, letter + row))
    return line, line


def _temperature(random: Random) -> tuple[str, Temperature]:
    number = random.randrange(-30, 120)
    said = f"minus {-number}" if number < 0 else str(number)
    scale, words = random.choice(
        ((None, ("", " degrees", "°")), ("C", (" degrees celsius", " C")), ("F", ("°F", " f")))
    )
    return said + random.choice(words), Temperature(Decimal(number), scale)


def _reason(random: Random) -> tuple[str, str]:
    said = random.choice(("it is 3 weeks old", "client tested b3 minus 2 times", "no time left"))
    return said, said


def _one_of(words: dict[str, Any]) -> Callable[[Random], tuple[str, Any]]:
    return lambda random: random.choice(sorted(words.items()))


SAMPLERS: dict[str, Callable[[Random], tuple[str, Any]]] = {
    "point": _point,
    "reading": _reading,
    "signed_reading": _reading,
    "length": _length,
    "loose": _loose,
    "pair": _pair,
    "percent": _percent,
    "whole": _whole,
    "direction": _one_of(
        {
            wind: wind
            for wind in ("north", "east", "south", "west", "north east", "north west",
                         "south east", "south west")
        }
    ),
    "side": _one_of({"below": "below", "above": "above", "minus": "below", "plus": "above"}),
    "reading_unit": _one_of({"inches": "in", "millimetres": "mm", "mm": "mm"}),
    "several": _several,
    "line": _line,
    "number": _number,
    "temperature": _temperature,
    "substrate": _one_of({"glue": "old adhesive"} | {name: name for name in site_words.SUBSTRATES}),
    "sentence": _reason,
    "name": _name,
    "change": _change,
}  # fmt: skip
"""Slot -> a random value with one of the ways to say it."""
